"""What the printed gauge bands give in pure steam: about 240 F, never "at least 240 F".

Values worked out for the project's science notes (3.3) with other code: IAPWS-IF97, standard
atmosphere, an exact gauge. The tables were validated as they stand; this is no reason to change a
setting or a time.
"""

import pytest

from stillroom.physics.atmosphere import (
    GaugePressure,
    boiling_point,
    canner_temperature,
    standard_pressure,
)
from stillroom.physics.lethality import lethal_rate
from stillroom.physics.steam import saturation_pressure

PASCALS_PER_PSI = 0.45359237 * 9.80665 / 0.0254**2  # definitions of pound, standard gravity, inch
METRES_PER_FOOT = 0.3048  # definition


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit + 459.67) / 1.8


def fahrenheit_at(pounds: float, feet: float) -> float:
    gauge = GaugePressure(pounds * PASCALS_PER_PSI)
    return canner_temperature(gauge, feet * METRES_PER_FOOT) * 1.8 - 459.67


@pytest.mark.parametrize(
    ("pounds", "lowest", "highest", "at_lowest", "at_highest"),
    [
        (11, 0, 2000, 241.56, 239.29),
        (12, 2001, 4000, 241.49, 239.35),
        (13, 4001, 6000, 241.55, 239.54),
        (14, 6001, 8000, 241.73, 239.85),
        (10, 0, 1000, 239.36, 238.18),
        (15, 1001, 10000, 248.70, 240.27),
        (6, 0, 2000, 229.74, 227.02),
        (7, 2001, 4000, 229.66, 227.09),
        (8, 4001, 6000, 229.73, 227.32),
        (9, 6001, 8000, 229.95, 227.69),
    ],
)
def test_steam_at_the_edges_of_a_band(
    pounds: float, lowest: float, highest: float, at_lowest: float, at_highest: float
) -> None:
    """Dial 11 to 14 psi, weights 10 and 15, and the low-pressure options; asked within 0.05 F."""
    assert fahrenheit_at(pounds, lowest) == pytest.approx(at_lowest, abs=0.05)
    assert fahrenheit_at(pounds, highest) == pytest.approx(at_highest, abs=0.05)


@pytest.mark.parametrize(
    ("pounds", "highest", "rate"),
    [
        (11, 2000, 0.913),
        (12, 4000, 0.920),
        (13, 6000, 0.943),
        (14, 8000, 0.981),
        (10, 1000, 0.792),
        (15, 10000, 1.035),
    ],
)
def test_lethal_rate_at_the_top_of_a_band_against_240_f(
    pounds: float, highest: float, rate: float
) -> None:
    """Printed to 0.001; half a unit, and as much for the temperatures' rounding."""
    at_top = lethal_rate(kelvin(fahrenheit_at(pounds, highest)))

    assert float(at_top / lethal_rate(kelvin(240))) == pytest.approx(rate, abs=0.001)


@pytest.mark.parametrize(
    ("pounds", "feet"),
    [(11, 1366), (12, 3385), (13, 5535), (14, 7835), (10, -540), (15, 10312)],
)
def test_elevation_up_to_which_a_setting_keeps_240_f(pounds: float, feet: float) -> None:
    """0.05 F is worth some 45 ft; the notes print whole feet (the weight's, to ten)."""
    assert fahrenheit_at(pounds, feet) == pytest.approx(240.0, abs=0.012)


@pytest.mark.parametrize(
    ("feet", "for_240", "for_250"),
    [
        (0, 10.29, 15.15),
        (1000, 10.81, 15.67),
        (2000, 11.32, 16.18),
        (3000, 11.81, 16.67),
        (4000, 12.29, 17.15),
        (5000, 12.76, 17.61),
        (6000, 13.21, 18.07),
        (7000, 13.65, 18.50),
        (8000, 14.07, 18.93),
        (9000, 14.48, 19.34),
        (10000, 14.88, 19.74),
    ],
)
def test_gauge_pressure_of_steam_at_240_and_250_f(
    feet: float, for_240: float, for_250: float
) -> None:
    """Asked within 0.01 psi. It explains the bands; it is no setting."""
    outside = standard_pressure(feet * METRES_PER_FOOT)
    for wanted, printed in ((240.0, for_240), (250.0, for_250)):
        gauge = (saturation_pressure(kelvin(wanted)) - outside) / PASCALS_PER_PSI
        assert gauge == pytest.approx(printed, abs=0.01)


@pytest.mark.parametrize(("pounds", "feet", "found"), [(11, 3000, 238.17), (10, 1000, 238.18)])
def test_the_wrong_band_costs_two_degrees(pounds: float, feet: float, found: float) -> None:
    assert fahrenheit_at(pounds, feet) == pytest.approx(found, abs=0.05)


def test_the_wrong_band_at_3000_ft_leaves_0_79_of_the_rate_at_240_f() -> None:
    rate = lethal_rate(kelvin(fahrenheit_at(11, 3000))) / lethal_rate(kelvin(240))

    assert float(rate) == pytest.approx(0.79, abs=0.005)


@pytest.mark.parametrize(
    ("feet", "boils"),
    [(1000, 210.13), (3000, 206.48), (4000, 204.65), (7000, 199.16), (9000, 195.50)],
)
def test_boiling_points_of_the_notes_that_no_printed_table_has(feet: float, boils: float) -> None:
    """Section 3.2, computed there to 0.01 F."""
    assert boiling_point(feet * METRES_PER_FOOT) * 1.8 - 459.67 == pytest.approx(boils, abs=0.01)
