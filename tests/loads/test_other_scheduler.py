"""The engine against another scheduler, PyJobShop 0.0.9, where both can say the same problem.

PyJobShop knows no batches (its own documentation), so each jar here fills a canner by itself. What
is left is the classical problem of parallel machines with eligibility, release and due times and
setups between families: optimal costs must be equal. Both end in the same constraint solver, but
models, bounds and searches share no code.
"""

import pyjobshop
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.loads.problem import Canner, Job, Problem, Weights
from stillroom.loads.result import Status
from stillroom.loads.solve import solve

FAMILIES = 3
small = st.integers(0, 6)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    """A few jars, each as large as a canner, on up to three canners."""
    canners = draw(st.integers(1, 3))
    jobs = []
    for place in range(draw(st.integers(1, 6))):
        minutes = draw(st.integers(1, 9))
        may = draw(st.sets(st.integers(0, canners - 1), min_size=1))
        jobs.append(
            Job(
                f"job {place}", draw(st.integers(0, FAMILIES - 1)), 1, minutes, minutes,
                tuple(sorted(may)), release=draw(small), due=draw(st.integers(1, 25)),
            )
        )  # fmt: skip
    # What goes through another family between is never shorter: both agree on what a setup is.
    step = draw(st.integers(0, 3))
    setup = tuple(
        tuple(0 if a == b else step + draw(st.integers(0, step)) for b in range(FAMILIES))
        for a in range(FAMILIES)
    )
    weights = Weights(
        runtime=0, late=draw(st.integers(0, 40)), setup_time=draw(small), makespan=draw(small)
    )
    return Problem(
        tuple(jobs), tuple(Canner(f"canner {k}", 1, ((0, 200),)) for k in range(canners)),
        weights, setup_time=setup,
    )  # fmt: skip


def _other(problem: Problem) -> float:
    """What PyJobShop's best plan costs."""
    model = pyjobshop.Model()
    machines = [model.add_machine(name=canner.name) for canner in problem.canners]
    tasks = []
    for one in problem.jobs:
        task = model.add_task(job=model.add_job(release_date=one.release, due_date=one.due))
        tasks.append(task)
        for canner in one.canners:
            model.add_mode(task, machines[canner], duration=one.least)
    longest = 0
    for machine in machines:
        for a, before in zip(problem.jobs, tasks, strict=True):
            for b, after in zip(problem.jobs, tasks, strict=True):
                if before is not after:
                    minutes = problem.setup_time[a.family][b.family]
                    model.add_setup_time(machine, before, after, minutes)
                    longest = max(longest, minutes)
    weights = problem.weights
    model.set_objective(
        weight_makespan=weights.makespan,
        weight_tardy_jobs=weights.late,
        # It refuses the weight where no setup takes time.
        weight_total_setup_time=weights.setup_time if longest else 0,
    )
    result = model.solve(time_limit=20, display=False, num_workers=1)
    assert result.status == pyjobshop.SolveStatus.OPTIMAL
    return float(result.objective)


@settings(max_examples=20, deadline=None)
@given(problem=problems())
def test_one_jar_to_a_load_costs_what_the_other_scheduler_finds(problem: Problem) -> None:
    found = solve(problem, 20, workers=1)

    assert found.status is Status.OPTIMAL
    assert found.objective == pytest.approx(_other(problem))
