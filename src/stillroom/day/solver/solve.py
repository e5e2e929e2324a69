"""Solve a day: the earliest finish first, then the tidiest day with that finish."""

import time
from dataclasses import dataclass, replace

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.first import FirstBatch, FirstHands, FirstLoad, first_plan
from stillroom.day.solver.hint import hint_first_plan
from stillroom.day.solver.rules import add_rules, add_strength
from stillroom.day.solver.variables import Batch, Hands, Variables, make_variables

# One worker searches without the linear relaxation, one with it, and a third mends large
# neighbourhoods of the best plan. On two cores this proves the demo day sooner than the solver's
# own choice of searches (python -m benchmarks.plan).
WORKERS = 3
SEARCHES = ("no_lp", "default_lp")
SEED = 1
# Tidying a finished plan is a courtesy: it gets a few seconds of what is left.
TIDY_SECONDS = 3.0


@dataclass(frozen=True, slots=True)
class Work:
    """Hand work in the solution: hands by crew, start and end."""

    hands: tuple[int, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class SolvedLoad:
    """A load in the solution. ``jars`` are (job, way, count)."""

    canner: int
    jars: tuple[tuple[int, int, int], ...]
    prep: Work
    heat_start: int
    fill: Work
    lid_on: int
    heat_off: int
    cool: int
    open: int
    unload: Work


@dataclass(frozen=True, slots=True)
class SolvedBatch:
    """A pot made once in the solution."""

    job: int
    prep: Work
    start: int
    ready: int
    empty: int


@dataclass(frozen=True, slots=True)
class Solution:
    """Loads and times in minutes from the start, and how good they are known to be.

    ``bound`` is a finish that no plan can beat; it equals ``finish`` when ``optimal``.
    """

    optimal: bool
    finish: int
    bound: int
    seconds: float
    loads: tuple[SolvedLoad, ...]
    batches: tuple[SolvedBatch, ...]


def solve(problem: Problem, time_limit: float) -> Solution | None:
    """The day's plan, or ``None`` where the rules leave none within the hours.

    Parameters
    ----------
    problem : the day, in whole minutes
    time_limit : seconds for both stages together

    Raises
    ------
    TimeoutError
        The limit passed before any plan was found and none was proved impossible.
    ValueError
        The model itself is wrong: a fault of this program.
    """
    begun = time.monotonic()
    problem = problem.in_steps()
    first = first_plan(problem)
    if first:
        # No plan worth having ends later than one that is there already.
        latest = max(load.unload[2] for load in first[0])
        problem = replace(problem, horizon=latest)
    v = make_variables(problem)
    if not _loads_enough(problem, v):
        return None
    _add_all(problem, v)
    if first:
        hint_first_plan(problem, v, *first)
    v.model.minimize(v.finish)
    solver = _solver(time_limit)
    status = solver.solve(v.model)
    if status == cp_model.INFEASIBLE:
        return None
    if status == cp_model.UNKNOWN and first:
        bound = max(0, round(solver.best_objective_bound))
        return from_first(problem, *first, bound=bound, seconds=time.monotonic() - begun)
    if status == cp_model.UNKNOWN:
        raise TimeoutError(f"no plan was found in {time_limit:g} s")
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        raise ValueError(f"the model is wrong: {v.model.validate()}")
    optimal, bound = status == cp_model.OPTIMAL, round(solver.best_objective_bound)
    finish = round(solver.objective_value)
    left = time_limit - (time.monotonic() - begun)
    tidied = _tidy(problem, v, solver, finish, max(1.0, min(left, TIDY_SECONDS)))
    return _read(v, tidied, optimal, finish, bound, time.monotonic() - begun)


def from_first(
    problem: Problem,
    loads: list[FirstLoad],
    batches: list[FirstBatch],
    *,
    bound: int = 0,
    seconds: float = 0.0,
) -> Solution:
    """The first plan as an answer, in minutes: what there is when the solver had no time at all.

    ``problem``, the plan and ``bound`` are in steps.
    """

    def work(hands: FirstHands) -> Work:
        crew, start, end = hands
        return Work(crew, STEP * start, STEP * end)

    solved = tuple(
        SolvedLoad(
            canner=load.canner,
            jars=load.jars,
            prep=work(load.prep),
            heat_start=STEP * load.heat_start,
            fill=work(load.fill),
            lid_on=STEP * load.fill[2],
            heat_off=STEP * load.heat_off,
            cool=STEP * max(problem.jobs[j].ways[w].cool for j, w, _ in load.jars),
            open=STEP * load.open,
            unload=work(load.unload),
        )
        for load in loads
    )
    pots = tuple(
        SolvedBatch(b.job, work(b.prep), STEP * b.prep[2], STEP * b.ready, STEP * b.empty)
        for b in batches
    )
    finish = max(load.unload.end for load in solved)
    return Solution(finish == STEP * bound, finish, STEP * bound, seconds, solved, pots)


def possible(problem: Problem, time_limit: float) -> bool:
    """Whether a plan was found at all within the limit; no care is taken for a good one."""
    problem = problem.in_steps()
    if first_plan(problem):
        return True
    v = make_variables(problem)
    if not _loads_enough(problem, v):
        return False
    _add_all(problem, v)
    solver = _solver(time_limit)
    return solver.solve(v.model) in (cp_model.OPTIMAL, cp_model.FEASIBLE)


def _loads_enough(problem: Problem, v: Variables) -> bool:
    """Whether the loads that the hours can hold would take every jar, whatever else binds."""
    return all(
        sum(s.most.get(j, 0) for s in v.slots) >= job.count for j, job in enumerate(problem.jobs)
    )


def _add_all(problem: Problem, v: Variables) -> None:
    add_rules(problem, v)
    add_strength(problem, v)


def _solver(time_limit: float) -> cp_model.CpSolver:
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = time_limit
    solver.parameters.num_workers = WORKERS
    solver.parameters.subsolvers.extend(SEARCHES)
    solver.parameters.random_seed = SEED
    return solver


def _tidy(
    problem: Problem, v: Variables, first: cp_model.CpSolver, finish: int, limit: float
) -> cp_model.CpSolver:
    """With the finish held: fewer loads, less over-processing, food and jars that wait less."""
    v.model.add(v.finish <= finish)
    for index in range(len(v.model.proto.variables)):
        variable = v.model.get_int_var_from_proto_index(index)
        v.model.add_hint(variable, first.value(variable))
    cut_food_waits = [s.heat_start - s.prep.end for s in v.slots]
    pots_wait = [batch.empty - batch.ready for batch in v.batches.values()]
    jars_wait = [s.unload.start - s.open for s in v.slots]
    v.model.minimize(
        30 * sum(s.used for s in v.slots)
        + 2 * sum(s.run for s in v.slots)
        + 2 * sum(cut_food_waits)
        + 2 * sum(pots_wait)
        + sum(jars_wait)
    )
    solver = _solver(limit)
    status = solver.solve(v.model)
    return solver if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else first


def _work(solver: cp_model.CpSolver, hands: Hands) -> Work:
    return Work(
        tuple(solver.value(n) for n in hands.of_crew),
        STEP * solver.value(hands.start),
        STEP * solver.value(hands.end),
    )


def _read(
    v: Variables, solver: cp_model.CpSolver, optimal: bool, finish: int, bound: int, seconds: float
) -> Solution:
    loads = tuple(
        SolvedLoad(
            canner=s.canner,
            jars=tuple(
                (j, w, solver.value(s.jars[j])) for (j, w), by in s.by.items() if solver.value(by)
            ),
            prep=_work(solver, s.prep),
            heat_start=STEP * solver.value(s.heat_start),
            fill=_work(solver, s.fill),
            lid_on=STEP * solver.value(s.lid_on),
            heat_off=STEP * solver.value(s.heat_off),
            cool=STEP * solver.value(s.cool),
            open=STEP * solver.value(s.open),
            unload=_work(solver, s.unload),
        )
        for s in v.slots
        if solver.value(s.used)
    )
    batches = tuple(_read_batch(solver, b, loads) for b in v.batches.values())
    # Where the first stage ran out of time, the tidied day may end earlier than it found.
    finish = min(finish, max(load.unload.end for load in loads) // STEP)
    return Solution(
        optimal or finish == bound, STEP * finish, STEP * bound, seconds, loads, batches
    )


def _read_batch(
    solver: cp_model.CpSolver, batch: Batch, loads: tuple[SolvedLoad, ...]
) -> SolvedBatch:
    """A pot made once; it leaves its burner when its last jar is filled, and no later."""
    ready = STEP * solver.value(batch.ready)
    filled = [load.lid_on for load in loads if any(j == batch.job for j, _, _ in load.jars)]
    return SolvedBatch(
        batch.job,
        _work(solver, batch.prep),
        STEP * solver.value(batch.start),
        ready,
        max([ready, *filled]),
    )
