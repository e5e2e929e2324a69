"""The unknowns: which loads there are, what is in them, and when those that must be timed start.

A load is known by its longest job (*lead*): a job leads at most as many loads of a canner as it
has jars, and only jobs that are not longer may join. So a load's time is fixed before the search,
and the runtime of a plan is a plain sum. Of several equally long jobs the first leads.
"""

from collections import Counter, defaultdict
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from stillroom.loads.problem import Problem
from stillroom.loads.result import Load
from stillroom.loads.timing import earliest_start, starts

Amount = cp_model.IntVar | int


@dataclass(frozen=True, slots=True)
class Kept:
    """Loads of a plan that stay on their canners with their jars.

    Parameters
    ----------
    open : jars of their family may join these where there is room
    closed : nothing joins these
    in_order : those of a canner keep their order
    among : new loads only on these canners; ``None``: on all
    """

    open: tuple[Load, ...] = ()
    closed: tuple[Load, ...] = ()
    in_order: bool = True
    among: frozenset[int] | None = None


NOTHING_KEPT = Kept()


@dataclass(slots=True)
class Slot:
    """A load that may be. ``jars`` and ``on_time`` are counts by job.

    ``timed`` is true where the load has a start; the others only take part in packing and setups.
    """

    lead: int | None
    canner: int
    family: int
    length: int
    present: cp_model.IntVar
    timed: cp_model.IntVar | None = None
    start: cp_model.IntVar | None = None
    release: int = 0
    latest: int = 0
    jars: dict[int, Amount] = field(default_factory=dict)
    on_time: dict[int, cp_model.IntVar] = field(default_factory=dict)
    ended: dict[int, cp_model.IntVar] = field(default_factory=dict)
    fixed: Load | None = None


@dataclass(slots=True)
class Variables:
    """All unknowns of a model, and the model they belong to.

    By canner and family: ``first`` and ``last`` load, ``there`` at all, ``behind`` the timed ones;
    ``step`` counts loads of one family right after one of another; ``next`` are the arcs of the
    timed chain, 0 its ends. By canner: ``used`` at all, ``idle`` without timed loads.
    ``some`` pairs a literal with the count that it says is 1 or more.
    """

    model: cp_model.CpModel
    slots: list[Slot]
    left: Counter[int]
    free_late: bool
    keep_order: bool
    late: dict[int, cp_model.IntVar] = field(default_factory=dict)
    cost: list[cp_model.LinearExprT] = field(default_factory=list)
    of_canner: dict[int, list[Slot]] = field(default_factory=lambda: defaultdict(list))
    of_job: dict[int, list[Slot]] = field(default_factory=lambda: defaultdict(list))
    makespan: cp_model.IntVar | None = None
    next: dict[tuple[int, int, int], cp_model.IntVar] = field(default_factory=dict)
    step: dict[tuple[int, int, int], cp_model.IntVar] = field(default_factory=dict)
    first: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    last: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    there: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    behind: dict[tuple[int, int], cp_model.IntVar] = field(default_factory=dict)
    used: dict[int, cp_model.IntVar] = field(default_factory=dict)
    idle: dict[int, cp_model.IntVar] = field(default_factory=dict)
    some: list[tuple[cp_model.IntVar, cp_model.IntVar]] = field(default_factory=list)
    joined: list[tuple[cp_model.IntVar, cp_model.IntVar, int]] = field(default_factory=list)
    number: dict[tuple[int, int], cp_model.LinearExprT] = field(default_factory=dict)


def make_variables(
    problem: Problem,
    free_late: bool,
    kept: Kept = NOTHING_KEPT,
) -> Variables:
    """The unknowns for all jars that are in no kept load.

    Parameters
    ----------
    free_late : loads in which no jar is on time need no start; a relaxation
    kept : loads that stay
    """
    left = Counter({j: job.count for j, job in enumerate(problem.jobs)})
    for load in (*kept.open, *kept.closed):
        for j, n in load.jars:
            left[j] -= n
    left = +left
    v = Variables(cp_model.CpModel(), [], left, free_late, kept.in_order)
    if problem.weights.makespan:
        v.makespan = v.model.new_int_var(0, problem.horizon, "makespan")
    can_join = {id(load) for load in kept.open}
    free: dict[int, int] = defaultdict(int)
    for load in sorted((*kept.open, *kept.closed), key=lambda load: (load.canner, load.start)):
        slot = _fixed_slot(problem, v, load, id(load) in can_join)
        if not kept.in_order:
            continue
        # Kept loads keep their order, so each waits at least for those before it.
        oven = problem.canners[load.canner]
        setup = problem.least_setup[load.canner][slot.family]
        start = earliest_start(oven, free[load.canner], setup, slot.length, slot.release)
        slot.release = oven.windows[-1][1] if start is None else start
        free[load.canner] = slot.release + slot.length
    for lead in sorted(left):
        for k in problem.jobs[lead].canners:
            if kept.among is not None and k not in kept.among:
                continue
            for _ in range(_most_loads(problem, left, lead, k)):
                _free_slot(problem, v, lead, k)
    for slot in v.slots:
        v.of_canner[slot.canner].append(slot)
    for slots in v.of_canner.values():
        _time_slots(problem, v, slots)
    for slot in v.slots:
        for j in slot.jars:
            v.of_job[j].append(slot)
    return v


def _longer(problem: Problem, lead: int, j: int) -> bool:
    """Whether ``lead`` comes before ``j`` as a load's longest job."""
    return (-problem.jobs[lead].least, lead) < (-problem.jobs[j].least, j)


