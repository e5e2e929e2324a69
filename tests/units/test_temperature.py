"""Temperatures as a kitchen writes and reads them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.units.temperature import celsius, fahrenheit, parse_temperature, said


def test_fixed_points_of_both_scales_agree() -> None:
    """-40 is one temperature in both; 212 F is 100 C; by definition, so to rounding."""
    assert fahrenheit(233.15) == pytest.approx(-40)
    assert celsius(233.15) == pytest.approx(-40)
    assert parse_temperature("212 F") == pytest.approx(373.15)
    assert said(373.15) == "212.0 F (100.0 C)"


@pytest.mark.parametrize("text", ["170 F", "170F", "170 °F", "170 deg F", "170 degrees f"])
def test_ways_of_writing_one_temperature(text: str) -> None:
    assert fahrenheit(parse_temperature(text)) == pytest.approx(170)


@pytest.mark.parametrize("text", ["", "170", "F", "hot", "1e3 F", "nan F", "170 K", "17 0 F"])
def test_what_is_no_temperature_is_told(text: str) -> None:
    with pytest.raises(InputError, match=r'^--start: ".*" is not a temperature. Write .*"170 F"'):
        parse_temperature(text, "--start")


@pytest.mark.parametrize("text", ["400 F", "200 C", "-1 F", "-18 C"])
def test_what_no_kitchen_has_is_told(text: str) -> None:
    with pytest.raises(InputError, match="no temperature of a kitchen"):
        parse_temperature(text, "--start")


@given(st.floats(0, 300))
def test_a_temperature_said_is_read_back(degrees: float) -> None:
    kelvin = parse_temperature(f"{degrees:.1f} F")

    # A tenth of a degree is printed, so half of one may be lost.
    assert fahrenheit(kelvin) == pytest.approx(degrees, abs=0.051)
