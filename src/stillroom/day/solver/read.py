"""Reading a plan out of the solver."""

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.solution import SolvedBatch, SolvedLoad, Work, under_way
from stillroom.day.solver.variables import Batch, Hands, Variables


def read_plan(
    problem: Problem, v: Variables, solver: cp_model.CpSolver
) -> tuple[tuple[SolvedLoad, ...], tuple[SolvedBatch, ...]]:
    """Loads and pots made once of the solver's last plan, in minutes."""
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
    loads += under_way(problem, [_work(solver, hands) for hands in v.unloads])
    return loads, tuple(_read_batch(solver, b, loads) for b in v.batches.values())


def _work(solver: cp_model.CpSolver, hands: Hands) -> Work:
    return Work(
        tuple(solver.value(n) for n in hands.of_crew),
        STEP * solver.value(hands.start),
        STEP * solver.value(hands.end),
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
