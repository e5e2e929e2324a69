"""A pasted text as a recipe: title, headings, ingredients, method and what was not understood."""

import re
from dataclasses import dataclass, field, replace
from functools import lru_cache

from stillroom.errors import InputError
from stillroom.recipes.pasted import Kind, Mention, Pasted, PastedLine
from stillroom.recipes.text.elements import elements, is_plain
from stillroom.recipes.text.facts import read_facts
from stillroom.recipes.text.jars import jar_of, jar_pattern
from stillroom.recipes.text.jsonld import is_page, page_text
from stillroom.recipes.text.lines import Reading, read_line
from stillroom.recipes.text.mentions import mentions_in, mentions_in_line
from stillroom.recipes.text.names import food_at, stem
from stillroom.recipes.text.sentences import LONGEST, sentences
from stillroom.recipes.text.settle import settled
from stillroom.recipes.text.tokens import tokens

# Units in which a main food is written into a title.
_SOLD = frozenset("lb oz kg g bushel peck crate lug bunch head".split())
# A recipe is a page or two; a book or a log is a slip and would only be slow.
LARGEST = 200_000
_HEADINGS = re.compile(
    r"^\W*(?P<ingredients>ingredients?|you(?:'ll)? (?:will )?need|what you need|shopping list)\W*$"
    r"|^\W*(?P<method>directions?|method|instructions?|procedure|steps?|preparation|how to(?: make)?"
    r"(?: it)?|to make|process(?:ing)?|canning|to can|notes?|tips?|yield|makes|serving|to serve"
    r"|storage|headspace|equipment)\W*$"
)
_VERBS = frozenset(
    "add adjust allow apply arrange bake beat blanch blend boil bring brown can centrifuge check "
    "chill chop clean combine cook cool core cover cut dip discard dissolve drain drop exhaust "
    "fill filter fold freeze fry grate grill grind hand heat hot invert jar keep ladle lay layer "
    "leave let lift lower make marinate mash measure melt mix mince open pack peel pick pit place "
    "pour prepare press pressure process puree put raw reduce refrigerate reheat remove repeat "
    "rinse roast rub run salt saute scald seal season separate serve set shake shell shred sieve "
    "sift simmer skim skin slice slip soak sprinkle squeeze stand start steam sterilize stir store "
    "strain stuff taste thicken tie tighten toss trim turn use vent wait warm wash water wipe work "
    "follow begin stew after when once while before until if bw bwb wb quarts pints half-pints "
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
    r"\W*(?:about\s+)?[0-9½¼¾][0-9½¼¾/ .–-]*\s*(?:min|hours?\b|hrs?\b|h\b|psi|in\b|inch|[\"”″]|weeks?"
    r"|days?|°|f\b|(?:lbs?|pounds?|#)\.?\s*(?:of\s+)?pressure|(?:half[\s-])?(?:pints?|quarts?|pts?|qts?"
    r")\.?\s+(?:jars?\b|in my|(?:pressure\s+)?(?:canner|cooker|saucepan|kettle)))"
)
# A piece that tells a process whatever it begins with: "so only 10 min at 10 lb".
_PROCESS = re.compile(
    r"[0-9]\s*min\w*\.?\s*(?:at|@)\s*[0-9]+\s*(?:lb|pound|#)|\bpsi\b|\b(?:water[\s-]*bath|bwb)\b|(?:at|@)"
    r"\s*[0-9]+\s*(?:lbs?|pounds?|#)\s*(?:pressure|for)|gau?ge\s+[0-9]"
)
_PARTS = re.compile(r"(?:(?!--|->|→|\s[-–—]\s)[^,;:])+(?:[,;:]|--|->|→|\s[-–—]\s|$)\s*")


@lru_cache(maxsize=1)
def _method_words() -> re.Pattern[str]:
    return re.compile(
        r"\b(?:[0-9]+\s*(?:min(?:ute)?s?|hours?|hrs?|psi)\b|water[\s-]*bath|boiling[\s-]water[\s-]+"
        r"(?:canner|bath|[0-9])|pressure|process(?:ed)?|headspace|vent(?:ed)?|half solids|raw[\s-]pack"
        r"|hot[\s-]pack|simmer|bwb?|upside|canner|lids?|rims?|jars|until|overnight|serve|serving|"
        r"book time|seal|psi|bring to)\b|\b(?:fill|pack|ladle|boil)\b(?!ed|ing)"
    )


