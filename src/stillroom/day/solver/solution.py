"""A solved day: loads and times in minutes from the start, and how good they are known to be."""

from dataclasses import dataclass

from stillroom.day.aims import Reached
from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.first import FirstBatch, FirstHands, FirstLoad


@dataclass(frozen=True, slots=True)
class Work:
    """Hand work in the solution: hands by crew, start and end."""

    hands: tuple[int, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class SolvedLoad:
    """A load in the solution. ``jars`` are (job, way, count)."""

    canner: int
    jars: tuple[tuple[int, int, int], ...]
    prep: Work
    heat_start: int
    fill: Work
    lid_on: int
    heat_off: int
    cool: int
    open: int
    unload: Work


@dataclass(frozen=True, slots=True)
class SolvedBatch:
    """A pot made once in the solution."""

    job: int
    prep: Work
    start: int
    ready: int
    empty: int


@dataclass(frozen=True, slots=True)
class Solution:
    """Loads and times in minutes from the start, and how good they are known to be.

    ``bound`` is a finish that no plan can beat; it equals ``finish`` when ``optimal``.
    ``reached`` are the aims in the person's order; ``stopped`` says that the person ended the
    search.
    """

    optimal: bool
    finish: int
    bound: int
    seconds: float
    loads: tuple[SolvedLoad, ...]
    batches: tuple[SolvedBatch, ...]
    reached: tuple[Reached, ...] = ()
    stopped: bool = False


def from_first(
    problem: Problem,
    loads: list[FirstLoad],
    batches: list[FirstBatch],
    *,
    bound: int = 0,
    seconds: float = 0.0,
) -> Solution:
    """The first plan as an answer, in minutes: what there is when the solver had no time at all.

    ``problem``, the plan and ``bound`` are in steps.
    """

    def work(hands: FirstHands) -> Work:
        crew, start, end = hands
        return Work(crew, STEP * start, STEP * end)

    solved = tuple(
        SolvedLoad(
            canner=load.canner,
            jars=load.jars,
            prep=work(load.prep),
            heat_start=STEP * load.heat_start,
            fill=work(load.fill),
            lid_on=STEP * load.fill[2],
            heat_off=STEP * load.heat_off,
            cool=STEP * max(problem.jobs[j].ways[w].cool for j, w, _ in load.jars),
            open=STEP * load.open,
            unload=work(load.unload),
        )
        for load in loads
    )
    pots = tuple(
        SolvedBatch(b.job, work(b.prep), STEP * b.prep[2], STEP * b.ready, STEP * b.empty)
        for b in batches
    )
    finish = max(load.unload.end for load in solved)
    return Solution(finish == STEP * bound, finish, STEP * bound, seconds, solved, pots)
