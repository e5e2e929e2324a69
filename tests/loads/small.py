"""Small problems, with what a test does not speak of left plain."""

from collections.abc import Sequence

from stillroom.loads.problem import Canner, Job, Problem, Weights
from stillroom.loads.result import Result, Status
from stillroom.loads.solve import solve
from tests.loads.checker import complaints


def job(
    name: str,
    least: int = 10,
    *,
    family: int = 0,
    size: int = 1,
    most: int = 99,
    canners: tuple[int, ...] = (0,),
    release: int = 0,
    due: int | None = None,
    count: int = 1,
) -> Job:
    return Job(name, family, size, least, most, canners, release, due, count)


def canner(
    name: str = "A",
    room: int = 2,
    windows: tuple[tuple[int, int], ...] = ((0, 200),),
    state: int | None = None,
) -> Canner:
    return Canner(name, room, windows, state)


def problem(
    *jobs: Job,
    canners: Sequence[Canner] = (),
    weights: Weights | None = None,
    setup_time: tuple[tuple[int, ...], ...] = (),
    setup_cost: tuple[tuple[int, ...], ...] = (),
) -> Problem:
    weights = weights or Weights(runtime=1)
    return Problem(jobs, tuple(canners) or (canner(),), weights, setup_time, setup_cost)


def best(asked: Problem) -> Result:
    """The proven optimum, checked by the checker that shares no code with the engine."""
    result = solve(asked, 20.0, workers=1)
    assert result.status is Status.OPTIMAL
    assert result.bound == result.objective
    assert complaints(asked, result) == []
    return result
