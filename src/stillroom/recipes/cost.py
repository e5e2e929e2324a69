"""What a shopping list costs, where prices are known. A missing price is told, never guessed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from stillroom.errors import InputError
from stillroom.foods.vocabulary import Food, find_food
from stillroom.recipes.buying import converted
from stillroom.units.amounts import Amount
from stillroom.units.prices import Price, money


@dataclass(frozen=True, slots=True)
class Cost:
    """The cost of what is to buy.

    ``total`` of the ``priced`` lines; ``unpriced`` are foods without a price, ``unlike`` those
    whose price is for a measure that their amount cannot be compared with.
    """

    total: Fraction
    priced: int
    unpriced: tuple[str, ...]
    unlike: tuple[str, ...]

    @property
    def lines(self) -> tuple[str, ...]:
        """What a person reads: the sum, and what is not in it.

        Examples
        --------
        >>> Cost(Fraction(5), 2, ("dill heads",), ()).lines
        ('5.00 for 2 of 3 things to buy, by the prices you wrote', 'Not in it, for no price is \
written: dill heads')
        """
        things = self.priced + len(self.unpriced) + len(self.unlike)
        told = [f"{money(self.total)} for {self.priced} of {things} things to buy, by the prices "
                "you wrote"]  # fmt: skip
        if self.unpriced:
            told.append(f"Not in it, for no price is written: {', '.join(self.unpriced)}")
        if self.unlike:
            told.append(f"Not in it, for the price is of another measure: {', '.join(self.unlike)}")
        return tuple(told)


def by_food(prices: Mapping[str, Price]) -> dict[str, Price]:
    """Prices by the names of the food list.

    Raises
    ------
    InputError
        A food that is not in the list, or one that is priced under two names.
    """
    known: dict[str, Price] = {}
    for said, price in prices.items():
        name = find_food(said, f"prices, {said}").food
        if name in known:
            raise InputError(f"prices, {said}: {name} has a price already. Write it once.")
        known[name] = price
    return known


def price_of(food: Food, buy: Amount | None, prices: Mapping[str, Price]) -> Fraction | None:
    """What an amount to buy costs; ``None`` where no price is known or none that fits.

    Source
    ------
    The household's own prices; cup weights of USDA SR28 where a price is by the pound.
    """
    price = prices.get(food.food)
    if price is None or buy is None:
        return None
    sold = converted(food, buy, price.per.unit)
    return price.of(sold) if sold else None


def added_up(
    bought: Sequence[tuple[str, Fraction | None]], prices: Mapping[str, Price]
) -> Cost | None:
    """The cost of lines to buy, each a food and its cost; ``None`` where no price is written."""
    if not prices:
        return None
    left = [food for food, cost in bought if cost is None]
    return Cost(
        sum((cost for _, cost in bought if cost is not None), Fraction(0)),
        len(bought) - len(left),
        tuple(dict.fromkeys(food for food in left if food not in prices)),
        tuple(dict.fromkeys(food for food in left if food in prices)),
    )
