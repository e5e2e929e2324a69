"""What a log shows of a run, on logs small enough to be judged in the head."""

import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.heat.deviation import LONGEST_GAP, Deviation, deviation, rule, rules
from stillroom.heat.log import Log, Reading
from stillroom.heat.readings import read_log


def run(*points: tuple[float, float], events: tuple[tuple[float, str], ...] = ()) -> Log:
    """A log of (minute, psi), and of (minute, event) on lines of their own."""
    lines = [Reading(n, 60 * m, f"{m:g}", psi=psi) for n, (m, psi) in enumerate(points, 2)]
    lines += [Reading(90, 60 * m, f"{m:g}", event=event) for m, event in events]
    return Log("run.csv", "pressure", False, tuple(sorted(lines, key=lambda line: line.at)))


def even(*psi: float, every: float = 5.0) -> Log:
    return run(*((n * every, p) for n, p in enumerate(psi)))


def spans(found: Deviation) -> list[tuple[float, float, float, float]]:
    """Each span below target: from, to, minute of the lowest reading, psi short."""
    return [(b.start / 60, b.end / 60, b.lowest.at / 60, round(b.short, 6)) for b in found.below]


def test_a_run_that_held_to_the_minute_is_unbroken() -> None:
    found = deviation(even(0, 13, 13, 14, 13, 13, 13, 6), 13, 25)

    assert found.shows == "unbroken"
    assert found.below == ()
    assert found.longest
    assert found.longest.minutes == 25
    assert not found.begin_told
    assert not found.end_told


def test_one_minute_fewer_is_too_short() -> None:
    assert deviation(even(13, 13, 13, 13), 13, 16).shows == "too short"
    assert deviation(even(13, 13, 13, 13), 13, 15).shows == "unbroken"


def test_a_tenth_of_a_pound_below_breaks_it() -> None:
    found = deviation(even(13, 13, 12.9, 13, 13), 13, 20)

    assert found.shows == "broken"
    # At target at 5 and again at 15 minutes: in between it may have been below all the time.
    assert spans(found) == [(5, 15, 10, 0.1)]
    assert [(s.start / 60, s.end / 60) for s in found.stretches] == [(0, 5), (15, 20)]


def test_two_falls_are_two_spans_with_their_lowest_readings() -> None:
    found = deviation(even(13, 12, 11, 13, 13, 10, 13), 13, 60)

    assert spans(found) == [(0, 15, 10, 2), (20, 30, 25, 3)]


def test_the_whole_time_after_a_fall_is_shown_as_such() -> None:
    """Fell at minute 5, was back at 15, and then held for the full 20."""
    found = deviation(even(13, 12, 13, 13, 13, 13, 13), 13, 20)

    assert found.shows == "unbroken"
    assert spans(found) == [(0, 10, 5, 1)]
    assert found.longest
    assert (found.longest.start / 60, found.longest.end / 60) == (10, 30)


def test_minutes_before_and_after_a_fall_are_never_added_up() -> None:
    found = deviation(even(13, 13, 13, 13, 12, 13, 13, 13, 13), 13, 20)

    assert found.shows == "broken"
    assert found.longest
    assert found.longest.minutes == 15


def test_the_cool_down_is_no_fall() -> None:
    found = deviation(even(13, 13, 13, 9, 5, 0), 13, 10)

    assert (found.shows, found.below) == ("unbroken", ())


def test_a_fall_before_heat_off_that_never_came_back_is_a_fall() -> None:
    log = run((0, 13), (5, 13), (10, 11), (15, 10), events=((15, "heat off"),))

    found = deviation(log, 13, 15)

    assert found.shows == "broken"
    assert spans(found) == [(5, 15, 15, 3)]
    assert not found.below[0].back


def test_a_pressure_that_was_never_reached_is_told() -> None:
    found = deviation(even(0, 8, 12, 12.5, 12, 3), 13, 20)

    assert found.shows == "never reached"
    assert found.reached is None
    assert found.longest is None


def test_timing_that_began_before_the_pressure_was_there_counts_as_below() -> None:
    log = run((0, 5), (5, 13), (10, 13), events=((0, "timing starts"),))

    assert spans(deviation(log, 13, 10)) == [(0, 5, 0, 8)]


