"""The standard atmosphere, boiling and gauges against print and independent libraries."""

import doctest
import math

import pytest
from ambiance import Atmosphere
from CoolProp.CoolProp import PropsSI
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import OutOfRange
from stillroom.physics import atmosphere
from stillroom.physics.atmosphere import (
    GaugePressure,
    boiling_point,
    canner_temperature,
    standard_pressure,
)
from stillroom.physics.steam import AbsolutePressure, saturation_temperature

METRES_PER_FOOT = 0.3048  # definition
PASCALS_PER_PSI = 0.45359237 * 9.80665 / 0.0254**2  # definitions of pound, standard gravity, inch
PASCALS_PER_INHG = 3386.389  # conventional inch of mercury at 0 C, NIST SP 811
elevations = st.floats(min_value=-2_000, max_value=11_000)
KITCHENS = [-400.0, 0.0, 304.8, 609.6, 1_219.2, 1_828.8, 2_438.4, 3_048.0, 4_000.0, 11_000.0]


def metres(feet: float) -> float:
    return feet * METRES_PER_FOOT


def fahrenheit(temperature: float) -> float:
    return temperature * 1.8 - 459.67


def psig(pounds: float) -> GaugePressure:
    return GaugePressure(pounds * PASCALS_PER_PSI)


@pytest.mark.parametrize(
    ("elevation", "pascals"),
    [(0, 1.01325e5), (1_000, 8.98763e4), (2_000, 7.95014e4), (11_000, 2.26999e4)],
)
def test_standard_pressure_matches_the_icao_table_by_geometric_height(
    elevation: float, pascals: float
) -> None:
    """ICAO Doc 7488/3 (1993), table 1, pressure by geometric height h; 6 digits."""
    assert standard_pressure(elevation) == pytest.approx(pascals, abs=0.05)


# feet, psia: the ASHRAE Handbook of Fundamentals' standard atmosphere, U.S. units, as reprinted.
# Its 4,000 ft line prints 12.682, against the 12.692 of the formula beside it and of its own
# neighbours: a misprint, so that line is left out.
ASHRAE_PSIA = [
    (0, 14.696),
    (1_000, 14.175),
    (2_000, 13.664),
    (3_000, 13.173),
    (5_000, 12.230),
    (6_000, 11.778),
    (7_000, 11.341),
    (8_000, 10.914),
    (9_000, 10.506),
    (10_000, 10.108),
]


@pytest.mark.parametrize(("feet", "psia"), ASHRAE_PSIA)
def test_standard_pressure_matches_the_psia_column_of_ashrae_fundamentals(
    feet: float, psia: float
) -> None:
    """The third decimal wanders up to 0.003 psi about the formula printed beside the column.

    It looks computed from inches of mercury kept to 0.01: that digit, 0.005 psi, is the tolerance.
    """
    assert standard_pressure(metres(feet)) / PASCALS_PER_PSI == pytest.approx(psia, abs=0.005)


@pytest.mark.parametrize(
    ("feet", "inches"),
    [(2_000, 27.82), (4_000, 25.84), (6_000, 23.98), (8_000, 22.22), (10_000, 20.57)],
)
def test_standard_pressure_matches_the_published_inches_of_mercury(
    feet: float, inches: float
) -> None:
    """Altitude and pressure table of the Engineering ToolBox, printed to 0.01 inHg.

    Within one unit of the last digit, plus 0.004 inHg because it seems to count geopotential feet.
    """
    assert standard_pressure(metres(feet)) / PASCALS_PER_INHG == pytest.approx(inches, abs=0.014)


@pytest.mark.parametrize("elevation", KITCHENS)
def test_standard_pressure_agrees_with_ambiance(elevation: float) -> None:
    """Package ambiance: the ICAO standard atmosphere (Doc 7488/3), the same constants as ours.

    Below the sea it starts from the 1.77687e5 Pa that the table prints for -5 000 m: half of the
    sixth digit is a relative 3e-6. Above, only the last digits of a double may differ.
    """
    oracle = float(Atmosphere(elevation).pressure[0])

    assert standard_pressure(elevation) == pytest.approx(
        oracle, rel=3e-6 if elevation < 0 else 1e-12
    )


@pytest.mark.parametrize("elevation", KITCHENS)
def test_standard_pressure_agrees_with_fluids(elevation: float) -> None:
    """Package fluids: the U.S. Standard Atmosphere 1976.

    Its gas constant differs from ISO 2533's in the sixth digit, hence the relative 1e-5.
    """
    assert standard_pressure(elevation) == pytest.approx(
        float(ATMOSPHERE_1976(elevation).P), rel=1e-5
    )


