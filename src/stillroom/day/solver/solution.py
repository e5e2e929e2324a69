"""A solved day: loads and times in minutes from the start, and how good they are known to be."""

from dataclasses import dataclass

from stillroom.day.aims import Reached
from stillroom.day.problem import STEP, Done, Problem, Running
from stillroom.day.solver.bench import FirstBatch, FirstHands, FirstLoad


@dataclass(frozen=True, slots=True)
class Work:
    """Hand work in the solution: hands by crew, start and end."""

    hands: tuple[int, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class SolvedLoad:
    """A load in the solution. ``jars`` are (job, way, count).

    ``number`` and ``who`` are told of a load that was under way before: its number in the plan it
    began in, and who did its three pieces of hand work (nobody yet for what is to be done).
    """

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
    number: int = 0
    who: tuple[tuple[str, ...], ...] = ()


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
    unloads: list[FirstHands],
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
    solved += under_way(problem, [work(hands) for hands in unloads])
    finish = max(load.unload.end for load in solved)
    return Solution(finish == STEP * bound, finish, STEP * bound, seconds, solved, pots)


def under_way(problem: Problem, unloads: list[Work]) -> tuple[SolvedLoad, ...]:
    """Loads that were running before, with when each that is not yet empty is unloaded.

    Parameters
    ----------
    unloads : one for each of ``problem.to_unload``, in minutes
    """
    rest = iter(unloads)
    return tuple(
        _as_it_is(problem, r, _by_crew(problem, r.unload) if r.unload else next(rest))
        for r in problem.running
    )


def _as_it_is(problem: Problem, r: Running, unload: Work) -> SolvedLoad:
    return SolvedLoad(
        canner=r.canner,
        jars=r.jars,
        prep=_by_crew(problem, r.prep),
        heat_start=r.heat_start,
        fill=_by_crew(problem, r.fill),
        lid_on=r.fill.end,
        heat_off=r.heat_off,
        cool=r.cool,
        open=r.open if r.unload is None else min(r.open, r.unload.start),
        unload=unload,
        number=r.number,
        who=(r.prep.who, r.fill.who, r.unload.who if r.unload else ()),
    )


def _by_crew(problem: Problem, done: Done) -> Work:
    hands = tuple(sum(name in crew.names for name in done.who) for crew in problem.crews)
    return Work(hands, done.start, done.end)
