"""Rules of what the text tells against what is asked: another jar, pack, method, time or food.

A verdict is for the jar, pack and method that are asked. Where the text tells another, the person
must settle which is meant before anything is *tested*.
"""

import re
from collections.abc import Iterator

from stillroom.foods.vocabulary import Food, find_food
from stillroom.processes.model import PRESSURE
from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.pasted import Minutes
from stillroom.units.jars import SIZES

_BIG = re.compile(
    r"\bgallons?[- ](?:jars?|jugs?)|\b[23]-(?:quart|qt|pint|liter|litre)\.?[- ]jars?"
    r"|\b1\.5[- ]?(?:l|lit(?:er|re))\b[- ](?:jars?|bottles?)|\b64[- ]?oz\.?[- ]jars?"
    r"|(?:#|\bno\.?\s*)10\s+(?:cans?|tins?)"
)
# "The pint time" is borrowed for a smaller jar.
_BORROWED = re.compile(r"\b(?:pints?|pts?|quarts?|qts?)\.?['’]?s?\s+(?:jar\s+)?time\b")
_BREAD_AND_BUTTER = re.compile(r"\bbread\W+(?:and|n)?\W*butters?\b")
_SERVED = re.compile(r"\b(?:serv\w*|later|open\w*|at\s+the\s+table)\b")
_DOUBT = re.compile(
    r"\b(?:minutes?|mins?)\b[^.;\n]{0,20}\btoo long\b|\b(?:minutes?|mins?)\s+(?:minus|less)\s+\d"
    r"|\bhalf\s+(?:of\s+)?the\s+(?:\d+\s*min|time|process)|\bonly\s+\d+\s+of\s+the\s+\d+\s*min"
    r"|\bmin(?:ute)?s?\s+for\s+(?:the\s+old|ours)\b|\bquarters?\s+of\s+an\s+hour|\b\d{3,}\s*sec"
    r"|\b(?:instead\s+of|rather\s+than|not)\s+(?:the\s+)?\d+\s*min|\b(?:cut|shorten|trim)\w*\s+the\s+(?:time|process)"
    r"|counted\s+from\s+(?:when\s+)?(?:the\s+)?(?:heat|cold|burner)"
)
_TENS = "ten|fifteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred"
_UNREAD = re.compile(
    rf"\b(?:{_TENS})(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?\s+min"
    r"|\b\d+\s*(?:mn|minuets?|minits?|minutos?|secs?|seconds?)\b|(?<![\d:.])\d{1,2}:\d\d(?!\d|\s*[ap]m)"
    r"|\bquarters?\s+of\s+an\s+hour|\bhours?\b|\b\d+\s*[′']"
    r"|\bprocess\w*\b[^.;\n]{0,24}\b(?:few|couple|short\s+while|until)\b"
)
_SHORT = re.compile(r"\b(\d{1,3})\s*min")
_SAUCES = frozenset(["tomato juice", "ketchup", "molasses"])
_STRAINED = re.compile(r"\bbones?\b|\bcarcass\w*|\bstrain\w*|\bbacks\b|\bnecks?\b|\bshells\b")
_OWN_JUICE = re.compile(
    r"\b(?:no|without)\s+(?:any\s+)?(?:added\s+|extra\s+)?(?:liquid|water)\b(?!\s*bath)"
    r"|\b(?:own|their)\s+juices?\b|\bpress\w*\s+(?:down|until|them)\b"
)
_SOLID = frozenset(
    ["vegetable", "meat", "poultry", "game", "seafood", "cured meat", "organ meat", "dried bean",
     "fresh bean", "mushroom"]
)  # fmt: skip
_BARRED = frozenset(
    ["pasta", "rice", "grain", "bread", "egg", "flour", "starch", "thickener", "dairy"]
)
_FAT = frozenset(["oil", "fat"])
_MADE = frozenset(["condiment", "ready sauce", "broth"])


def jar(case: Case) -> Iterator[Finding]:
    """A jar larger than the one asked, told in the text."""
    if not case.rows or case.kept_cold:
        return
    told = case.pasted.facts.jars
    larger = [size for size in told if case.jar and SIZES.index(size) > SIZES.index(case.jar)]
    if "half-gallon" in told and all(row.jar != "half-gallon" for row in case.any_row):
        yield finding("half-gallon", "half-gallon jars")
    elif larger and case.jar not in told and not _BORROWED.search(case.text):
        yield finding("jar-told", f"{larger[0]} jars", jar=case.jar)
    big = _BIG.search(case.text)
    if big and "half-gallon" not in told:
        yield finding("big-jar", big.group(0))


