"""Rules of what may be in the jar: barred everywhere, or no part of this product."""

import re
from collections.abc import Iterator
from fractions import Fraction

from stillroom.foods.vocabulary import title_of
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding
from stillroom.units.amounts import CUP

_BARRED_ROLES = {
    "pasta": "pasta",
    "rice": "grain",
    "grain": "grain",
    "bread": "bread",
    "egg": "egg",
    "flour": "thickener",
    "starch": "thickener",
    "thickener": "thickener",
    "dairy": "dairy",
}
_FATS = ("oil", "fat")
KEPT_OUT = frozenset([*_BARRED_ROLES, *_FATS])
ALWAYS_FREE = frozenset(["water", "salt", "spice", "herb", "firming agent"])
_MANY_CUPS = 200
PLAIN = "pieces solid whole halved sliced"


def barred_everywhere(case: Case) -> Iterator[Finding]:
    """Thickeners, pasta, grains, bread, dairy and eggs, unless the printed recipe has them."""
    if case.kept_cold:
        return
    for item in case.items:
        if _allowed(case, item):
            continue
        for role, rule in _BARRED_ROLES.items():
            if role in item.food.roles:
                yield finding(rule, item.said, line=item.line)
                break


def oil(case: Case) -> Iterator[Finding]:
    """Oil and fat only where the printed recipe holds them."""
    for item in case.with_role(*_FATS):
        if case.family == "ground meat" and re.search(r"(?:pork|beef)\s+fat", item.said):
            continue
        if not _allowed(case, item) and "dairy" not in item.food.roles:
            yield finding("oil", item.said, line=item.line)


_NOT_MASHED = re.compile(
    r"(?:not|don't|dont|never|no)\s+(?:be\s+)?(?:mash|puree|blend)"
    r"|(?:mash|puree|blend)\w*\s+(?:it\s+|them\s+)?(?:after|when|once|at\s+serving)"
)
_PUREE_BARRED = frozenset(
    ["bananas", "figs", "asian pears", "tomatoes", "cantaloupe", "melons", "honeydew", "watermelon",
     "papaya", "mangoes", "coconut", "coconut milk"]
)  # fmt: skip


_FRUIT_BUTTER = re.compile(
    r"\b(?:apple|pear|peach|plum|apricot|pumpkin|fruit|nut|peanut|almond|cranberry)\s+butter\b(?!.*\bbutter\b)",
    re.DOTALL,
)  # fmt: skip


def puree_of(case: Case) -> Iterator[Finding]:
    """Fruits that the rule on purees leaves out by name."""
    if case.family == "fruit puree":
        for item in case.items:
            if item.food.food in _PUREE_BARRED:
                yield finding("puree", f"{item.said} puree", food=item.said, line=item.line)


_MASHED = re.compile(
    r"\bpuree|\bmash(?:ed|es)?\b|\bblend\w*\s+(?:it\s+|them\s+)?(?:until\s+|til\s+)?smooth"
    r"|through\s+(?:a|the)\s+(?:food\s+)?(?:mill|ricer)|\bwhizz?(?:ed)?\b|\bliquef\w+"
    r"|\bwhip(?:ped)?\b|\b(?:smooth|thick)\s+paste\b|\b(?:until|till?)\s+(?:creamy|silky)\b"
)


def puree(case: Case) -> Iterator[Finding]:
    """Purees and mashes of low-acid food have no process."""
    mashed = case.pasted.facts.pureed or any(
        _MASHED.search(clause) and not _NOT_MASHED.search(clause)
        for clause in re.split(r"[.;,\n]", case.text)
    )
    if not mashed or case.family in ("tomato juice blend", "spaghetti sauce", "stock"):
        return
    low = case.low_acid
    if not case.target:
        soft = [i for i in case.items if i.food.acidity == "low-acid"
                and not i.food.roles & ALWAYS_FREE]  # fmt: skip
        # A puree that a rule keeps out by its own name is told by that rule.
        low = any(item.food.canning != "never" for item in soft)
    if low:
        said = next((w for w in ("mashed", "mash", "puree") if w in case.text), "puree")
        about = said if said == "puree" else f"{said} (puree)"
        yield finding("puree", about, food=case.food_name)


def without_process(case: Case) -> Iterator[Finding]:
    """Foods that a published rule names as having no process."""
    for item in case.items:
        if not _goes_in(case, item) or _allowed(case, item):
            continue
        if item.food.roles & KEPT_OUT:
            continue
        if item.food.canning == "never":
            yield finding(
                "never", item.said, line=item.line, instead="Leave it out; add it when serving.",
                why="A published rule keeps it out of the jar.", source=_rule_of(item),
            )  # fmt: skip


def _goes_in(case: Case, item: Item) -> bool:
    """Whether a food goes in by a line of its own or by the method; a title only names."""
    return bool(item.lines) or any(
        one.food != "fruit, kind not told" and one.food == item.food.food and one.where != "title"
        for one in case.in_jar
    )


def _rule_of(item: Item) -> str:
    return f"{title_of(item.food.canning_source)}, {item.food.canning_place}"


