"""The solver against trying everything, on random small days."""

from dataclasses import replace

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from stillroom.day.problem import Problem
from stillroom.day.solver import solve
from tests.day.brute import earliest_finish
from tests.day.checker import complaints
from tests.day.small import day, job, oven, row, way


@st.composite
def small_days(draw: st.DrawFn) -> Problem:
    """One or two canners, one or two orders of up to three jars: at most four loads.

    All lengths are multiples of five minutes, as the brute force asks.
    """
    ovens = tuple(
        oven(
            name,
            wait=draw(st.sampled_from([0, 5])),
            own_plug=draw(st.booleans()),
        )
        for name in ("A", "B")[: draw(st.integers(1, 2))]
    )
    jobs = []
    for name in ("one", "two")[: draw(st.integers(1, 2))]:
        cool = draw(st.sampled_from([0, 10]))
        ways = [
            way(
                canner,
                draw(st.integers(1, 3)),
                row(draw(st.sampled_from([10, 20, 45])), draw(st.sampled_from([5, 10]))),
                cool,
                heat=draw(st.sampled_from([5, 10])),
                come_up=draw(st.sampled_from([0, 5])),
            )
            for canner in range(len(ovens))
        ]
        jobs.append(
            job(
                name,
                draw(st.integers(1, 3)),
                *ways,
                prep=draw(st.integers(0, 8)),
                fill=draw(st.integers(0, 3)),
                heat=draw(st.sampled_from([0, 10])),
                hot=draw(st.booleans()),
            )
        )
    possible = sum(-(-j.count // w.capacity) for j in jobs for w in j.ways)
    assume(possible <= 4)  # trying everything grows faster than anything
    return day(
        *jobs,
        ovens=ovens,
        people=draw(st.integers(1, 2)),
        burners=draw(st.integers(2, 3)),
        most_extra=draw(st.sampled_from([0, 15, 60])),
    )


@given(small_days())
@settings(
    max_examples=120,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
def test_no_plan_beats_the_solver_and_it_keeps_every_rule(problem: Problem) -> None:
    solution = solve(replace(problem, aims=("finish",)), 30.0)

    assert solution is not None
    assert solution.optimal
    assert complaints(problem, solution) == []
    assert solution.finish == earliest_finish(problem)


@st.composite
def pinned_days(draw: st.DrawFn) -> Problem:
    """Small days with pins: an hour to begin, an hour to be done, a first order, a break."""
    problem = draw(small_days())
    first = draw(st.integers(0, 2))
    jobs = tuple(
        replace(
            job,
            not_before=draw(st.sampled_from([0, 0, 30])),
            done_by=draw(st.sampled_from([None, None, 80, 120])),
            first=n == first,
        )
        for n, job in enumerate(problem.jobs)
    )
    (crew,) = problem.crews
    rest = draw(st.sampled_from([(), ((40, 60, len(crew.names)),), ((10, 30, 1),)]))
    return replace(problem, jobs=jobs, crews=(replace(crew, taken=rest),), aims=("finish",))


@given(pinned_days())
@settings(
    max_examples=80,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
def test_no_plan_that_keeps_the_pins_beats_the_solver(problem: Problem) -> None:
    solution = solve(problem, 30.0)

    earliest = earliest_finish(problem)
    if solution is None:
        assert earliest is None
        return
    assert solution.optimal
    assert complaints(problem, solution) == []
    assert solution.finish == earliest


def _with_more(problem: Problem, what: str) -> Problem:
    """The same day with a person, a burner, an hour or a canner like the first more."""
    if what == "person":
        (crew,) = problem.crews
        return replace(problem, crews=(replace(crew, names=(*crew.names, "one more")),))
    if what == "burner":
        burners = problem.burners + 1
        return replace(problem, burners=burners, canner_burners=problem.canner_burners + 1)
    another = len(problem.ovens)
    jobs = tuple(
        replace(
            job,
            ways=(*job.ways, *(replace(w, canner=another) for w in job.ways if w.canner == 0)),
        )
        for job in problem.jobs
    )
    ovens = (*problem.ovens, replace(problem.ovens[0], name="one more"))
    return replace(problem, jobs=jobs, ovens=ovens)


@given(st.one_of(small_days(), pinned_days()), st.sampled_from(["person", "burner", "canner"]))
@settings(
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
def test_more_of_anything_never_ends_the_day_later(problem: Problem, what: str) -> None:
    before = solve(replace(problem, aims=("finish",)), 30.0)
    after = solve(replace(_with_more(problem, what), aims=("finish",)), 30.0)

    if before is not None:
        assert after is not None
        assert before.optimal
        assert after.optimal
        assert after.finish <= before.finish
