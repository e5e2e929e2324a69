"""Loads for a day: many equal jars, few canners, and the turnaround between two loads.

The day planner's short way to the engine: it asks for the earliest end, and among plans with that
end for the least time on heat.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stillroom.errors import InputError
from stillroom.loads.bounds import least_makespan
from stillroom.loads.problem import Canner, Job, Problem, Weights
from stillroom.loads.result import Load, Result, Status
from stillroom.loads.search import Progress
from stillroom.loads.solve import solve


@dataclass(frozen=True, slots=True)
class Spread:
    """Loads, when the last one ends, and an end that no plan can beat.

    ``status`` is optimal only where no plan ends earlier and none that ends then runs for less.
    """

    status: Status
    loads: tuple[Load, ...]
    makespan: int | None
    bound: int
    result: Result


def spread(
    jobs: Sequence[Job],
    canners: Sequence[Canner],
    turnaround: Sequence[int],
    time_limit: float,
    *,
    workers: int = 2,
    seed: int = 1,
    tell: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Spread:
    """Spread jars over the canners so that the last load ends early.

    Parameters
    ----------
    jobs : groups of equal jars; due times are not looked at
    canners : their rooms and windows
    turnaround : for each family the time between the end of a load before and the start of one of
        it (cool, open, refill); a canner's first load has none
    time_limit : seconds

    Raises
    ------
    InputError
        A family has no turnaround, or a job or canner cannot be meant.

    Examples
    --------
    Nine jars, one canner of seven: two loads of 30 with 20 between them.

    >>> from stillroom.loads.problem import Canner, Job
    >>> jars = [Job("beans", 0, 1, 30, 45, (0,), count=9)]
    >>> spread(jars, [Canner("A", 7, ((0, 600),))], [20], 10.0).makespan
    80
    """
    for job in jobs:
        if not 0 <= job.family < len(turnaround):
            raise InputError(f"Job {job.name}: family {job.family} has no turnaround.")
    # One unit of makespan outweighs all the time on heat there can be.
    all_alone = 1 + sum(job.count * job.least for job in jobs)
    problem = Problem(
        tuple(jobs),
        tuple(canners),
        Weights(runtime=1, makespan=all_alone),
        setup_time=tuple(tuple(turnaround) for _ in turnaround),
    )
    result = solve(problem, time_limit, workers=workers, seed=seed, tell=tell, cancelled=cancelled)
    makespan = max((load.end for load in result.loads), default=0 if not jobs else None)
    # An objective of at least the bound cannot have a makespan below its share of it.
    proved = -(-(result.bound - all_alone + 1) // all_alone)
    return Spread(
        result.status, result.loads, makespan, max(proved, least_makespan(problem)), result
    )
