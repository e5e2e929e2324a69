"""Jars turned into amounts: recipes scaled by jar capacity and added up, exactly."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stillroom.errors import InputError
from stillroom.foods.vocabulary import as_bought, cup_grams, find_food
from stillroom.recipes.model import Ingredient, Recipe
from stillroom.units.amounts import CUP, Amount
from stillroom.units.jars import quarts

# A recipe, a jar size of the library, and how many jars.
Order = tuple[Recipe, str, int]


@dataclass(frozen=True, slots=True)
class Share:
    """What one recipe takes of a total."""

    recipe: str
    amount: Amount


@dataclass(frozen=True, slots=True)
class Need:
    """The total of one food in one prep, over all recipes.

    ``as_bought`` tells whether ``amount`` counts the food untrimmed.
    """

    food: str
    prep: str
    amount: Amount
    as_bought: bool
    optional: bool
    shares: tuple[Share, ...]

    @property
    def name(self) -> str:
        """Food and prep as one reads them: "onions, sliced"."""
        return ", ".join(part for part in (self.food, self.prep) if part)

    @property
    def prepared_g(self) -> Fraction | None:
        """Grams after trimming, or ``None`` where neither weight nor cup weight is known."""
        grams = self._grams()
        if grams is None or not self.as_bought:
            return grams
        return grams * (1 - find_food(self.food).refuse)

    @property
    def bought_g(self) -> Fraction | None:
        """Grams before trimming, or ``None`` as above."""
        grams = self._grams()
        if grams is None or self.as_bought:
            return grams
        return as_bought(find_food(self.food), grams)

    def _grams(self) -> Fraction | None:
        if self.amount.kind == "weight":
            return self.amount.value
        cup = cup_grams(find_food(self.food), self.prep)
        if self.amount.kind == "count" or cup is None:
            return None
        return self.amount.value / CUP * cup


@dataclass(frozen=True, slots=True)
class Totals:
    """All that a day's recipes take: ingredients, and covering liquids apart from them."""

    needs: tuple[Need, ...]
    liquids: tuple[Need, ...]


def totals(orders: Sequence[Order]) -> Totals:
    """Ingredient totals for some jars of some recipes, merged by food and prep.

    Parameters
    ----------
    orders : (recipe, jar size, number of jars), at least one jar each

    Returns
    -------
    Totals : exact; amounts go with the capacity of the jars, so that two pints are a quart

    Raises
    ------
    InputError
        An order of no jars.

    Source
    ------
    Nominal jar capacities (AIB-539 Guide 1, jar sizes).

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> from stillroom.units.amounts import POUND
    >>> need = totals([(starter("snap-beans"), "pint", 14)]).needs[0]
    >>> need.food, str(need.amount.value / POUND)  # 7 quarts at 2 lb a quart
    ('snap beans', '14')
    """
    needs: list[Need] = []
    liquids: list[Need] = []
    for recipe, jar, count in orders:
        if count < 1:
            raise InputError(f"{recipe.name}: {count} jars ordered. Order one jar or more.")
        times = Fraction(quarts(jar)) * count / Fraction(recipe.makes_quarts)
        needs += [_need(recipe.name, line, times) for line in recipe.ingredients]
        if recipe.liquid:
            liquids.append(_need(recipe.name, recipe.liquid, times))
    return Totals(_merged(needs), _merged(liquids))


def combine(first: Totals, second: Totals) -> Totals:
    """The totals of two days as one.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> one = totals([(starter("carrots"), "pint", 1)])
    >>> combine(one, one) == totals([(starter("carrots"), "pint", 2)])
    True
    """
    return Totals(
        _merged([*first.needs, *second.needs]), _merged([*first.liquids, *second.liquids])
    )


def _need(recipe: str, line: Ingredient, times: Fraction) -> Need:
    amount = line.amount * times
    return Need(
        line.food, line.prep, amount, line.as_bought, line.optional, (Share(recipe, amount),)
    )


def _merged(needs: Iterable[Need]) -> tuple[Need, ...]:
    """One need for each food, prep and unit; what is optional stays apart from what is not."""
    groups: dict[tuple[str, str, str, bool, bool], list[Need]] = {}
    for need in needs:
        alike = (need.food, need.prep, need.amount.unit, need.as_bought, need.optional)
        groups.setdefault(alike, []).append(need)
    merged = []
    for (food, prep, unit, bought, optional), group in groups.items():
        shares: dict[str, Amount] = {}
        for share in (share for need in group for share in need.shares):
            held = shares.get(share.recipe, Amount(Fraction(0), unit))
            shares[share.recipe] = held + share.amount
        total = Amount(sum((a.value for a in shares.values()), Fraction(0)), unit)
        told = tuple(Share(recipe, amount) for recipe, amount in shares.items())
        merged.append(Need(food, prep, total, bought, optional, told))
    return tuple(merged)
