"""Air in the canner and a gauge that is off, against printed tables and independent libraries.

Published values are those gathered with their sources in the project's science notes, 3.4.
"""

import math

import numpy as np
import pytest
from ambiance import Atmosphere
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from stillroom.errors import OutOfRange
from stillroom.physics.air import (
    PURGE_LEAVES_OUT,
    least_purge,
    misread_temperature,
    temperature_with_air,
    temperature_with_kept_air,
    true_gauge,
)
from stillroom.physics.atmosphere import GaugePressure, boiling_point, canner_temperature
from stillroom.physics.lethality import lethal_rate

PASCALS_PER_PSI = 0.45359237 * 9.80665 / 0.0254**2  # definitions of pound, standard gravity, inch
METRES_PER_FOOT = 0.3048  # definition
kitchens = st.floats(-100.0, 3_100.0)
gauges = st.floats(20_000.0, 110_000.0).map(GaugePressure)


def psig(pounds: float) -> GaugePressure:
    return GaugePressure(pounds * PASCALS_PER_PSI)


def celsius(temperature: float) -> float:
    return temperature - 273.15


def fahrenheit(temperature: float) -> float:
    return temperature * 1.8 - 459.67


@pytest.mark.parametrize(
    ("percent", "temperature"),
    [(0, 241.6), (1, 241.0), (2, 240.4), (5, 238.7), (10, 235.7), (20, 229.4), (30, 222.3)],
)
def test_temperature_at_11_psi_with_a_share_of_air(percent: float, temperature: float) -> None:
    """Sea level; 0.1 F, as printed in the notes."""
    found = temperature_with_air(psig(11), 0.0, percent / 100)

    assert fahrenheit(found) == pytest.approx(temperature, abs=0.1)


@pytest.mark.parametrize(
    ("percent", "left"), [(1, 0.931), (2, 0.866), (5, 0.695), (10, 0.476), (20, 0.211)]
)
def test_lethal_rate_left_at_11_psi_with_a_share_of_air(percent: float, left: float) -> None:
    """Five percent of air costs 30 % of the rate, ten over half (0.5 %)."""
    with_air = lethal_rate(temperature_with_air(psig(11), 0.0, percent / 100))
    pure = lethal_rate(canner_temperature(psig(11), 0.0))

    assert float(with_air / pure) == pytest.approx(left, rel=5e-3)


# psi: C with none, a third, half, two thirds and all of the air let out (notes 3.4).
KEPT_AIR = {
    5: (72.3, 89.3, 95.2, 100.2, 108.4),
    10: (89.5, 100.4, 104.7, 108.5, 115.2),
    15: (100.5, 108.7, 112.2, 115.3, 121.0),
    20: (108.8, 115.4, 118.4, 121.1, 126.0),
}


@pytest.mark.parametrize("pounds", KEPT_AIR)
def test_kept_air_gives_the_old_laboratory_rule(pounds: float) -> None:
    """Printed to 0.1 C in the notes."""
    for kept, printed in zip((1, 2 / 3, 1 / 2, 1 / 3, 0), KEPT_AIR[int(pounds)], strict=True):
        found = celsius(temperature_with_kept_air(psig(pounds), 0.0, kept))
        assert found == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(
    ("pounds", "printed"), [(15, (100, 109, 112, 115, 121)), (10, (90, 100, 105, 109, 115))]
)
def test_kept_air_agrees_with_the_old_textbook_table(
    pounds: float, printed: tuple[int, ...]
) -> None:
    """Bacteriology textbooks, whole degrees C, from memory: half a degree, and 0.1 for theirs."""
    for kept, whole in zip((1, 2 / 3, 1 / 2, 1 / 3, 0), printed, strict=True):
        found = celsius(temperature_with_kept_air(psig(pounds), 0.0, kept))
        assert found == pytest.approx(whole, abs=0.6)


