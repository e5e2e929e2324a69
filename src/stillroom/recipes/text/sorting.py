"""What a written line is: ingredients, method, or both."""

import re
from functools import lru_cache

from stillroom.recipes.pasted import PastedLine
from stillroom.recipes.text.elements import elements, is_plain
from stillroom.recipes.text.jars import jar_pattern
from stillroom.recipes.text.lines import Reading, read_line
from stillroom.recipes.text.sentences import LONGEST, sentences
from stillroom.recipes.text.tokens import tokens

VERBS = frozenset(
    "add adjust allow apply arrange bake beat blanch blend boil bring brown can centrifuge check "
    "chill chop clean combine cook cool core cover cut dip discard dissolve drain drop exhaust "
    "fill filter fold freeze fry grate grill grind hand heat hot invert jar keep ladle lay layer "
    "leave let lift lower make marinate mash measure melt mix mince open pack peel pick pit place "
    "pour prepare press pressure process puree put raw reduce refrigerate reheat remove repeat "
    "rinse roast rub run salt saute scald seal season separate serve set shake shell shred sieve "
    "sift simmer skim skin slice slip soak sprinkle squeeze stand start steam sterilize stir store "
    "strain stuff taste thicken tie tighten toss trim turn use vent wait warm wash water wipe work "
    "follow begin stew after when once while before until if bw bwb wb quarts pints half-pints "
    "wear "
    "book process: yield makes vent. cold open-kettle nothing no never do don't always repeat "
    "ferment decant shake rest headspace recipe these this it we my i from".split()
)


_JARS = frozenset(["pi", "qu", "pt", "qt"])


# Verbs that begin a piece of the method; the others also tell how a food is.
_ALWAYS = frozenset(
    "process boil pack fill simmer vent ladle pour bring drain rest reheat seal shake stir decant "
    "cook chill blanch ferment soak rinse strain discard refrigerate freeze bake lid cover".split()
)


_BEGINS = frozenset("pressure raw hot bw bwb wb water half vented heat steam".split())


# A time, length, pressure, temperature or a count of jars at the start of a piece.
_TIMED = re.compile(
    r"\W*(?:about\s+)?[0-9½¼¾][0-9½¼¾/ .–-]*\s*(?:min|bwb?\b|wb\b|hours?\b|hrs?\b|h\b|psi"
    r"|in\b|inch|[\"”″]|weeks?|days?|°|f\b|(?:lbs?|pounds?|#)\.?\s*(?:of\s+)?(?:pressure|dial\b|weighted\b|gau?ge\b)"
    r"|(?:lbs?|pounds?|#)\.?[\s,;]*(?:for\s+)?[0-9]{1,3}\s*min|(?:half[\s-])?(?:pints?|quarts?"
    r"|pts?|qts?"
    r")\.?\s+(?:jars?\b|in my|(?:pressure\s+)?(?:canner|cooker|saucepan|kettle)))"
)


# A piece that tells a process whatever it begins with: "so only 10 min at 10 lb".
_PROCESS = re.compile(
    r"[0-9]\s*min\w*\.?\s*(?:at|@)\s*[0-9]+\s*(?:lb|pound|#)|\bpsi\b|\b(?:water[\s-]*bath|bwb)\b"
    r"|(?:at|@)"
    r"\s*[0-9]+\s*(?:lbs?|pounds?|#)\s*(?:pressure|for)|gau?ge\s+[0-9]"
)


# "In each hot pint jar, place": told from "in each jar: 1 clove garlic", which lists.
_INTO_JAR = re.compile(
    r"\W*(?:in|into|to)\s+(?:each|every|a|the)\s+(?:\w+\s+){0,3}?jars?\s*,?\s*"
    r"(?:place|put|add|pack|drop|pour|ladle|measure|fill)\b"
)


_PARTS = re.compile(r"(?:(?!--|->|→|\s[-–—]\s)[^,;:])+(?:[,;:]|--|->|→|\s[-–—]\s|$)\s*")


@lru_cache(maxsize=1)
def method_words() -> re.Pattern[str]:
    """Words that only a method uses."""
    return re.compile(
        r"\b(?:[0-9]+\s*(?:min(?:ute)?s?|hours?|hrs?|psi)\b|water[\s-]*bath|boiling[\s-]water[\s-]+"
        r"(?:canner|bath|[0-9])|pressure|process(?:ed)?|headspace|vent(?:ed)?|half solids"
        r"|raw[\s-]pack"
        r"|hot[\s-]pack|simmer|bwb?|upside|canner|lids?|rims?|jars|until|overnight|serve|serving|"
        r"book time|seal|psi|bring to)\b|\b(?:fill|pack|ladle|boil)\b(?!ed|ing)"
    )


