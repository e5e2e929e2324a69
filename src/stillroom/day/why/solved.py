"""A changed day, solved for its finish alone, to hold against a plan that is there."""

from dataclasses import dataclass, replace

from stillroom.day.model import Day
from stillroom.day.orders import make_problem
from stillroom.day.problem import Problem
from stillroom.day.solver import Control, solve
from stillroom.day.solver.solution import Solution


@dataclass(frozen=True, slots=True)
class Changed:
    """What was found of a changed day: the problem, and its best plan or ``None``."""

    problem: Problem
    solution: Solution


def upto(day: Day) -> tuple[str, ...]:
    """The day's aims up to the finish: what may not be given up for an earlier one."""
    return day.aims[: day.aims.index("finish") + 1]


def upto_tidy(day: Day) -> tuple[str, ...]:
    """Those, and few hot hours, so that a plan has no load more than it needs."""
    return tuple(dict.fromkeys((*upto(day), "hot hours")))


def solved(
    day: Day, seconds: float, control: Control, aims: tuple[str, ...] | None = None
) -> Changed | None:
    """The best plan found for a day in so many seconds, or ``None`` where none was found.

    Without ``aims``, those up to the finish.
    """
    if control.stop.is_set():
        return None
    problem = make_problem(day)
    if not isinstance(problem, Problem):
        return None
    quiet = Control(stop=control.stop, seed=control.seed)
    try:
        solution = solve(replace(problem, aims=aims or upto(day)), seconds, quiet)
    except TimeoutError:
        return None
    return Changed(problem, solution) if solution else None