def may_join(problem: Problem, j: int, family: int, length: int, canner: int) -> bool:
    """Whether a job's jars may stand a load of this family and time in this canner."""
    job = problem.jobs[j]
    return job.family == family and canner in job.canners and job.least <= length <= job.most


def _most_loads(problem: Problem, left: Counter[int], lead: int, canner: int) -> int:
    """How many loads of a canner a job may lead.

    One for each of its jars at most. Where it has many, twice the loads that would hold it and
    all that may join it, and two more: more and smaller loads than that are not looked for.
    """
    job, room = problem.jobs[lead], problem.canners[canner].room
    if job.size > room:
        return 0
    volume = sum(
        problem.jobs[j].size * n
        for j, n in left.items()
        if (j == lead or _longer(problem, lead, j))
        and may_join(problem, j, job.family, job.least, canner)
    )
    return min(left[lead], 2 * -(-volume // room) + 2)


def _fixed_slot(problem: Problem, v: Variables, load: Load, may_join: bool) -> Slot:
    jobs = problem.jobs
    family, length = jobs[load.jars[0][0]].family, load.minutes
    slot = Slot(None, load.canner, family, length, v.model.new_constant(1), fixed=load)
    room = problem.canners[load.canner].room - sum(jobs[j].size * n for j, n in load.jars)
    slot.jars.update(load.jars)
    if may_join:
        _joiners(problem, v, slot, room)
    slot.release = max(jobs[j].release for j, _ in load.jars)
    v.slots.append(slot)
    return slot


def _free_slot(problem: Problem, v: Variables, lead: int, canner: int) -> None:
    job, room = problem.jobs[lead], problem.canners[canner].room
    oven = problem.canners[canner]
    if not starts(oven, problem.least_setup[canner][job.family], job.least, job.release):
        return
    present = v.model.new_bool_var("")
    slot = Slot(lead, canner, job.family, job.least, present)
    most = min(v.left[lead], room // job.size)
    if most == 1:
        slot.jars[lead] = present
    else:
        amount = v.model.new_int_var(0, most, "")
        slot.jars[lead] = amount
        v.model.add(amount >= present)
        v.model.add(amount <= most * present)
    _joiners(problem, v, slot, room - job.size)
    slot.release = job.release
    v.slots.append(slot)


def _joiners(problem: Problem, v: Variables, slot: Slot, room: int) -> None:
    for j in sorted(v.left):
        job = problem.jobs[j]
        most = min(v.left[j], room // job.size)
        before = slot.lead is None or (j != slot.lead and _longer(problem, slot.lead, j))
        if j in slot.jars and slot.lead is not None:
            continue
        if not before or not most:
            continue
        if not may_join(problem, j, slot.family, slot.length, slot.canner):
            continue
        had = slot.jars.get(j, 0)
        joined = v.model.new_int_var(0, most, "")
        if slot.lead is not None:
            if most == 1:
                v.model.add_implication(joined, slot.present)
            else:
                v.model.add(joined <= most * slot.present)
        slot.jars[j] = joined if not had else _sum(v, joined, had, most)


def _sum(v: Variables, joined: cp_model.IntVar, had: Amount, most: int) -> cp_model.IntVar:
    low = int(had) if isinstance(had, int) else 0
    total = v.model.new_int_var(low, low + most, "")
    v.model.add(total == joined + had)
    v.joined.append((joined, total, low))
    return total


def _time_slots(problem: Problem, v: Variables, slots: list[Slot]) -> None:
    """Give the loads of a canner starts, where they need them, and on-time counts.

    Where late loads are free, a load needs a start only if a jar may be on time in it, or in one
    that may come after it.
    """
    in_time = {id(slot): _may_be_in_time(problem, slot) for slot in slots}
    last = max((due - slot.length for slot in slots for due, _ in in_time[id(slot)]), default=-1)
    for slot in slots:
        due = in_time[id(slot)]
        latest_end = None
        if v.free_late:
            latest_end = max([last, *(d for d, _ in due)])
        _time_slot(problem, v, slot, latest_end)
        if slot.start is not None:
            for _, j in due:
                slot.on_time[j] = v.model.new_int_var(0, _upper(slot.jars[j]), "")


def _may_be_in_time(problem: Problem, slot: Slot) -> list[tuple[int, int]]:
    """(due, job) of the jobs that a load may hold and bring out by their due time."""
    if not problem.weights.late:
        return []
    setup = problem.least_setup[slot.canner][slot.family]
    due = []
    for j in slot.jars:
        job = problem.jobs[j]
        release = max(slot.release, job.release)
        if job.due is not None and starts(
            problem.canners[slot.canner], setup, slot.length, release, job.due
        ):
            due.append((job.due, j))
    return due


def _time_slot(problem: Problem, v: Variables, slot: Slot, latest_end: int | None) -> None:
    setup = problem.least_setup[slot.canner][slot.family]
    spans = starts(problem.canners[slot.canner], setup, slot.length, slot.release, latest_end)
    if not spans:
        if latest_end is None:
            v.model.add(slot.present == 0)
        return
    if v.free_late:
        slot.timed = v.model.new_bool_var("")
        if slot.fixed is None:
            v.model.add_implication(slot.timed, slot.present)
    else:
        slot.timed = slot.present
    slot.start = v.model.new_int_var_from_domain(
        cp_model.Domain.from_intervals([list(s) for s in spans]), ""
    )
    slot.latest = spans[-1][1]


def _upper(amount: Amount) -> int:
    return amount if isinstance(amount, int) else amount.domain.max()
