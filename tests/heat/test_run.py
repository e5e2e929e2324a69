"""A run as straight pieces: the temperatures are those of the steam tables and the atmosphere."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import OutOfRange
from stillroom.heat.run import Run, history


def fahrenheit(kelvin: float) -> float:
    return (kelvin - 273.15) * 1.8 + 32


def run(elevation_ft: float = 0, psi: float | None = 11, **minutes: float) -> Run:
    usual = {"minutes": 75, "heat": 15, "vent": 10, "come_up": 5, "cool": 45, "wait": 10}
    return Run(elevation_ft, psi, water=340.0, **(usual | minutes))


@pytest.mark.parametrize(
    ("psi", "feet", "inside"),
    [
        (11, 0, 241.56),
        (11, 2000, 239.29),
        (14, 8000, 239.85),
        (10, 1000, 238.18),
        (15, 1001, 248.70),
    ],
)
def test_held_temperature_is_that_of_saturated_steam_at_the_elevation(
    psi: float, feet: float, inside: float
) -> None:
    """Science notes 3.3, from IAPWS-IF97 and the standard atmosphere; it prints 0.01 F."""
    seen = history(run(feet, psi), np.zeros(1))

    held = seen.at(np.array([60.0 * 60]))[0, 0]
    assert fahrenheit(held) == pytest.approx(inside, abs=0.05)


def test_a_run_boils_vents_comes_up_holds_and_passes_zero_pressure_when_it_says() -> None:
    """At 5,000 ft water boils at 202.83 F (science notes 3.2)."""
    seen = history(run(5000, 13), np.zeros(1))

    minute = np.array([0.0, 15, 25, 30, 105, 150]) * 60
    inside = seen.at(minute)[0]
    assert inside[0] == pytest.approx(340.0)
    assert [fahrenheit(t) for t in inside[[1, 2, 5]]] == pytest.approx([202.83] * 3, abs=0.05)
    assert inside[3] == inside[4] > inside[2]


def test_a_gauge_that_reads_high_leaves_the_canner_colder_only_under_pressure() -> None:
    """1 psi high at 11 psi, sea level: 10 psig gives 239.36 F (science notes 3.3)."""
    exact, high = history(run(), np.array([0.0, 1.0])).at(np.array([20, 60]) * 60.0)

    assert high[0] == exact[0]
    assert fahrenheit(high[1]) == pytest.approx(239.36, abs=0.05)


@given(
    feet=st.integers(0, 10_000),
    psi=st.sampled_from([None, 5.0, 10.0, 15.0]),
    minutes=st.floats(1, 200),
    heat=st.floats(1, 60),
    vent=st.sampled_from([0.0, 10.0]),
    come_up=st.floats(0, 30),
    cool=st.floats(0, 90),
    wait=st.floats(0, 15),
)
def test_every_run_has_a_history_that_lasts_until_it_is_opened(
    feet: int, psi: float | None, minutes: float, heat: float, vent: float, come_up: float,
    cool: float, wait: float,
) -> None:  # fmt: skip
    one = run(feet, psi, minutes=minutes, heat=heat, vent=vent, come_up=come_up, cool=cool,
              wait=wait)  # fmt: skip

    seen = history(one, np.zeros(1))

    assert seen.times[-1] >= one.opened - 1e-6
    after = seen.temperatures[0, seen.times > one.heat_off]
    assert (np.diff(after) <= 1e-9).all()


@pytest.mark.parametrize(
    ("wrong", "named"), [({"heat": -1.0}, "heat of a run"), ({"minutes": 0.0}, "held for some")]
)
def test_a_run_without_heat_or_hold_is_refused(wrong: dict[str, float], named: str) -> None:
    with pytest.raises(OutOfRange, match=named):
        run(**wrong)


def test_a_gauge_off_by_more_than_the_pressure_is_refused() -> None:
    with pytest.raises(OutOfRange, match="gauge"):
        history(run(psi=5), np.array([6.0]))


def test_a_canner_that_comes_up_in_no_time_is_at_pressure_through_the_hold() -> None:
    """11 psig at sea level: 241.56 F (science notes 3.3), from the end of venting on."""
    seen = history(run(come_up=0), np.zeros(1))

    early = seen.at(np.array([26.0, 60.0]) * 60)[0]
    assert [fahrenheit(t) for t in early] == pytest.approx([241.56] * 2, abs=0.05)


def test_a_cool_down_bends_whether_or_not_the_canner_waits_after_it() -> None:
    """By Newton's law it falls fastest at first: halfway in time it is past halfway in K."""
    for wait in (0, 10):
        seen = history(run(wait=wait), np.zeros(1))

        begun, halfway, over = seen.at(np.array([105, 127.5, 150]) * 60.0)[0]
        assert halfway < 0.5 * (begun + over) - 0.3
