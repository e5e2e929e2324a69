"""Kitchen amounts: what people write, exactly. Oracle for units: the library pint."""

from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.units.amounts import COUNTS, Amount, parse_amount

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()
OF_PINT = {
    "tsp": "teaspoon",
    "Tbsp": "tablespoon",
    "fl oz": "US_fluid_ounce",
    "cup": "cup",
    "pint": "US_pint",
    "quart": "US_liquid_quart",
    "gallon": "gallon",
    "ml": "milliliter",
    "l": "liter",
    "oz": "ounce",
    "lb": "pound",
    "g": "gram",
    "kg": "kilogram",
}


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("2 1/2 cups", Fraction(120), "tsp"),  # 2.5 x 48
        ("2-1/2 cups", Fraction(120), "tsp"),
        ("1½ cups", Fraction(72), "tsp"),
        ("½ tsp", Fraction(1, 2), "tsp"),
        ("1/2 tsp", Fraction(1, 2), "tsp"),
        ("1⁄2 tsp", Fraction(1, 2), "tsp"),
        (".5 Tbsp.", Fraction(3, 2), "tsp"),
        ("1 cup 2 Tbsp", Fraction(54), "tsp"),  # 48 + 6
        ("1 gallon", Fraction(768), "tsp"),
        ("8 fl oz", Fraction(48), "tsp"),  # a cup
        ("3 Tablespoons", Fraction(9), "tsp"),
        ("16 oz", Fraction("453.59237"), "g"),  # a pound
        ("2 lb 8 oz", Fraction("1133.980925"), "g"),  # 2.5 x 453.59237
        ("0.5 kg", Fraction(500), "g"),
        ("11 lbs.", Fraction("4989.51607"), "g"),  # 11 x 453.59237
        ("3 cloves", Fraction(3), "clove"),
        ("2 bunches", Fraction(2), "bunch"),
        ("4 leaves", Fraction(4), "leaf"),
        ("2", Fraction(2), "each"),
        ("0 lb", Fraction(0), "g"),
    ],
)
def test_an_amount_is_read_exactly(text: str, value: Fraction, unit: str) -> None:
    assert parse_amount(text) == Amount(value, unit)


@pytest.mark.parametrize("ours", OF_PINT)
def test_each_unit_agrees_with_pint(ours: str) -> None:
    unit = OF_PINT[ours]
    weight = UNITS.Unit(unit).is_compatible_with("gram")

    of_pint = UNITS.Quantity(1, unit).to("gram" if weight else "teaspoon").magnitude

    # pint computes in floating point, so the last digits differ.
    assert float(parse_amount(f"1 {ours}").value) == pytest.approx(of_pint, rel=1e-12)


NOT_AMOUNTS = (
    *("", "  ", "some", "cups", "a pinch", "1 pinch", "4 to 6 cups", "4-6 cups", "4 6", "1/0 cup"),
    *("-2 cups", "1,5 cups", "2 cups and 1 lb", "1 cup 1 lb", "1e3 cups", "1/2/3 cup", "nan"),
    *("1.2.3 lb", "999999999 cups", "1 " + "9" * 40 + "/2 cups", "٣ cups", "5 %"),
)


@pytest.mark.parametrize("text", NOT_AMOUNTS)
def test_what_is_no_amount_is_told_with_the_place_the_words_and_a_remedy(text: str) -> None:
    with pytest.raises(InputError) as wrong:
        parse_amount(text, "beans.toml, line 3, ingredients")

    assert "beans.toml, line 3, ingredients" in str(wrong.value)
    assert f'"{text}"' in str(wrong.value)
    assert "2 1/2 cups" in str(wrong.value)


@given(st.text(max_size=30))
def test_no_text_breaks_the_reader(text: str) -> None:
    try:
        amount = parse_amount(text)
    except InputError:
        return
    assert amount.value >= 0


@given(
    st.integers(0, 900),
    st.fractions(0, 1, max_denominator=8).filter(lambda f: f < 1),
    st.sampled_from([*OF_PINT, *(word for word in COUNTS if word != "each")]),
)
def test_a_whole_and_a_part_read_as_their_sum(whole: int, part: Fraction, unit: str) -> None:
    both = f"{whole} {part.numerator}/{part.denominator} {unit}"

    sum_of_both = parse_amount(f"{whole} {unit}") + parse_amount(f"{part} {unit}")

    assert parse_amount(both) == sum_of_both


def test_amounts_of_two_units_do_not_add() -> None:
    with pytest.raises(ValueError, match="do not add"):
        parse_amount("1 cup") + parse_amount("1 lb")
