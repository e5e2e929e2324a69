"""What no plan can beat, counted without a search.

Loads of at least some length hold all jars that need it, so there are at least as many of them as
those jars' room asks for. Summed over all lengths this bounds runtime; counted, setups; laid out
on the canners, the makespan. The idea of counting loads by room from the longest jar down stands
in Lackner, Da Ros, Musliu, "Theoretical Lower Bounds for the Oven Scheduling Problem" (2024).
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable

from stillroom.loads.problem import Canner, Job, Problem
from stillroom.loads.timing import earliest_start


def lower_bound(problem: Problem) -> int:
    """No plan costs less than this."""
    weights = problem.weights
    lengths = least_lengths(problem, problem.jobs)
    runtime = sum(sum(of_family) for of_family in lengths.values())
    setups = sum(
        len(of_family) * _least_price(problem, family) for family, of_family in lengths.items()
    )
    late = certainly_late(problem) if weights.late else 0
    makespan = least_makespan(problem) if weights.makespan else 0
    return weights.runtime * runtime + setups + weights.late * late + weights.makespan * makespan


def least_lengths(problem: Problem, jobs: Iterable[Job]) -> dict[int, list[int]]:
    """For each family lengths, longest first, that its loads have at least, one against one.

    The longest jars fill the first load to the room of the roomiest canner, and so on. Jars may
    be cut for it, which only makes fewer loads.

    Examples
    --------
    Room 4, jars of size 1: three that need 9 and three that need 5 fill one load of 9 and half of
    another, whose longest jar needs 5.

    >>> jobs = (Job("a", 0, 1, 9, 9, (0,), count=3), Job("b", 0, 1, 5, 9, (0,), count=3))
    >>> least_lengths(Problem(jobs, (Canner("A", 4, ((0, 99),)),)), jobs)
    {0: [9, 5]}
    """
    of_family: dict[int, list[Job]] = defaultdict(list)
    for job in jobs:
        of_family[job.family].append(job)
    lengths: dict[int, list[int]] = {}
    for family, members in of_family.items():
        room = max(problem.canners[k].room for job in members for k in job.canners)
        lengths[family] = []
        filled = 0
        for job in sorted(members, key=lambda job: -job.least):
            filled += job.size * job.count
            while len(lengths[family]) * room < filled:
                lengths[family].append(job.least)
    return lengths


def _least_price(problem: Problem, family: int) -> int:
    states = {canner.state for canner in problem.canners}
    return min(
        problem.setup_price(before, family) for before in {*states, *range(problem.families)}
    )


def certainly_late(problem: Problem) -> int:
    """Jars that no canner could bring out by their due time, even alone."""
    late = 0
    for job in problem.jobs:
        ends = _earliest_ends(problem, job)
        if job.due is not None and (not ends or min(ends) > job.due):
            late += job.count
    return late


def _earliest_ends(problem: Problem, job: Job) -> list[int]:
    ends = []
    for k in job.canners:
        setup = problem.least_setup[k][job.family]
        start = earliest_start(problem.canners[k], 0, setup, job.least, job.release)
        if start is not None:
            ends.append(start + job.least)
    return ends


def least_makespan(problem: Problem) -> int:
    """No plan ends before this: by single jars, by canners' time, by counting loads."""
    alone = max((min(_earliest_ends(problem, job), default=0) for job in problem.jobs), default=0)
    groups = {frozenset(job.canners) for job in problem.jobs}
    # The jars that must go into a group of canners fill them, whatever the others do.
    wholes = {frozenset(range(len(problem.canners))), *groups}
    return max([alone, *(_fill(problem, group) for group in wholes)])


def _fill(problem: Problem, group: frozenset[int]) -> int:
    """When these canners can be through with the jars that only they may take, at the earliest."""
    jobs = [job for job in problem.jobs if group.issuperset(job.canners)]
    lengths = least_lengths(problem, jobs)
    if not lengths:
        return 0
    canners = [problem.canners[k] for k in sorted(group)]
    # Between two loads there is at least this setup; a canner's first load may have less.
    between = {
        f: min(problem.setup(before, f) for before in range(problem.families)) for f in lengths
    }
    saved = [max(0, *(between[f] - problem.setup(c.state, f) for f in lengths)) for c in canners]
    busy = sorted(n + between[f] for f, of_family in lengths.items() for n in of_family)
    # Of so many loads on so few canners one canner runs at least this many, short as they are.
    most = -(-len(busy) // len(canners))
    one = min(
        _until([canner], [1], [less], sum(busy[:most]))
        for canner, less in zip(canners, saved, strict=True)
    )
    count = _until(canners, [1] * len(canners), saved, sum(busy))
    # A load holds its room times its time at most: jars' sizes times what they need, added up.
    rooms = [_full(canner, {job.size for job in jobs}) for canner in canners]
    work = sum(job.size * job.count * (job.least + between[job.family]) for job in jobs)
    return max(one, count, _until(canners, rooms, saved, work))


def _full(canner: Canner, sizes: set[int]) -> int:
    """The most room that jars of these sizes can fill."""
    reached = {0}
    for room in range(1, canner.room + 1):
        if any(room - size in reached for size in sizes):
            reached.add(room)
    return max(reached)


def _until(canners: list[Canner], rates: list[int], saved: list[int], work: int) -> int:
    """The earliest time by which the canners' open time so far, each at its rate, does this work.

    Each canner has the time it saves at its first load as a present.
    """

    def done(time: int) -> int:
        return sum(
            rate * (less + sum(max(0, min(b, time) - a) for a, b in canner.windows))
            for canner, rate, less in zip(canners, rates, saved, strict=True)
        )

    last = max((b for canner in canners for _, b in canner.windows), default=0)
    return bisect_left(range(last), work, key=done)
