"""Jars to amounts, against kitchen arithmetic done by hand."""

from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.model import Ingredient, Recipe, Work
from stillroom.recipes.read import starter, starters
from stillroom.recipes.totals import Need, Order, Totals, combine, totals
from stillroom.units.amounts import POUND, Amount, parse_amount
from stillroom.units.jars import SIZES

# Reading a recipe asks the process tables: once a recipe is enough.
read = cache(starter)
ORDERS = st.lists(
    st.tuples(st.sampled_from(starters()).map(read), st.sampled_from(SIZES), st.integers(1, 60)),
    min_size=1,
    max_size=5,
)


def need_of(day: Totals, food: str) -> Need:
    (need,) = (need for need in day.needs if need.food == food)
    return need


def test_seven_cups_of_sliced_onions_weigh_1_8_lb_and_take_2_lb_as_bought() -> None:
    """7 x 115 g = 805 g = 1.77 lb; / (1 - 0.10) = 894 g = 1.97 lb (SR28)."""
    day = totals([(starter("bread-and-butter-pickles"), "pint", 7)])  # 8 cups to 8 pints

    onions = need_of(day, "onions")

    assert onions.amount == parse_amount("7 cups")
    assert onions.prepared_g == 805
    assert onions.bought_g == Fraction(805 * 10, 9)


def test_fourteen_pints_take_what_seven_quarts_take() -> None:
    pints = totals([(starter("snap-beans"), "pint", 14)])
    quarts = totals([(starter("snap-beans"), "quart", 7)])

    assert pints == quarts
    assert need_of(pints, "snap beans").amount == Amount(14 * POUND, "g")
    assert pints.liquids[0].amount == parse_amount("10 1/2 cups")  # 7 x 1 1/2


def test_one_food_in_one_prep_is_merged_and_each_share_kept() -> None:
    """Salt a quart: 1 tsp for beans and for carrots; 3 + 2 quarts."""
    day = totals([(starter("snap-beans"), "quart", 3), (starter("carrots"), "quart", 2)])

    salt = need_of(day, "canning salt")

    assert salt.amount == parse_amount("5 tsp")
    assert [(s.recipe, s.amount) for s in salt.shares] == [
        ("snap-beans", parse_amount("3 tsp")),
        ("carrots", parse_amount("2 tsp")),
    ]


def test_liquid_of_two_recipes_is_one_kettle() -> None:
    """1 1/2 cups a quart: 3 + 2 quarts take 7 1/2 cups of boiling water."""
    day = totals([(starter("snap-beans"), "quart", 3), (starter("carrots"), "quart", 2)])

    (water,) = day.liquids

    assert water.amount == parse_amount("7 1/2 cups")


def test_acid_of_three_pints_is_three_tablespoons_exactly() -> None:
    """1 Tbsp a pint (AIB-539 Guide 3); the recipe is written for 7 quarts."""
    day = totals([(starter("crushed-tomatoes"), "pint", 3)])

    assert need_of(day, "bottled lemon juice").amount == parse_amount("3 Tbsp")


def test_a_pound_of_carrots_as_bought_is_404_g_prepared() -> None:
    """453.59 g x 0.89 = 403.7 g (SR28: 11 percent crown, tops and scrapings)."""
    carrots = Ingredient("carrots", "sliced", Amount(POUND, "g"), True, False, False, "")
    recipe = _recipe(carrots)

    need = need_of(totals([(recipe, "quart", 1)]), "carrots")

    assert need.prepared_g is not None
    assert round(float(need.prepared_g)) == 404
    assert need.bought_g == POUND


def test_an_amount_without_a_cup_weight_has_no_weight() -> None:
    day = totals([(starter("dilled-beans"), "pint", 8)])

    assert need_of(day, "dill heads").prepared_g is None
    assert need_of(day, "dill heads").amount == parse_amount("8 heads")


@pytest.mark.parametrize("count", [0, -3])
def test_an_order_of_no_jars_is_told(count: int) -> None:
    with pytest.raises(InputError, match=f"carrots: {count} jars"):
        totals([(starter("carrots"), "pint", count)])


@given(ORDERS, ORDERS)
def test_the_totals_of_two_days_add_up_to_the_totals_of_both(
    first: list[Order], second: list[Order]
) -> None:
    assert combine(totals(first), totals(second)) == totals([*first, *second])


@given(ORDERS)
def test_shares_add_up_to_their_total(orders: list[Order]) -> None:
    day = totals(orders)

    for need in (*day.needs, *day.liquids):
        assert sum(share.amount.value for share in need.shares) == need.amount.value


def _recipe(*lines: Ingredient) -> Recipe:
    return Recipe(
        name="trial",
        title="Trial",
        source="none",
        food="carrots",
        form="sliced or diced",
        pack="hot",
        jars=("quart",),
        makes_quarts=1,
        ingredients=lines,
        liquid=None,
        headspace_in=1,
        fill=(),
        notes=(),
        work=Work(0, 0, 0, 0, "none"),
    )