@pytest.mark.parametrize(
    ("feet", "boils"),
    [
        (0, 212),
        (1_000, 210.2),
        (2_000, 208.4),
        (5_000, 203.0),
        (6_000, 201.1),
        (8_000, 197.4),
        (10_000, 193.6),
    ],
)
def test_boiling_point_matches_the_printed_table_by_elevation(feet: float, boils: float) -> None:
    """NASA and NOAA boiling points by elevation, as reprinted.

    Within 0.2 F: printed to 0.1 F (0 ft to 1 F), on a scale where one atmosphere boils at 212 F;
    on today's ITS-90 it boils at 211.95 F.
    """
    assert fahrenheit(boiling_point(metres(feet))) == pytest.approx(boils, abs=0.2)


@pytest.mark.parametrize("elevation", KITCHENS)
def test_boiling_point_agrees_with_ambiance_and_coolprop_together(elevation: float) -> None:
    """The air by ambiance, the water by CoolProp's IAPWS-95 equation: no code shared with ours."""
    outside = float(Atmosphere(elevation).pressure[0])

    boils = PropsSI("T", "P", outside, "Q", 0, "HEOS::Water")

    # 0.01 F, a tenth of the last printed digit; two fits of one water are 0.001 F apart here.
    assert boiling_point(elevation) == pytest.approx(boils, abs=0.0056)


@pytest.mark.parametrize(
    ("pounds", "feet"),
    [(11, 0), (12, 4_000), (13, 6_000), (14, 8_000), (10, 1_000), (15, 10_000), (6, 2_000)],
)
def test_canner_temperature_agrees_with_ambiance_and_coolprop_together(
    pounds: float, feet: float
) -> None:
    """The air by ambiance, the water by CoolProp's IAPWS-95 equation: no code shared with ours."""
    inside = float(Atmosphere(metres(feet)).pressure[0]) + pounds * PASCALS_PER_PSI

    steams = PropsSI("T", "P", inside, "Q", 0, "HEOS::Water")

    # 0.01 F, a tenth of the last printed digit; two fits of one water are 0.003 F apart at most.
    assert canner_temperature(psig(pounds), metres(feet)) == pytest.approx(steams, abs=0.0056)


def test_a_canner_without_pressure_is_an_open_pot() -> None:
    assert canner_temperature(GaugePressure(0.0), 1_500.0) == boiling_point(1_500.0)


@given(elevations, elevations)
def test_air_pressure_and_boiling_point_fall_with_elevation(one: float, other: float) -> None:
    lower, higher = sorted((one, other))

    # A micrometre is worth some 3e-9 K; a far smaller step would be lost in rounding.
    if higher - lower > 1e-6:
        assert standard_pressure(lower) > standard_pressure(higher)
        assert boiling_point(lower) > boiling_point(higher)


@given(st.floats(0, 300_000), st.floats(0, 300_000), elevations)
def test_more_on_the_gauge_is_never_colder(one: float, other: float, elevation: float) -> None:
    less, more = sorted((one, other))

    # 1e-4 Pa is worth some 1e-8 K; a far smaller step would be lost in rounding.
    if more - less > 1e-4:
        assert canner_temperature(GaugePressure(less), elevation) < canner_temperature(
            GaugePressure(more), elevation
        )


@pytest.mark.parametrize("elevation", [-2_000.1, 11_000.1, -6_356_766.0, math.inf, math.nan])
def test_an_elevation_off_the_lowest_layer_is_out_of_range(elevation: float) -> None:
    with pytest.raises(OutOfRange, match="-2000 to 11000 m"):
        standard_pressure(elevation)
    with pytest.raises(OutOfRange, match="-2000 to 11000 m"):
        boiling_point(elevation)
    with pytest.raises(OutOfRange, match="-2000 to 11000 m"):
        canner_temperature(GaugePressure(0.0), elevation)


@pytest.mark.parametrize("pascals", [-0.001, -math.inf, math.nan])
def test_a_gauge_below_zero_is_out_of_range(pascals: float) -> None:
    with pytest.raises(OutOfRange, match="starts at 0"):
        GaugePressure(pascals)


@pytest.mark.parametrize("pascals", [22_064_000.0, math.inf])
def test_a_gauge_beyond_the_critical_point_of_water_is_out_of_range(pascals: float) -> None:
    with pytest.raises(OutOfRange, match="saturation line"):
        canner_temperature(GaugePressure(pascals), 0.0)


def test_gauge_and_absolute_pressure_cannot_be_mixed() -> None:
    """mypy refuses each line: were it to accept one, the unused ignore would fail the check."""
    with pytest.raises(TypeError):
        saturation_temperature(GaugePressure(75_842.0))  # type: ignore[arg-type]  # on purpose
    with pytest.raises(AttributeError):
        canner_temperature(AbsolutePressure(177_167.0), 0.0)  # type: ignore[arg-type]  # on purpose
    with pytest.raises(TypeError):
        GaugePressure(75_842.0) + AbsolutePressure(101_325.0)  # type: ignore[operator]  # on purpose


def test_the_examples_in_the_data_sheets_run() -> None:
    failed, tried = doctest.testmod(atmosphere)

    assert (failed, tried > 0) == (0, True)
