"""One day solved in one way, in a process of its own so that its memory can be told."""

import json
import resource
import sys
import time
from dataclasses import replace
from pathlib import Path

from ortools.sat.python import cp_model

from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.problem import STEP, Problem
from stillroom.day.read import read_day
from stillroom.day.solver import Control, Progress, solve
from stillroom.day.solver.first import first_plan
from stillroom.day.solver.rules import add_rules
from stillroom.day.solver.variables import Variables, make_variables

Event = tuple[float, int, int]  # seconds, finish, bound


def read(path: Path) -> Problem:
    """A day file as its problem, with the finish as its only aim."""
    problem = make_problem(read_day(path))
    if isinstance(problem, Unplannable):
        raise ValueError(f"{path.name}: {'; '.join(problem.because)}")
    return replace(problem, aims=("finish",))


def planner(problem: Problem, limit: float) -> tuple[list[Event], bool]:
    """The product's own way: every better plan or bound, and whether it ended with a proof."""
    events: list[Event] = []

    def tell(news: Progress) -> None:
        events.append((news.seconds, news.finish, news.bound))

    solution = solve(problem, limit, Control(tell=tell))
    if solution is None:
        return events, True
    events.append((solution.seconds, solution.finish, solution.bound))
    return events, solution.optimal


class _Told(cp_model.CpSolverSolutionCallback):
    def __init__(self, v: Variables, begun: float, events: list[Event]) -> None:
        super().__init__()
        self._v, self._begun, self._events = v, begun, events

    def on_solution_callback(self) -> None:
        """Called by the solver for every better plan."""
        seconds = time.monotonic() - self._begun
        bound = max(0, round(self.best_objective_bound))
        self._events.append((seconds, STEP * self.value(self._v.finish), STEP * bound))


def plain(problem: Problem, limit: float) -> tuple[list[Event], bool]:
    """The rules alone: no first plan, no strengthening, the solver's own choice of searches."""
    events: list[Event] = []
    begun = time.monotonic()
    steps = problem.in_steps()
    v = make_variables(steps)
    add_rules(steps, v)
    v.model.minimize(v.finish)
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = limit
    solver.parameters.num_workers = 2
    solver.parameters.random_seed = 1
    status = solver.solve(v.model, _Told(v, begun, events))
    seconds = time.monotonic() - begun
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        finish, bound = round(solver.objective_value), round(solver.best_objective_bound)
        events.append((seconds, STEP * finish, STEP * max(0, bound)))
    return events, status == cp_model.OPTIMAL


def rule(problem: Problem) -> int | None:
    """The finish of the load-by-load rule a person would use, minutes from the start."""
    first = first_plan(problem.in_steps())
    return STEP * first.finish if first else None


def main() -> None:
    """Print what became of one day as JSON: path, way and limit are the arguments."""
    path, way, limit = Path(sys.argv[1]), sys.argv[2], float(sys.argv[3])
    problem = read(path)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    events, proved = planner(problem, limit) if way == "planner" else plain(problem, limit)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    print(
        json.dumps(
            {
                "events": events,
                "proved": proved,
                "rule": rule(problem),
                "megabytes": round(most / 1024),
                "megabytes_before": round(before / 1024),
            }
        )
    )


if __name__ == "__main__":
    main()
