"""An amount by cup and by scale, rounded the way a kitchen rounds; acid never down."""

from dataclasses import dataclass
from fractions import Fraction

from stillroom.foods.vocabulary import Food, as_bought, cup_grams, find_food
from stillroom.recipes.model import Ingredient
from stillroom.recipes.packing import Range, cups_of
from stillroom.recipes.wording import POURED
from stillroom.units.amounts import CUP, MILLILITRE, OUNCE, Amount
from stillroom.units.speech import counted, mixed, say

# Steps of a kitchen scale: up to so many grams, in steps of so many.
_GRAMS: tuple[tuple[Fraction | None, Fraction], ...] = (
    (Fraction(3), Fraction(1, 2)),
    (Fraction(20), Fraction(1)),
    (None, Fraction(5)),
)
_QUARTER = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class Measured:
    """One ingredient of one jar.

    ``amount`` is exact, as the recipe writes it; ``as_bought`` tells whether it counts the food
    untrimmed. ``cups`` is the prepared food by measure and ``grams`` by weight, each ``None``
    where no cup weight joins them. ``acid`` is never said below its exact amount.
    """

    food: str
    prep: str
    amount: Amount
    as_bought: bool
    optional: bool
    cups: Amount | None
    grams: Fraction | None
    acid: bool
    poured: bool

    @property
    def by_cup(self) -> str:
        """By measuring cup, spoon or count; "" where it cannot be said."""
        if self.amount.kind == "count":
            return say(self.amount, round_up=True)
        return say(self.cups, round_up=self.acid, poured=self.poured) if self.cups else ""

    @property
    def by_weight(self) -> str:
        """Grams and ounces of the prepared food; "" where it cannot be said."""
        return weight(self.grams, self.acid) if self.grams is not None else ""

    @property
    def as_purchased(self) -> str:
        """The weight before trimming; "" where it is no other, or not known."""
        if self.amount.kind == "weight" and self.as_bought:
            return weight(self.amount.value)
        if self.grams is None or self.acid or self.poured:
            return ""
        bought = as_bought(find_food(self.food), self.grams)
        return weight(bought) if bought != self.grams else ""

    @property
    def said(self) -> str:
        """Both in one line; a weight as bought is told first, as the recipe does.

        Examples
        --------
        >>> from stillroom.recipes.line import read_line
        >>> measured_line(read_line("carrots, sliced, 1/2 cup", "line 1"), Fraction(1)).said
        '1/2 cup, 60 g (2 1/4 oz)'
        """
        parts = [part for part in (self.by_cup, self.by_weight) if part]
        if self.amount.kind == "weight" and self.as_bought:
            return f"{weight(self.amount.value)} as bought, about {self.by_weight} prepared"
        if self.amount.kind == "weight":
            parts = [self.by_weight, f"about {self.by_cup}" if self.by_cup else ""]
        return ", ".join(part for part in parts if part)


def measured(
    food: Food, prep: str, amount: Amount, *, bought: bool, optional: bool = False
) -> Measured:
    """An amount of a food by cup and by weight.

    Parameters
    ----------
    food : from the food list
    prep : how it is cut
    amount : exact
    bought : whether it counts the food untrimmed

    Returns
    -------
    Measured : of the prepared food

    Source
    ------
    Cup weights and refuse of USDA SR28 (``foods``).
    """
    cups, grams = None, None
    if amount.kind == "weight":
        grams = amount.value * (1 - food.refuse) if bought else amount.value
        cups = cups_of(food, prep, grams)
    elif amount.kind == "volume":
        cups = amount
        cup = cup_grams(food, prep)
        grams = amount.value / CUP * cup if cup else None
    acid = food.kind == "acid"
    poured = food.kind in POURED
    return Measured(food.food, prep, amount, bought, optional, cups, grams, acid, poured)


def measured_line(line: Ingredient, times: Fraction) -> Measured:
    """A recipe's ingredient, so many times."""
    return measured(
        find_food(line.food),
        line.prep,
        line.amount * times,
        bought=line.as_bought,
        optional=line.optional,
    )


def weight(grams: Fraction, up: bool = False) -> str:
    """A weight on a kitchen scale: 5 g steps (finer under 20 g) and quarter ounces.

    Parameters
    ----------
    grams : exact, g
    up : never below the exact weight, as acid needs it

    Source
    ------
    Common practice: the steps of a kitchen scale.

    Examples
    --------
    >>> weight(Fraction(64)), weight(Fraction(3)), weight(Fraction(1009))
    ('65 g (2 1/4 oz)', '3 g', '1010 g (2 lb 3 1/2 oz)')
    >>> weight(Fraction(61, 2), up=True)
    '31 g (1 1/4 oz)'
    """
    # Acid to the gram: rounded up by five, two spoons would become two and a third.
    steps = _GRAMS[:1] if up and grams < 3 else ((None, Fraction(1)),) if up else _GRAMS
    step = next(step for below, step in steps if below is None or grams < below)
    metric = _stepped(grams, step, up)
    said = f"{float(metric):g} g"
    ounces = _stepped(grams / OUNCE, _QUARTER, up)
    if ounces < _QUARTER * 2:
        # A quarter ounce is more than such a pinch.
        return said
    pounds, rest = divmod(ounces, 16)
    parts = [f"{pounds} lb" if pounds else "", f"{mixed(rest)} oz" if rest else ""]
    return f"{said} ({' '.join(part for part in parts if part)})"


def _stepped(value: Fraction, step: Fraction, up: bool) -> Fraction:
    """The nearest step, or the next at or above; what is more than nothing is never nothing."""
    count = -(-value // step) if up else round(value / step)
    return step * (count if count or not value else 1)


def volume(cubic_meters: float, up: bool = False) -> str:
    """A poured volume in cups and milliliters.

    Examples
    --------
    >>> volume(0.000355)
    '1 1/2 cups (355 mL)'
    """
    milliliters = Fraction(cubic_meters * 1e6)
    said = say(Amount(milliliters * MILLILITRE, "tsp"), round_up=up)
    return f"{said} ({_stepped(milliliters, Fraction(5), up)} mL)"


def between(held: Range) -> str:
    """An estimate of a poured volume: quarter cups, the least rounded down and the most up.

    Parameters
    ----------
    held : m3

    Examples
    --------
    >>> between(Range(0.000620, 0.000665)), between(Range(0.00001, 0.00004))
    ('2 1/2 to 3 cups (620 to 665 mL)', '0 to 3 Tbsp (10 to 40 mL)')
    """
    low, high = (Fraction(end * 1e6) * MILLILITRE for end in (held.low, held.high))
    small = high < CUP / 2
    step, name = (Fraction(3), "Tbsp") if small else (CUP / 4, "cup")
    size = Fraction(3) if small else CUP
    least, most = (low // step) * step / size, -(-high // step) * step / size
    metric = [held.low * 1e6 // 5 * 5, -(-held.high * 1e6 // 5) * 5]
    ml = " to ".join(dict.fromkeys(f"{round(end)}" for end in metric))
    ends = [mixed(least)] * (least != most) + [counted(most, name)]
    return f"{' to '.join(ends)} ({ml} mL)"
