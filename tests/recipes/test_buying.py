"""What a shop sells, and what a shelf covers. The steps are common practice."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.foods.vocabulary import Food, find_food, foods
from stillroom.recipes.buying import converted, rounded, rounded_weight
from stillroom.units.amounts import POUND, Amount, parse_amount


@pytest.mark.parametrize(
    ("pounds", "buy"),
    [
        ("0.1", "1/4"),
        ("0.25", "1/4"),
        ("1.97", "2"),
        ("2", "2"),
        ("2.01", "5/2"),
        ("9.6", "10"),
        ("10.2", "11"),
        ("21", "21"),
    ],
)
def test_weights_are_bought_in_quarter_half_and_whole_pounds(pounds: str, buy: str) -> None:
    assert rounded_weight(Fraction(pounds) * POUND) == Fraction(buy)


@pytest.mark.parametrize(
    ("food", "need", "text"),
    [
        ("garlic", "8 cloves", "1 head"),  # about 10 cloves a head
        ("garlic", "11 cloves", "2 heads"),
        ("dill heads", "7.5 heads", "8 heads"),
        ("white vinegar", "4 cups", "1 quart"),
        ("white vinegar", "4 1/4 cups", "1 1/2 quarts"),
        ("bottled lemon juice", "14 Tbsp", "1 cup"),
        ("turmeric", "2 tsp", "that much"),
        ("corn", "1.6 lb", "1 3/4 lb of ears in the husk"),
    ],
)
def test_a_need_is_bought_as_a_shop_sells_it(food: str, need: str, text: str) -> None:
    assert rounded(find_food(food), parse_amount(need))[1] == text


@given(
    st.sampled_from(foods()),
    st.fractions(Fraction(1, 100), 50_000, max_denominator=100),
    st.sampled_from(["tsp", "g", "each", "clove"]),
)
def test_what_is_bought_is_never_below_the_need(food: Food, value: Fraction, unit: str) -> None:
    amount, _ = rounded(food, Amount(value, unit))

    if amount.unit == unit:
        assert amount.value >= value
    else:
        assert amount.value * food.pieces >= value


def test_salt_in_pounds_covers_cups_by_its_cup_weight() -> None:
    """292 g a cup (SR28): 584 g are 2 cups."""
    salt = find_food("canning salt")

    assert converted(salt, Amount(Fraction(584), "g"), "tsp") == parse_amount("2 cups")
    assert converted(salt, parse_amount("2 cups"), "g") == Amount(Fraction(584), "g")


def test_a_cup_of_shelled_peas_stands_for_the_pods_it_came_from() -> None:
    """145 g shelled / (1 - 0.62) = 381.6 g in the pod (SR28)."""
    pods = converted(find_food("peas"), parse_amount("1 cup"), "g")

    assert pods == Amount(Fraction(14500, 38), "g")


def test_heads_of_garlic_cover_cloves() -> None:
    assert converted(find_food("garlic"), parse_amount("2 heads"), "clove") == parse_amount(
        "20 cloves"
    )


@pytest.mark.parametrize(
    ("food", "held", "unit"),
    [("mustard seed", "3 oz", "tsp"), ("onions", "3", "g"), ("dill heads", "1 cup", "head")],
)
def test_what_no_figure_joins_is_not_converted(food: str, held: str, unit: str) -> None:
    assert converted(find_food(food), parse_amount(held), unit) is None