def pack(case: Case) -> Iterator[Finding]:
    """Another pack than the one asked: a time belongs to its pack."""
    told = case.pasted.facts.packs
    if case.rows and case.pack and told and case.pack not in told:
        yield finding("pack-told", f"{told[0]} pack", pack=case.pack)


def method(case: Case) -> Iterator[Finding]:
    """Boiling water told where pressure is asked, or the other way round."""
    if not case.rows or not case.method:
        return
    told = case.pasted.facts.methods
    if case.under_pressure and "boiling-water" in told:
        yield finding("method-told", "boiling water", method="a pressure canner")
    elif not case.under_pressure and any(m in (*PRESSURE, "pressure") for m in told):
        yield finding("method-told", "pressure", method="boiling water")


def times(case: Case) -> Iterator[Finding]:
    """A time that is told twice, taken back, or not read."""
    if not case.rows:
        return
    printed = min(row.minutes for row in case.rows)
    said = _of_method(case)
    least, most = min(said, default=0), max(said, default=0)
    if least < printed <= most:
        yield finding("two-times", f"{least} min", other=str(most), want=str(printed))
    doubt = _DOUBT.search(case.text)
    if doubt:
        yield finding("time-doubt", doubt.group(0), want=str(printed))
    if not said:
        # A recipe file leaves its process to the tables, so that no time need stand in it.
        is_file = case.pasted.kind == "file"
        named = (one.lower() for one in case.pasted.method if "process" in one.lower())
        left = "\n".join(named) if is_file else case.text
        for one in case.pasted.facts.minutes:
            left = left.replace(one.said.lower(), " ")
        short = (m for m in _SHORT.finditer(left) if int(m.group(1)) < printed)
        unread = _UNREAD.search(left) or next(short, None)
        # "Vent 10 / 35 min": what stands behind a vent may be the process.
        behind = [m for m in case.pasted.facts.minutes if m.what == "vent" and m.minutes > 10]
        if behind and max(m.minutes for m in behind) < printed:
            yield finding("time-unread", behind[0].said, want=str(printed))
        elif unread:
            yield finding("time-unread", unread.group(0), want=str(printed))


def _of_method(case: Case) -> list[int]:
    """Process minutes; those beside an amount of food only where nothing else tells any."""
    food_lines = {line.line for line in case.pasted.lines}
    apart: list[Minutes] = [m for m in case.process_minutes if m.line not in food_lines]
    return [m.minutes for m in apart or case.process_minutes]


def title(case: Case) -> Iterator[Finding]:
    """A food of the title that the published product does not hold."""
    base = case.rules_of_base
    if not base or not case.rows or _SERVED.search(case.title_words):
        return
    for one in case.pasted.mentions:
        if one.where != "title" or one.negated or one.at_serving:
            continue
        if one.food in ("bread", "butter") and _BREAD_AND_BUTTER.search(case.title_words):
            continue
        food = find_food(one.food)
        meant = rf"\bfor\s+(?:(?!with|and)\w+\s+){{0,3}}{re.escape(one.said.lower())}"
        with_fat = case.family == "ground meat" and re.search(
            r"(?:pork|beef)\s+fat", one.said.lower()
        )
        fat = food.roles & _FAT and not with_fat
        if (fat or _asks(food)) and not base.holds(food) and not re.search(meant, case.title_words):
            yield finding("title-food", one.said, food=case.food_name)


def needs(case: Case) -> Iterator[Finding]:
    """What makes the asked product what it is: without it the shorter time is for other food.

    Plain dried beans take longer than beans in sauce, meat longer than the stock of its bones.
    """
    if not case.rows or not case.target:
        return
    held = {item.food.food for item in case.items if item.lines}
    greens = [item.food.roles for item in case.items if item.lines]
    food, form = case.target
    lack = ""
    if case.family == "sauced beans" and not held & _SAUCES:
        lack = "tomato juice, ketchup or molasses for its sauce"
    elif case.family == "stock" and not _STRAINED.search(case.text):
        lack = "bones, of which the stock is strained"
    elif case.family == "tomato juice blend" and not any(
        "vegetable" in roles and "tomato" not in roles for roles in greens
    ):
        lack = "vegetables in the juice"
    elif "in water" in form and _OWN_JUICE.search(case.text):
        lack = "water over the tomatoes (packed without, they take longer)"
    elif "added pectin" in food and "without" not in food:
        lack = "" if any("pectin" in name for name in held) else "pectin"
    if lack:
        yield finding("missing", lack, food=case.food_name)


def _asks(food: Food) -> bool:
    made = bool(food.roles & _MADE)
    barred = food.canning == "never" or bool(food.roles & _BARRED)
    return barred or (bool(food.roles & _SOLID) and not made)


RULES = (jar, pack, method, times, title, needs)
