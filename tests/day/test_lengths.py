"""What is planned for each phase, and what is told to stand behind it."""

import pytest

from stillroom.day.durations import minutes
from stillroom.day.lengths import of_load, planned
from stillroom.day.problem import Way
from stillroom.heat.durations import Span, Times, TooWeak
from stillroom.heat.load import OPENING, VENT
from tests.day.small import row

WEAK = TooWeak("The burner may never bring it there.", ("water 3 quarts",))


def times(heat: int, come_up: int, before: int, cool: int, timed: int = 0) -> Times:
    """A model's answer; the low end is half of what is planned, the high end twice."""
    of_heat, of_come_up, of_cool, of_both = (
        Span(n, n // 2, 2 * n) for n in (heat, come_up, cool, before)
    )
    return Times(of_heat, of_come_up, of_cool, of_both, ((0.0, 0.0, 0.0),), (), timed, ())


@pytest.mark.parametrize(
    ("given", "plan"),
    [
        # 13 and 8 are kept apart by 10 and 15, but together by 21, so by 25.
        ((15, 8, 21, 33), (15, 10, 35)),
        ((11, 6, 15, 30), (10, 5, 30)),
        ((3, 2, 4, 4), (5, 5, 5)),  # never nothing
        ((4, 14, 16, 51), (5, 15, 55)),
    ],
)
def test_heat_up_and_come_up_are_rounded_up_together(
    given: tuple[int, int, int, int], plan: tuple[int, int, int]
) -> None:
    heat, come_up, cool = planned("dial-gauge", "pint", times(*given))

    assert (heat, come_up, cool) == plan
    assert heat + come_up >= given[2]
    assert cool >= given[3]


def test_boiling_water_heats_and_then_waits_as_published() -> None:
    """UF/IFAS EDIS FCS8250: 5 min after heat off."""
    assert planned("boiling-water", "quart", times(22, 0, 22, 0)) == (25, 0, 5)


def test_published_figures_stand_in_where_the_model_has_no_answer() -> None:
    """MSU Extension 01600948: 15 and 5; PNW 421: 45 for quarts; 30 to a boil."""
    assert planned("weighted-gauge", "quart", WEAK) == (15, 5, 45)
    assert planned("boiling-water", "quart", WEAK) == (30, 0, 5)


def test_the_heat_model_vents_and_waits_as_long_as_a_plan_does() -> None:
    """Two places hold the published minutes: the table of a plan, and the model's aims."""
    for method in ("dial-gauge", "weighted-gauge"):
        assert minutes("vent", method) * 60 == VENT
        assert minutes("wait", method) * 60 == OPENING["pressure"]
    assert minutes("cool", "boiling-water") * 60 == OPENING["boiling-water"]


def test_every_phase_tells_what_stands_behind_it() -> None:
    slow = Way(0, 7, row(25, 11), 15, 10, 40, times(15, 8, 21, 37, timed=3))
    told = {length.phase: length for length in of_load("dial-gauge", "quart", slow, slow)}

    assert list(told) == ["load", "heat", "vent", "come-up", "cool", "wait", "unload"]
    heat = told["heat"]
    assert (heat.minutes, heat.low, heat.high, heat.basis) == (15, 7, 30, "heat model")
    assert heat.source == "timed runs: 3"
    assert (told["vent"].minutes, told["vent"].basis) == (10, "published")
    assert (told["wait"].minutes, told["wait"].basis) == (10, "published")
    assert told["unload"].basis == "common practice"


def test_a_load_without_the_model_tells_the_published_figures() -> None:
    way = Way(0, 7, row(25, 11), 15, 5, 45, WEAK)
    told = {length.phase: length for length in of_load("dial-gauge", "quart", way, way)}

    assert told["heat"].basis == told["cool"].basis == "published"
    assert (told["heat"].low, told["heat"].high) == (12, 15)
    assert told["cool"].minutes == minutes("cool", "dial-gauge", "quart")


def test_the_wait_of_boiling_water_is_not_taken_for_a_modeled_cool_down() -> None:
    way = Way(0, 7, row(25), 25, 0, 5, times(22, 0, 22, 0))
    told = {length.phase: length for length in of_load("boiling-water", "quart", way, way)}

    assert "come-up" not in told
    assert (told["cool"].minutes, told["cool"].basis) == (5, "published")
