"""From a day and its status to the problem that is left: the past taken off, the present pinned."""

from dataclasses import dataclass, replace

from stillroom.day.model import Day
from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.problem import STEP, Done, Job, Problem, Running, steps
from stillroom.day.replan.people import clashes, cutting_now, people_now, spans_out
from stillroom.day.replan.status import (
    PlannedJars,
    PlannedLoad,
    PlannedPot,
    PlannedWork,
    Stand,
    Status,
    ToldLoad,
)
from stillroom.errors import InputError
from stillroom.units.clock import clock


@dataclass(frozen=True, slots=True)
class Settled:
    """What is left of a day: the problem, loads that are done, and what was taken for granted.

    ``taken`` are whole sentences for the person to check.
    """

    problem: Problem
    done: tuple[tuple[int, tuple[PlannedJars, ...]], ...]
    taken: tuple[str, ...]


def settle(day: Day, status: Status) -> Settled | Unplannable:
    """The day's problem with everything up to now settled.

    Parameters
    ----------
    day : as its file says
    status : how it stands

    Returns
    -------
    Settled, or Unplannable where an order has no process, or raw food was cut too long ago

    Raises
    ------
    InputError
        A status that contradicts itself, the plan or the day file.
    """
    problem = make_problem(day)
    if isinstance(problem, Unplannable):
        return problem
    told = {t.number: t for t in status.loads}
    loads = _held_up(
        [_stands(load, told.get(load.number), status) for load in status.previous.loads], told
    )
    _nothing_in_a_dead_canner(loads, told, status)
    jobs = list(problem.jobs)
    for jars in status.previous.done:
        _take(day, jobs, jars)
    running, cut_jobs, late = [], [], []
    for at in loads:
        if at.state == "done":
            for jars in at.load.jars:
                _take(day, jobs, jars)
        elif at.state == "running":
            running.append(_running(day, problem, jobs, at, status.now))
        elif at.state == "cut":
            for job in _cut(day, jobs, at):
                if job.heat_by is not None and day.start + job.heat_by <= status.now:
                    late.append(_too_long(day, job))
                cut_jobs.append(job)
    if not running and not any(job.count for job in (*jobs, *cut_jobs)):
        raise InputError(
            f"By {clock(status.now)} every jar is out, as the plan has it: nothing is left to "
            "plan. If that is not so, say in [[load]] what is late or waiting."
        )
    if late:
        return Unplannable(tuple(late), ("Take these jars out of the orders of the day file.",))
    jobs = _pots(day, jobs, status)
    now = STEP * steps(status.now - day.start)
    settled = replace(
        problem,
        jobs=tuple(replace(job, first=job.first and job.count > 0) for job in (*jobs, *cut_jobs)),
        ovens=tuple(
            replace(oven, out=_out(day, status, oven.name, running, n))
            for n, oven in enumerate(problem.ovens)
        ),
        crews=people_now(day, loads, status),
        taken_burners=_burners(running, now),
        taken_counters=tuple(
            (max(now, start), end, 1) for start, end in cutting_now(day, loads, status) if end > now
        ),
        now=now,
        running=tuple(running),
        last_number=status.previous.last_number,
    )
    done = tuple((at.load.number, at.load.jars) for at in loads if at.state == "done")
    if status.previous.done:
        done = ((0, status.previous.done), *done)
    taken = (*_granted(loads, told, status), *clashes(loads, status))
    return Settled(settled, done, taken)


def _out(
    day: Day, status: Status, name: str, running: list[Running], canner: int
) -> tuple[tuple[int, int], ...]:
    """When no new load may be in a canner: it dropped out, or is being emptied just now."""
    emptied = (r.unload.end for r in running if r.canner == canner and r.unload)
    return (*spans_out(day, status.canners, name), *((0, end) for end in emptied))


def _stands(load: PlannedLoad, told: ToldLoad | None, status: Status) -> Stand:
    late = told.late if told else 0
    clock_says = load.by_the_clock(status.now, late)
    state = told.state if told and told.state else clock_says
    if told and state in ("running", "cut") and clock_says == "waiting":
        begins = (load.heat_start if state == "running" else load.begun) + late
        raise InputError(
            f"{told.where}: load {load.number} is said to be {state}, but by the plan it begins at "
            f"{clock(begins)}. Say with late how many minutes it is behind, below 0 if it is ahead."
        )
    return Stand(load, state, late)


