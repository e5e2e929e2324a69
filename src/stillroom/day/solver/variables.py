"""What the solver decides: which jars share a load, and when each step starts.

All times are five-minute steps from the start of the day.
"""

from dataclasses import dataclass
from math import lcm

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP, Job, Problem, Way, steps

Family = tuple[int, bool]


@dataclass(slots=True)
class Hands:
    """A piece of hand work: how many people of each crew do it, and when."""

    start: cp_model.IntVar
    size: cp_model.IntVar
    end: cp_model.IntVar
    present: cp_model.IntVar | int
    of_crew: list[cp_model.IntVar]
    interval: cp_model.IntervalVar


@dataclass(slots=True)
class Slot:
    """One possible load of a canner."""

    canner: int
    used: cp_model.IntVar
    most: dict[int, int]
    jars: dict[int, cp_model.IntVar]
    has: dict[int, cp_model.IntVar]
    by: dict[tuple[int, int], cp_model.IntVar]
    family: dict[Family, cp_model.IntVar]
    pot: cp_model.IntVar
    minutes: cp_model.IntVar
    run: cp_model.IntVar
    pot_heat: cp_model.IntVar
    warming: cp_model.IntVar
    cool: cp_model.IntVar
    heat_start: cp_model.IntVar
    fill_start: cp_model.IntVar
    lid_on: cp_model.IntVar
    heat_off: cp_model.IntVar
    open: cp_model.IntVar
    prep: Hands
    fill: Hands
    unload: Hands


@dataclass(slots=True)
class Batch:
    """A pot made once for a whole order: its preparation, its simmering, how long it is kept."""

    job: int
    prep: Hands
    start: cp_model.IntVar
    ready: cp_model.IntVar
    empty: cp_model.IntVar


@dataclass(slots=True)
class Variables:
    """All decisions of a day."""

    model: cp_model.CpModel
    slots: list[Slot]
    batches: dict[int, Batch]
    finish: cp_model.IntVar
    unloads: list[Hands]
    ways: dict[int, list[tuple[int, int, Job, Way]]]


def make_variables(problem: Problem) -> Variables:
    """Variables with their ranges; nothing is yet ruled out."""
    model = cp_model.CpModel()
    finish = model.new_int_var(0, problem.horizon, "finish")
    ways = {
        canner: [
            (j, w, job, way)
            for j, job in enumerate(problem.jobs)
            for w, way in enumerate(job.ways)
            if way.canner == canner and job.count
        ]
        for canner in range(len(problem.ovens))
    }
    slots = [
        _slot(model, problem, canner, place, ways[canner])
        for canner in range(len(problem.ovens))
        for place in range(_most_loads(problem, canner, ways[canner]))
    ]
    batches = {
        j: _batch(model, problem, j) for j, job in enumerate(problem.jobs) if job.make and job.count
    }
    unloads = [
        _hands(model, problem, f"unload load {r.number}", 1, None, 1, fixed=problem.unload)
        for r in problem.to_unload
    ]
    return Variables(model, slots, batches, finish, unloads, ways)


