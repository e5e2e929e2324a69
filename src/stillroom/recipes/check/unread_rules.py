"""Rules of what goes into the jar without being understood: a strange food, a thickened liquid."""

import re
from collections.abc import Iterator
from fractions import Fraction

from stillroom.foods.vocabulary import find_food
from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.tables import proportions
from stillroom.recipes.text.kitchen_words import filler_words, prep_words
from stillroom.recipes.text.mentions import mentions_in
from stillroom.recipes.text.names import stem
from stillroom.recipes.text.page import amounts_in
from stillroom.recipes.text.sorting import VERBS, is_method
from stillroom.recipes.text.units import UNITS

_ADDED = re.compile(
    r"\b(?:add(?:ed|ing)?|(?:stir|mix|fold|whisk|throw|toss|sprinkle|blend|beat|dump)\w*\s+in(?:to)?"
    r"|season\w*\s+with|thicken\w*\s+with|bulk\w*\s+(?:up\s+)?with|finish\w*\s+with)\s+([^.;:()\n]+)"
)
_INTO_JAR = re.compile(
    r"\b(?:put|place|drop|tuck|slip|pop|throw|set)\s+([^.;:()\n]{2,40}?)\s+(?:in|into|to)\s+"
    r"(?:the\s+|each\s+|every\s+|hot\s+)*(?:jars?|pints?|quarts?)\b"
)
# Behind these an object is over.
_OVER = re.compile(
    r"\b(?:to|into|until|till|til|for|over|while|when|before|after|at|on|in|if|so|then|as|last|now"
    r"|from|because|since|a\s+few\s+at)\b"
)
_PARTS = re.compile(r"\s*(?:,|&|\+|\band\b|\bor\b|\bplus\b|\bwith\b|\bw/)\s*")
_JOINED = re.compile(r"(?:\bwith|\bw/|\bplus|\band|\bor|&|\+)\s*(?:a\s+|an\s+|some\s+|the\s+)?$")
_LATER = re.compile(r"\b(?:serv\w*|later|open\w*|reheat\w*|table|eat\w*|supper|dinner)\b")
_DENIED = re.compile(r"\b(?:no|not|never|don'?t|without|nothing|instead\s+of|rather\s+than)\b")
_SOME = re.compile(
    r"^\W*(?:a\s+)?(?:handful|bit|little|some|dash|sprinkle|pinch)\b|\bif\s+(?:you\s+)?(?:like|want)\b"
    r"|\boptional\b|\bto\s+taste\b"
)
# A sentence, a heading or a count of jars lists nothing.
_TOLD = re.compile(
    r"[.!?:]\s*$|\b(?:jars?|quarts?|pints?|yields?|makes?|servings?)\b", re.IGNORECASE
)
_FEW = 6  # words of a line that is no sentence
_TIMED = re.compile(r"\d\s*(?:min|hours?|hrs?|h\b|sec|days?|weeks?|bwb?\b|wb\b|psi)", re.IGNORECASE)
_HELD = frozenset(["vegetable", "pepper", "mushroom", "oil"])
_ROOM = Fraction(103, 100)
# What a cook adds that is no food of its own, and what stands about it.
_PLAIN = frozenset(
    stem(word)
    for word in """
    rest remaining remainder everything else ingredient ingredients mixture mix batch next other
    ones lot boiling liquid liquids solid solids content contents headspace heat color colour
    flavor flavour taste minute minutes minutos min hour hours jar jars lid lids ring rings band
    bands bag bags tied cheesecloth muslin towel paper
    layer layers time times one two three four five six seven half portion recipe love
    inch inches hot acid acidic seasoning seasonings spice spices herb herbs filling sauce brine
    syrup soup stew bottle bottled can canner level pan kettle funnel tool knife bubble bubbles
    air dash dashes pinch pinches splash scoop scoops spoon spoonful spoonfuls handful dollop
    generous desired optional second first third again back gradually slowly carefully gently
    stirring constantly step above below says said more most less least usual always ever
    fork needle gristle sinew silverskin membrane glove gloves
    dial weighted gauge gage pressure yield none iced same day days bone skin purpose done
    leg thigh breast wing shoulder loin chop fillet steak shank neck back
    """.split()
)
_THICK = re.compile(
    r"\b(?:a|the|flour|starch|thick\w*)?\s*\bslurr(?:y|ies)\b|\broux\b|\bthickener\b|\bdredg\w+"
    r"|\b(?:flour|bread|crumb|batter)ed\b|\bdust(?:ed|ing)?\s+(?:the\s+|each\s+)?"
    r"(?:beef|meat|pork|chicken|venison|lamb|rabbit|cubes|chunks|pieces)\b"
    r"|\bthicken\w*\s+(?:the\s+|its\s+|their\s+|this\s+|your\s+)?"
    r"(?:broth|stock|liquid|juices?|gravy|soup|stew|sauce|brine|filling|it|them|everything)\b"
    r"(?!\s+by\s+(?:boil|simmer|cook|reduc))|\bmake\s+(?:a\s+|the\s+)?(?:thick\s+)?gravy\b"
)
_THICK_FAMILIES = frozenset(["pie filling", "ketchup", "relish", "jam", "jelly"])


