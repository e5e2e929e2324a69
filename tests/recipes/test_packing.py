"""Gaps, densities and levels, against the project's reference and a jar done by hand."""

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.foods.vocabulary import find_food
from stillroom.physics.jar import NECK, brim_volume, headspace_volume, jar_body, pack_volume
from stillroom.recipes.packing import PRESSED, cups_of, density, gaps, level, measured_volume
from stillroom.units.amounts import Amount
from stillroom.units.jars import SIZES


@pytest.mark.parametrize(
    ("food", "prep", "void"),
    [
        ("onions", "chopped", 0.35), ("onions", "sliced", 0.53), ("celery", "chopped", 0.58),
        ("carrots", "chopped", 0.48), ("carrots", "sliced", 0.50), ("carrots", "grated", 0.55),
        ("potatoes", "diced", 0.41), ("sweet peppers", "chopped", 0.38),
        ("sweet peppers", "sliced", 0.62), ("tomatoes", "chopped", 0.25), ("corn", "", 0.43),
        ("peas", "", 0.42), ("lima beans", "", 0.40), ("beets", "", 0.45),
        ("cabbage", "chopped", 0.63), ("cabbage", "shredded", 0.71), ("snap beans", "cut", 0.59),
    ],
)  # fmt: skip
def test_loose_gaps_are_the_void_column_of_the_reference(food: str, prep: str, void: float) -> None:
    """Science notes 5.1, computed there from SR28 by another program; printed to two digits."""
    assert gaps(find_food(food), prep).high == pytest.approx(void, abs=0.011)


def test_a_filled_jar_has_less_gaps_than_a_loose_cup() -> None:
    held = gaps(find_food("carrots"), "sliced")

    assert held.low == pytest.approx(PRESSED * held.high)
    assert 0 < held.low < held.high


def test_crushed_food_has_no_gaps_below_nothing() -> None:
    """Ground beef by rule of thumb is 227 g a cup, which is denser than some foods are."""
    assert gaps(find_food("ground beef"), "").low >= 0


def test_food_without_a_composition_is_taken_as_dense_as_food_mostly_is() -> None:
    assert density("dill heads") == 1040.0


def test_seven_cups_of_diced_potatoes_weigh_1050_g_and_back() -> None:
    """Science notes 5.1: 7 cups diced potato = 1050 g."""
    assert cups_of(find_food("potatoes"), "diced", Fraction(1050)) == Amount(
        Fraction(7 * 48), "tsp"
    )


def test_a_quart_is_946_ml() -> None:
    """32 fl oz of 29.5735 mL."""
    assert measured_volume(Amount(Fraction(192), "tsp")) * 1e6 == pytest.approx(946.353, abs=1e-3)
    assert measured_volume(Amount(Fraction(5), "g")) == 0


@given(st.sampled_from(SIZES), st.floats(0, 1))
def test_a_level_is_the_height_below_which_that_volume_lies(size: str, part: float) -> None:
    """What lies above it is what ``headspace_volume`` says of the same depth."""
    body = jar_body(size)
    volume = part * brim_volume(body)

    depth = body.height - level(body, volume)

    above = headspace_volume(body, min(max(depth, 0.0), body.height * (1 - 1e-12)))
    assert above == pytest.approx(brim_volume(body) - volume, rel=1e-6, abs=1e-12)


def test_in_the_body_equal_volumes_stand_equally_high_and_in_the_neck_higher() -> None:
    quart = jar_body("quart")
    below = pi * quart.radius**2 * (quart.height - NECK)

    assert level(quart, below / 2) == pytest.approx((quart.height - NECK) / 2)
    ten = 10e-6
    in_neck = level(quart, below + ten) - level(quart, below)
    in_body = level(quart, ten)
    # As many times higher as the mouth is smaller: (95 / 60.325)^2.
    assert in_neck / in_body == pytest.approx((95 / 60.325) ** 2, rel=1e-6)


def test_the_headspace_line_lies_where_the_headspace_volume_says() -> None:
    pint = jar_body("pint")

    assert pint.height - level(pint, pack_volume(pint, 0.0127)) == pytest.approx(0.0127)


def test_more_than_a_jar_holds_has_no_level() -> None:
    pint = jar_body("pint")

    with pytest.raises(ValueError, match="not within a pint jar"):
        level(pint, brim_volume(pint) * 1.01)
