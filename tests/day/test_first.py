"""The first plan, by a person's rule, keeps every rule, and the solver never ends later."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.day.problem import Problem
from stillroom.day.solver import solve
from stillroom.day.solver.bench import FirstPlan
from stillroom.day.solver.first import first_plan
from stillroom.day.solver.solution import Solution, from_first
from tests.day.checker import complaints
from tests.day.small import day, job, oven, row, way


def as_solution(problem: Problem, first: FirstPlan) -> Solution:
    """The first plan in minutes, in the shape the checker reads."""
    return from_first(problem.in_steps(), *first.parts)


@st.composite
def days(draw: st.DrawFn) -> Problem:
    """Days larger than anybody would try all plans of, with every kind of order in them."""
    ovens = tuple(
        oven(f"canner {n}", wait=draw(st.sampled_from([0, 10])), own_plug=draw(st.booleans()))
        for n in range(draw(st.integers(1, 3)))
    )
    jobs = []
    for n in range(draw(st.integers(1, 4))):
        psi = draw(st.sampled_from([None, 10, 15]))
        minutes = draw(st.sampled_from([10, 25, 75]))
        cool = draw(st.sampled_from([5, 30]))
        ways = [way(canner, 7, row(minutes, psi), cool) for canner in range(len(ovens))]
        make = draw(st.sampled_from([0, 0, 60]))
        jobs.append(
            job(
                f"order {n}",
                draw(st.integers(1, 15)),
                *ways,
                prep=draw(st.integers(0, 8)),
                fill=draw(st.integers(0, 4)),
                heat=0 if make else draw(st.sampled_from([0, 15])),
                make=make,
                hot=draw(st.booleans()),
                perishable=draw(st.booleans()),
            )
        )
    away = draw(st.sampled_from([(), ((300, 360),)]))
    made = day(
        *jobs,
        ovens=ovens,
        people=draw(st.integers(1, 3)),
        burners=draw(st.integers(4, 6)),
        horizon=1440,
        away=away,
    )
    return replace(made, counters=draw(st.sampled_from([None, 1, 2])))


@given(days())
@settings(max_examples=60)
def test_the_first_plan_keeps_every_rule(problem: Problem) -> None:
    first = first_plan(problem.in_steps())

    if first is not None:
        assert complaints(problem, as_solution(problem, first)) == []


@given(days())
@settings(max_examples=6)
def test_the_solver_ends_no_later_than_the_first_plan_and_keeps_every_rule(
    problem: Problem,
) -> None:
    first = first_plan(problem.in_steps())
    if first is None:
        return
    solution = solve(problem, 3.0)

    assert solution is not None
    assert complaints(problem, solution) == []
    assert solution.finish <= as_solution(problem, first).finish


def test_an_ordinary_day_has_a_first_plan() -> None:
    """Two canners, two people, three orders: the rule must not give up on such a day."""
    ovens = (oven("A"), oven("B"))
    orders = [
        job(name, 9, way(0, 7, row(20, 11), 30), way(1, 7, row(20, 11), 30), prep=4, fill=2)
        for name in ("one", "two", "three")
    ]

    assert first_plan(day(*orders, ovens=ovens, people=2).in_steps()) is not None


def test_without_time_for_the_solver_the_first_plan_is_the_answer() -> None:
    ovens = (oven("A"), oven("B"))
    orders = [
        job(name, 9, way(0, 7, row(20, 11), 30), way(1, 7, row(20, 11), 30), prep=4, fill=2)
        for name in ("one", "two", "three")
    ]
    problem = day(*orders, ovens=ovens, people=2)

    solution = solve(problem, 0.001)

    assert solution is not None
    assert complaints(problem, solution) == []
