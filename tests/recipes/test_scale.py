"""The lists of a day: buy, shelf, prep, liquids, jars, lids and bands."""

from collections.abc import Mapping, Sequence
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.recipes.read import starter, starters
from stillroom.recipes.scale import Item, Lists, lists
from stillroom.recipes.totals import Order
from stillroom.units.amounts import Amount, parse_amount
from stillroom.units.speech import say

# Reading a recipe asks the process tables: once a recipe is enough.
read = cache(starter)
ORDERS = st.lists(
    st.tuples(
        st.sampled_from(starters()).map(read),
        st.sampled_from(["half-pint", "pint", "quart"]),
        st.integers(1, 40),
    ),
    min_size=1,
    max_size=4,
)


def day_of(orders: Sequence[Order], pantry: Mapping[str, str] | None = None) -> Lists:
    held = {food: parse_amount(amount) for food, amount in (pantry or {}).items()}
    return lists(orders, pantry=held, jars={}, lids=0, bands=0)


def line(items: Sequence[Item], food: str) -> str:
    (text,) = (item.text for item in items if item.food == food)
    return text


def foods_of(items: Sequence[Item]) -> set[str]:
    return {item.food for item in items}


def test_sliced_onions_are_said_in_cups_pounds_and_pounds_to_buy() -> None:
    """7 x 115 g = 805 g = 1.77 lb; / 0.9 = 894 g = 1.97 lb, the next quarter pound is 2."""
    day = day_of([(starter("bread-and-butter-pickles"), "pint", 7)])

    assert line(day.buy, "onions") == "onions, thinly sliced: 7 cups, about 1.8 lb, buy 2 lb"


def test_two_preps_of_one_food_are_bought_as_one() -> None:
    """4 lb whole for 8 pints of dilled beans and 2 lb cut for a quart of hot pack: 6 lb."""
    day = day_of([(starter("dilled-beans"), "pint", 8), (starter("snap-beans"), "quart", 1)])

    assert line(day.buy, "snap beans") == (
        "snap beans: 4 lb whole, ends trimmed + 2 lb trimmed and cut in 1 in pieces, buy 6 lb"
    )
    assert [item.prep for item in day.prep if item.food == "snap beans"] == [
        "whole, ends trimmed",
        "trimmed and cut in 1 in pieces",
    ]


def test_what_the_pantry_covers_comes_from_the_shelf_and_the_rest_is_bought() -> None:
    """6 cups of sugar are 1200 g = 2.65 lb; 1 lb is there; 1.65 lb makes 1 3/4 lb to buy."""
    day = day_of([(starter("berry-jam"), "half-pint", 7)], {"sugar": "1 lb"})

    assert line(day.buy, "sugar") == (
        "sugar: 6 cups, about 2.6 lb, less 1 lb on the shelf, buy 1 3/4 lb"
    )
    assert line(day.from_shelf, "sugar") == "sugar: 6 cups, about 2.6 lb, of it 1 lb from the shelf"


def test_what_the_pantry_covers_whole_is_not_bought() -> None:
    day = day_of([(starter("berry-jam"), "half-pint", 7)], {"granulated sugar": "10 lb"})

    assert "sugar" not in foods_of(day.buy)
    assert line(day.from_shelf, "sugar") == "sugar: 6 cups, about 2.6 lb from the shelf"


def test_a_pantry_under_two_names_is_added_up() -> None:
    """3 lb + 2 cups (400 g) are 3.9 lb of the 2.65 lb needed."""
    day = day_of(
        [(starter("berry-jam"), "half-pint", 7)], {"sugar": "2 lb", "white sugar": "2 cups"}
    )

    assert "sugar" not in foods_of(day.buy)


def test_a_pantry_amount_that_cannot_be_compared_is_told_and_all_is_bought() -> None:
    day = day_of([(starter("bread-and-butter-pickles"), "pint", 8)], {"mustard seed": "3 oz"})

    assert line(day.buy, "mustard seed") == (
        "mustard seed: 2 Tbsp, besides the 3 oz on the shelf, which cannot be compared with it, "
        "buy that much"
    )
    assert day.from_shelf == ()


def test_a_pantry_food_nobody_knows_is_told() -> None:
    with pytest.raises(InputError, match=r"pantry, suger: .*sugar"):
        day_of([(starter("carrots"), "pint", 1)], {"suger": "1 lb"})


def test_one_food_twice_in_amounts_that_do_not_add_is_told() -> None:
    with pytest.raises(InputError, match="stands there twice"):
        day_of([(starter("carrots"), "pint", 1)], {"onions": "3", "yellow onions": "2 lb"})