def added(case: Case) -> Iterator[Finding]:
    """A thing that the method adds and nobody knows: "stir in the okara"."""
    if not case.rows:
        return
    for sentence in case.pasted.method:
        low = sentence.lower().replace("’", "'")
        if _LATER.search(low) or _DENIED.search(low):
            continue
        for found in (*_ADDED.finditer(low), *_INTO_JAR.finditer(low)):
            over = _OVER.search(found.group(1))
            told = found.group(1)[: over.start()] if over else found.group(1)
            for part in _PARTS.split(told):
                words = part.split()
                if not words:
                    continue
                if words[0].strip(",") in VERBS and len(words) > 1:
                    break
                if strange(part) and not list(mentions_in(part, 0, "method")):
                    yield finding("unread-added", part.strip())


def joined(case: Case) -> Iterator[Finding]:
    """A strange word that a line joins to its food: "salt with okara", "onions or okara"."""
    if not case.rows:
        return
    for one in case.pasted.lines:
        for piece in one.left_over if one.food else ():
            before = one.text.lower().partition(piece.lower())[0]
            words = before.split()
            while words and words[-1] in prep_words():
                words.pop()
            if _JOINED.search(" ".join(words)) and strange(piece):
                yield finding("unread-added", piece, line=one.line)


def strange(text: str) -> bool:
    """Whether a piece holds a word that is none of the kitchen's.

    Examples
    --------
    >>> strange("a handful of okara"), strange("the rest of the liquid")
    (True, False)
    """
    return any(
        len(word) > 2
        and not {word, stem(word)} & (prep_words() | filler_words() | _PLAIN)
        and word not in UNITS
        and word not in VERBS
        for word in re.findall(r"[^\W\d_]+", text.lower())
    )


def lines(case: Case) -> Iterator[Finding]:
    """A line of the ingredients that names no known food, wherever its amount stands."""
    if not case.rows:
        return
    method = set(case.pasted.method)
    later = {m.line for m in case.pasted.mentions if m.at_serving}
    for one in case.pasted.lines:
        if one.food or one.line in later or _TIMED.search(one.text):
            continue
        written = case.source_line(one.line)
        told = one.text if strange(one.text) else written
        # "Okara: 1 cup": the name stands apart from its amount.
        if strange(told) and len(told.split()) <= max(_FEW, len(one.text.split())):
            yield finding("not-understood", told, line=one.line)
    listed = _listed(case)
    for line, sentence in enumerate(case.pasted.source_text.splitlines(), 1):
        some = _SOME.search(sentence.lower()) or line in listed
        short = some and len(sentence.split()) <= _FEW
        unread = short and sentence in method and strange(sentence)
        if unread and not list(mentions_in(sentence, line, "method")):
            yield finding("not-understood", sentence, line=line)


def _listed(case: Case) -> set[int]:
    """Lines that stand among the ingredients and tell nothing to do: "a glurb of secret"."""
    read = {one.line for one in case.pasted.lines if not one.from_method}
    last, listed = max(read, default=0), set[int]()
    for line, text in enumerate(case.pasted.source_text.splitlines(), 1):
        among = min(read, default=line) < line < last or line - 1 in read | listed
        doing = _TOLD.search(text) or VERBS & set(re.findall(r"[a-z]+", text.lower()))
        if among and line not in read and text.strip() and not doing and not is_method(text):
            listed.add(line)
    return listed


def thickened(case: Case) -> Iterator[Finding]:
    """A liquid that is said to be thickened, whatever with."""
    if not case.rows or case.kept_cold or case.family in _THICK_FAMILIES:
        return
    if any(case.with_role("thickener", "flour", "starch")):
        return
    for sentence in case.text.split("\n"):
        for clause in re.split(r"[.;]\s", sentence):
            told = _THICK.search(clause)
            if told and not _LATER.search(clause) and not _DENIED.search(clause):
                yield finding("thickener", told.group(0).strip())
                return


def more(case: Case) -> Iterator[Finding]:
    """A vegetable or oil of which the method adds more than the ingredients tell."""
    if not case.target:
        return
    held = {food for row in proportions(*case.target) for food in row.ingredient}
    for sentence in case.pasted.method:
        for one in amounts_in(sentence, 0):
            listed = [o for o in case.pasted.lines if o.food == one.food and not o.from_method]
            if not listed or one.per or one.food not in held or one.high is None:
                continue
            if not find_food(one.food).roles & _HELD or any(o.per for o in listed):
                continue
            told = [o.high for o in listed if o.high is not None]
            same = all(amount.kind == one.high.kind for amount in told)
            if not same or one.high.value > sum(a.value for a in told) * _ROOM:
                yield finding("amount-unclear", one.text)


RULES = (lines, added, joined, thickened, more)
