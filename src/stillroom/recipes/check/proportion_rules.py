"""Rules of proportion: acid, water, vegetables, salt, sugar and starch against the printed recipe.

A recipe may be made in any size. Its size is told by the foods that make it what it is (tomatoes of
a salsa, cucumbers of a pickle), each against its printed amount; every other amount is then held
against the printed one at that size.
"""

import re
from collections.abc import Iterator
from fractions import Fraction

from stillroom.recipes.check.amounts import as_kind, told
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.tables import Proportion, proportions
from stillroom.recipes.pasted import PastedLine
from stillroom.units.amounts import Amount

_NOT_FOOD = frozenset(
    ["acid", "salt", "sugar", "starch", "oil", "water", "liquid", "brine", "herbs"]
)
_ANCHORS = ("at least", "about", "exactly")
_LEMON = frozenset(["bottled lemon juice", "bottled lime juice"])
# Cups, spoons and scales of a kitchen; a cup of one cut against a pound of another.
_CUBE_GRAMS = 7  # a 3/4-inch cube of pork, at the density of water
_JARS_OF_A_BATCH = 9  # pints of a canner load, as the guides' batches are
_SALTED = ("at least", "exactly")  # of a ferment
_MORE = re.compile(r"\b(?:or|and|plus)\s+(?:\w+\s+)?(?:more|extra|another)\b|\bat\s+least\b")
_APART = Fraction(
    3, 2
)  # one food of a batch, against another, before the printed proportion is given up
_SAME_UNIT, _OTHER_UNIT = Fraction(103, 100), Fraction(125, 100)


def proportion(case: Case) -> Iterator[Finding]:
    """Each printed amount of the batch against what is written."""
    if not case.target:
        return
    printed = [one for one in proportions(*case.target) if one.per == "batch"]
    plain = [row for row in printed if not row.choice]
    # Some recipes are printed in several ways, of which one is followed: the one that fits best.
    ways = [
        [*plain, *(row for row in printed if row.choice == choice)]
        for choice in dict.fromkeys(row.choice for row in printed if row.choice)
    ]
    followed = [
        way
        for way in ways
        if any(row.choice and _is_food(row) and _lines(case, row) for row in way)
    ]
    tried = [list(_against(case, way)) for way in followed or ways or [plain]]
    yield from min(tried, key=_badness)


def _is_food(row: Proportion) -> bool:
    """Whether a row is a food that tells how large the batch is."""
    seasoning = row.group in _NOT_FOOD or row.group.startswith("acid")
    return not seasoning and "water" not in row.ingredient


def _badness(found: list[Finding]) -> tuple[int, int]:
    return (sum(one.kind == "barred" for one in found), len(found))


def _against(case: Case, rows: list[Proportion]) -> Iterator[Finding]:
    """One printed way of the recipe against what is written."""
    sizes = [told for row in rows if (told := _size(case, row)) is not None]
    anchors = [one for one in sizes if one[2].rule in _ANCHORS]
    unclear = [
        row for row in rows
        if _is_food(row) and row.rule != "may vary" and _lines(case, row)
        and all(row is not one[2] for one in sizes)
    ]  # fmt: skip
    if not sizes and any(_is_food(row) for row in rows):
        if unclear or any(row.group.startswith("acid") for row in rows):
            yield finding("amount-unclear", _main(case))
        return
    for row in unclear:
        if row.rule in _ANCHORS and not anchors:
            yield finding("amount-unclear", _lines(case, row)[0].said)
    # A recipe of which only the acid is printed is taken as one batch. Of "3 to 5 lb", and of two
    # foods that tell different sizes, acid must do for the most, vegetables for the least.
    tell = anchors or [one for one in sizes if one[2].rule != "may vary"][:1] or sizes[:1]
    least = min((one[0] for one in tell), default=Fraction(1))
    most = max((one[1] for one in tell), default=Fraction(1))
    for row in rows:
        if row.group.startswith("acid"):
            yield from _acid_row(case, row, most)
        else:
            yield from _held(case, row, least if row.rule == "at most" else most)
    for row in rows:
        if row.rule in _ANCHORS and _is_food(row) and not row.choice and not _told(case, row):
            yield finding("missing", row.ingredient[0], food=case.food_name)
    apart = [one for one in anchors if one[2].rule == "about"]
    if apart and most > least * _APART:
        low = min(anchors, key=lambda one: one[0])
        high = max(anchors, key=lambda one: one[1])
        yield finding("amounts-apart", _lines(case, high[2])[0].said,
                      other=_lines(case, low[2])[0].said)  # fmt: skip