@dataclass(slots=True)
class _Page:
    """A recipe while its lines are sorted."""

    title: str = ""
    title_line: int = 0
    lines: list[PastedLine] = field(default_factory=list)
    found: list[Mention] = field(default_factory=list)
    written: list[tuple[int, str]] = field(default_factory=list)
    method: list[tuple[int, str]] = field(default_factory=list)
    headings: list[tuple[int, str]] = field(default_factory=list)
    not_understood: list[tuple[int, str]] = field(default_factory=list)
    section: str = ""
    per: str = ""
    in_method: bool = False
    in_ingredients: bool = False


def read_paste(text: str, *, base: str = "", kind: Kind = "text") -> Pasted:
    """A pasted text, read.

    Parameters
    ----------
    text : as a person writes or copies it; at most 200,000 characters
    base : the food it is meant for, where the person named one
    kind : how it came

    Returns
    -------
    Pasted : every ingredient line, food, fact and sentence, and what was not understood

    Raises
    ------
    InputError
        Empty, too long, or not text.

    Examples
    --------
    >>> soup = read_paste("Pork soup\\n2 lb lean pork, cubed\\nHalf solids, pints 75 min, vented")
    >>> soup.title, soup.lines[0].food, soup.facts.half_solids, soup.facts.jars
    ('Pork soup', 'pork', True, ('pint',))
    """
    if kind == "text" and is_page(text):
        return read_paste(page_text(text, "The paste"), base=base, kind="page")
    _refuse(text)
    page = _Page()
    title_food = _one_food(base) if base else ""
    numbered = [
        (number, " ".join(line.split()))
        for number, line in enumerate(re.split(r"\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]", text), 1)
    ]
    written = [(number, line) for number, line in numbered if line]
    for place, (number, line) in enumerate(written):
        name, rest = _title_and_rest(line) if place == 0 else (line, "")
        if place == 0 and (rest or _is_title(line, len(written))):
            page.title, page.title_line = name, number
            title_food = title_food or _one_food(name)
            if rest:
                _sort(page, number, rest, title_food)
            continue
        _sort(page, number, line, title_food)
    return _finish(page, text, kind)


def _refuse(text: str) -> None:
    if not text.strip("\ufeff \t\r\n\x0b\x0c"):
        raise InputError("The recipe is empty. Paste its title, ingredients and method as text.")
    if len(text) > LARGEST:
        raise InputError(
            f"{len(text):,} characters are too many for one recipe (at most {LARGEST:,}). Paste "
            "only the recipe itself."
        )
    odd = sum(text.count(sign) for sign in "\x00\x01\x02\x03\x04\x05\x06\x07\ufffd")
    if odd and odd * 50 > len(text):
        raise InputError(
            "This is not text but a file of another kind. Save the recipe as plain text, or copy "
            "its words and paste them."
        )


def _one_food(title: str) -> str:
    """The only food that a title names, or ""."""
    bare = re.sub(r"^\W*(?:home[\s-]?)?(?:pickled|canned|marinated|dilled|spiced|candied)\s+", "",
                  title, flags=re.IGNORECASE)  # fmt: skip
    found = {m.food for m in mentions_in(bare, 1, "title") if not m.negated and not m.at_serving}
    return found.pop() if len(found) == 1 else ""


def _title_and_rest(line: str) -> tuple[str, str]:
    """A first line that goes on into the recipe, cut where its name ends.

    Examples
    --------
    >>> _title_and_rest("Beef stock, 2 c soy sauce; quarts 25 min")
    ('Beef stock', '2 c soy sauce; quarts 25 min')
    >>> _title_and_rest("Turkey soup, 6 pints")
    ('Turkey soup, 6 pints', '')
    >>> _title_and_rest("Tomatillos, 9 lb, husked")
    ('Tomatillos', 'Tomatillos, 9 lb, husked')
    """
    row = tokens(line)
    every = elements(line, row, 0, len(row))
    amount = next((e for e in every if e.measured and not e.measured.bare), None)
    begin = row[amount.start].start if amount else len(line)
    cut = re.search(r":\s", line[:begin]) or re.search(
        r"\s(?:[-–—+]|--|->)\s|[;,]\s|[^\W\d_]{4,}(?P<stop>\.\s)", line[:begin]
    )
    end, start = (begin, begin)
    if cut:
        end = cut.start("stop") if "stop" in cut.groupdict() and cut["stop"] else cut.start()
        start = cut.end()
    name, rest = line[:end].strip(" (["), line[start:].strip()
    alone = read_line(line).lines
    if len(alone) == 1 and alone[0].food and alone[0].explained and _weighed(alone[0]):
        # "Pie pumpkin in 1-inch cubes (16 lb)"
        return name or line, line
    if not name or not rest or not (amount or re.search(r"[0-9½¼¾⅓⅔⅛]", rest)):
        return line, ""
    first = re.split(r"[,;.]\s", rest)[0]
    weighed = amount is not None and amount.measured is not None and amount.measured.unit in _SOLD
    if weighed and _one_food(name) and not list(mentions_in(first, 1, "ingredient")):
        # The name is the ingredient too.
        return name, line
    if len(rest.split()) > 2 and list(mentions_in(rest, 1, "ingredient")):
        return name, rest
    return line, ""


