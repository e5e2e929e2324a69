"""The heat inferred from a pressure log, and the jars followed through it."""

import numpy as np
import pytest

from stillroom.errors import InputError
from stillroom.heat.filled import body_of, filled
from stillroom.heat.inside import band
from stillroom.heat.log import Log, Reading
from stillroom.heat.logged import canner_history, inferred, inside_log, usual_start
from stillroom.units.temperature import fahrenheit


def run(*points: tuple[float, float | None, str]) -> Log:
    """A log of (minute, psi, event)."""
    lines = [
        Reading(n, 60 * m, f"{m:g}", psi=psi, event=event)
        for n, (m, psi, event) in enumerate(points, 2)
    ]
    return Log("run.csv", "pressure", False, tuple(lines))


WHOLE = run(
    (0, 0, "lid on"), (14, 0, "vent start"), (24, None, "vent end"), (30, 11, "timing starts"),
    (60, 11, ""), (105, 11, "heat off"), (145, 0, "zero pressure"),
)  # fmt: skip


def test_readings_are_taken_as_pure_steam() -> None:
    """science.md 3.3: 11 lb at the sea is 241.56 F, in which 0.05 F is asked for."""
    told = {line.at / 60: fahrenheit(kelvin) for line, kelvin in inferred(WHOLE, 0)}

    assert told[30] == pytest.approx(241.56, abs=0.05)
    assert told[14] == pytest.approx(211.95, abs=0.05)


def test_a_gauge_at_zero_tells_nothing_before_steam_flows() -> None:
    assert [line.at / 60 for line, _ in inferred(WHOLE, 0)] == [14, 30, 60, 105, 145]

    untold = run((0, 0, ""), (10, 0, ""), (20, 0, ""), (30, 11, ""))
    assert [line.at / 60 for line, _ in inferred(untold, 0)] == [20, 30]

    at_pressure = run((0, 11, ""), (5, 11, ""))
    assert [line.at / 60 for line, _ in inferred(at_pressure, 0)] == [0, 5]


def test_the_canner_warms_up_boils_while_venting_and_then_comes_up() -> None:
    """The water begins at 70 C for a hot pack (data/vessel_priors.csv), 158 F."""
    history = canner_history(WHOLE, 0, "hot")
    at = fahrenheit_at(history.at(60 * np.array([0.0, 7.0, 14.0, 19.0, 24.0, 27.0, 30.0])))

    boil, high = 211.95, 241.56
    assert at == pytest.approx(
        [158, (158 + boil) / 2, boil, boil, boil, (boil + high) / 2, high], abs=0.05
    )


def fahrenheit_at(kelvins: np.ndarray) -> list[float]:
    return [fahrenheit(float(k)) for k in kelvins]


def test_a_gauge_that_never_rose_tells_no_temperature() -> None:
    with pytest.raises(InputError, match=r"run\.csv: the gauge never left 0"):
        canner_history(run((0, 0, ""), (9, 0, "")), 0, "hot")


def _f0(log: Log) -> float:
    kind = filled(body_of("pint", None, None), 0.0254, "carrots", "pieces in liquid")
    inside = inside_log(log, kind, usual_start("hot"), 0, "hot", 105 * 60.0)
    return float(band(inside.lethality)[1])


def test_a_fall_costs_the_jars_some_of_their_heat() -> None:
    fell = run(*((m, 8.0 if m == 60 else psi, e) for m, psi, e in points(WHOLE)))

    assert _f0(fell) < _f0(WHOLE)


def points(log: Log) -> list[tuple[float, float | None, str]]:
    return [(line.at / 60, line.psi, line.event) for line in log.lines]


def test_cooling_that_was_logged_counts() -> None:
    """science.md 2.5: a jar that cools in the shut canner adds lethality."""
    cut_off = Log("run.csv", "pressure", False, WHOLE.lines[:-1])

    assert _f0(WHOLE) > 1.02 * _f0(cut_off)


def test_a_raw_pack_starts_colder() -> None:
    assert usual_start("raw") < usual_start("hot")