def _size(case: Case, row: Proportion) -> tuple[Fraction, Fraction, Proportion] | None:
    """How many times the printed batch this food is, least and most, where it tells that at all."""
    if not _is_food(row):
        return None
    low, high = _amount(case, row, low=True), _amount(case, row, low=False)
    return (low / row.amount.value, high / row.amount.value, row) if low and high else None


def _main(case: Case) -> str:
    return next((i.said for i in case.items if i.lines), case.food_name)


def _lines(case: Case, row: Proportion) -> list[Item]:
    return [item for item in case.items if item.lines and _counts(item, row)]


def _counts(item: Item, row: Proportion) -> bool:
    """Whether a food is counted for a row; "beans" is, for a row of snap beans."""
    loose, _, untold = item.food.food.partition(", ")
    meant = untold == "kind not told" and any(loose in name for name in row.ingredient)
    return meant or item.food.food in row.ingredient


def _amount(case: Case, row: Proportion, *, low: bool) -> Fraction | None:
    """What is written of a printed food, in the printed kind; ``None`` where that is unclear."""
    total, seen = Fraction(0), False
    counted: list[PastedLine] = []
    for item in _lines(case, row):
        for line in item.lines:
            amount = line.low if low else line.high
            # "Celery or green pepper" is one line of two foods.
            if line in counted or (line.joint and amount is None):
                continue
            counted.append(line)
            if amount is None:
                amount = _borrowed(case, line)
                if amount is None and any(line.line == one.line for one in counted[:-1]):
                    continue
            if amount is None or line.per:
                return None
            got = as_kind(item.food, line.prep, amount, row.amount.kind)
            if got is None or _other_pieces(amount, row.amount):
                return None
            total, seen = total + got, True
    return total if seen else None


def _other_pieces(amount: Amount, printed: Amount) -> bool:
    """Whether two counts are of different things: heads of garlic are no cloves."""
    both = amount.kind == printed.kind == "count"
    return both and "each" not in (amount.unit, printed.unit) and amount.unit != printed.unit


def _borrowed(case: Case, line: PastedLine) -> Amount | None:
    """The amount of a food that shares its line's: "1/2 c each onion, celery, green pepper"."""
    written = case.source_line(line.line)
    before = [one for one in case.pasted.lines if one.line == line.line]
    earlier = before[: before.index(line)] if line in before else []
    given = next((one.high for one in reversed(earlier) if one.high is not None), None)
    if given is None or line.to_taste or line.to_cover:
        return None
    each = re.search(r"\bea(?:ch)?\b", written)
    return given if each else Amount(Fraction(0), given.unit)


def _room(case: Case, row: Proportion) -> Fraction:
    """By what factor amounts may differ: more where a cup had to be weighed."""
    kinds = {line.high.kind for i in _lines(case, row) for line in i.lines if line.high}
    return _SAME_UNIT if kinds <= {row.amount.kind} else _OTHER_UNIT


def _held(case: Case, row: Proportion, size: Fraction) -> Iterator[Finding]:
    items = _lines(case, row)
    got = _amount(case, row, low=row.rule == "at least")
    if not items and row.rule == "at least" and row.group in ("salt", "sugar"):
        other = next((i.said for i in case.with_role("sweetener") if i.lines), row.group)
        yield finding(f"less-{row.group}", other, got="none",
                      want=told(row.amount.value * size, row.amount.kind))  # fmt: skip
        return
    if got is None:
        unclear = [i for i in items if row.rule == "at most" and row.group not in ("salt", "herbs")]
        unclear += [i for i in items if row.rule in _SALTED and row.group == "salt"]
        if not items and row.rule == "at most" and (_is_food(row) or row.group == "oil"):
            # Named in the method alone: nobody knows how much of it goes in.
            unclear += [i for i in case.items if _counts(i, row) and _in_method(case, i)]
        for item in unclear[:1]:
            yield finding("amount-unclear", item.said, line=item.line)
        return
    open_end = next((i for i in items for line in i.lines if _MORE.search(line.text.lower())), None)
    if open_end and row.rule == "at most" and row.group not in ("salt", "herbs"):
        yield finding("amount-unclear", open_end.said, line=open_end.line)
    want = row.amount.value * size
    said = items[0].said
    words = {"got": told(got, row.amount.kind), "want": told(want, row.amount.kind)}
    room = _room(case, row)
    if row.rule in ("at most", "exactly") and got > want * room:
        yield finding(_too_much(row), said, line=items[0].line, **words)
    elif row.rule in ("at least", "exactly") and got * room < want:
        rule = {"salt": "less-salt", "sugar": "less-sugar"}.get(row.group)
        if rule:
            yield finding(rule, said, line=items[0].line, **words)


def _told(case: Case, row: Proportion) -> bool:
    return any(one.food in row.ingredient for one in case.pasted.mentions) or bool(
        _lines(case, row)
    )


