"""A big day's first plan, made better part by part, keeps every rule and never ends later."""

import time
from dataclasses import replace

import pytest
from hypothesis import given, settings

from stillroom.day.problem import Problem
from stillroom.day.solver import Control, solve
from stillroom.day.solver.first import first_plan, varied_plan
from stillroom.day.solver.improve import improve
from stillroom.day.solver.solution import from_first
from stillroom.day.solver.strength import least_time_of_hands
from tests.day.checker import complaints
from tests.day.small import day, job, oven, row, way
from tests.day.test_first import days


def big() -> Problem:
    """Six canners, four people, five orders of which one is made in a pot once."""
    ovens = tuple(oven(f"canner {n}", own_plug=n == 5) for n in range(6))
    jobs = [
        job(
            f"order {n}",
            30,
            *(way(c, 9, row(20 + 10 * n, 11), 40) for c in range(6)),
            prep=6,
            fill=2,
            heat=0 if n == 0 else 15,
            make=60 if n == 0 else 0,
            perishable=n == 1,
        )
        for n in range(5)
    ]
    return day(*jobs, ovens=ovens, people=4, burners=9, horizon=1440)


@given(days())
@settings(max_examples=25)
def test_whatever_the_rules_drawn_their_plan_keeps_every_rule(problem: Problem) -> None:
    steps = problem.in_steps()
    first = first_plan(steps)

    if first is not None:
        varied = varied_plan(steps, first, seed=3, tries=8)
        assert varied.finish <= first.finish
        assert complaints(problem, from_first(steps, *varied.parts)) == []


@given(days())
@settings(max_examples=10)
def test_a_plan_made_better_keeps_every_rule_and_ends_no_later(problem: Problem) -> None:
    steps = problem.in_steps()
    first = first_plan(steps)

    if first is not None:
        better = improve(steps, first, time.monotonic() + 0.7, Control(seed=2))
        assert better.finish <= first.finish
        assert complaints(problem, from_first(steps, *better.parts)) == []


def test_a_big_day_ends_earlier_than_by_a_person_s_rule() -> None:
    steps = big().in_steps()
    first = first_plan(steps)
    assert first is not None

    solution = solve(replace(big(), aims=("finish",)), 6.0)

    assert solution is not None
    assert complaints(big(), solution) == []
    assert solution.finish < 5 * first.finish


def test_an_order_pinned_to_be_first_is_left_as_it_is() -> None:
    problem = big()
    pinned = replace(problem, jobs=(replace(problem.jobs[0], first=True), *problem.jobs[1:]))
    steps = pinned.in_steps()
    first = first_plan(steps)
    assert first is not None

    assert improve(steps, first, time.monotonic() + 1, Control()) is first


@pytest.mark.parametrize(("people", "least"), [(1, 95), (2, 50), (3, 35)])
def test_hands_need_at_least_the_work_there_is(people: int, least: int) -> None:
    """Two loads of 7: 14 x (4 + 2) = 84 min, and 2 x 5 to lower them; one is unloaded after.

    94 minutes of one, 47 of two, 31.3 of three, each to the next five.
    """
    ovens = (oven("A"), oven("B"))
    order = job("a", 14, way(0, 7, row(20), 0), way(1, 7, row(20), 0), prep=4, fill=2)

    assert 5 * least_time_of_hands(day(order, ovens=ovens, people=people).in_steps(), 2) == least
