"""The constraint model of a plan: made, hinted, solved, read."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from stillroom.loads.hint import hint
from stillroom.loads.problem import Problem
from stillroom.loads.result import Load, Status
from stillroom.loads.rules import add_price, add_rules
from stillroom.loads.timing import Placed
from stillroom.loads.variables import NOTHING_KEPT, Amount, Kept, Variables, make_variables

Values = Callable[[cp_model.IntVar], int]
_STATUS = {
    cp_model.OPTIMAL: Status.OPTIMAL,
    cp_model.FEASIBLE: Status.FEASIBLE,
    cp_model.INFEASIBLE: Status.INFEASIBLE,
    cp_model.UNKNOWN: Status.UNKNOWN,
}


@dataclass(frozen=True, slots=True)
class Answer:
    """What one solve of a model found.

    ``untimed`` are late loads without a time; there are none unless the model frees late loads.
    """

    status: Status
    objective: int | None
    bound: int
    timed: tuple[Load, ...]
    untimed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True)
class Effort:
    """How long and on how many workers a model is solved, from which seed, by which searches.

    ``searches`` are names the solver knows; with none it takes its own choice.
    """

    seconds: float
    workers: int
    seed: int
    searches: tuple[str, ...] = ()


def build(
    problem: Problem,
    *,
    free_late: bool,
    start_from: Sequence[Load] | None = None,
    kept: Kept = NOTHING_KEPT,
    below: int | None = None,
    at_least: int = 0,
) -> Variables:
    """The model.

    Parameters
    ----------
    free_late : loads in which no jar is on time get no time; the objective is then a lower bound
    start_from : a plan to start from
    kept : loads of that plan that stay
    below : only plans that cost less than this
    at_least : a bound that is known
    """
    v = make_variables(problem, free_late, kept)
    add_rules(problem, v)
    add_price(problem, v, below=below, at_least=at_least)
    if start_from is not None:
        hint(problem, v, start_from)
    return v


def solve_model(
    v: Variables,
    effort: Effort,
    *,
    on_answer: Callable[[int, tuple[Load, ...], tuple[Placed, ...]], None] | None = None,
    on_bound: Callable[[int], None] | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Answer:
    """Solve it within the effort.

    Raises
    ------
    ValueError
        The model itself is wrong: a fault of this program.
    """
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = max(effort.seconds, 0.01)
    solver.parameters.num_workers = effort.workers
    solver.parameters.subsolvers.extend(effort.searches)
    solver.parameters.random_seed = effort.seed
    watch = _Watch(v, solver, on_answer, on_bound, stopped)
    if on_bound is not None or stopped is not None:
        solver.best_bound_callback = watch.bound
    status = solver.solve(v.model, watch)
    if status not in _STATUS:
        raise ValueError(f"the model is wrong: {v.model.validate()}")
    bound = max(0, round(solver.best_objective_bound))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Answer(_STATUS[status], None, bound, (), ())
    timed, untimed = read(v, solver.value)
    return Answer(_STATUS[status], round(solver.objective_value), bound, timed, untimed)


class _Watch(cp_model.CpSolverSolutionCallback):
    def __init__(
        self,
        v: Variables,
        solver: cp_model.CpSolver,
        on_answer: Callable[[int, tuple[Load, ...], tuple[Placed, ...]], None] | None,
        on_bound: Callable[[int], None] | None,
        stopped: Callable[[], bool] | None,
    ) -> None:
        super().__init__()
        self._v, self._solver = v, solver
        self._on_answer, self._on_bound, self._stopped = on_answer, on_bound, stopped

    def on_solution_callback(self) -> None:
        if self._on_answer is not None:
            self._on_answer(round(self.objective_value), *read(self._v, self.value))
        if self._stopped is not None and self._stopped():
            self.stop_search()

    def bound(self, value: float) -> None:
        if self._on_bound is not None:
            self._on_bound(round(value))
        if self._stopped is not None and self._stopped():
            self._solver.stop_search()


def read(v: Variables, value: Values) -> tuple[tuple[Load, ...], tuple[Placed, ...]]:
    """The loads of a solution: those with times, and the late ones without."""

    def number(amount: Amount) -> int:
        return amount if isinstance(amount, int) else value(amount)

    timed, untimed = [], []
    for slot in v.slots:
        if not value(slot.present):
            continue
        jars = tuple(sorted((j, n) for j, a in slot.jars.items() if (n := number(a))))
        if slot.start is not None and slot.timed is not None and value(slot.timed):
            start = value(slot.start)
            timed.append(Load(slot.canner, start, start + slot.length, jars))
        else:
            untimed.append((slot.canner, jars))
    return tuple(timed), tuple(untimed)
