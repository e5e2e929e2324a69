"""Amounts of a recipe made comparable with printed ones: spoons, cups, pounds."""

from fractions import Fraction

from stillroom.foods.vocabulary import Food, cup_grams, measures
from stillroom.recipes.pasted import PastedLine
from stillroom.units.amounts import CUP, POUND, Amount

# Grams in a teaspoon of citric acid: 1/2 tsp is about 2.1 to 2.4 g (from memory); the lower.
_CITRIC_GRAMS = Fraction(21, 5)


def spoons(line: PastedLine) -> Fraction | None:
    """US teaspoons of a line; a weight only for citric acid; ``None`` where it has no measure."""
    amount = line.low
    if amount is None:
        return None
    if amount.kind == "volume":
        return amount.value
    if amount.kind == "weight" and line.food == "citric acid":
        return amount.value / _CITRIC_GRAMS
    return None


def told(value: Fraction, kind: str) -> str:
    """An amount in teaspoons or grams as a kitchen says it.

    Examples
    --------
    >>> told(Fraction(96), "volume"), told(Fraction(907), "weight"), told(Fraction(1), "volume")
    ('2 cups', '2 lb', '1 tsp')
    """
    if kind == "weight":
        pounds = float(value / POUND)
        return f"{pounds:.2g} lb"
    if kind != "volume":
        return f"{float(value):g}"
    for unit, size in (("cup", CUP), ("Tbsp", Fraction(3)), ("tsp", Fraction(1))):
        if value >= size / 2 * (1 if unit == "cup" else 2):
            count = float(value / size)
            return f"{count:.2g} {unit}{'s' if unit == 'cup' and count > 1 else ''}"
    return f"{float(value):.2g} tsp"


def as_kind(food: Food, prep: str, amount: Amount, kind: str) -> Fraction | None:
    """An amount in teaspoons ("volume") or grams ("weight"); ``None`` where no cup weight is known.

    Source
    ------
    Cup weights: ``foods/data/measures.csv`` (USDA SR28).
    """
    if amount.kind == kind and (kind != "count" or amount.unit):
        return amount.value
    if kind == "count":
        return None
    grams = cup_grams(food, prep)
    if amount.kind == "count":
        piece = _piece_grams(food) if amount.unit == "each" else None
        if piece is None:
            return None
        amount = Amount(amount.value * piece, "g")
        if kind == "weight":
            return amount.value
    if grams is None:
        return None
    if kind == "weight":
        return amount.value / CUP * grams
    return amount.value / grams * CUP


def _piece_grams(food: Food) -> Fraction | None:
    """Grams of one piece of middling size, as the composition tables weigh it."""
    of_food = [m for m in measures() if food.ndb and m.ndb == food.ndb]
    for word in ("medium", "whole", food.food.removesuffix("s")):
        for m in of_food:
            if m.measure.split(",")[0].split("(")[0].strip() == word:
                return m.grams / m.amount
    return None
