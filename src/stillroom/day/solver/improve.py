"""A better first plan for a big day: part of it is freed and solved again, the rest stays as it is.

Each time some loads that stand near each other, on a few canners or around the same hour, are
taken out; the model of the day places their jars again among what stays. A plan never gets worse,
and every step is a small day of its own. All times are five-minute steps.
"""

import random
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from ortools.sat.python import cp_model

from stillroom.day.problem import Crew, Job, Oven, Problem
from stillroom.day.solver.bench import FirstBatch, FirstHands, FirstLoad, FirstPlan
from stillroom.day.solver.hint import hint_first_plan
from stillroom.day.solver.rules import add_rules
from stillroom.day.solver.search import Control, found, search
from stillroom.day.solver.strength import add_strength
from stillroom.day.solver.variables import Hands, Variables, make_variables

# Loads freed at once: as many as the model places anew in about a second.
FEWEST, MOST = 4, 12
# Each small day gets so much of the solver's own measure of work, and at most so many seconds.
WORK, SECONDS = 0.12, 4.0
# One step of an earlier finish is worth more than any sum of earlier single loads.
FINISH_WEIGHS = 1000


def improve(problem: Problem, plan: FirstPlan, until: float, control: Control) -> FirstPlan:
    """The best plan found by then, at least as early as the one given.

    Parameters
    ----------
    problem : a day in steps. One with an order pinned to be first is left as it is: that pin ties
        all loads together.
    plan : a plan that keeps every rule
    until : on the clock of ``time.monotonic``
    control : hears of every earlier finish, and may end it
    """
    if any(job.first and job.count for job in problem.jobs):
        return plan
    dice = random.Random(control.seed)
    size = FEWEST + 2
    while time.monotonic() < until and not control.stop.is_set() and plan.loads:
        chosen = dice.choice(_CHOICES)(problem, plan, size, dice)
        better, status = _again(problem, plan, chosen, until - time.monotonic(), control)
        if status == cp_model.OPTIMAL:
            size = min(MOST, size + 1)
        elif status != cp_model.FEASIBLE:
            size = max(FEWEST, size - 1)
        if better and better.finish < plan.finish:
            control.news("finish", better.finish, 0)
        plan = better or plan
    return plan


Choice = Callable[[Problem, FirstPlan, int, random.Random], list[int]]


