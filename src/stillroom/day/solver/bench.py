"""What is taken so far while loads are placed: hands, burners and places, step by step.

All times are five-minute steps.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

from stillroom.day.problem import Job, Oven, Problem, Way
from stillroom.processes.model import PRESSURE

FirstHands = tuple[tuple[int, ...], int, int]  # hands of each crew, start, end


@dataclass(slots=True)
class FirstLoad:
    """A load placed by the rule."""

    canner: int
    jars: tuple[tuple[int, int, int], ...]
    prep: FirstHands
    heat_start: int
    fill: FirstHands
    heat_off: int
    open: int
    unload: FirstHands


@dataclass(slots=True)
class FirstBatch:
    """A pot made once, placed by the rule."""

    job: int
    prep: FirstHands
    ready: int
    empty: int


@dataclass(frozen=True, slots=True)
class FirstPlan:
    """A plan by the rule. ``unloads`` are of the loads that were under way before."""

    loads: list[FirstLoad]
    batches: list[FirstBatch]
    unloads: list[FirstHands]
    finish: int

    @property
    def parts(self) -> tuple[list[FirstLoad], list[FirstBatch], list[FirstHands]]:
        """Loads, pots and unloads."""
        return self.loads, self.batches, self.unloads


@dataclass(frozen=True, slots=True)
class Rule:
    """How a cook goes about it.

    ``order`` ranks what to place next, least first, from the order's place in the day, the order, a
    way for it and when that way's canner is empty; ``cutters`` cut for a load together; ``part`` of
    a canner is filled.
    """

    order: Callable[[int, Job, Way, int], tuple[float, ...]]
    cutters: int = 1
    part: float = 1.0


@dataclass(slots=True)
class Bench:
    """What is taken so far, step by step."""

    problem: Problem
    rule: Rule
    hands: list[list[int]]
    burners: list[int]
    canner_burners: list[int]
    counters: list[int]
    there: list[bool]
    there_for_pressure: list[bool]
    emptied: list[int]
    loads: list[FirstLoad] = field(default_factory=list)
    batches: dict[int, FirstBatch] = field(default_factory=dict)
    unloads: list[FirstHands] = field(default_factory=list)


def empty_bench(problem: Problem, rule: Rule) -> Bench:
    """Every hand and burner that is not taken already."""
    end = problem.horizon
    hands = []
    for crew in problem.crews:
        free = [len(crew.names)] * end
        for a, b in crew.away:
            free[a:b] = [0] * len(free[a:b])
        for a, b, n in crew.taken:
            for t in range(a, min(b, end)):
                free[t] -= n
        hands.append(free)
    burners, canner_burners = [problem.burners] * end, [problem.canner_burners] * end
    for a, b, canner in problem.taken_burners:
        for t in range(a, min(b, end)):
            burners[t] -= 1
            canner_burners[t] -= canner
    return Bench(
        problem,
        rule,
        hands=hands,
        burners=burners,
        canner_burners=canner_burners,
        counters=_counters(problem),
        there=_there(problem, pressure=False),
        there_for_pressure=_there(problem, pressure=True),
        emptied=[0] * len(problem.ovens),
    )


def _counters(problem: Problem) -> list[int]:
    """Free places to cut at; as many as there are people where they are plenty."""
    people = sum(len(crew.names) for crew in problem.crews)
    free = [people if problem.counters is None else problem.counters] * problem.horizon
    for a, b, n in problem.taken_counters:
        for t in range(a, min(b, problem.horizon)):
            free[t] -= n
    return free


def _there(problem: Problem, *, pressure: bool) -> list[bool]:
    there = [True] * problem.horizon
    for a, b in problem.nobody(pressure):
        there[a:b] = [False] * len(there[a:b])
    return there


def free_hands(
    bench: Bench, start: int, end: int, oven: Oven | None = None, *, wanted: int = 1
) -> tuple[int, ...] | None:
    """Hands of each crew that are free the whole while, as many as wanted in all."""
    if start < 0 or end > bench.problem.horizon:
        return None
    hands = []
    for crew, free in zip(bench.problem.crews, bench.hands, strict=True):
        fit = min(free[start:end], default=len(crew.names))
        hands.append(min(wanted, fit) if not oven or crew.handles(oven) else 0)
        wanted -= hands[-1]
    return tuple(hands) if not wanted else None


def take_counter(bench: Bench, hands: FirstHands) -> None:
    """Hands that cut, and their places at the counter."""
    take(bench, hands)
    crew, start, end = hands
    for t in range(start, end):
        bench.counters[t] -= sum(crew)


def take(bench: Bench, hands: FirstHands, give_back: bool = False) -> None:
    """Hands that are at work from now on, or no more."""
    crew, start, end = hands
    for c, n in enumerate(crew):
        for t in range(start, end):
            bench.hands[c][t] += n if give_back else -n


def burners_free(bench: Bench, canner: int, heat: int, pot: int, lid: int, off: int) -> bool:
    """Whether pot and canner find burners, and somebody to mind them."""
    plug = bench.problem.ovens[canner].own_plug
    pressure = bench.problem.ovens[canner].method in PRESSURE
    there = bench.there_for_pressure if pressure else bench.there
    for t in range(heat, off):
        needs_pot = pot > 0 and t < lid
        needs_canner = not plug and t >= heat + pot
        if not there[t] or bench.burners[t] < needs_pot + needs_canner:
            return False
        if needs_canner and bench.canner_burners[t] < 1:
            return False
    return True


def take_burners(bench: Bench, canner: int, heat: int, pot: int, lid: int, off: int) -> None:
    """The burners of pot and canner are taken."""
    plug = bench.problem.ovens[canner].own_plug
    for t in range(heat, off):
        needs_canner = not plug and t >= heat + pot
        bench.burners[t] -= (pot > 0 and t < lid) + needs_canner
        bench.canner_burners[t] -= needs_canner
