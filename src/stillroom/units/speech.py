"""Kitchen amounts as a kitchen says them: rounded to what a spoon or cup set measures."""

from fractions import Fraction
from functools import lru_cache

from stillroom.units.amounts import COUNTS, CUP, MILLILITRE, OUNCE, POUND, QUART, Amount

# For each measure: up to how many of it are said (below), which parts of one are said, and from
# where on only coarser parts are. Nobody owns a third-teaspoon; a third of a Tbsp is a teaspoon.
_QUARTERS = tuple(Fraction(n, 4) for n in range(4))
_THIRDS = tuple(sorted({*_QUARTERS, Fraction(1, 3), Fraction(2, 3)}))
_HALVES = (Fraction(0), Fraction(1, 2))
_EIGHTHS = tuple(Fraction(n, 8) for n in range(8))
# Two Tbsp are an eighth of a cup.
_SMALL_CUPS = tuple(sorted({*_THIRDS, *_EIGHTHS}))
_LADDER: tuple[tuple[str, Fraction, Fraction | None, tuple[Fraction, ...]], ...] = (
    ("tsp", Fraction(1), Fraction(1, 4), _EIGHTHS),
    ("tsp", Fraction(1), Fraction(3), _QUARTERS),
    (
        "Tbsp",
        Fraction(3),
        Fraction(4),
        (Fraction(0), Fraction(1, 3), Fraction(1, 2), Fraction(2, 3)),
    ),
    ("cup", CUP, Fraction(1), _SMALL_CUPS),
    ("cup", CUP, Fraction(8), _THIRDS),
    ("cup", CUP, Fraction(16), _HALVES),
    ("quart", QUART, Fraction(8), _QUARTERS),
    ("quart", QUART, None, _HALVES),
)

_DRY_LADDER = (*_LADDER[:-3], ("cup", CUP, None, _HALVES))


# A page says the same amounts again and again, and the nearest measure is sought among hundreds.
@lru_cache(maxsize=8192)
def say(amount: Amount, *, round_up: bool = False, poured: bool = True) -> str:
    """The amount rounded and said as a kitchen does.

    Parameters
    ----------
    amount : any
    round_up : never say less than the exact amount, as acid needs it
    poured : a liquid, said in quarts from 4 quarts on; anything else stays in cups

    Returns
    -------
    str : volumes in tsp, Tbsp, cups or quarts with parts a measuring set has; weights in lb to
        one decimal, in oz under half a pound, in g under a quarter ounce; counts in halves,
        rounded up in wholes. An amount above nothing is never said as nothing.

    Source
    ------
    Common practice: the measures of an ordinary spoon and cup set.

    Examples
    --------
    >>> from stillroom.units.amounts import parse_amount
    >>> say(parse_amount("27 Tbsp")), say(parse_amount("2.2 tsp")), say(parse_amount("38 cups"))
    ('1 2/3 cups', '2 1/4 tsp', '9 1/2 quarts')
    >>> say(parse_amount("805 g")), say(parse_amount("100 g")), say(parse_amount("5 cloves"))
    ('1.8 lb', '3 1/2 oz', '5 cloves')
    """
    if amount.kind == "volume":
        return _volume(amount.value, round_up, poured)
    if amount.kind == "weight":
        return _weight(amount.value, round_up)
    steps = (Fraction(0),) if round_up else _HALVES
    number = _nearest(amount.value, steps, round_up)
    return counted(number, amount.unit)


def counted(number: Fraction, unit: str) -> str:
    """A number with its word in the right number: "1 clove", "2 1/2 heads", "3".

    Examples
    --------
    >>> counted(Fraction(5, 2), "leaf"), counted(Fraction(1, 2), "cup"), counted(Fraction(3), "lb")
    ('2 1/2 leaves', '1/2 cup', '3 lb')
    """
    if unit == "each":
        return mixed(number)
    many = COUNTS.get(unit) or (unit if unit in ("tsp", "Tbsp", "lb", "oz", "g") else f"{unit}s")
    return f"{mixed(number)} {many if number > 1 else unit}"


def mixed(number: Fraction) -> str:
    """A number as a whole and a part: 5/2 is "2 1/2".

    Examples
    --------
    >>> mixed(Fraction(5, 2)), mixed(Fraction(3)), mixed(Fraction(2, 3))
    ('2 1/2', '3', '2/3')
    """
    whole, part = divmod(number, 1)
    return " ".join(str(p) for p in (whole, part) if p) or "0"


def say_metric(amount: Amount) -> str:
    """The amount in ml or l, g or kg; a count as it is.

    Examples
    --------
    >>> from stillroom.units.amounts import parse_amount
    >>> say_metric(parse_amount("1 cup")), say_metric(parse_amount("2 lb"))
    ('237 ml', '0.91 kg')
    """
    if amount.kind == "count":
        return say(amount)
    volume = amount.kind == "volume"
    small, large = ("ml", "l") if volume else ("g", "kg")
    value = float(amount.value / MILLILITRE if volume else amount.value)
    if value >= 900:
        return f"{value / 1000:.2f} {large}"
    return f"{value:.0f} {small}" if value >= 10 else f"{value:.1f} {small}"


def _nearest(number: Fraction, parts: tuple[Fraction, ...], round_up: bool) -> Fraction:
    """The nearest number with one of these parts, or the next one at or above."""
    whole = number // 1
    ends = [whole + part for part in (*parts, Fraction(1))]
    if round_up:
        return min(end for end in ends if end >= number)
    return min((end for end in ends if end or not number), key=lambda end: abs(end - number))


def _volume(teaspoons: Fraction, round_up: bool, poured: bool) -> str:
    for word, size, below, parts in _LADDER if poured else _DRY_LADDER:
        number = _nearest(teaspoons / size, parts, round_up)
        # Rounding may reach the next measure: 2.95 tsp is 1 Tbsp.
        if below is None or number < below:
            if word == "cup" and number < 4 and _far(number * size, teaspoons):
                return _cups_and_spoons(teaspoons, round_up, poured)
            return counted(number, word)
    raise AssertionError("the last rung of the ladder has no end")


def _far(said: Fraction, meant: Fraction) -> bool:
    """Whether rounding would change an amount by more than a twentieth."""
    return abs(said - meant) * 20 > meant


def _cups_and_spoons(teaspoons: Fraction, round_up: bool, poured: bool) -> str:
    """Cups to the quarter and the rest in Tbsp: 7/16 cup is "1/4 cup 3 Tbsp"."""
    whole = 3 * _nearest(teaspoons / 3, (Fraction(0),), round_up)
    if whole != teaspoons:
        # In whole Tbsp it may be near a cup measure after all.
        return _volume(whole, round_up, poured)
    cups = (teaspoons / CUP * 4) // 1 / Fraction(4)
    spoons = (teaspoons - cups * CUP) / 3
    return f"{counted(cups, 'cup')} {counted(spoons, 'Tbsp')}" if spoons else counted(cups, "cup")


def _weight(grams: Fraction, round_up: bool) -> str:
    if grams < OUNCE / 4:
        return f"{_nearest(grams, (Fraction(0),), round_up)} g"
    ounces = _nearest(grams / OUNCE, _QUARTERS if grams < OUNCE else _HALVES, round_up)
    if ounces < 8:
        return f"{mixed(ounces)} oz"
    tenths = _nearest(grams / POUND * 10, (Fraction(0),), round_up)
    return f"{float(tenths / 10):.1f}".removesuffix(".0") + " lb"