@pytest.mark.parametrize(("pounds", "feet"), [(11, 0), (13, 5_200), (15, 9_000), (6, 1_500)])
@pytest.mark.parametrize("air", [0.0, 0.03, 0.2])
def test_temperature_with_air_agrees_with_ambiance_and_coolprop(
    pounds: float, feet: float, air: float
) -> None:
    """The air outside by ambiance, the water by CoolProp's IAPWS-95: no code shared with ours.

    0.01 F, as for pure steam in test_atmosphere.py.
    """
    elevation = feet * METRES_PER_FOOT
    total = float(Atmosphere(elevation).pressure[0]) + pounds * PASCALS_PER_PSI
    steams = PropsSI("T", "P", (1 - air) * total, "Q", 0, "HEOS::Water")

    assert temperature_with_air(psig(pounds), elevation, air) == pytest.approx(steams, abs=0.0056)


def test_dew_point_of_coolprops_humid_air_is_the_temperature_with_air() -> None:
    """ASHRAE RP-1485 in CoolProp: real moist air of that mole fraction of steam, at 110 kPa.

    Its interaction of air and steam lowers the dew point by 0.12 K here from Dalton's law.
    """
    from CoolProp.HumidAirProp import HAPropsSI

    # The library's moist air ends near 100 C: a canner at little pressure with a third of air.
    total, air = 110_000.0, 0.33
    gauge = GaugePressure(total - 101_325.0)
    dew = HAPropsSI("D", "P", total, "T", 372.0, "psi_w", 1 - air)

    assert temperature_with_air(gauge, 0.0, air) == pytest.approx(dew, abs=0.15)


@given(gauges, kitchens)
def test_without_air_both_forms_are_the_canner_temperature(
    gauge: GaugePressure, elevation: float
) -> None:
    pure = canner_temperature(gauge, elevation)

    assert temperature_with_air(gauge, elevation, 0.0) == pytest.approx(pure, abs=1e-9)
    assert temperature_with_kept_air(gauge, elevation, 0.0) == pytest.approx(pure, abs=1e-9)


@given(gauges, kitchens, st.floats(0.0, 0.9), st.floats(0.0, 0.9))
def test_more_air_is_never_hotter(
    gauge: GaugePressure, elevation: float, one: float, other: float
) -> None:
    less, more = sorted((one, other))

    for law in (temperature_with_air, temperature_with_kept_air):
        assert law(gauge, elevation, more) <= law(gauge, elevation, less) + 1e-9


@pytest.mark.parametrize("air", [-0.01, 1.0, math.nan])
def test_a_share_of_air_that_is_none_is_out_of_range(air: float) -> None:
    with pytest.raises(OutOfRange, match="share of air"):
        temperature_with_air(psig(11), 0.0, air)
    if air != 1.0:
        with pytest.raises(OutOfRange, match="kept share"):
            temperature_with_kept_air(psig(11), 0.0, air)


def test_gas_with_hardly_any_steam_is_refused_with_its_reason() -> None:
    with pytest.raises(OutOfRange, match="too little for water"):
        temperature_with_air(psig(11), 0.0, 0.999)
    with pytest.raises(OutOfRange, match="too little for water"):
        temperature_with_kept_air(GaugePressure(0.0), 0.0, 1.0)


# Lethal rate at sea level where an 11 psi or 10 psi canner has less (notes 1.3; 1 %).
@pytest.mark.parametrize(
    ("shown", "high_by", "left"), [(11, 1, 0.755), (11, 2, 0.564), (10, 1, 0.747), (10, 2, 0.553)]
)
def test_lethal_rate_left_where_the_gauge_reads_high(
    shown: float, high_by: float, left: float
) -> None:
    error = high_by * PASCALS_PER_PSI
    off = lethal_rate(misread_temperature(psig(shown), error, 0.0))
    exact = lethal_rate(canner_temperature(psig(shown), 0.0))

    assert float(off / exact) == pytest.approx(left, rel=0.01)


@given(gauges, st.floats(-14_000.0, 14_000.0), kitchens)
def test_a_gauge_reads_high_where_the_canner_is_colder_than_it_shows(
    shown: GaugePressure, error: float, elevation: float
) -> None:
    inside = misread_temperature(shown, error, elevation)
    believed = canner_temperature(shown, elevation)

    assert true_gauge(shown, error).pascals == shown.pascals - error
    if abs(error) > 1.0:  # a pascal is worth some 1e-4 K
        assert (inside < believed) == (error > 0)


