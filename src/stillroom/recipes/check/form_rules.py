"""Rules of what a food is made into, or is told to be: its own name, flesh, kind and pack."""

import re
from collections.abc import Iterator
from fractions import Fraction

from stillroom.processes import lookup
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.heat_rules import at_said_pressure
from stillroom.recipes.check.tables import own_words
from stillroom.units.amounts import CUP

_NOT = re.compile(r"\b(?:no|not|never|nor|don'?t|without|avoid|instead\s+of)\b[^.;\n]{0,20}$")
_WHITE = re.compile(
    r"\bwhite[- ](?:colou?red\s+)?(?:flesh\w*|(?:\w+\s+)?(?:peach|nectarine)\w*|kinds?|variet\w+)"
    r"|\b(?:flesh|inside|meat)\w*\s+(?:is|are|was|being)\s+(?:\w+\s+)?white"
    r"|\b(?:peach|nectarine)\w*,?\s+white\b"
)
_WILD = re.compile(
    r"\b(?:wild|forag\w+|woods?|forest)\b|\bpicked\s+(?:in|from|on)\s+(?:the|our|a)\s+"
    r"(?:pasture|meadow|field|hill)"
)
_SCOOPED = re.compile(
    r"\bscoop\w*\s+(?:out\s+)?(?:the\s+|all\s+the\s+)?(?:soft\s+)?(?:flesh|pulp|meat|squash|pumpkin)"
    r"(?![^.;]{0,30}\bcubes?\b)"
)
_SCOOPED_FOODS = frozenset(["pumpkin", "winter squash", "sweet potatoes"])
_COVERED = frozenset(["plain vegetable", "mixed vegetables", "succotash", "dried beans"])
_FOAM, _BUTTER = Fraction(1, 2), Fraction(3)  # teaspoons against foam; more is an ingredient
# Cups of sugar to a cup of fruit or juice; leaflets of regular pectin ask for more (from memory).
_LEAST_SUGAR = Fraction(3, 4)
_PECTIN = frozenset(["dry pectin", "liquid pectin"])


def _told(words: re.Pattern[str], text: str) -> str:
    """What a text says, where no "not" stands before it; "" where it does not."""
    for found in words.finditer(text):
        if not _NOT.search(text[max(0, found.start() - 40) : found.start()]):
            return found.group(0)
    return ""


def white_flesh(case: Case) -> Iterator[Finding]:
    """Peaches and nectarines told to be white, wherever the text tells it."""
    if not any(item.food.food in ("peaches", "nectarines") for item in case.items):
        return
    told = _told(_WHITE, case.text)
    if told:
        yield finding("white-flesh", told)


def wild(case: Case) -> Iterator[Finding]:
    """Mushrooms told to be wild ones."""
    if case.target and case.target[0] == "mushrooms" and (told := _told(_WILD, case.text)):
        yield finding("wild-mushrooms", f"mushrooms ({told})")


def scooped(case: Case) -> Iterator[Finding]:
    """Squash and sweet potatoes cooked soft and scooped out are a mash, no cubes."""
    if case.target and case.target[0] in _SCOOPED_FOODS and (told := _told(_SCOOPED, case.text)):
        yield finding("puree", told, food=case.food_name)


def dry(case: Case) -> Iterator[Finding]:
    """Vegetables packed without liquid."""
    if case.family not in _COVERED or "dry pack" not in case.pasted.facts.flags:
        return
    if case.target and case.target[0] == "sweet potatoes":
        yield finding("dry-pack", "dry pack")
    else:
        yield finding("no-liquid", "no liquid", food=case.food_name)


def product(case: Case) -> Iterator[Finding]:
    """A title that names a preserve which a rule bars, whatever base is asked."""
    if not case.rows:
        return
    for one in own_words():
        if one.kind != "barred" or one.word not in case.title_words:
            continue
        told = re.search(rf"\b{re.escape(one.word)}(?:s|es)?\b", case.title_words)
        if told:
            before = case.title_words[: told.start()]
            if not re.search(r"\b(?:for|no|not|without|instead of)\b[^,;(]*$", before):
                yield finding("never", one.word, why=one.why, instead=one.instead,
                              source=one.cited)  # fmt: skip


