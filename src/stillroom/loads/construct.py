"""First plans by rule: jars go one job after another where they cost least."""

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from stillroom.loads.problem import Job, Problem
from stillroom.loads.result import Load
from stillroom.loads.timing import (
    Jars,
    earliest_start,
    family_of,
    late_jars,
    length_of,
    release_of,
    time_in_order,
)

Rule = Callable[[Job], tuple[float, ...]]
Orders = list[list[Jars]]  # for each canner its loads in order

RULES: tuple[Rule, ...] = (
    lambda job: (_due(job), -job.least),
    lambda job: (-job.least, _due(job)),
    lambda job: (_due(job) - job.least, -job.size),
    lambda job: (len(job.canners), -job.least, _due(job)),
    lambda job: (job.release, _due(job)),
)


def _due(job: Job) -> float:
    return float("inf") if job.due is None else job.due


@dataclass(slots=True)
class _Cost:
    """Of one canner: its share of the objective and when its last load ends."""

    own: int
    end: int


def construct(problem: Problem, seed: int, restarts: int = 0) -> Iterator[list[Load]]:
    """A plan by each of a few rules, and by so many shuffled ones, where they find one."""
    rng = random.Random(seed)
    for attempt in range(len(RULES) + restarts):
        rule = RULES[attempt % len(RULES)]
        noise = 0.0 if attempt < len(RULES) else 0.3
        order = sorted(
            range(len(problem.jobs)),
            key=lambda j: tuple(v * (1 + noise * rng.random()) for v in rule(problem.jobs[j])),
        )
        made = insert_all(problem, [[] for _ in problem.canners], [(j, None) for j in order])
        if made is not None:
            yield schedule(problem, made)


def schedule(problem: Problem, orders: Orders) -> list[Load]:
    """The loads of all canners in their orders, each as early as can be.

    Raises
    ------
    ValueError
        An order has no room in its canner's windows.
    """
    loads: list[Load] = []
    for k, order in enumerate(orders):
        placed = time_in_order(problem, k, order)
        if placed is None:
            raise ValueError(f"canner {problem.canners[k].name}: this order has no room")
        loads += placed
    return loads


def insert_all(
    problem: Problem, orders: Orders, jars: Sequence[tuple[int, int | None]]
) -> Orders | None:
    """Put (job, how many; ``None``: all) into the orders, each where it adds least.

    Returns ``None`` where some jar has no room; ``orders`` is changed in place.
    """
    costs = [canner_cost(problem, k, order) for k, order in enumerate(orders)]
    if any(cost is None for cost in costs):
        return None
    known = [cost for cost in costs if cost is not None]
    for j, count in jars:
        left = problem.jobs[j].count if count is None else count
        while left:
            placed = _insert_best(problem, orders, known, j, left)
            if not placed:
                return None
            left -= placed
    return orders


def canner_cost(problem: Problem, canner: int, order: Sequence[Jars]) -> _Cost | None:
    """What a canner's loads in this order cost; ``None`` where they have no room."""
    oven, weights = problem.canners[canner], problem.weights
    free, state, own = 0, oven.state, 0
    for jars in order:
        family, length = family_of(problem, jars), length_of(problem, jars)
        setup = problem.setup(state, family)
        start = earliest_start(oven, free, setup, length, release_of(problem, jars))
        if start is None:
            return None
        own += problem.setup_price(state, family) + weights.runtime * length
        free, state = start + length, family
        if weights.late:
            own += weights.late * late_jars(problem, Load(canner, start, free, jars))
    return _Cost(own, free)


def _insert_best(problem: Problem, orders: Orders, costs: list[_Cost], j: int, left: int) -> int:
    """Insert some of a job's jars in the place that adds least a jar; how many went in."""
    job = problem.jobs[j]
    best: tuple[float, int, int] | None = None
    choice: tuple[int, int, bool, int] | None = None
    changed: _Cost | None = None
    latest = max(cost.end for cost in costs)
    for k in job.canners:
        order = orders[k]
        for at in range(len(order) + 1):
            for new in (False, True):
                fits = _fits(problem, k, order, at, j, left, new)
                if not fits:
                    continue
                cost = canner_cost(problem, k, _with(order, at, j, fits, new))
                if cost is None:
                    continue
                longer = max(cost.end - latest, 0) * problem.weights.makespan
                added = (cost.own - costs[k].own + longer) / fits
                if best is None or (added, cost.end, k) < best:
                    best, choice, changed = (added, cost.end, k), (k, at, new, fits), cost
    if choice is None or changed is None:
        return 0
    k, at, new, fits = choice
    orders[k] = _with(orders[k], at, j, fits, new)
    costs[k] = changed
    return fits


def _fits(
    problem: Problem, canner: int, order: list[Jars], at: int, j: int, left: int, new: bool
) -> int:
    job, room = problem.jobs[j], problem.canners[canner].room
    if new:
        return min(left, room // job.size)
    if at == len(order) or family_of(problem, order[at]) != job.family:
        return 0
    length = max(length_of(problem, order[at]), job.least)
    if length > min(job.most, *(problem.jobs[i].most for i, _ in order[at])):
        return 0
    taken = sum(problem.jobs[i].size * n for i, n in order[at])
    return min(left, (room - taken) // job.size)


def _with(order: list[Jars], at: int, j: int, count: int, new: bool) -> list[Jars]:
    if new:
        return [*order[:at], ((j, count),), *order[at:]]
    jars = dict(order[at])
    jars[j] = jars.get(j, 0) + count
    return [*order[:at], tuple(sorted(jars.items())), *order[at + 1 :]]
