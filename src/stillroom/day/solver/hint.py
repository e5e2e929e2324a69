"""The first plan, told to the solver as a place to start from."""

from collections import defaultdict

from ortools.sat.python import cp_model

from stillroom.day.problem import Problem
from stillroom.day.solver.bench import FirstBatch, FirstHands, FirstLoad
from stillroom.day.solver.variables import Hands, Slot, Variables


def hint_first_plan(
    problem: Problem,
    v: Variables,
    loads: list[FirstLoad],
    batches: list[FirstBatch],
    unloads: list[FirstHands],
) -> None:
    """Hint every decision of the first plan; what follows from them the solver fills in."""
    of_canner: dict[int, list[FirstLoad]] = defaultdict(list)
    for load in loads:
        of_canner[load.canner].append(load)
    slots: dict[int, list[Slot]] = defaultdict(list)
    for s in v.slots:
        slots[s.canner].append(s)
    for group in problem.alike:
        # Among canners that are alike the solver wants the busiest first.
        busiest = sorted(group, key=lambda canner: -len(of_canner[canner]))
        for canner, given in zip(group, busiest, strict=True):
            placed = sorted(of_canner[given], key=lambda load: load.fill[1])
            for place, s in enumerate(slots[canner]):
                _hint_slot(problem, v.model, s, placed[place] if place < len(placed) else None)
    for batch in batches:
        of = v.batches[batch.job]
        _hint_hands(v.model, of.prep, batch.prep)
        if problem.jobs[batch.job].ready is None:
            v.model.add_hint(of.start, batch.prep[2])
        v.model.add_hint(of.ready, batch.ready)
        v.model.add_hint(of.empty, batch.empty)
    for hands, unload in zip(v.unloads, unloads, strict=True):
        _hint_hands(v.model, hands, unload)
    ends = [load.unload[2] for load in loads] + [end for *_, end in unloads]
    v.model.add_hint(v.finish, max(ends, default=0))


def _hint_slot(problem: Problem, model: cp_model.CpModel, s: Slot, load: FirstLoad | None) -> None:
    counts = {j: n for j, _, n in load.jars} if load else {}
    by = {(j, _way(problem, s.canner, load, j)) for j in counts} if load else set()
    model.add_hint(s.used, load is not None)
    for j, jars in s.jars.items():
        model.add_hint(jars, counts.get(j, 0))
        model.add_hint(s.has[j], j in counts)
    for way, chosen in s.by.items():
        model.add_hint(chosen, way in by)
    if load is None:
        return
    model.add_hint(s.heat_start, load.heat_start)
    model.add_hint(s.fill_start, load.fill[1])
    model.add_hint(s.lid_on, load.fill[2])
    model.add_hint(s.heat_off, load.heat_off)
    model.add_hint(s.open, load.open)
    _hint_hands(model, s.prep, load.prep)
    _hint_hands(model, s.fill, load.fill)
    _hint_hands(model, s.unload, load.unload)


def _way(problem: Problem, canner: int, load: FirstLoad, j: int) -> int:
    """The job's way on this canner that stands for the one it took on a canner alike."""
    taken = next(problem.jobs[k].ways[w] for k, w, _ in load.jars if k == j)
    return next(
        w
        for w, way in enumerate(problem.jobs[j].ways)
        if way.canner == canner and way.process == taken.process
    )


def _hint_hands(
    model: cp_model.CpModel, hands: Hands, placed: tuple[tuple[int, ...], int, int]
) -> None:
    crew, start, end = placed
    model.add_hint(hands.start, start)
    model.add_hint(hands.end, end)
    model.add_hint(hands.size, end - start)
    for variable, n in zip(hands.of_crew, crew, strict=True):
        model.add_hint(variable, n)
