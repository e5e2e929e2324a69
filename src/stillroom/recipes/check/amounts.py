"""Amounts of a recipe made comparable with printed ones: spoons, cups, pounds."""

from fractions import Fraction

from stillroom.foods.vocabulary import Food, cup_grams
from stillroom.recipes.pasted import PastedLine
from stillroom.units.amounts import CUP, Amount

# Grams in a teaspoon of citric acid: 1/2 tsp is about 2.1 to 2.4 g (from memory).
_CITRIC_GRAMS = Fraction(9, 2)


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


def as_kind(food: Food, prep: str, amount: Amount, kind: str) -> Fraction | None:
    """An amount in teaspoons ("volume") or grams ("weight"); ``None`` where no cup weight is known.

    Source
    ------
    Cup weights: ``foods/data/measures.csv`` (USDA SR28).
    """
    if amount.kind == kind:
        return amount.value
    grams = cup_grams(food, prep)
    if grams is None or amount.kind == "count" or kind == "count":
        return None
    if kind == "weight":
        return amount.value / CUP * grams
    return amount.value / grams * CUP
