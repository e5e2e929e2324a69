"""Jars to be run through canners, as plain whole numbers that check themselves.

A job is a number of equal jars; a load is jars of one family in one canner. Times are whole
numbers of any one unit.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from stillroom.errors import InputError


@dataclass(frozen=True, slots=True)
class Job:
    """So many equal jars.

    Parameters
    ----------
    name : what a message calls it
    family : 0 up; only jars of one family share a load
    size : room that one jar takes, 1 or more
    least, most : the load's time lies within these, 1 <= least <= most
    canners : which canners may take it, from 0
    release : a load with it starts at this time or later
    due : a jar whose load ends after this is late; ``None``: never late
    count : how many such jars
    """

    name: str
    family: int
    size: int
    least: int
    most: int
    canners: tuple[int, ...]
    release: int = 0
    due: int | None = None
    count: int = 1


@dataclass(frozen=True, slots=True)
class Canner:
    """A canner: room for jars, when it may be used, and the family it is set up for.

    Parameters
    ----------
    windows : (from, to) spans in which a load and the setup before it must lie whole
    state : the family it starts set up for; ``None``: the first setup takes no time and costs
        nothing
    """

    name: str
    room: int
    windows: tuple[tuple[int, int], ...]
    state: int | None = None


@dataclass(frozen=True, slots=True)
class Weights:
    """What a plan costs: each of these times its weight, added up. Whole numbers, 0 or more.

    ``runtime`` all loads' times; ``late`` jars that end after their due time; ``setup_time`` and
    ``setup_cost`` of all setups; ``makespan`` the time at which the last load ends.
    """

    runtime: int = 1
    late: int = 0
    setup_time: int = 0
    setup_cost: int = 0
    makespan: int = 0


@dataclass(frozen=True)
class Problem:
    """Jobs, canners, setups between families, and what a plan costs.

    Parameters
    ----------
    setup_time, setup_cost : ``[from][to]``, square over the families; empty where there is none

    Raises
    ------
    InputError
        Something cannot be meant; the message names the job or canner.
    """

    jobs: tuple[Job, ...]
    canners: tuple[Canner, ...]
    weights: Weights = field(default_factory=Weights)
    setup_time: tuple[tuple[int, ...], ...] = ()
    setup_cost: tuple[tuple[int, ...], ...] = ()

    def __post_init__(self) -> None:
        """Raise the first fault there is."""
        for fault in _faults(self):
            raise InputError(fault)

    @cached_property
    def families(self) -> int:
        """How many families there are, those of jobs and of canners' first state."""
        of_jobs = [job.family for job in self.jobs]
        of_canners = [c.state for c in self.canners if c.state is not None]
        return max([*of_jobs, *of_canners, len(self.setup_time) - 1, len(self.setup_cost) - 1]) + 1

    @cached_property
    def horizon(self) -> int:
        """No load ends after this."""
        return max((b for c in self.canners for _, b in c.windows), default=0)

    def setup(self, before: int | None, family: int) -> int:
        """Time to set a canner up for a family after another, or from no state."""
        return self.setup_time[before][family] if self.setup_time and before is not None else 0

    def setup_price(self, before: int | None, family: int) -> int:
        """What that setup adds to the objective."""
        if before is None:
            return 0
        cost = self.setup_cost[before][family] if self.setup_cost else 0
        return self.weights.setup_cost * cost + self.weights.setup_time * self.setup(before, family)

    @cached_property
    def least_setup(self) -> tuple[tuple[int, ...], ...]:
        """``[canner][family]``: the shortest setup there is before a load of it."""
        return tuple(
            tuple(
                min(self.setup(before, f) for before in {c.state, *range(self.families)})
                if c.state is not None
                else 0
                for f in range(self.families)
            )
            for c in self.canners
        )


def _faults(problem: Problem) -> Iterable[str]:
    if not problem.canners:
        yield "There is no canner."
    for canner in problem.canners:
        yield from _canner_faults(canner)
    for job in problem.jobs:
        yield from _job_faults(job, problem.canners)
    families = problem.families if problem.jobs or problem.canners else 0
    for name in ("setup_time", "setup_cost"):
        table = getattr(problem, name)
        if table and (len(table) < families or any(len(row) != len(table) for row in table)):
            yield f"{name} has to be square over {families} families."
        if any(entry < 0 for row in table for entry in row):
            yield f"{name} has an entry below 0."
    for name in ("runtime", "late", "setup_time", "setup_cost", "makespan"):
        if getattr(problem.weights, name) < 0:
            yield f"The weight of {name} is below 0."


def _canner_faults(canner: Canner) -> Iterable[str]:
    if canner.room < 1:
        yield f"Canner {canner.name} has no room."
    if canner.state is not None and canner.state < 0:
        yield f"Canner {canner.name}: family {canner.state} is below 0."
    end = None
    for a, b in canner.windows:
        if b < a or a < 0:
            yield f"Canner {canner.name}: there is no time from {a} to {b}."
        if end is not None and a < end:
            yield f"Canner {canner.name}: windows overlap or are out of order at {a}."
        end = b


def _job_faults(job: Job, canners: tuple[Canner, ...]) -> Iterable[str]:
    if job.count < 1:
        yield f"Job {job.name} has no jars (count {job.count})."
    if job.family < 0:
        yield f"Job {job.name}: family {job.family} is below 0."
    if job.size < 1:
        yield f"Job {job.name}: a jar takes room {job.size}; it has to be 1 or more."
    if not 1 <= job.least <= job.most:
        yield f"Job {job.name}: no time lies within {job.least} to {job.most}."
    if job.release < 0:
        yield f"Job {job.name}: release {job.release} is below 0."
    if not job.canners:
        yield f"Job {job.name} has no canner."
    for k in job.canners:
        if not 0 <= k < len(canners):
            yield f"Job {job.name}: there is no canner number {k}."
    if len(set(job.canners)) < len(job.canners):
        yield f"Job {job.name} names a canner twice."