def extras(case: Case) -> Iterator[Finding]:
    """Foods that the published product does not hold."""
    if not case.rules_of_base:
        return
    for item in case.items:
        if not _goes_in(case, item) or _allowed(case, item):
            continue
        roles = item.food.roles
        if "water" in roles or _plain_acid(case, item) or _WHITE.search(item.said):
            continue
        if roles & KEPT_OUT or item.food.canning == "never":
            continue
        if item.food.food.endswith("bones") and case.family in _BONED:
            continue
        if "alcohol" in roles:
            yield finding("alcohol", item.said, food=case.food_name, line=item.line)
        elif "fresh herb" in roles or (item.fresh and roles & {"herb", "fresh herb"}):
            yield finding("fresh-herb", item.said, line=item.line)
        elif _low_in_boiling(case, item):
            yield finding("boiling-extra", item.said, food=case.food_name, line=item.line)
        elif case.rules_of_base.takes_own_process and item.food.canning != "own process":
            yield finding("no-own-process", item.said, line=item.line)
        else:
            yield finding("extra", item.said, food=case.food_name, line=item.line)


_SOUR_FAMILIES = frozenset(
    ["tomato", "tomato juice blend", "salsa", "ketchup", "hot sauce", "fruit", "fruit puree",
     "fruit butter", "fruit juice", "jam", "jelly", "pie filling"]
)  # fmt: skip
_LOW_ROLES = frozenset(
    ["vegetable", "meat", "poultry", "game", "seafood", "cured meat", "dried bean", "fresh bean",
     "mushroom", "broth"]
)  # fmt: skip


_BONED = frozenset(["meat", "poultry", "stock", "soup", "seafood"])


def _low_in_boiling(case: Case, item: Item) -> bool:
    """Low-acid food in an acid product that boiling water is to process."""
    return (
        case.method == "boiling-water"
        and bool(case.rows)
        and case.family in _SOUR_FAMILIES
        and item.food.acidity == "low-acid"
        and item.food.food != "garlic"
        and bool(item.food.roles & _LOW_ROLES)
    )


def _plain_acid(case: Case, item: Item) -> bool:
    """A splash of acid in low-acid food: taste only, which no rule minds and no time heeds."""
    bottled = item.food.roles & {"vinegar"} or item.food.food in (
        "bottled lemon juice",
        "citric acid",
    )
    return bool(bottled) and case.low_acid


def _allowed(case: Case, item: Item) -> bool:
    if item.food.food == "butter" and _FRUIT_BUTTER.search(case.text):
        return True
    base = case.rules_of_base
    return base is not None and base.holds(item.food, fresh=item.fresh)


_WHITE = re.compile(r"white[- ](?:fleshed\s+)?(?:peach|nectarine)", re.IGNORECASE)


def white_flesh(case: Case) -> Iterator[Finding]:
    """White peaches and nectarines."""
    if _WHITE.search(case.title_words):
        yield finding("white-flesh", case.pasted.title)
    for item in case.items:
        if _WHITE.search(f"{item.food.food} {item.said} {' '.join(i.text for i in item.lines)}"):
            yield finding("white-flesh", item.said, line=item.line)


def not_understood(case: Case) -> Iterator[Finding]:
    """Pieces that nobody understood: a whole ingredient blocks a verdict, a word of one is told."""
    parts = {(one.line, text) for one in case.pasted.lines if one.food for text in one.left_over}
    for line, text in case.pasted.not_understood:
        empty = not _WORDS.sub("", _AMOUNT_WORDS.sub("", text.lower())).strip(" .,;:-/()\"'")
        part = (line, text) in parts or not _AMOUNT.match(text) or _TIME.search(text) or empty
        if (line, text) in parts and _WEIGHS.search(text.lower()):
            part = False
        yield finding("part-not-understood" if part else "not-understood", text, line=line)


_AMOUNT_WORDS = re.compile(r"[\d½⅓¼¾⅔⅛./]+")
_WORDS = re.compile(
    r"\b(?:lbs?|oz|g|kg|c|cups?|tsp|tbsp|t|qts?|quarts?|pts?|pints?|in|inch|pods?|of|the|a|and|dial)\b"
)
# Words that change an amount: beside a food that is understood they are not let pass.
_WEIGHS = re.compile(
    r"\b(?:minus|another|extra|twice|double|triple|strength|dilut\w*|cut|half|pounds?|lbs?|tbsp|cups?)\b"
)
_AMOUNT = re.compile(r"\s*(?:about\s+)?[\d½⅓¼¾⅔⅛]")
_TIME = re.compile(
    r"\b\d+\s*(?:h|hrs?|hours?|min|mins|minutes|sec|days?|weeks?|°|in\.?|inch|cm|lbs?\s+(?:dial|weighted))\b"
    r"|\bat\s+\d+|jars?\b|canner\b", re.IGNORECASE,
)  # fmt: skip


def absurd(case: Case) -> Iterator[Finding]:
    """Amounts beyond any kitchen."""
    for line in case.pasted.lines:
        amount = line.high
        if amount is None:
            continue
        cups = amount.value / CUP if amount.kind == "volume" else Fraction(0)
        if cups > _MANY_CUPS or amount.value <= 0:
            yield finding("absurd", line.food_said or line.text, got=line.text, line=line.line)


RULES = (
    barred_everywhere, oil, puree, puree_of, without_process, extras, white_flesh, not_understood,
    absurd,
)  # fmt: skip
