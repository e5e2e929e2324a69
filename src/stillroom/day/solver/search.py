"""One search of the solver: its settings, its news while it runs, and how it is stopped."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP

# One worker searches without the linear relaxation, one with it, and a third mends large
# neighbourhoods of the best plan. On two cores this proves the demo day sooner than the solver's
# own choice of searches (python -m benchmarks.days).
WORKERS = 3
SEARCHES = ("no_lp", "default_lp")
# The workers take turns in batches of so many steps and share what they found in a fixed order,
# so that a search that is not cut short by the clock ends the same each time.
BATCH = 6
SEED = 1


@dataclass(frozen=True, slots=True)
class Progress:
    """News of a search: the finish and a finish no plan can beat, in minutes from the start.

    ``aim`` is what is being improved; ``seconds`` have passed since the search for a plan began.
    """

    aim: str
    finish: int
    bound: int
    seconds: float


@dataclass(slots=True)
class Control:
    """How a caller follows a search and ends it.

    ``tell`` is called from the solver's own threads with each better plan or bound; ``stop`` is
    set by the caller, from any thread, and the best plan so far is then the answer.
    """

    tell: Callable[[Progress], None] | None = None
    stop: threading.Event = field(default_factory=threading.Event)
    seed: int = SEED
    begun: float = field(default_factory=time.monotonic)

    def news(self, aim: str, finish: int, bound: int) -> None:
        """Tell of a finish and bound in steps."""
        if self.tell:
            seconds = time.monotonic() - self.begun
            self.tell(Progress(aim, STEP * finish, STEP * bound, seconds))


class _News(cp_model.CpSolverSolutionCallback):
    """Passes every better plan on."""

    def __init__(self, control: Control, aim: str, finish: cp_model.IntVar) -> None:
        super().__init__()
        self._control, self._aim, self._finish = control, aim, finish

    def on_solution_callback(self) -> None:
        """Called by the solver for every better plan."""
        bound = max(0, round(self.best_objective_bound)) if self._aim == "finish" else 0
        self._control.news(self._aim, self.value(self._finish), bound)


def search(
    model: cp_model.CpModel,
    seconds: float,
    control: Control,
    *,
    aim: str = "finish",
    finish: cp_model.IntVar | None = None,
    most_work: float | None = None,
    workers: int = WORKERS,
) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
    """The solver after a search, and how it ended.

    Parameters
    ----------
    model : with its objective
    seconds : at most so long
    control : news go to it and it may end the search
    aim, finish : what is being improved and the variable of the finish, for the news
    most_work : at most so much of the solver's own measure of work, which is the same on every
        machine
    workers : searches that take turns

    Raises
    ------
    ValueError
        The model itself is wrong: a fault of this program.
    """
    solver = cp_model.CpSolver()
    parameters = solver.parameters
    parameters.max_time_in_seconds = max(seconds, 0.001)
    if most_work is not None:
        parameters.max_deterministic_time = most_work
    parameters.num_workers = workers
    if workers > 1:
        parameters.subsolvers.extend(SEARCHES)
        parameters.interleave_search = True
        parameters.interleave_batch_size = BATCH
    parameters.random_seed = control.seed
    # The caller decides what an interrupt means; the solver must not take it for itself.
    parameters.catch_sigint_signal = False
    news = _News(control, aim, finish) if control.tell and finish is not None else None
    over = threading.Event()

    def end_when_told() -> None:
        # The solver forgets a call to stop that comes before it has begun: repeat it.
        while not over.wait(0.05):
            if control.stop.is_set():
                solver.stop_search()

    watch = threading.Thread(target=end_when_told, daemon=True)
    watch.start()
    try:
        status = solver.solve(model, news)
    finally:
        over.set()
        watch.join()
    if status == cp_model.MODEL_INVALID:
        raise ValueError(f"the model is wrong: {model.validate()}")
    return solver, status


def found(status: cp_model.CpSolverStatus) -> bool:
    """Whether a search ended with a plan."""
    return bool(status in (cp_model.OPTIMAL, cp_model.FEASIBLE))
