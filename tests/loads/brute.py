"""The optimum of a very small problem by trying everything. Shares no code with the engine."""

from collections.abc import Iterator
from itertools import permutations, product

from stillroom.loads.problem import Problem

Jar = int  # the job it belongs to


def cheapest(problem: Problem) -> int | None:
    """The least objective over all ways to group jars, choose canners and order loads."""
    jars = [j for j, job in enumerate(problem.jobs) for _ in range(job.count)]
    best: int | None = None
    for groups in _groupings(jars):
        if any(len({problem.jobs[j].family for j in group}) > 1 for group in groups):
            continue
        for canners in product(range(len(problem.canners)), repeat=len(groups)):
            cost = _cheapest_order(problem, groups, canners)
            if cost is not None and (best is None or cost < best):
                best = cost
    return best


def _groupings(jars: list[Jar]) -> Iterator[list[list[Jar]]]:
    """Every set partition."""
    if not jars:
        yield []
        return
    first, rest = jars[0], jars[1:]
    for groups in _groupings(rest):
        for i in range(len(groups)):
            yield [*groups[:i], [first, *groups[i]], *groups[i + 1 :]]
        yield [[first], *groups]


def _cheapest_order(
    problem: Problem, groups: list[list[Jar]], canners: tuple[int, ...]
) -> int | None:
    jobs = problem.jobs
    for group, k in zip(groups, canners, strict=True):
        longest = max(jobs[j].least for j in group)
        if any(k not in jobs[j].canners or jobs[j].most < longest for j in group):
            return None
        if sum(jobs[j].size for j in group) > problem.canners[k].room:
            return None
    total, ends = 0, [0]
    per_canner: list[list[tuple[int, int]]] = []
    for k in range(len(problem.canners)):
        mine = [group for group, at in zip(groups, canners, strict=True) if at == k]
        tried = [run for order in permutations(mine) if (run := _run(problem, k, order))]
        if not tried:
            return None
        per_canner.append(tried)
    if problem.weights.makespan:
        # Costs and ends of canners meet in the makespan: try all combinations.
        return min(
            sum(cost for cost, _ in runs) + problem.weights.makespan * max(end for _, end in runs)
            for runs in product(*per_canner)
        )
    for tried in per_canner:
        total += min(cost for cost, _ in tried)
    return total + 0 * max(ends)


def _run(problem: Problem, k: int, order: tuple[list[Jar], ...]) -> tuple[int, int] | None:
    """(cost, end) of a canner's loads in this order, each as early as can be, by counting up."""
    canner, jobs, w = problem.canners[k], problem.jobs, problem.weights
    state, now, cost = canner.state, 0, 0
    for group in order:
        family, length = jobs[group[0]].family, max(jobs[j].least for j in group)
        takes = costs = 0
        if state is not None:
            takes = problem.setup_time[state][family] if problem.setup_time else 0
            costs = problem.setup_cost[state][family] if problem.setup_cost else 0
        start = max(now + takes, *(jobs[j].release for j in group))
        while not any(a <= start - takes and start + length <= b for a, b in canner.windows):
            start += 1
            if start > 500:
                return None
        now = start + length
        cost += w.runtime * length + w.setup_time * takes + w.setup_cost * costs
        cost += w.late * sum(1 for j in group if (due := jobs[j].due) is not None and now > due)
        state = family
    return cost, now
