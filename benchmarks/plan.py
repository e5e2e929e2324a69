"""The demo day: the planner against the same model without its strengthening and first plan.

Run: ``python -m benchmarks.plan``. Baselines of the same run: (a) the first plan, a rule a person
would use; (b) the plain model, solved by the solver's own choice of searches on two workers.
"""

import argparse
import statistics
import tempfile
import time
from pathlib import Path

from ortools.sat.python import cp_model

from stillroom.cli import main as stillroom
from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.problem import STEP, Problem
from stillroom.day.read import read_day
from stillroom.day.solver.first import first_plan
from stillroom.day.solver.hint import hint_first_plan
from stillroom.day.solver.rules import add_rules
from stillroom.day.solver.search import SEARCHES, WORKERS
from stillroom.day.solver.strength import add_strength
from stillroom.day.solver.variables import make_variables


def _demo() -> Problem:
    with tempfile.TemporaryDirectory() as folder:
        stillroom(["start", folder])
        problem = make_problem(read_day(Path(folder) / "day.toml"))
    assert not isinstance(problem, Unplannable)
    return problem


def _solve(problem: Problem, seed: int, limit: float, strong: bool) -> tuple[str, int, int, float]:
    begun = time.monotonic()
    scaled = problem.in_steps()
    first = first_plan(scaled) if strong else None
    v = make_variables(scaled)
    add_rules(scaled, v)
    if strong:
        add_strength(scaled, v)
    if first:
        hint_first_plan(scaled, v, *first.parts)
    v.model.minimize(v.finish)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit
    solver.parameters.random_seed = seed
    solver.parameters.num_workers = WORKERS if strong else 2
    if strong:
        solver.parameters.subsolvers.extend(SEARCHES)
    status = solver.solve(v.model)
    seconds = time.monotonic() - begun
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return solver.status_name(status), 0, 0, seconds
    return (
        solver.status_name(status),
        STEP * round(solver.objective_value),
        STEP * round(solver.best_objective_bound),
        seconds,
    )


def main() -> None:
    """Print seconds to proof for both, their ratio, and the finish of the first plan."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=3)
    parser.add_argument("--limit", type=float, default=60.0)
    asked = parser.parse_args()
    problem = _demo()
    first = first_plan(problem.in_steps())
    if first:
        finish = STEP * first.finish
        print(f"(a) first plan by a person's rule: finish {finish} min after the start")
    medians = {}
    for name, strong in (("planner", True), ("(b) plain model", False)):
        seconds = []
        for seed in range(1, asked.seeds + 1):
            status, found, bound, took = _solve(problem, seed, asked.limit, strong)
            seconds.append(took)
            print(f"{name}, seed {seed}: {status} {found} min, bound {bound}, {took:.1f} s")
        medians[name] = statistics.median(seconds)
    ratio = medians["(b) plain model"] / medians["planner"]
    print(f"plain model / planner, median seconds: {ratio:.1f} (limit {asked.limit:g} s)")


if __name__ == "__main__":
    main()
