"""Jar sizes beyond the usual spellings: capacities, order, and that no text makes them fail."""

from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.units.jars import SIZES, parse_jar, quarts

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()
# Each size in the units of its own name, counted by the library pint.
BY_NAME = {
    "4 oz": (4, "US_fluid_ounce"),
    "half-pint": (Fraction(1, 2), "US_pint"),
    "12 oz": (12, "US_fluid_ounce"),
    "pint": (1, "US_pint"),
    "1.5-pint": (Fraction(3, 2), "US_pint"),
    "quart": (1, "US_liquid_quart"),
    "half-gallon": (Fraction(1, 2), "US_liquid_gallon"),
}


def test_every_size_holds_what_its_name_says() -> None:
    assert list(BY_NAME) == list(SIZES)
    for size, (count, unit) in BY_NAME.items():
        of_pint = UNITS.Quantity(float(count), unit).to("US_liquid_quart").magnitude

        # pint computes in floating point, so the last digits differ.
        assert quarts(size) == pytest.approx(of_pint, rel=1e-12)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("said", ["{}", "{}s", "{} jar", "{} jars", " {} "])
def test_a_size_is_read_in_capitals_plural_and_with_the_word_jar(size: str, said: str) -> None:
    assert parse_jar(said.format(size).upper()) == size


@given(st.text(alphabet=st.sampled_from("0123456789./- qtpinhalfgozsjr"), max_size=14) | st.text())
def test_any_text_is_a_jar_or_gets_a_message_that_quotes_it_and_lists_the_sizes(text: str) -> None:
    try:
        assert parse_jar(text, "--jar") in SIZES
    except InputError as wrong:
        assert str(wrong).startswith("--jar: ")
        assert text in str(wrong)
        assert str(wrong).endswith(f"Sizes: {', '.join(SIZES)}.")
