"""What a list costs; a missing price is told, never guessed."""

from collections.abc import Mapping

import pytest

from stillroom.errors import InputError
from stillroom.recipes.read import starter
from stillroom.recipes.scale import Lists, lists
from stillroom.recipes.totals import Order
from stillroom.units.amounts import parse_amount
from stillroom.units.prices import money, parse_price

CARROTS = [(starter("carrots"), "quart", 7)]  # 17 1/2 lb, buy 18; 7 tsp of salt, buy 1/4 lb


def priced(
    orders: list[Order], prices: Mapping[str, str], pantry: Mapping[str, str] | None = None
) -> Lists:
    return lists(
        orders,
        pantry={food: parse_amount(amount) for food, amount in (pantry or {}).items()},
        jars={},
        lids=0,
        bands=0,
        prices={food: parse_price(said, f"prices, {food}") for food, said in prices.items()},
    )


def test_a_line_costs_what_is_bought_not_what_is_needed() -> None:
    """18 lb at 1.29 are 23.22; 17 1/2 lb would be 22.58."""
    day = priced(CARROTS, {"carrots": "1.29 per lb"})

    assert "buy 18 lb, costs 23.22" in day.buy[0].text
    assert day.cost is not None
    assert day.cost.lines[0] == "23.22 for 1 of 2 things to buy, by the prices you wrote"


def test_a_missing_price_is_told() -> None:
    cost = priced(CARROTS, {"carrots": "1.29 per lb"}).cost

    assert cost is not None and cost.unpriced == ("canning salt",)
    assert cost.lines[1] == "Not in it, for no price is written: canning salt"


def test_a_price_for_another_measure_is_told_apart() -> None:
    cost = priced(CARROTS, {"carrots": "2 per bunch", "salt": "1 per lb"}).cost

    assert cost is not None and cost.unlike == ("carrots",)
    assert "for the price is of another measure: carrots" in cost.lines[-1]


def test_a_price_by_the_quart_serves_vinegar() -> None:
    """4 cups are a quart at 3.20."""
    day = priced([(starter("dilled-beans"), "pint", 8)], {"white vinegar": "3.20 per quart"})

    (vinegar,) = (item for item in day.buy if item.food == "white vinegar")
    assert vinegar.cost is not None and money(vinegar.cost) == "3.20"


def test_what_stands_on_the_shelf_costs_nothing() -> None:
    day = priced(CARROTS, {"carrots": "1.00 per lb"}, {"carrots": "10 lb", "salt": "1 lb"})

    # 7 1/2 lb are left to buy.
    assert day.cost is not None and money(day.cost.total) == "7.50"
    assert day.cost.lines == ("7.50 for 1 of 1 things to buy, by the prices you wrote",)


def test_without_prices_no_cost_is_told() -> None:
    day = priced(CARROTS, {})

    assert day.cost is None
    assert not any("costs" in item.text for item in day.buy)


def test_a_price_of_a_food_nobody_knows_or_written_twice_is_told() -> None:
    with pytest.raises(InputError, match=r"prices, carots: .*carrots"):
        priced(CARROTS, {"carots": "1 per lb"})
    with pytest.raises(InputError, match="carrots has a price already"):
        priced(CARROTS, {"carrots": "1 per lb", "carrot roots": "2 per lb"})


def test_a_list_of_cups_tells_what_to_take_as_bought() -> None:
    """3 1/2 cups of slices are 427 g; / 0.89 = 480 g = 1.06 lb."""
    day = priced([(starter("garden-chicken-soup"), "quart", 7)], {})

    (carrots,) = (item for item in day.prep if item.food == "carrots")
    assert carrots.text == (
        "carrots, peeled and sliced: 3 1/2 cups, about 0.9 lb prepared, from about 1.1 lb as "
        "bought (garden-chicken-soup)"
    )