def _last_and_near(problem: Problem, plan: FirstPlan, size: int, dice: random.Random) -> list[int]:
    """A load among the last, and those that stand nearest to it in time."""
    by_end = sorted(range(len(plan.loads)), key=lambda n: -plan.loads[n].unload[2])
    return _near(plan, dice.choice(by_end[: max(2, size // 2)]), size, dice)


def _any_and_near(problem: Problem, plan: FirstPlan, size: int, dice: random.Random) -> list[int]:
    """Any load, and those that stand nearest to it in time."""
    return _near(plan, dice.randrange(len(plan.loads)), size, dice)


def _near(plan: FirstPlan, centre: int, size: int, dice: random.Random) -> list[int]:
    at = plan.loads[centre].fill[1]
    # Every now and then the nearest is passed over, so that the same choice is not made twice.
    far = {n: abs(load.fill[1] - at) * dice.uniform(0.7, 1.3) for n, load in enumerate(plan.loads)}
    far[centre] = -1
    return sorted(far, key=lambda n: far[n])[:size]


def _few_canners(problem: Problem, plan: FirstPlan, size: int, dice: random.Random) -> list[int]:
    """The later loads of a few canners, the last one's among them."""
    last = max(plan.loads, key=lambda load: load.unload[2]).canner
    canners = sorted({load.canner for load in plan.loads} - {last})
    some = {last, *dice.sample(canners, min(len(canners), dice.randint(1, 3)))}
    on = [n for n, load in enumerate(plan.loads) if load.canner in some]
    return sorted(on, key=lambda n: -plan.loads[n].fill[1])[:size]


def _same_food(problem: Problem, plan: FirstPlan, size: int, dice: random.Random) -> list[int]:
    """Loads of one order: their jars may be shared out anew."""
    j = dice.choice(plan.loads).jars[0][0]
    own = [n for n, load in enumerate(plan.loads) if any(k == j for k, _, _ in load.jars)]
    dice.shuffle(own)
    return own[:size]


_CHOICES: tuple[Choice, ...] = (_last_and_near, _any_and_near, _few_canners, _same_food)


def _again(
    problem: Problem, plan: FirstPlan, chosen: list[int], left: float, control: Control
) -> tuple[FirstPlan | None, cp_model.CpSolverStatus]:
    """The plan with the chosen loads placed again, or ``None`` where none as good was found."""
    part = _part(problem, plan, chosen)
    v = make_variables(part.problem)
    add_rules(part.problem, v)
    add_strength(part.problem, v)
    hint_first_plan(part.problem, v, part.free, part.batches, plan.unloads)
    ends = [v.model.new_int_var(0, plan.finish, "end") for _ in v.slots]
    for end, s in zip(ends, v.slots, strict=True):
        v.model.add(end >= s.unload.end).only_enforce_if(s.used)
    v.model.add(v.finish >= part.kept_until)
    v.model.minimize(FINISH_WEIGHS * v.finish + sum(ends))
    solver, status = search(
        v.model, min(SECONDS, left), control, aim="part", most_work=WORK, workers=1
    )
    if not found(status):
        return None, status
    loads = [*part.kept, *_loads(v, solver)]
    unloads = [_placed(solver, hands) for hands in v.unloads]
    batches = [_emptied(problem, batch, loads) for batch in plan.batches]
    finish = max([part.kept_until, *(load.unload[2] for load in loads), *(u[2] for u in unloads)])
    return FirstPlan(loads, batches, unloads, finish), status


@dataclass(frozen=True, slots=True)
class _Part:
    """A part of the day as a problem of its own, with what stays around it."""

    problem: Problem
    free: list[FirstLoad]
    kept: list[FirstLoad]
    batches: list[FirstBatch]
    kept_until: int


def _part(problem: Problem, plan: FirstPlan, chosen: list[int]) -> _Part:
    free = [plan.loads[n] for n in chosen]
    kept = [load for n, load in enumerate(plan.loads) if n not in set(chosen)]
    count = [sum(n for load in free for k, _, n in load.jars if k == j) for j in _jobs(problem)]
    canners = {load.canner: 1 for load in free}
    for load in free:
        canners[load.canner] += 1
    left = replace(
        problem,
        jobs=tuple(_job(problem, plan, j, count[j], kept) for j in _jobs(problem)),
        ovens=tuple(_oven(oven, c, kept) for c, oven in enumerate(problem.ovens)),
        crews=tuple(_crew(problem, plan, crew, c, kept) for c, crew in enumerate(problem.crews)),
        taken_burners=(*problem.taken_burners, *_burners(problem, plan, kept, count)),
        taken_counters=(*problem.taken_counters, *_counters(problem, plan, kept)),
        most_loads=tuple(canners.get(c, 0) for c in range(len(problem.ovens))),
        horizon=plan.finish,
    )
    batches = [batch for batch in plan.batches if count[batch.job]]
    return _Part(left, free, kept, batches, max((k.unload[2] for k in kept), default=0))


def _jobs(problem: Problem) -> range:
    return range(len(problem.jobs))


def _job(problem: Problem, plan: FirstPlan, j: int, count: int, kept: list[FirstLoad]) -> Job:
    job = problem.jobs[j]
    ready = next((batch.ready for batch in plan.batches if batch.job == j), job.ready)
    until = max((k.fill[2] for k in kept if any(of == j for of, _, _ in k.jars)), default=0)
    return replace(job, count=count, ready=ready, kept_hot=until if job.make else 0)


def _oven(oven: Oven, canner: int, kept: list[FirstLoad]) -> Oven:
    busy = [(k.fill[1], k.unload[2]) for k in kept if k.canner == canner]
    return replace(oven, out=(*oven.out, *busy))


def _crew(problem: Problem, plan: FirstPlan, crew: Crew, c: int, kept: list[FirstLoad]) -> Crew:
    work = [hands for k in kept for hands in (k.prep, k.fill, k.unload)]
    work += [batch.prep for batch in plan.batches if problem.jobs[batch.job].ready is None]
    taken = [(start, end, hands[c]) for hands, start, end in work if hands[c] and end > start]
    return replace(crew, taken=(*crew.taken, *taken))


def _burners(
    problem: Problem, plan: FirstPlan, kept: list[FirstLoad], count: list[int]
) -> list[tuple[int, int, bool]]:
    taken = []
    for k in kept:
        if not problem.ovens[k.canner].own_plug:
            taken.append((k.fill[1], k.heat_off, True))
        if any(problem.jobs[j].heat for j, _, _ in k.jars):
            taken.append((k.heat_start, k.fill[2], False))
    # A pot made once whose jars are all in loads that stay is none of the part's business.
    taken += [
        (max(problem.now, b.ready - problem.jobs[b.job].make), b.empty, False)
        for b in plan.batches
        if not count[b.job]
    ]
    return taken


def _counters(
    problem: Problem, plan: FirstPlan, kept: list[FirstLoad]
) -> list[tuple[int, int, int]]:
    cuts = [k.prep for k in kept]
    cuts += [batch.prep for batch in plan.batches if problem.jobs[batch.job].ready is None]
    return [(start, end, sum(hands)) for hands, start, end in cuts if end > start]


def _emptied(problem: Problem, batch: FirstBatch, loads: list[FirstLoad]) -> FirstBatch:
    filled = [load.fill[2] for load in loads if any(j == batch.job for j, _, _ in load.jars)]
    return replace(batch, empty=max([batch.ready, problem.now, *filled]))


def _loads(v: Variables, solver: cp_model.CpSolver) -> list[FirstLoad]:
    return [
        FirstLoad(
            canner=s.canner,
            jars=tuple(
                (j, w, solver.value(s.jars[j])) for (j, w), by in s.by.items() if solver.value(by)
            ),
            prep=_placed(solver, s.prep),
            heat_start=solver.value(s.heat_start),
            fill=_placed(solver, s.fill),
            heat_off=solver.value(s.heat_off),
            open=solver.value(s.open),
            unload=_placed(solver, s.unload),
        )
        for s in v.slots
        if solver.value(s.used)
    ]


def _placed(solver: cp_model.CpSolver, hands: Hands) -> FirstHands:
    of_crew = tuple(solver.value(n) for n in hands.of_crew)
    return of_crew, solver.value(hands.start), solver.value(hands.end)