def pieces(line: str) -> list[str]:
    """Sentences of a line; "2 c. Carrots" and "Salt." stay whole."""
    made = sentences(line)
    if len(line) > LONGEST or (len(made) > 1 and any(is_method(s) for s in made)):
        return made
    return [line]


def is_method(text: str) -> bool:
    """Whether a piece begins as a method does or uses its words.

    Examples
    --------
    >>> is_method("Boil 5 min, fill pints"), is_method("2 qt boiling water")
    (True, False)
    """
    low = text.lower()
    first = re.match(r"\W*(?:[0-9]+[.)]\s+)?([a-z'-]+)", low)
    starts = first is not None and first.group(1) in VERBS
    amount = re.match(r"\W*(?:[0-9]|[½¼¾⅓⅔⅛])", low) is not None
    words = method_words().search(low) is not None
    if starts and not amount:
        return not _food_only(text)
    told = _TIMED.match(low) or _INTO_JAR.match(low)
    return (words and not amount) or told is not None


def method_from(text: str) -> int:
    """Where in a line the method begins: 0 for all of it, its length for none of it."""
    if is_method(text):
        first = read_line(re.split(r"[,;:]\s", text)[0]).lines
        listed = bool(first) and (first[0].food or weighed(first[0])) and first[0].explained
        if not listed or _starts_method(text) or _verb_first(text):
            return 0
    for part in _PARTS.finditer(text):
        said = part.group().strip(" ,;:>-–—→")
        if part.start() and said and _starts_method(said):
            return part.start()
    return len(text)


def weighed(one: PastedLine) -> bool:
    """Whether an ingredient has a weight."""
    return one.high is not None and one.high.kind == "weight"


def _verb_first(text: str) -> bool:
    first = re.match(r"\W*(?:[0-9]+[.)]\s+)?([a-z'-]+)", text.lower())
    return first is not None and first.group(1) in VERBS and not _food_only(text)


def _starts_method(part: str) -> bool:
    low = part.lower()
    if _TIMED.match(low) or _PROCESS.search(low) or _INTO_JAR.match(low):
        return True
    found = jar_pattern().match(low)
    if found:
        return True
    first = re.match(r"([a-z'-]+)", low)
    if first is not None and first.group(1) in _ALWAYS and not _food_only(part):
        return True
    if re.match(
        r"(?:hot|raw)\s+(?:in\s+)?(?:half[\s-]?)?(?:pints?|quarts?|pts?|qts?|jars?)\b", low
    ):
        return True
    starts = first is not None and first.group(1) in _BEGINS
    return starts and (method_words().search(low) is not None) and not _food_only(part)


def _food_only(part: str) -> bool:
    """ "water", "hot broth", "boiling water": a food and nothing else."""
    row = elements(part, tokens(part), 0, len(tokens(part)))
    return any(e.sort == "food" for e in row) and all(
        e.sort in ("food", "amount", "group")
        or (e.sort == "phrase" and e.flag not in ("size", "jar"))
        or (e.sort == "word" and is_plain(e.stems[0]))
        for e in row
    )


def is_ingredients(reading: Reading, text: str, listed: bool) -> bool:
    """Whether a piece lists ingredients rather than tells what to do.

    ``listed`` tells that it stands below the heading "Ingredients".
    """
    if not reading.lines:
        return False
    known = [one for one in reading.lines if one.food]
    amounts = [one for one in reading.lines if one.high]
    starts = re.match(r"\W*(?:[0-9]|[½¼¾⅓⅔⅛])", text) is not None
    if _negative(text):
        return False
    nameless = [one for one in reading.lines if not one.food]
    if nameless and not known and all(one.unit_said.lower()[:2] in _JARS for one in nameless):
        return False
    left = sum(len(piece.split()) for piece in reading.left_over)
    if not starts and left > 5 and not listed:
        return False
    if not known and not amounts and not left:
        # "lids and rings"
        return False
    if starts and amounts:
        return True
    if known and amounts and reading.lines[0].food and left <= 2 and not _verb_first(text):
        return True
    if listed:
        return True
    if is_method(text):
        return False
    if known and (amounts or all(one.explained for one in reading.lines)):
        return True
    words = len(text.split())
    if known and words <= 12 and left * 2 <= words:
        return True
    # A single strange word among ingredients is an ingredient to settle.
    return words <= 4 and not text.endswith(".")


def _negative(text: str) -> bool:
    return re.match(r"\W*(?:no|without|omit|never|do not|don't)\b", text.lower()) is not None