@given(gauges, st.floats(-14_000.0, 14_000.0))
def test_error_taken_off_and_put_back_returns_the_reading(
    shown: GaugePressure, error: float
) -> None:
    back = true_gauge(true_gauge(shown, error), -error)

    assert back.pascals == pytest.approx(shown.pascals, abs=1e-6)


@pytest.mark.parametrize("error", [75_843.0, math.inf, math.nan])
def test_a_gauge_cannot_read_high_by_more_than_it_shows(error: float) -> None:
    with pytest.raises(OutOfRange, match="cannot read high"):
        true_gauge(GaugePressure(75_842.0), error)


@pytest.mark.parametrize(("feet", "left"), [(0, 0.5), (0, 0.01), (5_000, 0.02), (9_000, 0.001)])
def test_purge_agrees_with_an_integrated_mass_balance(feet: float, left: float) -> None:
    """Kilograms of steam at CoolProp's density of real steam, stirred with air of its own, by
    SciPy. Real steam is 1.5 % denser than an ideal gas at the boiling point: 2 %."""
    elevation, room, steam = feet * METRES_PER_FOOT, 0.011, 7e-4
    density = PropsSI("D", "T", boiling_point(elevation), "Q", 1, "Water")

    def balance(_: float, share: np.ndarray) -> np.ndarray:
        return -share * steam / (density * room)

    def reached(_: float, share: np.ndarray) -> float:
        return float(share[0]) - left

    reached.terminal = True  # type: ignore[attr-defined]  # how SciPy asks for it
    run = solve_ivp(balance, (0.0, 3_600.0), [1.0], events=reached, rtol=1e-8, atol=1e-12)

    assert least_purge(steam, room, elevation, left) == pytest.approx(
        float(run.t_events[0][0]), rel=0.02
    )


def test_purge_by_hand() -> None:
    """0.44 kg in 10 min through 10 L, the notes' vent: 0.0059 kg of gas, tau 8.0 s, ln 100."""
    tau = 101_325 * 0.010 * 0.018015 / (8.3145 * 373.12) / (0.44 / 600)

    assert tau == pytest.approx(8.0, abs=0.1)
    assert least_purge(0.44 / 600, 0.010, 0.0, 0.01) == pytest.approx(tau * math.log(100), rel=1e-3)


@given(st.floats(1e-5, 1e-2), st.floats(1e-3, 0.1), kitchens, st.floats(1e-4, 1.0))
def test_purge_is_quicker_with_more_steam_and_slower_with_more_room(
    steam: float, room: float, elevation: float, left: float
) -> None:
    usual = least_purge(steam, room, elevation, left)

    assert least_purge(2 * steam, room, elevation, left) == pytest.approx(usual / 2)
    assert least_purge(steam, 2 * room, elevation, left) == pytest.approx(usual * 2)
    assert least_purge(steam, room, elevation, left**2) == pytest.approx(usual * 2)
    assert least_purge(steam, room, elevation, 1.0) == 0


@pytest.mark.parametrize(
    ("steam", "room", "left", "named"),
    [
        (0.0, 0.01, 0.01, "flow of steam"),
        (math.inf, 0.01, 0.01, "flow of steam"),
        (1e-3, -1.0, 0.01, "room for gas"),
        (1e-3, math.nan, 0.01, "room for gas"),
        (1e-3, 0.01, 0.0, "air left"),
        (1e-3, 0.01, 1.1, "air left"),
    ],
)
def test_a_purge_of_nothing_is_out_of_range(
    steam: float, room: float, left: float, named: str
) -> None:
    with pytest.raises(OutOfRange, match=named):
        least_purge(steam, room, 0.0, left)


def test_the_sentence_beside_a_purge_keeps_the_published_ten_minutes() -> None:
    assert "Jars go on giving off air" in PURGE_LEAVES_OUT
    assert PURGE_LEAVES_OUT.endswith("the published ten minutes of venting stand.")
    assert "safe" not in PURGE_LEAVES_OUT.lower()