def _held_up(loads: list[Stand], told: dict[int, ToldLoad]) -> list[Stand]:
    """A load cannot have begun while one before it is still in its canner or on its burner."""
    stands: list[Stand] = []
    for at in sorted(loads, key=lambda stand: (stand.load.fill.start, stand.load.number)):
        before = next((b for b in stands if at.state == "running" and _in_the_way(b, at)), None)
        if before is None:
            stands.append(at)
            continue
        said = told.get(at.load.number)
        if said and said.state == "running":
            until = clock(before.load.open + before.late)
            raise InputError(
                f"{said.where}: load {at.load.number} cannot run while load {before.load.number} "
                f"is in its place, until {until} as told. Say how late each of them is."
            )
        stands.append(replace(at, state="cut" if at.load.cuts else "waiting"))
    return stands


def _in_the_way(before: Stand, at: Stand) -> bool:
    """Whether a running load keeps another from beginning when it is said to have begun."""
    if before.state != "running":
        return False
    begun = at.load.fill.start + at.late
    in_canner = before.load.canner == at.load.canner
    emptied = before.load.unload.end + before.late
    on_burner = before.load.burner == at.load.burner != 0
    return (in_canner and emptied > begun) or (
        on_burner and before.load.heat_off + before.late > begun
    )


def _nothing_in_a_dead_canner(
    loads: list[Stand], told: dict[int, ToldLoad], status: Status
) -> None:
    """A load that the clock puts into a canner that dropped out must be told of."""
    for out in status.canners:
        for at in loads:
            said = told.get(at.load.number)
            inside = at.load.canner == out.name and at.state == "running"
            if inside and out.start <= status.now and not (said and said.state):
                raise InputError(
                    f"{out.where}: by the plan load {at.load.number} is in the {out.name}. Say in "
                    f'[[load]] what became of it: state = "waiting" to process its jars anew, '
                    '"running" if it goes on, or "done".'
                )


def _order(day: Day, jobs: list[Job], jars: PlannedJars) -> int:
    """The order that jars of the plan belong to; where it does not say, one with as many left."""
    fitting = [
        i
        for i, order in enumerate(day.orders)
        if order.recipe.name == jars.recipe and order.jar == jars.jar
    ]
    enough = [i for i in fitting if jobs[i].count >= jars.count]
    if not enough:
        raise InputError(
            f"The plan has {jars.count} {jars.jar} jars of {jars.recipe} that the day file does "
            "not order. Plan from the day file that the saved plan was made of."
        )
    named = jars.order - 1
    return named if named in enough else min(enough, key=lambda i: jobs[i].count)


def _take(day: Day, jobs: list[Job], jars: PlannedJars) -> int:
    i = _order(day, jobs, jars)
    jobs[i] = replace(jobs[i], count=jobs[i].count - jars.count)
    return i


def _work(day: Day, work: PlannedWork | None, late: int, at: int) -> Done:
    """A piece of work in minutes from the day's start; none at all takes no time."""
    if work is None:
        return Done((), at, at)
    return Done(work.who, work.start + late - day.start, work.end + late - day.start)


def _running(day: Day, problem: Problem, jobs: list[Job], at: Stand, now: int) -> Running:
    load, late = at.load, at.late - day.start
    canner = next((n for n, oven in enumerate(problem.ovens) if oven.name == load.canner), None)
    if canner is None:
        raise InputError(f"The plan uses the {load.canner}, which the kitchen file does not have.")
    jars = []
    for planned in load.jars:
        i = _take(day, jobs, planned)
        ways = [
            w
            for w, way in enumerate(problem.jobs[i].ways)
            if way.canner == canner
            and way.process.minutes == planned.minutes
            and way.process.psi == load.psi
        ]
        if not ways:
            raise InputError(
                f"Load {load.number} of the plan follows a row that is not published for "
                f"{planned.recipe} here. Plan from the files that the saved plan was made of."
            )
        jars.append((i, ways[0], planned.count))
    begun = load.unload.start + at.late <= now
    heat = load.heat_start + late
    return Running(
        number=load.number,
        canner=canner,
        jars=tuple(jars),
        prep=_work(day, load.cuts[0] if load.cuts else None, at.late, heat),
        heat_start=heat,
        fill=_work(day, load.fill, at.late, heat),
        heat_off=load.heat_off + late,
        cool=load.cool,
        open=load.open + late,
        unload=_work(day, load.unload, at.late, heat) if begun else None,
        burner=load.burner,
        pot_burner=int(load.pot.where.removeprefix("burner ")) if load.pot else 0,
    )


