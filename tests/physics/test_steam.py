"""The saturation line against the release it comes from and two independent libraries."""

import doctest
import math

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import OutOfRange
from stillroom.physics import steam
from stillroom.physics.steam import AbsolutePressure, saturation_pressure, saturation_temperature

PASCALS_PER_PSI = 0.45359237 * 9.80665 / 0.0254**2  # definitions of pound, standard gravity, inch
temperatures = st.floats(min_value=273.15, max_value=647.096)


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit + 459.67) / 1.8


@pytest.mark.parametrize(
    ("temperature", "megapascals"),
    [(300.0, 0.353658941e-2), (500.0, 0.263889776e1), (600.0, 0.123443146e2)],
)
def test_saturation_pressure_matches_iapws_r7_97_check_table(
    temperature: float, megapascals: float
) -> None:
    """IAPWS R7-97 (2012), table 35."""
    pressure = saturation_pressure(temperature)

    # The table prints 9 digits: half a unit of the ninth is at most 5e-9 of the value.
    assert pressure / 1e6 == pytest.approx(megapascals, rel=5e-9)


@pytest.mark.parametrize(
    ("megapascals", "temperature"),
    [(0.1, 0.372755919e3), (1.0, 0.453035632e3), (10.0, 0.584149488e3)],
)
def test_saturation_temperature_matches_iapws_r7_97_check_table(
    megapascals: float, temperature: float
) -> None:
    """IAPWS R7-97 (2012), table 36."""
    result = saturation_temperature(AbsolutePressure(megapascals * 1e6))

    assert result == pytest.approx(temperature, abs=0.5e-6)  # 9 digits: half of 1e-6 K


def test_water_boils_at_99_974_c_under_one_atmosphere() -> None:
    """Not at 100 C: that was the older temperature scale. IAPWS-95 in CoolProp 8.0: 99.9743 C."""
    celsius = saturation_temperature(AbsolutePressure(101_325.0)) - 273.15

    assert celsius == pytest.approx(99.974, abs=0.0005)  # kept to 0.001


@pytest.mark.parametrize(("fahrenheit", "psia"), [(212, 14.709), (240, 24.985), (250, 29.843)])
def test_steam_at_canning_temperatures_has_the_pressure_that_package_iapws_gives(
    fahrenheit: float, psia: float
) -> None:
    """Computed with the package iapws 1.5.5, which shares no code with ours; 3 decimals kept."""
    pressure = saturation_pressure(kelvin(fahrenheit)) / PASCALS_PER_PSI

    assert pressure == pytest.approx(psia, abs=0.0005)


@pytest.mark.parametrize("temperature", [273.16, 300.0, 373.15, 389.0, 394.0, 500.0, 600.0, 646.0])
def test_both_functions_agree_with_coolprops_own_if97(temperature: float) -> None:
    """Same equation in another's code: only the last digits of a double may differ."""
    pressure = PropsSI("P", "T", temperature, "Q", 0, "IF97::Water")

    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=1e-12)
    assert saturation_temperature(AbsolutePressure(pressure)) == pytest.approx(
        temperature, rel=1e-12
    )


@pytest.mark.parametrize("temperature", [273.16, 300.0, 373.15, 389.0, 394.0, 500.0, 600.0, 646.0])
def test_saturation_pressure_agrees_with_the_scientific_formulation_iapws_95(
    temperature: float,
) -> None:
    """Another equation, fitted to the same measured water: IAPWS R6-95 in CoolProp.

    0.025 % of pressure is 0.008 K at 240 F, below any digit that the trade prints. Over the whole
    line the two fits differ by 0.018 % at most, near 456 K.
    """
    pressure = PropsSI("P", "T", temperature, "Q", 0, "HEOS::Water")

    assert saturation_pressure(temperature) == pytest.approx(pressure, rel=2.5e-4)


@given(temperatures)
def test_temperature_to_pressure_and_back_returns_the_temperature(temperature: float) -> None:
    back = saturation_temperature(saturation_pressure(temperature))

    # Exact inverses: rounding alone, largest near the critical point (4e-11 K in 200 000 draws).
    assert back == pytest.approx(temperature, abs=1e-9)


@given(temperatures, temperatures)
def test_hotter_steam_never_has_less_pressure(one: float, other: float) -> None:
    cooler, hotter = sorted((one, other))

    # Rounding is worth up to 4e-11 K, so a smaller step may not show.
    if hotter - cooler > 1e-9:
        assert saturation_pressure(cooler) < saturation_pressure(hotter)


@pytest.mark.parametrize("temperature", [273.149, 647.097, -1.0, math.inf, -math.inf, math.nan])
def test_a_temperature_off_the_saturation_line_is_out_of_range(temperature: float) -> None:
    with pytest.raises(OutOfRange, match=r"273\.15 to 647\.096 K"):
        saturation_pressure(temperature)


@pytest.mark.parametrize("pressure", [611.2, 22_064_001.0, 0.0, -1.0, math.inf, math.nan])
def test_a_pressure_off_the_saturation_line_is_out_of_range(pressure: float) -> None:
    with pytest.raises(OutOfRange, match=r"611\.2 to 22064000 Pa"):
        saturation_temperature(AbsolutePressure(pressure))


@pytest.mark.parametrize("temperature", [273.15, 647.096])
def test_the_ends_of_the_saturation_line_belong_to_it(temperature: float) -> None:
    back = saturation_temperature(saturation_pressure(temperature))

    assert back == pytest.approx(temperature, abs=1e-9)  # as in the round trip


def test_the_examples_in_the_data_sheets_run() -> None:
    failed, tried = doctest.testmod(steam)

    assert (failed, tried > 0) == (0, True)
