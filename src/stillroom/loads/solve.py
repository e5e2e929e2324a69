"""Find loads that cost least, and prove it where time allows."""

from collections.abc import Callable

from stillroom.loads.complete import complete
from stillroom.loads.construct import construct
from stillroom.loads.model import Effort, build, solve_model
from stillroom.loads.problem import Problem
from stillroom.loads.result import Load, Result, Status
from stillroom.loads.search import Progress, Search
from stillroom.loads.timing import Placed


def solve(
    problem: Problem,
    time_limit: float,
    *,
    workers: int = 2,
    seed: int = 1,
    tell: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Result:
    """The best plan within the limit, and what is proved of it."""
    search = Search(problem, time_limit, tell, cancelled)
    search.offer(construct(problem, seed), "rule")
    if not problem.weights.makespan and prove_with_free_late(search, workers, seed):
        return search.result(infeasible=True)
    if search.left():
        timed(search, workers, seed)
    return search.result()


def prove_with_free_late(search: Search, workers: int, seed: int) -> bool:
    """Solve the model in which late loads have no times; whether it has no solution at all."""
    problem = search.problem
    v = build(problem, free_late=True, start_from=search.loads)

    def on_answer(objective: int, early: tuple[Load, ...], late: tuple[Placed, ...]) -> None:
        if search.objective is None or objective < search.objective:
            search.offer(complete(problem, early, late), "model")

    answer = solve_model(
        v,
        Effort(search.left(), workers, seed),
        on_answer=on_answer,
        on_bound=lambda bound: search.raise_bound(bound, "model"),
        stopped=search.stopped,
    )
    search.raise_bound(answer.bound, "model")
    return answer.status is Status.INFEASIBLE


def timed(search: Search, workers: int, seed: int) -> None:
    """Solve the whole model, every load with its time."""
    v = build(search.problem, free_late=False, start_from=search.loads, at_least=search.bound)

    def on_answer(objective: int, early: tuple[Load, ...], late: tuple[Placed, ...]) -> None:
        search.offer(list(early), "timed model")

    answer = solve_model(
        v,
        Effort(search.left(), workers, seed),
        on_answer=on_answer,
        on_bound=lambda bound: search.raise_bound(bound, "timed model"),
        stopped=search.stopped,
    )
    search.raise_bound(answer.bound, "timed model")
