"""Burner power as it stands on a plate."""

import pytest

from stillroom.errors import InputError
from stillroom.units.power import parse_power


@pytest.mark.parametrize(
    ("text", "watts"),
    [
        ("1900 W", 1_900),
        ("1,900 watts", 1_900),
        ("2.2 kW", 2_200),
        # 12,000 Btu/h is 3,517 W (science reference, 4.2).
        ("12,000 Btu/h", 3_517),
        ("12000 BTU", 3_517),
        ("9 000 btu per hour", 2_638),
        ("12,000 BTU/hour", 3_517),
        ("12000 Btus per hour", 3_517),
        ("12 000 BTUs/hr", 3_517),
    ],
)
def test_power_is_read_in_watts_and_btu_an_hour(text: str, watts: int) -> None:
    assert parse_power(text) == pytest.approx(watts, abs=0.5)  # as a plate prints it


@pytest.mark.parametrize("text", ["", "strong", "1900", "2 hp", "-3 W", "1,9 W", "1.9.0 kW"])
def test_what_is_no_power_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(InputError, match=r'kitchen\.toml, line 4.*"1,900 W"'):
        parse_power(text, "kitchen.toml, line 4, burner_power")


@pytest.mark.parametrize("text", ["5 W", "90,000 W", "9,000 W", "900,000 Btu/h"])
def test_a_power_no_kitchen_has_is_told(text: str) -> None:
    with pytest.raises(InputError, match="no burner of a kitchen"):
        parse_power(text)
