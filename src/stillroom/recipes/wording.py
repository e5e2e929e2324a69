"""How the lists say a need: food, prep, amounts and the recipes that take them."""

import re
from collections.abc import Mapping
from fractions import Fraction

from stillroom.foods.vocabulary import Food, find_food
from stillroom.recipes.totals import Need
from stillroom.units.amounts import Amount
from stillroom.units.speech import say

# Kinds that are poured or measured by the spoon: their weight helps nobody.
MEASURED = frozenset(["acid", "herb", "liquid", "spice", "stock"])
POURED = frozenset(["acid", "liquid", "stock"])


def told(group: list[Need]) -> str:
    """Food, preps and amounts of one food, with the prepared weight where cups were asked for.

    Examples
    --------
    >>> told([Need("onions", "sliced", Amount(Fraction(336), "tsp"), False, False, ())])
    'onions, sliced: 7 cups, about 1.8 lb'
    """
    food = find_food(group[0].food)
    sums: dict[tuple[str, bool], Amount] = {}
    for need in group:
        alike = (need.prep, need.as_bought)
        sums[alike] = sums[alike] + need.amount if alike in sums else need.amount
    preps = {need.prep for need in group}
    if len(preps) == 1:
        name, parts = group[0].name, [said(food, amount) for amount in sums.values()]
    else:
        name = food.food
        parts = [f"{said(food, amount)} {prep}".strip() for (prep, _), amount in sums.items()]
    text = f"{name}: {' + '.join(parts)}"
    if food.kind not in MEASURED and any(need.amount.kind == "volume" for need in group):
        grams = [need.prepared_g for need in group]
        if None not in grams:
            text += f", about {say(Amount(sum((g for g in grams if g), Fraction(0)), 'g'))}"
            # Beside pounds as bought the weight needs its name.
            text += " prepared" if any(as_bought for _, as_bought in sums) else ""
    return text + (", optional" if all(need.optional for need in group) else "")


def said(food: Food, amount: Amount) -> str:
    """Acid is never said below its exact amount, nor a piece cut in two; sugar is not in quarts."""
    return say(
        amount,
        round_up=food.kind == "acid" or amount.kind == "count",
        poured=food.kind in POURED,
    )


def less(food: Food, taken: Amount, held: Amount | None, on_shelf: Amount | None) -> str:
    """What the shelf takes off the amount to buy, or why it takes nothing off."""
    if taken.value:
        return f", less {said(food, taken)} on the shelf"
    if held and not on_shelf:
        return f", besides the {say(held)} on the shelf, which cannot be compared with it"
    return ""


def recipes(need: Need) -> str:
    """The recipes that take it, each with its part where there are several."""
    food = find_food(need.food)
    if len(need.shares) == 1:
        return need.shares[0].recipe
    return ", ".join(f"{share.recipe} {said(food, share.amount)}" for share in need.shares)


def titled(told: str, titles: Mapping[str, str]) -> str:
    """A line of a list with the recipes it is for, told by their titles.

    Examples
    --------
    >>> titled("water: 14 cups (ridge-beans, stew)", {"ridge-beans": "Ridge beans", "stew": "Stew"})
    'water: 14 cups (Ridge beans, Stew)'
    >>> titled("lids: 7 (of one lot)", {"stew": "Stew"})
    'lids: 7 (of one lot)'
    """

    def names(found: re.Match[str]) -> str:
        said = found.group(1).split(", ")
        if not all(one in titles for one in said):
            return found.group()
        return f"({', '.join(titles[one] for one in said)})"

    return re.sub(r"\(([^()]+)\)", names, told)