def _in_method(case: Case, item: Item) -> bool:
    return any(one.food == item.food.food and one.where == "method" for one in case.in_jar)


def _too_much(row: Proportion) -> str:
    if "water" in row.ingredient:
        return "more-water"
    return {"oil": "oil-too-much", "starch": "starch-more"}.get(row.group, "more-low-acid")


def _acid_row(case: Case, row: Proportion, size: Fraction) -> Iterator[Finding]:
    want = row.amount.value * size
    asked = told(want, row.amount.kind)
    items = _lines(case, row)
    got = _amount(case, row, low=True)
    if got is None and items:
        yield finding("amount-unclear", items[0].said, line=items[0].line)
        return
    lemon = bool(_LEMON & set(row.ingredient))
    if not lemon and case.family == "salsa":
        # Bottled lemon or lime juice, the stronger acid, may stand for vinegar measure for measure.
        got = (got or Fraction(0)) + _spoons_of(case, _LEMON)
    if got and got * _room(case, row) >= want:
        return
    others = [i for i in case.with_role("vinegar") if i.lines and lemon]
    if lemon and others and case.family == "salsa":
        yield finding("acid-swap", others[0].said, line=others[0].line, want=asked)
    elif got:
        yield finding("less-acid", items[0].said if items else "acid",
                      got=told(got, row.amount.kind),
                      line=items[0].line if items else 0, want=asked)  # fmt: skip
    else:
        name = "lemon juice" if lemon else "vinegar"
        yield finding("less-acid", f"{name} (acid)", got="none", want=asked)


def _spoons_of(case: Case, foods: frozenset[str]) -> Fraction:
    lines = [line for i in case.items if i.food.food in foods for line in i.lines]
    return sum(
        (one.low.value for one in lines if one.low and one.low.kind == "volume"), Fraction(0)
    )


def jar_limits(case: Case) -> Iterator[Finding]:
    """What one jar may hold at most: a cube of pork, a few pearl onions, a clove of garlic."""
    if not case.target:
        return
    rows = [
        one for one in proportions(*case.target) if one.per != "batch" and one.rule == "at most"
    ]
    groups: dict[str, list[Proportion]] = {}
    for row in rows:
        if not row.group.startswith("acid") and row.per == (case.jar or row.per):
            groups.setdefault("|".join(row.ingredient), []).append(row)
    for same in groups.values():
        items = _lines(case, same[0])
        for item in items:
            for line in item.lines:
                yield from _one_jar(item, line, same)


def _one_jar(item: Item, line: PastedLine, rows: list[Proportion]) -> Iterator[Finding]:
    amount = line.high
    for row in rows:
        if amount is not None and line.per and amount.kind == row.amount.kind:
            if amount.value > row.amount.value * _SAME_UNIT:
                yield finding("more-low-acid", item.said, line=line.line, got=line.text,
                              want=f"{row.written} a {row.per}")  # fmt: skip
            return
    most = 2 * _CUBE_GRAMS * _JARS_OF_A_BATCH
    cubes = rows[0].amount.unit == "piece"
    if cubes and amount is not None and amount.kind == "weight" and amount.value > most:
        yield finding("more-low-acid", item.said, line=line.line, got=line.text,
                      want=f"{rows[0].written} a {rows[0].per}")  # fmt: skip
    else:
        yield finding("amount-unclear", item.said, line=line.line)


def starch_kind(case: Case) -> Iterator[Finding]:
    """Only regular canning starch in a pie filling."""
    if case.family == "pie filling":
        for item in case.with_role("starch", "flour", "thickener"):
            denied = "not instant" in case.text
            if not denied and ("instant" in item.food.food or "instant" in item.said.lower()):
                yield finding("starch-kind", f"instant {item.said}", line=item.line)


_LESS_SUGAR = re.compile(r"\b(?:low|less|reduced|lower|half\s+the)[- ]sugar\b|sugar\s+cut")


def sugar_cut(case: Case) -> Iterator[Finding]:
    """A jam or jelly that says it has less sugar, without the pectin made for that."""
    made_for_it = any(item.food.food == "low-sugar pectin" for item in case.items)
    if case.family in ("jam", "jelly") and _LESS_SUGAR.search(case.text) and not made_for_it:
        yield finding("less-sugar", "sugar", got="less", want="as printed")


def double_batch(case: Case) -> Iterator[Finding]:
    """Jam and jelly are cooked one batch at a time."""
    if case.family in ("jam", "jelly") and case.holds("double batch", "doubled", "triple batch"):
        yield finding("double-batch", "double batch")


RULES = (proportion, jar_limits, starch_kind, sugar_cut, double_batch)
