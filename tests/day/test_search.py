"""How a search goes: its news, its end by hand, the same answer twice, one aim after another."""

import threading
from dataclasses import replace

import pytest

from stillroom.day.aims import AIMS
from stillroom.day.problem import Problem
from stillroom.day.solver import Control, Progress, solve
from stillroom.day.solver.aims import measure
from tests.day.checker import complaints
from tests.day.small import day, job, oven, row, way


def busy(orders: int = 4) -> Problem:
    """Two canners, two people, orders enough that there is something to search for."""
    ovens = (oven("A"), oven("B"))
    jobs = [
        job(
            f"order {n}",
            9,
            way(0, 7, row(20 + 5 * n, 11), 30),
            way(1, 7, row(20 + 5 * n, 11), 30),
            prep=4,
            fill=2,
            heat=15,
        )
        for n in range(orders)
    ]
    return day(*jobs, ovens=ovens, people=2)


def test_news_begin_with_a_first_plan_and_end_with_the_answer() -> None:
    heard: list[Progress] = []

    solution = solve(busy(2), 10.0, Control(tell=heard.append))

    assert solution is not None
    assert heard[0].aim == "first plan"
    finishes = [news.finish for news in heard if news.aim == "finish"]
    assert finishes == sorted(finishes, reverse=True)
    assert min(news.finish for news in heard) == solution.finish


def test_a_search_ended_by_hand_keeps_the_best_plan_so_far() -> None:
    """The caller ends it at the first word of the solver: long before sixty seconds."""
    control = Control()
    heard: list[Progress] = []

    def end(news: Progress) -> None:
        heard.append(news)
        if news.aim == "finish":
            control.stop.set()

    control.tell = end
    solution = solve(busy(9), 60.0, control)

    assert solution is not None
    assert solution.stopped
    assert solution.seconds < 30
    assert complaints(busy(9), solution) == []
    assert solution.finish <= heard[0].finish


def test_a_search_that_is_stopped_before_it_begins_answers_with_the_first_plan() -> None:
    control = Control()
    control.stop.set()

    solution = solve(busy(9), 60.0, control)

    assert solution is not None
    assert solution.stopped
    assert solution.seconds < 20


def test_the_same_day_and_seed_give_the_same_plan() -> None:
    """Every load, hand and minute, not only the finish; limits far beyond what is needed."""
    first = solve(busy(2), 60.0, Control(seed=7))
    second = solve(busy(2), 60.0, Control(seed=7))

    assert first is not None
    assert second is not None
    assert first.loads == second.loads


def test_a_search_leaves_no_thread_behind() -> None:
    before = threading.active_count()

    solve(busy(2), 5.0)

    assert threading.active_count() == before


@pytest.mark.parametrize("aims", [AIMS, ("extra processing", "finish", *AIMS[1:3])])
def test_what_is_told_of_each_aim_is_what_the_plan_has(aims: tuple[str, ...]) -> None:
    problem = replace(busy(3), aims=aims)

    solution = solve(problem, 10.0)

    assert solution is not None
    assert complaints(problem, solution) == []
    assert [reached.aim for reached in solution.reached] == list(aims)
    for reached in solution.reached:
        assert reached.value == measure(problem, solution, reached.aim)
        assert reached.bound <= reached.value


def test_foods_kept_to_their_own_times_first_cost_a_load() -> None:
    """20 and 35 min share a load and are out at 60; kept apart they take 45 + 60."""
    quick = job("quick", 3, way(0, 7, row(20), 0))
    slow = job("slow", 3, way(0, 7, row(35), 0))

    early = solve(day(quick, slow), 10.0)
    apart = solve(replace(day(quick, slow), aims=("extra processing", "finish")), 10.0)

    assert early is not None
    assert apart is not None
    assert (early.finish, len(early.loads)) == (60, 1)
    assert (apart.finish, len(apart.loads)) == (105, 2)
    assert {r.aim: r.value for r in early.reached}["extra processing"] == 15
    assert {r.aim: r.value for r in apart.reached}["extra processing"] == 0


def test_fewer_hot_hours_first_put_up_with_a_later_finish() -> None:
    """One canner warms in 10 and takes four jars, the other in 60 and is there at once.

    Eight jars: both canners at once end with the slow one, heat 5+10+20 and 5+60+20, finish
    5+5+60+20+10 = 100. The quick one twice: two runs of 45 are 90, heat 2 x 35 = 70.
    With a third quick run asked for (twelve jars) the two aims part: 135 against 100.
    """
    ovens = (oven("quick"), oven("slow"))
    order = job("a", 12, way(0, 4, row(20), 0), way(1, 4, row(20), 0, heat=60))

    early = solve(day(order, ovens=ovens, people=2), 10.0)
    cool = solve(
        replace(day(order, ovens=ovens, people=2), aims=("hot hours", "finish")),
        10.0,
    )

    assert early is not None
    assert cool is not None
    assert (early.finish, cool.finish) == (95, 135)
    assert measure(day(order, ovens=ovens), early, "hot hours") == 2 * 35 + 85
    assert measure(day(order, ovens=ovens), cool, "hot hours") == 3 * 35
