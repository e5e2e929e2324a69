"""Random small problems against trying everything, and bounds against the optimum."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.loads.bounds import lower_bound
from stillroom.loads.construct import construct
from stillroom.loads.problem import Canner, Job, Problem, Weights
from stillroom.loads.result import Result, Status
from stillroom.loads.solve import solve
from stillroom.loads.timing import price
from tests.loads.brute import cheapest
from tests.loads.checker import complaints

FAMILIES = 2
numbers = st.integers


@st.composite
def jobs(draw: st.DrawFn, canners: int, jars: int) -> Job:
    least = draw(numbers(1, 6))
    return Job(
        name="jar",
        family=draw(numbers(0, FAMILIES - 1)),
        size=draw(numbers(1, 3)),
        least=least,
        most=least + draw(numbers(0, 4)),
        canners=draw(
            st.lists(numbers(0, canners - 1), min_size=1, max_size=canners, unique=True).map(tuple)
        ),
        release=draw(numbers(0, 6)),
        due=draw(st.none() | numbers(3, 16)),
        count=jars,
    )


@st.composite
def canners(draw: st.DrawFn) -> Canner:
    edges = sorted(draw(st.lists(numbers(0, 24), min_size=2, max_size=4, unique=True)))
    windows = [(a, b) for a, b in zip(edges[::2], edges[1::2], strict=False)]
    room = draw(numbers(3, 6))
    return Canner("canner", room, (*windows, (25, 90)), draw(st.none() | numbers(0, FAMILIES - 1)))


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """At most five jars, two canners and two families."""
    table = st.lists(
        st.lists(numbers(0, 4), min_size=2, max_size=2).map(tuple), min_size=2, max_size=2
    )
    ovens = draw(st.lists(canners(), min_size=1, max_size=2))
    counts = draw(
        st.sampled_from([[1], [1, 1], [1, 1, 1], [1] * 4, [1] * 5, [2, 1], [2, 2], [3, 1]])
    )
    return Problem(
        jobs=tuple(draw(jobs(len(ovens), n)) for n in counts),
        canners=tuple(ovens),
        weights=Weights(
            runtime=draw(numbers(0, 3)),
            late=draw(numbers(0, 20)),
            setup_time=draw(numbers(0, 2)),
            setup_cost=draw(numbers(0, 3)),
            makespan=draw(st.sampled_from([0, 0, 1, 5])),
        ),
        setup_time=draw(table.map(tuple)),
        setup_cost=draw(table.map(tuple)),
    )


def solved(problem: Problem) -> Result:
    return solve(problem, 20.0, workers=1)


@settings(max_examples=100, deadline=None)
@given(problems())
def test_the_proven_optimum_is_that_of_trying_everything(problem: Problem) -> None:
    result = solved(problem)
    optimum = cheapest(problem)

    if optimum is None:
        assert result.status is Status.INFEASIBLE
        return
    assert result.status is Status.OPTIMAL
    assert result.objective == result.bound == optimum
    assert complaints(problem, result) == []


@settings(max_examples=100, deadline=None)
@given(problems())
def test_no_plan_beats_the_bound_by_counting(problem: Problem) -> None:
    optimum = cheapest(problem)

    if optimum is not None:
        assert lower_bound(problem) <= optimum


@settings(max_examples=100, deadline=None)
@given(problems())
def test_plans_by_rule_keep_every_rule(problem: Problem) -> None:
    for loads in construct(problem, 1, restarts=3):
        objective = price(problem, loads)
        asked = Result(Status.FEASIBLE, objective, 0, 0.0, tuple(loads), ())
        assert complaints(problem, asked) == []


@settings(max_examples=30, deadline=None)
@given(problems())
def test_another_canner_never_makes_the_optimum_worse(problem: Problem) -> None:
    """Its jobs may go there or not."""
    one_more = len(problem.canners)
    more = replace(
        problem,
        jobs=tuple(replace(job, canners=(*job.canners, one_more)) for job in problem.jobs),
        canners=(*problem.canners, problem.canners[0]),
    )
    before, after = solved(problem), solved(more)

    if before.objective is not None:
        assert after.objective is not None
        assert after.objective <= before.objective
