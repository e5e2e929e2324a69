"""What no plan can beat, counted without a search.

Loads of at least some length hold all jars that need it, so there are at least as many of them as
those jars' room asks for. Summed over all lengths this bounds runtime; counted, setups; laid out
on the canners, the makespan. The idea of counting loads by room from the longest jar down stands
in Lackner, Da Ros, Musliu, "Theoretical Lower Bounds for the Oven Scheduling Problem" (2024).
"""

from collections import defaultdict
from collections.abc import Iterable
from itertools import pairwise

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
    jobs = [job for job in problem.jobs if group.issuperset(job.canners)]
    lengths = least_lengths(problem, jobs)
    canners = [problem.canners[k] for k in sorted(group)]
    setups = {family: min(problem.least_setup[k][family] for k in group) for family in lengths}
    busy = sorted(n + setups[family] for family, of_family in lengths.items() for n in of_family)
    if not busy:
        return 0
    time = _until(canners, sum(busy))
    # Of so many loads on so few canners one canner runs at least this many, short as they are.
    most = -(-len(busy) // len(canners))
    one = min(_until([canner], sum(busy[:most])) for canner in canners)
    return max(time, one)


def _until(canners: Iterable[Canner], busy: int) -> int:
    """The earliest time by which these canners together had so much time in their windows."""
    windows = sorted(window for canner in canners for window in canner.windows)
    edges = sorted({edge for window in windows for edge in window})
    had = 0
    for a, b in pairwise(edges):
        there = sum(1 for begin, end in windows if begin <= a and b <= end)
        if there and had + there * (b - a) >= busy:
            return a + -(-(busy - had) // there)
        had += there * (b - a)
    return edges[-1] if edges else 0
