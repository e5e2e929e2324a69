"""When a load can start on a canner, and what a plan costs."""

from collections.abc import Iterable, Sequence

from stillroom.loads.problem import Canner, Problem
from stillroom.loads.result import Load

Jars = tuple[tuple[int, int], ...]
Placed = tuple[int, Jars]  # a canner and the jars of a load, without a time


def family_of(problem: Problem, jars: Jars) -> int:
    """The family of a load's jars."""
    return problem.jobs[jars[0][0]].family


def length_of(problem: Problem, jars: Jars) -> int:
    """The shortest time such a load may take. Longer never pays: no weight is below 0."""
    return max(problem.jobs[j].least for j, _ in jars)


def release_of(problem: Problem, jars: Jars) -> int:
    """When the last of its jars is there."""
    return max(problem.jobs[j].release for j, _ in jars)


def earliest_start(canner: Canner, free: int, setup: int, length: int, release: int) -> int | None:
    """The first start for a load whose setup may begin at ``free``; ``None`` if there is none."""
    for a, b in canner.windows:
        start = max(a + setup, free + setup, release)
        if start + length <= b:
            return start
    return None


def starts(
    canner: Canner, setup: int, length: int, release: int, latest_end: int | None = None
) -> list[tuple[int, int]]:
    """Spans of possible starts of a load with a setup of that length, whatever else there is."""
    spans = []
    for a, b in canner.windows:
        first = max(a + setup, release)
        last = (b if latest_end is None else min(b, latest_end)) - length
        if first <= last:
            spans.append((first, last))
    return spans


def time_in_order(problem: Problem, canner: int, order: Sequence[Jars]) -> list[Load] | None:
    """Loads of one canner in this order, each as early as can be; ``None`` if one has no room."""
    oven = problem.canners[canner]
    free, state = 0, oven.state
    loads = []
    for jars in order:
        family, length = family_of(problem, jars), length_of(problem, jars)
        setup = problem.setup(state, family)
        start = earliest_start(oven, free, setup, length, release_of(problem, jars))
        if start is None:
            return None
        free, state = start + length, family
        loads.append(Load(canner, start, free, jars))
    return loads


def late_jars(problem: Problem, load: Load) -> int:
    """How many of its jars end after their due time."""
    jobs = problem.jobs
    return sum(n for j, n in load.jars if (d := jobs[j].due) is not None and load.end > d)


def price(problem: Problem, loads: Iterable[Load]) -> int:
    """The objective of a whole plan."""
    loads = sorted(loads, key=lambda load: (load.canner, load.start))
    weights = problem.weights
    total = weights.makespan * max((load.end for load in loads), default=0)
    before: dict[int, int] = {}
    for load in loads:
        family = family_of(problem, load.jars)
        state = before.get(load.canner, problem.canners[load.canner].state)
        total += problem.setup_price(state, family)
        total += weights.runtime * load.minutes + weights.late * late_jars(problem, load)
        before[load.canner] = family
    return total