def _is_title(line: str, count: int) -> bool:
    """The first line, unless it is an ingredient or the method itself."""
    if len(line) > 120 or _HEADINGS.match(line.lower()):
        return False
    row = tokens(line)
    first = next(iter(elements(line, row, 0, len(row))), None)
    # "Three bean salad" begins with no amount.
    if first and first.measured and not (first.measured.bare and row[first.start].sort == "word"):
        return False
    return count > 1 or not _method_words().search(line.lower())


def _sort(page: _Page, number: int, line: str, title_food: str) -> None:
    """Put a line where it belongs."""
    heading = _HEADINGS.match(line.lower()) if len(line) < 40 else None
    if heading:
        page.in_method = bool(heading["method"])
        page.in_ingredients = bool(heading["ingredients"])
        page.section, page.per = "", ""
        page.headings.append((number, line))
        return
    if line.endswith(":") and len(line) < 80 and not re.match(r"^\W*[0-9]", line):
        page.section = line.rstrip(": ")
        found = re.search(r"\b(?:per|each|every|a)\s+", line.lower())
        jar = jar_pattern().match(line.lower(), found.end()) if found else None
        page.per = jar_of(jar) if jar and jar_of(jar) != "gallon" else ""
        page.headings.append((number, line))
        return
    for piece in _pieces(line):
        _place(page, number, piece, title_food)


def _pieces(line: str) -> list[str]:
    """Sentences of a line; "2 c. Carrots" and "Salt." stay whole."""
    made = sentences(line)
    if len(line) > LONGEST or (len(made) > 1 and any(_is_method(s) for s in made)):
        return made
    return [line]


def _is_method(text: str) -> bool:
    low = text.lower()
    first = re.match(r"\W*(?:[0-9]+[.)]\s+)?([a-z'-]+)", low)
    starts = first is not None and first.group(1) in _VERBS
    amount = re.match(r"\W*(?:[0-9]|[½¼¾⅓⅔⅛])", low) is not None
    words = _method_words().search(low) is not None
    if starts and not amount:
        return not _food_only(text)
    return (words and not amount) or _TIMED.match(low) is not None


def _place(page: _Page, number: int, text: str, title_food: str) -> None:
    if page.in_method:
        _add_method(page, number, text)
        return
    cut = len(text) if page.in_ingredients and not _is_method(text) else _method_from(text)
    front, back = text[:cut].rstrip(" ,;:>-–—→"), text[cut:].lstrip(" ,;")
    if front:
        reading = read_line(
            front, number, title_food=title_food, section=page.section, per=page.per
        )
        if _is_ingredients(reading, front, page):
            page.lines += reading.lines
            page.written.append((number, front))
            page.found += mentions_in_line(front, number, reading.named)
            for one in reading.lines:
                _unsettled(page, one, number)
        else:
            back = f"{front}, {back}" if back else front
    if back:
        _add_method(page, number, back)


def _unsettled(page: _Page, one: PastedLine, number: int) -> None:
    if not one.food:
        page.not_understood.append((number, one.text))
    else:
        page.not_understood += [(number, piece) for piece in one.left_over]


def _method_from(text: str) -> int:
    """Where in a line the method begins: 0 for all of it, its length for none of it."""
    if _is_method(text):
        first = read_line(re.split(r"[,;:]\s", text)[0]).lines
        listed = bool(first) and (first[0].food or _weighed(first[0])) and first[0].explained
        if not listed or _starts_method(text) or _verb_first(text):
            return 0
    for part in _PARTS.finditer(text):
        said = part.group().strip(" ,;:>-–—→")
        if part.start() and said and _starts_method(said):
            return part.start()
    return len(text)