def foam(case: Case) -> Iterator[Finding]:
    """Butter of a jam or jelly: a half teaspoon against foam."""
    if case.family not in ("jam", "jelly"):
        return
    for item in case.items:
        if item.food.food != "butter":
            continue
        for line in item.lines:
            amount = line.high
            if amount is None or (amount.kind == "volume" and amount.value <= _FOAM):
                continue
            much = amount.kind != "volume" or amount.value > _BUTTER
            yield finding("dairy" if much else "more-butter", line.text, line=line.line)


def pectin_sugar(case: Case) -> Iterator[Finding]:
    """Sugar of a jam or jelly with regular pectin, which does not set with little of it."""
    if case.family not in ("jam", "jelly"):
        return
    listed = {item.food.food for item in case.items}
    if not listed & _PECTIN or "low-sugar pectin" in listed:
        return
    sugar = [i for i in case.with_role("sugar") if i.food.food in ("sugar", "brown sugar")]
    fruit = _cups([i for i in case.items if i.food.roles & {"fruit", "juice"}])
    if not sugar or _cups(sugar) < fruit * _LEAST_SUGAR:
        said = sugar[0].said if sugar else "sugar"
        got = "none" if not sugar else f"{float(_cups(sugar)):.2g} cups"
        yield finding("less-sugar", said, got=got, want="what the leaflet of the pectin tells")


def _cups(items: list[Item]) -> Fraction:
    """Cups that lines tell of these foods, the acid of a bottle left out."""
    lines = [line for item in items if not item.food.roles & {"acid"} for line in item.lines]
    return sum(
        (one.high.value / CUP for one in lines if one.high and one.high.kind == "volume"),
        Fraction(0),
    )


# Words that tell a form of a food of which the forms take different times; the first that fits.
_FORMS = {
    "chicken or rabbit": (
        ("without bones", r"\bbones?\s+out\b|\b(?:de)?boned\b|\bboneless\b|\boff\s+the\s+bones?\b"
         r"|\bno\s+bones?\b|\bwithout\s+(?:the\s+)?bones?\b|\bbones?\s+(?:are\s+)?removed"
         r"|\b(?:cubed|chunks?|breasts?)\b(?!.*\bbones?)"),
        ("with bones", r"\bbones?\b|\bdrumsticks?\b|\bjoints\b|\bcut\s+up\b"),
    ),
    "tomatoes": (
        ("crushed, no added liquid", r"\bcrush\w*\b"),
        ("whole or halved, packed in tomato juice",
         r"\b(?:in|with)\s+(?:\w+\s+){0,3}juice\b(?<!lemon juice)|\btomato\s+juice\b"),
        ("whole or halved, raw without added liquid",
         r"\b(?:no|without|nothing)\s+(?:any\s+)?(?:added\s+|extra\s+)?(?:liquid|water)\b(?!\s*bath)"
         r"|\bown\s+juices?\b|\bpress\w*\b"),
        ("whole or halved, packed in water", r"\bwater\b(?![\s-]*(?:bath|canner|process))"),
    ),
}  # fmt: skip


def form(case: Case) -> Iterator[Finding]:
    """The time of the form that the text tells, where the base leaves the form open.

    Boned chicken takes longer than chicken with bones, tomatoes in juice longer than in water.
    """
    forms = dict(case.found.targets) if len(case.found.targets) == 1 else {}
    if not case.target or case.target[0] not in _FORMS or (forms and forms[case.target[0]]):
        return
    food = case.target[0]
    open_forms = {one for name, one in case.found.targets if name == food}
    told = next(
        (
            name
            for name, words in _FORMS[food]
            if (open_forms == {""} or name in open_forms) and re.search(words, case.text)
        ),
        "",
    )
    said = max((m.minutes for m in case.process_minutes), default=0)
    least = _least(case, food, told) if told else max(
        (_least(case, food, name) for name, _ in _FORMS[food]), default=0
    )  # fmt: skip
    if said and said < least:
        if told:
            yield finding("short-time", f"{said} min", got=str(said), want=str(least),
                          where=f" ({told})")  # fmt: skip
        else:
            yield finding("form-unsaid", f"{said} min", food=food, want=str(least))


def _least(case: Case, food: str, form_name: str) -> int:
    """The shortest printed time of one form in this jar, pack and way of heating; 0 for none."""
    answer = lookup(
        food, form=form_name, elevation=case.feet, jar=case.jar or None, pack=case.pack or None,
        method=case.method or None,
    )  # fmt: skip
    return min((row.minutes for row in at_said_pressure(case, answer.processes)), default=0)


RULES = (white_flesh, wild, scooped, dry, product, foam, pectin_sugar, form)
