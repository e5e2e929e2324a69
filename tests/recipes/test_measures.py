"""Cups and grams as a kitchen rounds them; acid never down."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.foods.vocabulary import find_food, foods
from stillroom.recipes.line import read_line
from stillroom.recipes.measures import Measured, between, measured, measured_line, weight
from stillroom.recipes.packing import Range
from stillroom.units.amounts import OUNCE, Amount, parse_amount

ACIDS = [food.food for food in foods() if food.kind == "acid"]


def of(line: str, times: Fraction = Fraction(1)) -> Measured:
    return measured_line(read_line(line, "line 1"), times)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        # 61 g of slices (122 g a cup) are 2.15 oz.
        ("carrots, sliced, 1/2 cup", "1/2 cup, 60 g (2 1/4 oz)"),
        # 6.08 g a teaspoon (292 g a cup); a quarter ounce is 7 g.
        ("canning salt, 1 tsp", "1 tsp, 6 g"),
        # 2 lb are 907 g and 32 oz; / (227 g a cup) = 4 cups.
        ("venison, cubed, 2 lb, prepared", "905 g (2 lb), about 4 cups"),
        # 11 percent refuse: 1134 g x 0.89 = 1009 g = 35.6 oz.
        (
            "carrots, sliced, 2 1/2 lb",
            "1135 g (2 lb 8 oz) as bought, about 1010 g (2 lb 3 1/2 oz) prepared",
        ),
        ("garlic, 3 cloves", "3 cloves"),
    ],
)
def test_an_amount_is_said_by_cup_and_by_scale(line: str, said: str) -> None:
    assert of(line).said == said


@pytest.mark.parametrize(
    ("line", "bought"),
    [
        ("carrots, sliced, 1 cup", "135 g (4 3/4 oz)"),  # 122 / 0.89 = 137 g = 4.84 oz
        ("carrots, sliced, 1 lb", "455 g (1 lb)"),
        ("sugar, 1 cup", ""),  # nothing is trimmed off
        ("bottled lemon juice, 2 Tbsp", ""),
    ],
)
def test_the_weight_as_bought_is_told_where_it_is_another(line: str, bought: str) -> None:
    assert of(line).as_purchased == bought


def test_a_pinch_is_never_nothing() -> None:
    assert weight(Fraction(1, 10)) == "0.5 g"
    assert weight(Fraction(1)) == "1 g"


@given(st.fractions(Fraction(1, 4), 20_000, max_denominator=64))
def test_a_weight_is_within_half_a_step_of_what_is_meant(grams: Fraction) -> None:
    metric, _, ounces = weight(grams).partition(" g")
    step = Fraction(1, 2) if grams < 3 else Fraction(1) if grams < 20 else Fraction(5)

    # What is more than nothing is said as one step at the least.
    assert abs(Fraction(metric) - max(grams, step / 2)) <= step / 2
    if ounces:
        said = parse_amount(ounces.strip(" ()")).value
        assert abs(said - grams) <= OUNCE / 8


@given(st.sampled_from(ACIDS), st.fractions(Fraction(1, 8), 500, max_denominator=32))
def test_acid_is_never_said_below_its_exact_amount(food: str, teaspoons: Fraction) -> None:
    item = measured(find_food(food), "", Amount(teaspoons, "tsp"), bought=False)

    assert parse_amount(item.by_cup).value >= teaspoons
    if item.grams is not None:
        assert parse_amount(item.by_weight.partition(" (")[0]).value >= item.grams


@given(
    st.lists(st.floats(0, 0.02, allow_nan=False), min_size=2, max_size=2).map(sorted),
)
def test_an_estimate_is_rounded_outward(ends: list[float]) -> None:
    low, high = ends

    said, _, metric = between(Range(low, high)).partition(" (")

    numbers = [float(n) for n in metric.removesuffix(" mL)").split(" to ")]
    # An eighth of a milliliter of slack for the float of the volume.
    assert numbers[0] <= low * 1e6 + 0.13 and numbers[-1] >= high * 1e6 - 0.13
    size = 236.588 if "cup" in said else 14.787
    parts = said.rpartition(" ")[0].split(" to ")
    cups = [float(parse_amount(part).value) * size for part in parts]
    assert cups[0] <= low * 1e6 + 0.13 and cups[-1] >= high * 1e6 - 0.13