def _cut(day: Day, jobs: list[Job], at: Stand) -> list[Job]:
    """Jars whose food is cut, as orders of their own that need no more cutting."""
    made = []
    for jars in at.load.jars:
        i = _order(day, jobs, jars)
        job = jobs[i]
        if job.make:
            continue  # its food went into the pot that is made once
        _take(day, jobs, jars)
        # Raw food stands out from the first cut on; what is to be cut yet is cut at its hour.
        cuts = tuple(_work(day, cut, at.late, 0) for cut in at.load.cuts)
        made.append(
            replace(
                job,
                count=jars.count,
                prep_tenths=0,
                not_before=max([job.not_before, *(cut.end for cut in cuts)]),
                heat_by=cuts[0].start + 120 if job.perishable and cuts else None,
                cut=cuts,
            )
        )
    return made


def _too_long(day: Day, job: Job) -> str:
    since = clock(day.start + job.cut[0].start)
    return (
        f"{job.title}: raw food for {job.count} jars has stood out since {since}, two hours or "
        "more; a plan puts none into jars after that."
    )


def _pots(day: Day, jobs: list[Job], status: Status) -> list[Job]:
    """Pots made once that are begun, with when they are ready."""
    late = dict(status.pots)
    left = list(status.previous.pots)
    changed = []
    for order, job in zip(day.orders, jobs, strict=True):
        planned = next((pot for pot in left if _is_of(day, pot, job)), None)
        if not job.make or planned is None:
            changed.append(job)
            continue
        left.remove(planned)
        behind = late.get(order.recipe.name, 0)
        begun = (planned.cut.start if planned.cut else planned.cook.start) + behind
        if begun > status.now:
            changed.append(job)
            continue
        on = planned.cook.start + behind - day.start
        cut = (_work(day, planned.cut, behind, on),) if planned.cut else ()
        changed.append(
            replace(
                job,
                ready=on + job.make,
                cut=cut,
                burner=int(planned.cook.where.removeprefix("burner ")),
            )
        )
    return changed


def _is_of(day: Day, pot: PlannedPot, job: Job) -> bool:
    """Whether a pot of the plan is the job's; of two jobs alike the plan says whose it is."""
    told = 0 < pot.order <= len(day.orders)
    told = told and day.orders[pot.order - 1].recipe.title == pot.title
    return pot.title == job.title and (not told or pot.order == job.order)


def _burners(running: list[Running], now: int) -> tuple[tuple[int, int, bool], ...]:
    taken = []
    for r in running:
        if r.burner and r.heat_off > now:
            taken.append((max(now, r.fill.start), r.heat_off, True))
        if r.pot_burner and r.fill.end > now:
            taken.append((now, r.fill.end, False))
    return tuple(taken)


def _granted(loads: list[Stand], told: dict[int, ToldLoad], status: Status) -> tuple[str, ...]:
    """What the clock alone says, for the person to check."""
    lines = []
    for state in ("done", "running", "cut"):
        numbers = [
            str(at.load.number)
            for at in loads
            if at.state == state and not (told.get(at.load.number) and told[at.load.number].state)
        ]
        if numbers:
            lines.append(
                f"Taken as planned by {clock(status.now)}: load {', '.join(numbers)} {state}."
            )
    for at in loads:
        said = told.get(at.load.number)
        if said and said.state == "waiting" and at.load.by_the_clock(status.now, 0) == "running":
            lines.append(
                f"Load {at.load.number}: its jars start over, with the full process from the start."
            )
    return tuple(lines)