def test_readings_five_minutes_apart_show_that_it_held_and_six_do_not() -> None:
    assert LONGEST_GAP == 300
    assert deviation(even(13, 13, 13, every=5), 13, 10).shows == "unbroken"

    found = deviation(even(13, 13, 13, every=6), 13, 10)

    assert found.shows == "gaps"
    assert [s.minutes for s in found.stretches] == [0, 0, 0]
    assert found.gaps == ((0, 360), (360, 720))


def test_a_full_time_beside_a_gap_is_unbroken() -> None:
    """Ten minutes read every five, then nothing for an hour."""
    found = deviation(run((0, 13), (5, 13), (10, 13), (70, 13)), 13, 10)

    assert found.shows == "unbroken"
    assert found.gaps == ((600, 4_200),)


def test_a_told_heat_off_long_after_the_last_reading_is_a_gap() -> None:
    points = ((0.0, 13.0), (5.0, 13.0), (10.0, 13.0))

    assert deviation(run(*points, events=((15, "heat off"),)), 13, 15).shows == "unbroken"
    assert deviation(run(*points, events=((20, "heat off"),)), 13, 20).shows == "gaps"


def test_no_reading_between_start_and_end_shows_nothing() -> None:
    log = run((0, 13), (40, 0), events=((5, "timing starts"), (30, "heat off")))

    assert deviation(log, 13, 25).longest is None


def test_heat_off_before_timing_starts_is_a_slip() -> None:
    log = run((0, 13), (5, 13), events=((4, "timing starts"), (2, "heat off")))

    with pytest.raises(InputError, match=r"heat off at 2 comes before timing starts at 4"):
        deviation(log, 13, 10)


def test_venting_is_told_in_minutes_or_not_at_all() -> None:
    vented = run((0, 0), (40, 13), events=((10, "vent start"), (19, "vent end")))

    assert deviation(vented, 13, 10).vented == 9 * 60
    assert deviation(even(13, 13), 13, 5).vented is None


def test_a_boil_that_stops_is_judged_in_the_same_way(tmp_path: Path) -> None:
    file = tmp_path / "boil.csv"
    file.write_text("time,boil\n0,no\n5,yes\n10,yes\n15,no\n20,yes\n25,yes\n", encoding="utf-8")

    found = deviation(read_log(file, ("boil",)), None, 15)

    assert found.shows == "broken"
    assert spans(found) == [(10, 20, 15, 0)]
    assert found.longest
    assert found.longest.minutes == 5


POINTS = st.lists(st.tuples(st.integers(1, 8), st.integers(100, 160)), min_size=1, max_size=25)


@given(POINTS, st.integers(5, 60))
def test_unbroken_is_only_said_where_a_simple_count_finds_it(
    points: list[tuple[int, int]], minutes: int
) -> None:
    """The count: from every reading on, how long do all that follow stay at target and close by?"""
    log, at = [], 0
    for pause, tenths in points:
        at += pause
        log.append((float(at), tenths / 10))
    best = 0.0
    for first in range(len(log)):
        for last in range(first, len(log)):
            stretch = log[first : last + 1]
            held = all(psi >= 13 for _, psi in stretch)
            close = all(b[0] - a[0] <= 5 for a, b in itertools.pairwise(stretch))
            if held and close:
                best = max(best, stretch[-1][0] - stretch[0][0])

    found = deviation(run(*log), 13, minutes)

    assert (found.shows == "unbroken") == (best >= minutes)


@given(POINTS, st.integers(5, 60), st.integers(1, 5))
def test_a_higher_target_never_makes_a_run_look_better(
    points: list[tuple[int, int]], minutes: int, more: int
) -> None:
    log, at = [], 0
    for pause, tenths in points:
        at += pause
        log.append((float(at), tenths / 10))

    low = deviation(run(*log), 12, minutes)
    high = deviation(run(*log), 12 + more / 2, minutes)

    assert not (high.shows == "unbroken" and low.shows != "unbroken")


def test_the_rules_say_where_they_were_read_and_how_weakly() -> None:
    """science.md of this project lists the restart rule among those read through reprints only."""
    falls, stops = rule("falls", "pressure"), rule("stops", "boiling-water")

    for found in (falls, stops):
        assert "again from the start" in found.text
        assert "could not be read" in found.read
        assert found.status == "second hand"
    assert rule("late", "pressure") == rule("late", "boiling-water")
    assert len({(r.rule, r.canner) for r in rules()}) == len(rules())
