"""Rules of what may be in the jar: what is barred everywhere, and what this product does not hold."""

from collections.abc import Iterator

from stillroom.processes import names
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.tables import own_words

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
_ALWAYS_FREE = frozenset(["water", "salt", "spice", "herb", "firming agent"])
_MANY_CUPS = 200
PLAIN = "pieces solid whole halved sliced"


def barred_everywhere(case: Case) -> Iterator[Finding]:
    """Thickeners, pasta, rice, grains, bread, dairy and eggs, unless the printed recipe has them."""
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
        if not _allowed(case, item) and "dairy" not in item.food.roles:
            yield finding("oil", item.said, line=item.line)


def puree(case: Case) -> Iterator[Finding]:
    """Purees and mashes of low-acid food have no process."""
    if not case.pasted.facts.pureed or case.family in ("tomato juice blend", "spaghetti sauce"):
        return
    low = case.low_acid or (
        not case.target
        and any(i.food.acidity == "low-acid" and not i.food.roles & _ALWAYS_FREE for i in case.items)
    )
    if low:
        said = next((w for w in ("mashed", "mash", "puree") if w in case.text), "puree")
        about = said if said == "puree" else f"{said} (puree)"
        yield finding("puree", about, food=case.food_name)


def without_process(case: Case) -> Iterator[Finding]:
    """Foods that a published rule names as having no process."""
    for item in case.items:
        if not item.lines or _allowed(case, item):
            continue
        if any(role in item.food.roles for role in (*_BARRED_ROLES, *_FATS)):
            continue
        known = names.find(item.food.food).barred
        if item.food.canning == "never":
            yield finding("never", item.said, why=item.food.why or "it has no process",
                          instead=item.food.instead, source=item.food.canning_source,
                          line=item.line)  # fmt: skip
        elif known and not case.target:
            yield finding("no-own-process", item.said, line=item.line)


def extras(case: Case) -> Iterator[Finding]:
    """Foods that the published product does not hold."""
    if not case.rules_of_base:
        return
    for item in case.items:
        if not item.lines or _allowed(case, item):
            continue
        roles = item.food.roles
        if roles & {*_BARRED_ROLES, *_FATS} or item.food.canning == "never":
            continue
        if "alcohol" in roles:
            yield finding("alcohol", item.said, food=case.food_name, line=item.line)
        elif "fresh herb" in roles or (item.fresh and roles & {"herb", "fresh herb"}):
            yield finding("fresh-herb", item.said, line=item.line)
        elif case.rules_of_base.takes_own_process and item.food.canning != "own process":
            yield finding("no-own-process", item.said, line=item.line)
        else:
            yield finding("extra", item.said, food=case.food_name, line=item.line)


def _allowed(case: Case, item: Item) -> bool:
    base = case.rules_of_base
    return bool(base) and base.holds(item.food, fresh=item.fresh)


def white_flesh(case: Case) -> Iterator[Finding]:
    """White peaches and nectarines."""
    for item in case.items:
        if item.food.food in ("peaches", "nectarines") and any(
            "white" in one.text.lower().split(item.food.food[:5])[0] for one in item.lines
        ):
            yield finding("white-flesh", f"white {item.food.food}", line=item.line)


def not_understood(case: Case) -> Iterator[Finding]:
    """Ingredient lines that hold words or a food nobody knows."""
    for line, text in case.pasted.not_understood:
        yield finding("not-understood", text, line=line)


def absurd(case: Case) -> Iterator[Finding]:
    """Amounts beyond any kitchen."""
    for line in case.pasted.lines:
        amount = line.high
        if amount is None:
            continue
        cups = amount.value / 48 if amount.kind == "volume" else None
        if (cups is not None and cups > _MANY_CUPS) or amount.value <= 0:
            yield finding("absurd", line.food_said or line.text, got=line.unit_said or line.text,
                          line=line.line)  # fmt: skip


def no_base(case: Case) -> Iterator[Finding]:
    """Nothing published is named, or what is named has no row."""
    found = case.found
    if found.barred:
        yield finding("never", found.barred.said, why=found.barred.reason,
                      instead=found.barred.instead,
                      source=f"{found.barred.source}, {found.barred.place}")  # fmt: skip
    elif case.base and not found.targets:
        yield finding("ambiguous-base", case.base, why="; ".join(found.candidates) or "none here")
    elif not found.targets:
        yield from _own_preserve(case)
    elif case.answer and case.answer.refusal and case.answer.refusal.code == "withheld":
        yield finding("withheld", case.food_name, why=case.answer.refusal.reason,
                      source="processes/data/withheld.csv")  # fmt: skip


def _own_preserve(case: Case) -> Iterator[Finding]:
    """What the recipe calls itself, or else its foods, have no published process here."""
    told = [word for word in own_words() if case.holds(word.word)]
    for word in told:
        kind = "never" if word.kind == "barred" else "no-base"
        yield finding(kind, word.word, why=word.why, instead=word.instead,
                      source=f"{word.source_title}: {word.place}")  # fmt: skip
    free = {*_ALWAYS_FREE, "sugar", "acid", "vinegar", "broth"}
    mains = [item for item in case.items if item.lines and not item.food.roles & free]
    alone = [item for item in mains if item.food.canning != "own process"]
    if told or "refrigerator" in case.pasted.facts.methods or "freezer" in case.pasted.facts.methods:
        return
    for item in alone or mains[:1] if len(mains) < 2 else alone:
        yield finding("no-base", item.said, line=item.line)
    if not alone:
        yield finding("no-base", f"{case.pasted.title or 'this recipe'} (mixture)")


RULES = (
    barred_everywhere, oil, puree, without_process, extras, white_flesh, not_understood, absurd,
    no_base,
)  # fmt: skip