def test_a_staple_without_a_pantry_entry_is_marked() -> None:
    day = day_of([(starter("berry-jam"), "half-pint", 7)])

    assert line(day.buy, "sugar").endswith("(a staple: look on the shelf first)")


def test_water_is_never_bought_but_stands_among_the_liquids() -> None:
    day = day_of([(starter("snap-beans"), "quart", 7)])

    assert "water" not in foods_of(day.buy)
    assert line(day.liquids, "water") == "water, boiling: 10 1/2 cups (snap-beans)"


def test_stock_made_that_day_is_not_bought_but_noted() -> None:
    soup = (starter("garden-chicken-soup"), "quart", 4)
    with_stock = day_of([soup, (starter("chicken-stock"), "quart", 7)])
    alone = day_of([soup])

    assert "chicken stock" not in foods_of(with_stock.buy)
    assert "not bought: chicken-stock makes it that day" in line(
        with_stock.liquids, "chicken stock"
    )
    assert line(alone.buy, "chicken stock").endswith("buy 3 quarts")  # 4 x 2 3/4 cups


def test_brine_and_acid_are_among_the_liquids_to_have_ready() -> None:
    day = day_of([(starter("dilled-beans"), "pint", 8)])

    assert [item.text for item in day.liquids] == [
        "water, for the brine: 4 cups (dilled-beans)",
        "white vinegar, 5 %: 4 cups (dilled-beans)",
    ]


def test_garlic_is_bought_by_the_head() -> None:
    """Two heads of 10 cloves of 3 g are 60 g; / (1 - 0.13) = 69 g = 2.43 oz as bought (SR28)."""
    day = day_of([(starter("dilled-beans"), "pint", 14)])

    assert line(day.buy, "garlic") == (
        "garlic, peeled: 14 cloves, optional, buy 2 heads, about 2 1/2 oz"
    )


def test_jars_lids_and_bands_are_counted_against_what_is_on_hand() -> None:
    """14 pints and 7 quarts: 21 new lids, 21 bands."""
    day = lists(
        [(starter("carrots"), "pint", 14), (starter("snap-beans"), "quart", 7)],
        pantry={},
        jars={"pint": 12, "quart": 30},
        lids=20,
        bands=24,
    )

    assert [(w.name, w.needed, w.on_hand, w.get) for w in (*day.jars, *day.lids, *day.bands)] == [
        ("pint jars", 14, 12, 2),
        ("quart jars", 7, 30, 0),
        ("lids", 21, 20, 1),
        ("bands", 21, 24, 0),
    ]
    assert day.lids[0].text == "lids: 21 new ones needed, 20 on hand, get 1"
    assert day.jars[1].text == "quart jars: 7 needed, 30 on hand, enough"


def test_a_doubled_batch_of_jam_is_cautioned() -> None:
    assert day_of([(starter("berry-jam"), "half-pint", 7)]).cautions == ()
    (caution,) = day_of([(starter("berry-jam"), "half-pint", 15)]).cautions
    assert "3 batches" in caution


@given(ORDERS)
def test_what_is_bought_is_never_below_what_is_needed(orders: list[Order]) -> None:
    for item in day_of(orders).buy:
        assert item.buy is not None
        pieces = find_food(item.food).pieces if item.buy.unit != item.amount.unit else 1
        assert item.buy.value * pieces >= item.amount.value


@given(ORDERS, st.integers(0, 30))
def test_shelf_and_shop_together_are_the_need(orders: list[Order], pounds: int) -> None:
    def sugar(pantry: dict[str, Amount]) -> tuple[Amount, ...]:
        day = lists(orders, pantry=pantry, jars={}, lids=0, bands=0)
        return tuple(i.amount for i in (*day.buy, *day.from_shelf) if i.food == "sugar")

    without = sum(amount.value for amount in sugar({}))
    with_shelf = sum(amount.value for amount in sugar({"sugar": parse_amount(f"{pounds} lb")}))

    assert without == with_shelf


@given(st.integers(1, 60), st.sampled_from(["pint", "quart"]))
def test_acid_is_never_said_below_its_exact_amount(count: int, jar: str) -> None:
    day = day_of([(starter("crushed-tomatoes"), jar, count)])

    (juice,) = (i for i in day.liquids if i.food == "bottled lemon juice")
    said = say(juice.amount, round_up=True)

    assert said in juice.text
    assert parse_amount(said).value >= juice.amount.value