def _most_loads(problem: Problem, canner: int, ways: list[tuple[int, int, Job, Way]]) -> int:
    """As many loads as the canner's orders could need, or as the hours could hold.

    Nobody runs a canner more often than the jars ask for, so an order gets no more loads of a
    canner than hold it (and, for raw perishable food, than can be cut in time).
    """
    if not ways:
        return 0
    need = {j: -(-job.count // problem.most_jars(job, way)) for j, _, job, way in ways}
    shortest = problem.load + min(problem.closed(way) for *_, way in ways) + problem.unload
    most = min(sum(need.values()), problem.horizon // shortest)
    return most if problem.most_loads is None else min(most, problem.most_loads[canner])


def _slot(
    model: cp_model.CpModel,
    problem: Problem,
    canner: int,
    place: int,
    ways: list[tuple[int, int, Job, Way]],
) -> Slot:
    tag = f"{problem.ovens[canner].name} {place + 1}"
    most = problem.horizon
    jobs = {j: (job, way) for j, _, job, way in ways}
    used = model.new_bool_var(f"{tag} used")
    heats = sorted({0, *(job.heat for job, _ in jobs.values())})
    fill_most = max(job.fill_tenths * way.capacity for job, way in jobs.values())
    prep_most = max(job.prep_tenths * way.capacity for job, way in jobs.values())
    most_jars = {j: min(way.capacity, job.count) for j, (job, way) in jobs.items()}
    return Slot(
        canner=canner,
        used=used,
        most=most_jars,
        jars={
            j: model.new_int_var(0, n, f"{tag} jars of {problem.jobs[j].name}")
            for j, n in most_jars.items()
        },
        has={j: model.new_bool_var(f"{tag} has {job.name}") for j, (job, _) in jobs.items()},
        by={(j, w): model.new_bool_var(f"{tag} {job.name} by {w}") for j, w, job, _ in ways},
        family={
            f: model.new_bool_var(f"{tag} {f}")
            for f in dict.fromkeys(job.family(way) for _, _, job, way in ways)
        },
        pot=model.new_bool_var(f"{tag} pot"),
        minutes=model.new_int_var_from_domain(
            cp_model.Domain.from_values([0, *(way.process.minutes for _, _, _, way in ways)]),
            f"{tag} minutes",
        ),
        run=model.new_int_var_from_domain(
            cp_model.Domain.from_values([0, *(steps(way.process.minutes) for *_, way in ways)]),
            f"{tag} run",
        ),
        pot_heat=model.new_int_var_from_domain(cp_model.Domain.from_values(heats), f"{tag} heat"),
        warming=model.new_int_var_from_domain(
            cp_model.Domain.from_values([0, *(way.warming for _, _, _, way in ways)]),
            f"{tag} warming",
        ),
        cool=model.new_int_var_from_domain(
            cp_model.Domain.from_values([0, *(way.cool for _, _, _, way in ways)]), f"{tag} cool"
        ),
        heat_start=model.new_int_var(0, most, f"{tag} heat start"),
        fill_start=model.new_int_var(0, most, f"{tag} fill start"),
        lid_on=model.new_int_var(0, most, f"{tag} lid on"),
        heat_off=model.new_int_var(0, most, f"{tag} heat off"),
        open=model.new_int_var(0, most, f"{tag} open"),
        prep=_hands(
            model, problem, f"{tag} prep", used, _hand_steps(prep_most), problem.most_hands
        ),
        fill=_hands(model, problem, f"{tag} fill", used, _hand_steps(fill_most) + problem.load, 1),
        unload=_hands(model, problem, f"{tag} unload", used, None, 1, fixed=problem.unload),
    )


def _hand_steps(tenths: int) -> int:
    """Whole five-minute steps that cover so many tenths of a minute."""
    return -(-tenths // (10 * STEP))


def _hands(
    model: cp_model.CpModel,
    problem: Problem,
    tag: str,
    present: cp_model.IntVar | int,
    most_steps: int | None,
    most_hands: int,
    fixed: int = 0,
) -> Hands:
    """Hand work of a fixed length, or of so many steps at most."""
    start = model.new_int_var(0, problem.horizon, f"{tag} start")
    least, most = (fixed, fixed) if most_steps is None else (0, most_steps)
    size = model.new_int_var(least, most, f"{tag} steps")
    end = model.new_int_var(0, problem.horizon, f"{tag} end")
    model.add(end == start + size)
    if isinstance(present, int):
        interval = model.new_interval_var(start, size, end, tag)
    else:
        interval = model.new_optional_interval_var(start, size, end, present, tag)
    of_crew = [
        model.new_int_var(0, min(most_hands, len(crew.names)), f"{tag} by {'/'.join(crew.names)}")
        for crew in problem.crews
    ]
    return Hands(start, size, end, present, of_crew, interval)


def _batch(model: cp_model.CpModel, problem: Problem, j: int) -> Batch:
    job = problem.jobs[j]
    tag = f"{job.name} made once"
    most = problem.horizon
    cutting = 0 if job.ready is not None else job.prep_tenths * job.count
    return Batch(
        job=j,
        prep=_hands(model, problem, tag, 1, _hand_steps(cutting), problem.most_hands),
        start=model.new_int_var(0, most, f"{tag} on the burner"),
        ready=model.new_int_var(0, most, f"{tag} ready"),
        empty=model.new_int_var(0, most, f"{tag} empty"),
    )


def shares(ways: list[tuple[int, int, Job, Way]]) -> tuple[int, dict[int, int]]:
    """Room of a canner in whole units, and the units one jar of each job takes.

    A jar of which the canner holds n takes one n-th of the room; the least common multiple keeps
    the sums whole. For mixed sizes this is a planning estimate (common practice).
    """
    capacity = {j: way.capacity for j, _, _, way in ways}
    room = lcm(*capacity.values()) if capacity else 1
    return room, {j: room // n for j, n in capacity.items()}
