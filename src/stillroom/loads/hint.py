"""A plan that is there, told to the solver as a place to start from."""

from collections import Counter, defaultdict
from collections.abc import Sequence

from ortools.sat.python import cp_model

from stillroom.loads.problem import Problem
from stillroom.loads.result import Load
from stillroom.loads.timing import family_of
from stillroom.loads.variables import Slot, Variables


class _Hints:
    """Hints given so far, by the variable's number."""

    def __init__(self, model: cp_model.CpModel) -> None:
        self._model = model
        self.value: dict[int, int] = {}

    def add(self, variable: cp_model.IntVar, value: int) -> None:
        if variable.index not in self.value:
            self.value[variable.index] = int(value)
            self._model.add_hint(variable, int(value))


def hint(problem: Problem, v: Variables, loads: Sequence[Load]) -> None:
    """Hint every unknown of a plan, so that the solver starts from it without a search."""
    hints = _Hints(v.model)
    taken = _slots_of(problem, v, loads)
    for slot in v.slots:
        load = taken.get(id(slot))
        if slot.fixed is None:
            hints.add(slot.present, load is not None)
    for k in range(len(problem.canners)):
        chain = [
            (load, slot) for slot in v.of_canner[k] if (load := taken.get(id(slot))) is not None
        ]
        chain.sort(key=lambda pair: pair[0].start)
        timed = _timed(problem, v, chain)
        for slot in v.of_canner[k]:
            _hint_jars(problem, hints, slot, taken.get(id(slot)), id(slot) in timed)
        _hint_chain(problem, v, hints, k, chain, timed)
    for j, late in v.late.items():
        jars = sum(dict(load.jars).get(j, 0) for load in loads if not in_time(problem, load, j))
        hints.add(late, jars)
    for joined, total, had in v.joined:
        hints.add(joined, hints.value.get(total.index, had) - had)
    for some, amount in v.some:
        hints.add(some, hints.value.get(amount.index, 0) >= 1)
    if v.makespan is not None:
        hints.add(v.makespan, max(load.end for load in loads))


def _slots_of(problem: Problem, v: Variables, loads: Sequence[Load]) -> dict[int, Load]:
    """Each load's slot, by the slot's identity."""
    fixed: dict[int, Slot] = {id(slot.fixed): slot for slot in v.slots if slot.fixed is not None}
    free: dict[tuple[int, int], list[Slot]] = defaultdict(list)
    for slot in v.slots:
        if slot.lead is not None:
            free[slot.lead, slot.canner].append(slot)
    taken: dict[int, Load] = {}
    for load in sorted(loads, key=lambda load: load.start):
        if id(load) in fixed:
            taken[id(fixed[id(load)])] = load
            continue
        lead = min((j for j, _ in load.jars), key=lambda j: (-problem.jobs[j].least, j))
        if free[lead, load.canner]:
            taken[id(free[lead, load.canner].pop(0))] = load
    return taken


def in_time(problem: Problem, load: Load, j: int) -> bool:
    """Whether jars of this job are on time in this load."""
    due = problem.jobs[j].due
    return due is not None and load.end <= due


def _timed(problem: Problem, v: Variables, chain: Sequence[tuple[Load, Slot]]) -> set[int]:
    """The slots of a canner that have times: where late loads are free, up to the last in time."""
    timed: set[int] = set()
    for load, slot in reversed(chain):
        needs = not v.free_late or any(
            in_time(problem, load, j) and j in slot.on_time for j, _ in load.jars
        )
        if slot.start is not None and (needs or timed):
            timed.add(id(slot))
    return timed


def _hint_jars(problem: Problem, hints: _Hints, slot: Slot, load: Load | None, timed: bool) -> None:
    jars = dict(load.jars) if load else {}
    for j, amount in slot.jars.items():
        if not isinstance(amount, int) and amount is not slot.present:
            hints.add(amount, jars.get(j, 0))
    for j, on_time in slot.on_time.items():
        counts = timed and load is not None and in_time(problem, load, j)
        hints.add(on_time, jars.get(j, 0) if counts else 0)
    if slot.timed is not None and slot.timed is not slot.present:
        hints.add(slot.timed, timed)
    for due, ended in slot.ended.items():
        if ended is not slot.timed:
            hints.add(ended, timed and load is not None and load.end <= due)
    if slot.start is not None:
        at = load.start if timed and load is not None else slot.start.domain.min()
        hints.add(slot.start, at)


def _hint_chain(
    problem: Problem,
    v: Variables,
    hints: _Hints,
    k: int,
    chain: Sequence[tuple[Load, Slot]],
    timed: set[int],
) -> None:
    """Who follows whom on one canner."""
    node = {
        id(slot): i + 1
        for i, slot in enumerate(slot for slot in v.of_canner[k] if slot.start is not None)
    }
    arcs: set[tuple[int, int, int]] = set()
    before = 0
    steps: Counter[tuple[int, int]] = Counter()
    state: int | None = None
    for load, slot in chain:
        family = family_of(problem, load.jars)
        if state is not None:
            steps[state, family] += 1
        state = family
        if id(slot) in timed:
            arcs.add((k, before, node[id(slot)]))
            before = node[id(slot)]
    arcs.add((k, before, 0))
    for key, literal in v.next.items():
        if key[0] == k:
            hints.add(literal, key in arcs)
    for (canner, g, f), amount in v.step.items():
        if canner == k:
            hints.add(amount, steps[g, f])
    order = [slot.family for _, slot in chain]
    behind = {slot.family for _, slot in chain if id(slot) not in timed}
    if k in v.used:
        hints.add(v.used[k], bool(chain))
    if k in v.idle:
        hints.add(v.idle[k], not timed)
    for f in range(problem.families):
        if (k, f) in v.first:
            hints.add(v.first[k, f], order[:1] == [f])
            hints.add(v.last[k, f], order[-1:] == [f])
            hints.add(v.there[k, f], f in order)
        if (k, f) in v.behind:
            hints.add(v.behind[k, f], f in behind)
