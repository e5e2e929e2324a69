"""Amounts in a row of tokens: numbers, ranges and sums with their units."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stillroom.recipes.text.tokens import Token
from stillroom.recipes.text.units import (
    DASHES,
    HOLDERS,
    SIZES,
    UNITS,
    amount_of,
    behind_dot,
    skip,
    unit_at,
)
from stillroom.units.amounts import COUNTS, LARGEST, Amount

NUMBERS = {
    word: Fraction(number)
    for number, word in enumerate(
        "one two three four five six seven eight nine ten eleven twelve".split(), 1
    )
} | {"fifteen": Fraction(15), "sixteen": Fraction(16), "twenty": Fraction(20)}
_PARTS = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
_ABOUT = frozenset(
    "about approx approximately around roughly nearly almost scant heaping heaped level generous "
    "rounded another additional extra full packed firmly lightly loosely good".split()
)
_ONE_OF = frozenset("pinch dash handful splash".split())
_BIG = frozenset(
    "large lg medium med small sm big little whole good jumbo generous heaping heaped scant level "
    "rounded packed full fat thick thin long short fresh new regular size sized".split()
)


@dataclass(frozen=True, slots=True)
class Measured:
    """An amount found at ``start`` up to ``end`` of the tokens.

    ``bare`` tells that no unit was said, ``extra`` the size words between number and unit, and
    ``remark`` a size in parentheses that was counted in.
    """

    low: Amount
    high: Amount
    unit_said: str
    unit: str
    start: int
    end: int
    bare: bool = False
    extra: str = ""
    remark: str = ""


def _quantity(row: Sequence[Token], at: int) -> tuple[Fraction, int] | None:
    """A number in digits or words."""
    at = skip(row, at)
    if at >= len(row):
        return None
    token = row[at]
    after = skip(row, at + 1)
    following = row[after].plain if after < len(row) else ""
    if token.sort == "number":
        value = token.value
        # "1 and 1/2 cups"
        if following == "and" and value == int(value):
            part = skip(row, after + 1)
            if part < len(row) and row[part].sort == "number" and row[part].value < 1:
                return value + row[part].value, part + 1
            if part + 2 < len(row) and row[part].plain in ("a", "one"):
                half = skip(row, part + 1)
                if half < len(row) and row[half].plain in _PARTS:
                    return value + _PARTS[row[half].plain], half + 1
        return value, at + 1
    if token.sort != "word":
        return None
    if token.plain in NUMBERS:
        if following in _PARTS and token.plain == "one":
            return _PARTS[following], after + 1
        if following == "and":
            # "one and a half cups"
            part = skip(row, after + 1)
            half = skip(row, part + 1)
            if half < len(row) and row[part].plain in ("a", "one") and row[half].plain in _PARTS:
                return NUMBERS[token.plain] + _PARTS[row[half].plain], half + 1
        return NUMBERS[token.plain], at + 1
    if token.plain in ("half", "quarter"):
        # "half a cup", "half cup": the article goes with it; "half-pint" jars are no amount.
        if following in ("a", "an"):
            return _PARTS[token.plain], after + 1
        if unit_at(row, after)[0] and unit_at(row, after)[0] not in ("pint", "gallon"):
            return _PARTS[token.plain], at + 1
        return None
    if token.plain in ("a", "an"):
        if following in _PARTS:
            return _PARTS[following], after + 1
        if following in ("few", "couple"):
            value = Fraction(3 if following == "few" else 2)
            end = after + 1
            of = skip(row, end)
            return value, of + 1 if of < len(row) and row[of].plain == "of" else end
        place = after
        while place < len(row) and row[place].plain in _BIG:
            place = skip(row, place + 1)
        if unit_at(row, place)[0]:
            return Fraction(1), at + 1
    return None


def measured_at(row: Sequence[Token], at: int, *, alone: bool = False) -> Measured | None:
    """The amount that begins here, or nothing.

    Parameters
    ----------
    row : tokens
    at : place in the row
    alone : whether an amount must have its unit to count

    Returns
    -------
    Measured or None : a bare number counts pieces; inches, degrees, percents and minutes are none

    Examples
    --------
    >>> from stillroom.recipes.text.tokens import tokens
    >>> measured_at(tokens("2 lb 8 oz"), 0).high == measured_at(tokens("40 oz"), 0).high
    True
    >>> measured_at(tokens("1 in."), 0) is None
    True
    """
    start = at = skip(row, at)
    if at < len(row) and row[at].text == "~":
        at = skip(row, at + 1)
    while at < len(row) and row[at].plain in _ABOUT and row[at].sort == "word":
        at = skip(row, behind_dot(row, at + 1))
    first = _quantity(row, at)
    if first is None and at < len(row) and row[at].plain in _ONE_OF:
        # "pinch of thyme"
        first = Fraction(1), at
    if first is None:
        return None
    low, end = first
    high = low
    span = _second(row, end)
    if span:
        high, end = span
        if high < low:
            low, high = high, low
    if high > LARGEST:
        return None
    return _with_unit(row, start, end, low, high, alone)


def _second(row: Sequence[Token], end: int) -> tuple[Fraction, int] | None:
    """The upper end of a range."""
    sign = skip(row, end)
    if sign >= len(row):
        return None
    if row[sign].text in DASHES or row[sign].plain in ("to", "or"):
        upper = skip(row, sign + 1)
        digits = upper < len(row) and (row[upper].sort == "number" or row[upper].plain in NUMBERS)
        if digits:
            return _quantity(row, upper)
    return None


def _with_unit(
    row: Sequence[Token], start: int, end: int, low: Fraction, high: Fraction, alone: bool
) -> Measured | None:
    place = skip(row, end)
    # "14-ounce can", "3 (12-oz) cans", "2 x 400 g"
    if place < len(row) and row[place].text in DASHES:
        place = skip(row, place + 1)
        if not unit_at(row, place)[0]:
            place = skip(row, end)
    sized = _sized(row, place, start, low, high)
    if sized:
        return sized
    extra_from = place
    if not unit_at(row, place, high)[0]:
        while place < len(row) and row[place].sort == "word" and row[place].plain in _BIG:
            place = skip(row, behind_dot(row, place + 1))
    unit, said, after = unit_at(row, place, high)
    if unit == "dozen":
        low, high = low * 12, high * 12
        place = extra_from = after
        inner, inner_said, inner_after = unit_at(row, after, high)
        if inner in COUNTS or inner in UNITS:
            unit, said, after = inner, inner_said, inner_after
        else:
            return Measured(Amount(low, "each"), Amount(high, "each"), said, "each", start, after)
    if not unit:
        if alone or _no_amount(row, extra_from):
            return None
        return Measured(
            Amount(low, "each"), Amount(high, "each"), "", "each", start, end, bare=True
        )
    extra = "".join(t.text for t in row[extra_from:place]).strip()
    held = _held(row, after) if unit in HOLDERS else None
    if held:
        each, remark, end = held
        return Measured(
            each * low, each * high, said, each.unit, start, end, extra=extra, remark=remark
        )
    lower, upper = amount_of(low, unit), amount_of(high, unit)
    made = Measured(lower, upper, said, unit, start, after, extra=extra)
    return _summed(row, made)


def _sized(
    row: Sequence[Token], place: int, start: int, low: Fraction, high: Fraction
) -> Measured | None:
    """A count of holders whose size is said: "2 (14 oz) cans", "2 14-oz cans", "2 x 400 g"."""
    if place >= len(row):
        return None
    opened = row[place].text == "("
    times = row[place].plain in ("x", "×") or row[place].text == "×"
    inner = skip(row, place + 1) if opened or times else place
    if inner >= len(row) or row[inner].sort != "number":
        return None
    value = row[inner].value
    dash = skip(row, inner + 1)
    if dash < len(row) and row[dash].text in DASHES:
        dash += 1
    unit, said, after = unit_at(row, dash, value)
    if unit not in SIZES:
        return None
    if opened:
        after = skip(row, after)
        holder = unit_at(row, after)
        if holder[0] in HOLDERS:
            after = skip(row, holder[2])
        if after >= len(row) or row[after].text != ")":
            return None
        remark = "".join(t.text for t in row[place : after + 1])
        after += 1
    else:
        remark = "".join(t.text for t in row[inner:after])
        dash = after
        if dash < len(row) and row[dash].text in DASHES:
            after += 1
    vessel, holder_said, holder_end = unit_at(row, after)
    if vessel not in HOLDERS and not times:
        return None
    if vessel in HOLDERS:
        after = holder_end
    base, size = SIZES[unit]
    each = value * size
    return Measured(
        Amount(low * each, base),
        Amount(high * each, base),
        holder_said or said,
        unit,
        start,
        after,
        remark=remark,
    )


def _held(row: Sequence[Token], at: int) -> tuple[Amount, str, int] | None:
    """What a holder holds, behind it in parentheses: "2 cans (15 oz each)"."""
    at = skip(row, at)
    inner = skip(row, at + 1)
    if inner >= len(row) or row[at].text != "(" or row[inner].sort != "number":
        return None
    dash = skip(row, inner + 1)
    if dash < len(row) and row[dash].text in DASHES:
        dash += 1
    unit, _, after = unit_at(row, dash, row[inner].value)
    after = skip(row, after)
    if after < len(row) and row[after].plain == "each":
        after = skip(row, after + 1)
    if unit not in SIZES or after >= len(row) or row[after].text != ")":
        return None
    remark = "".join(t.text for t in row[at : after + 1])
    return amount_of(row[inner].value, unit), remark, after + 1


def _summed(row: Sequence[Token], first: Measured) -> Measured:
    """ "2 lb 8 oz", "1 cup plus 2 Tbsp": a second amount of the same kind, in a smaller unit."""
    if first.unit not in SIZES:
        return first
    place = skip(row, first.end)
    joined = place < len(row) and (row[place].text in "+&" or row[place].plain in ("plus", "and"))
    if joined:
        place = skip(row, place + 1)
    if place >= len(row) or row[place].sort != "number":
        return first
    unit, said, after = unit_at(row, place + 1, row[place].value)
    if unit not in SIZES or SIZES[unit][0] != first.high.unit:
        return first
    if SIZES[unit][1] >= SIZES[first.unit][1]:
        return first
    more = amount_of(row[place].value, unit)
    said = "".join(t.text for t in row[first.start : after])
    return Measured(
        first.low + more, first.high + more, said, first.unit, first.start, after,
        extra=first.extra,
    )  # fmt: skip


_NOT_FOOD = frozenset(
    "in inch inches min mins minute minutes hr hrs hour hours second seconds sec secs day days "
    "week weeks month months degrees degree f psi percent times ft feet foot lbs watts people "
    "servings cm mm".split()
)


def _no_amount(row: Sequence[Token], place: int) -> bool:
    """Whether the number before is inches, minutes, degrees or percent."""
    place = skip(row, place)
    if place < len(row) and row[place].text in DASHES:
        place = skip(row, place + 1)
    if place >= len(row):
        return False
    return row[place].text in ('"', "”", "″", "%", "°", "'", "′") or row[place].plain in _NOT_FOOD
