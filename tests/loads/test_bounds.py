"""Bounds by counting, each counted by hand. That none exceeds an optimum: test_brute_force."""

from stillroom.loads.bounds import certainly_late, least_lengths, least_makespan
from tests.loads.small import canner, job, problem


def test_long_jars_are_counted_first() -> None:
    """Room 2: 9 and 7 in one load of 9, 5 and 5 in one of 5, the last 3 alone."""
    asked = problem(job("a", 9), job("b", 7), job("c", 5, count=2), job("d", 3))

    assert least_lengths(asked, asked.jobs) == {0: [9, 5, 3]}


def test_families_are_counted_apart() -> None:
    asked = problem(job("a", 9), job("b", 7, family=1))

    assert least_lengths(asked, asked.jobs) == {0: [9], 1: [7]}


def test_a_jar_that_cannot_be_in_time_even_alone_is_counted() -> None:
    """10 minutes from 0 end at 10: due at 9 is late, due at 10 is not."""
    assert certainly_late(problem(job("a", due=9, count=3), job("b", due=10))) == 3


def test_two_canners_share_the_time_on_heat() -> None:
    """Four loads of 10 on two canners end at 20 or later."""
    two = (canner("A", room=1), canner("B", room=1))

    assert least_makespan(problem(job("a", count=4, canners=(0, 1)), canners=two)) == 20


def test_a_third_load_on_two_canners_goes_behind_another() -> None:
    """By time alone 15 would do; three loads on two canners put two on one: 20."""
    two = (canner("A", room=1), canner("B", room=1))

    assert least_makespan(problem(job("a", count=3, canners=(0, 1)), canners=two)) == 20


def test_jars_of_one_canner_fill_it_whatever_others_do() -> None:
    """Three loads of 10 must go into A; B is idle."""
    two = (canner("A", room=1), canner("B", room=1))

    assert least_makespan(problem(job("a", count=3), canners=two)) == 30


def test_turnaround_stands_between_loads_but_not_before_the_first() -> None:
    """10 + 7 + 10."""
    one = (canner(room=1),)

    assert least_makespan(problem(job("a", count=2), canners=one, setup_time=((7,),))) == 27


def test_room_that_no_jars_fill_is_no_room() -> None:
    """Jars of 3 in room 5: one a load, though by volume five loads would hold eight."""
    one = (canner(room=5),)

    assert least_makespan(problem(job("a", size=3, count=8), canners=one)) == 80


def test_a_closed_canner_does_no_work() -> None:
    """20 of work, open 0-10 and 30-60: 40."""
    one = (canner(room=1, windows=((0, 10), (30, 60))),)

    assert least_makespan(problem(job("a", count=2), canners=one)) == 40