def _weighed(one: PastedLine) -> bool:
    return one.high is not None and one.high.kind == "weight"


def _verb_first(text: str) -> bool:
    first = re.match(r"\W*(?:[0-9]+[.)]\s+)?([a-z'-]+)", text.lower())
    return first is not None and first.group(1) in _VERBS and not _food_only(text)


def _starts_method(part: str) -> bool:
    low = part.lower()
    if _TIMED.match(low) or _PROCESS.search(low):
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
    return starts and (_method_words().search(low) is not None) and not _food_only(part)


def _food_only(part: str) -> bool:
    """ "water", "hot broth", "boiling water": a food and nothing else."""
    row = elements(part, tokens(part), 0, len(tokens(part)))
    return any(e.sort == "food" for e in row) and all(
        e.sort in ("food", "amount", "group")
        or (e.sort == "phrase" and e.flag not in ("size", "jar"))
        or (e.sort == "word" and is_plain(e.stems[0]))
        for e in row
    )


def _is_ingredients(reading: Reading, text: str, page: _Page) -> bool:
    """Whether a piece lists ingredients rather than tells what to do."""
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
    if not starts and left > 5 and not page.in_ingredients:
        return False
    if starts and amounts:
        return True
    if known and amounts and reading.lines[0].food and left <= 2 and not _verb_first(text):
        return True
    if page.in_ingredients:
        return True
    if _is_method(text):
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


def _add_method(page: _Page, number: int, text: str) -> None:
    page.method += [(number, sentence) for sentence in sentences(text)]


def _finish(page: _Page, text: str, kind: Kind) -> Pasted:
    found: list[Mention] = []
    if page.title:
        found += mentions_in(page.title, page.title_line, "title")
    found += page.found
    for number, line in page.headings:
        found += mentions_in(line, number, "method")
    for number, sentence in page.method:
        found += mentions_in(sentence, number, "method")
    more = _from_method(page)
    facts = read_facts(
        page.title,
        page.method,
        [*(t for _, t in page.written), *(t for _, t in page.headings)],
        title_line=page.title_line,
    )
    per = {one.per for one in page.lines if one.per not in ("", "jar")}
    if not facts.jars and len(per) == 1:
        # "1 tsp salt per quart" tells the jar where nothing else does.
        facts = replace(facts, jars=tuple(per))
    return Pasted(
        title=page.title,
        lines=(*page.lines, *more),
        mentions=settled(found, (*page.lines, *more)),
        facts=facts,
        method=tuple(sentence for _, sentence in page.method),
        not_understood=tuple(dict.fromkeys(page.not_understood)),
        kind=kind,
        source_text=text,
    )


def _from_method(page: _Page) -> list[PastedLine]:
    """Amounts of foods that only the method tells: "add 2 Tbsp bottled lemon juice a quart"."""
    listed = {one.food: one for one in page.lines if one.food}
    made: list[PastedLine] = []
    for number, sentence in page.method:
        if not re.search(r"[0-9½¼¾⅓⅔⅛]", sentence):
            continue
        told = list(mentions_in(sentence, number, "method"))
        kept = {m.food for m in told if not m.negated and not m.at_serving}
        if not kept:
            continue
        for one in _amounts(sentence, number):
            known = listed.get(one.food)
            if one.food in kept and (known is None or (one.per and not known.per)):
                made.append(replace(one, from_method=True))
    return made


def _amounts(sentence: str, number: int) -> list[PastedLine]:
    """Amounts with a food right behind them, anywhere in a sentence."""
    row = tokens(sentence)
    every = elements(sentence, row, 0, len(row))
    per = next((e.flag[4:] for e in every if e.flag.startswith("per:")), "")
    made = []
    for place, one in enumerate(every):
        measured = one.measured
        if measured is None or measured.bare:
            continue
        for after in every[place + 1 : place + 4]:
            if after.sort == "food":
                said = sentence[row[one.start].start : row[after.end - 1].end]
                line = next(iter(read_line(said, number, per=per).lines), None)
                if line and line.food:
                    made.append(line)
                break
            if after.sort != "word" or not is_plain(after.stems[0]):
                break
    return made


def known_food(text: str) -> str:
    """The food that a text of one food names, or ""."""
    words = [stem(t.text) for t in tokens(text) if t.sort == "word"]
    food, length = food_at(words, 0) if words else ("", 0)
    return food if length == len(words) else ""
