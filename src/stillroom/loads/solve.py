"""Find loads that cost least, and prove it where time allows.

1. Rules give a first plan at once, and counting gives a first bound.
2. A model in which late loads behind the last timely one have no times is solved; it is small,
   its bound holds for every plan, and its solutions are completed to whole plans.
3. Large neighbourhoods of the best plan are solved anew.
4. Where the bound is near, the model of step 2 again, from the better plan.
5. Where that model's optimum cannot be completed at its cost, the whole model decides.
"""

from collections.abc import Callable

from stillroom.loads.bounds import lower_bound
from stillroom.loads.complete import complete
from stillroom.loads.construct import construct
from stillroom.loads.improve import improve
from stillroom.loads.model import Answer, Effort, build, solve_model
from stillroom.loads.problem import Problem
from stillroom.loads.result import Load, Result, Status
from stillroom.loads.search import Progress, Search
from stillroom.loads.timing import Placed, length_of
from stillroom.loads.variables import Kept, Variables

# Two searches that prove, each with its own way to a bound; beside them one more thread than cores
# improves by the solver's own neighbourhoods.
SEARCHES = ("core", "max_lp")
# Up to so many jars the model itself gets most of the time, above it the neighbourhoods.
FEW_JARS = 60
# A model with more pairs of loads that may follow one another is not built whole.
MOST_PAIRS = 120_000
ORDER_SECONDS = 5.0
NEAR = 0.02


def solve(
    problem: Problem,
    time_limit: float,
    *,
    workers: int = 2,
    seed: int = 1,
    tell: Callable[[Progress], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> Result:
    """The best plan within the limit, and what is proved of it.

    Parameters
    ----------
    time_limit : seconds
    workers : cores to use; one thread more runs while a model is solved
    seed : two runs with one seed, one worker and a proof within the limit give one plan. With more
        workers, or where the clock ends the search, plans of the same or another cost may come.
    tell : called after each better plan or bound, from any thread; it should be quick
    cancelled : asked now and then, from any thread; once true the best plan so far is returned
    """
    search = Search(problem, time_limit, tell, cancelled)
    if not problem.jobs:
        search.offer([], "rule")
        return search.result()
    search.raise_bound(lower_bound(problem), "counting")
    for loads in construct(problem, seed):
        search.offer(loads, "rule")
        if search.seconds() > 0.1 * time_limit or search.stopped():
            break
    if _pairs(problem) > MOST_PAIRS:
        improve(search, time_limit, workers, seed)
        return search.result()
    few = sum(job.count for job in problem.jobs) <= FEW_JARS
    first, second = (0.6, 0.75) if few else (0.2, 0.6)
    if _prove(search, first * time_limit, workers, seed) is Status.INFEASIBLE:
        return search.result(infeasible=True)
    # A proof is tried again only where it is near, or where there is no plan to improve.
    again = few or search.objective is None or search.result().gap < NEAR
    if search.left():
        improve(search, (second if again else 1.0) * time_limit, workers, seed)
    if search.left() and _prove(search, time_limit, workers, seed + 1) is Status.INFEASIBLE:
        return search.result(infeasible=True)
    return search.result()


def _pairs(problem: Problem) -> int:
    """About how many pairs of loads the whole model has."""
    loads = [0] * len(problem.canners)
    for job in problem.jobs:
        for k in job.canners:
            room = problem.canners[k].room
            loads[k] += min(job.count, 2 * -(-job.count * job.size // room) + 2)
    return sum(n * n for n in loads)


def _effort(search: Search, until: float, workers: int, seed: int) -> Effort:
    seconds = min(search.left(), until - search.seconds())
    if workers < 2:
        return Effort(seconds, 1, seed)
    return Effort(seconds, workers + 1, seed, SEARCHES)


def _prove(search: Search, until: float, workers: int, seed: int) -> Status:
    """Solve the model, late loads freed where the makespan does not count."""
    problem = search.problem
    free_late = not problem.weights.makespan
    effort = _effort(search, until, workers, seed)
    answer = _solve(search, build(problem, free_late=free_late, start_from=search.loads), effort)
    if answer.status is Status.OPTIMAL and free_late and search.left():
        _order(search, answer, workers, seed)
        if search.left():
            effort = _effort(search, search.limit, workers, seed)
            v = build(problem, free_late=False, start_from=search.loads, at_least=search.bound)
            return _solve(search, v, effort).status
    return answer.status


def _solve(search: Search, v: Variables, effort: Effort) -> Answer:
    def on_answer(objective: int, timed: tuple[Load, ...], untimed: tuple[Placed, ...]) -> None:
        if search.objective is None or objective < search.objective:
            search.offer(complete(search.problem, timed, untimed), "model")

    answer = solve_model(
        v,
        effort,
        on_answer=on_answer,
        on_bound=lambda bound: search.raise_bound(bound, "model"),
        stopped=search.stopped,
    )
    if answer.status in (Status.OPTIMAL, Status.FEASIBLE, Status.UNKNOWN):
        search.raise_bound(answer.bound, "model")
    return answer


def _order(search: Search, answer: Answer, workers: int, seed: int) -> None:
    """The best order and times for the very loads of an answer."""
    problem = search.problem
    loads = list(answer.timed)
    # Any start behind the timed ones will do: nothing is kept but canner and jars.
    at = problem.horizon
    loads += [Load(k, at, at + length_of(problem, jars), jars) for k, jars in answer.untimed]
    kept = Kept(closed=tuple(loads), in_order=False)
    v = build(problem, free_late=False, kept=kept, below=search.objective)
    seconds = min(ORDER_SECONDS, search.left())
    effort = _effort(search, search.seconds() + seconds, workers, seed)

    def on_answer(objective: int, timed: tuple[Load, ...], untimed: tuple[Placed, ...]) -> None:
        search.offer(list(timed), "order")

    solve_model(v, effort, on_answer=on_answer, stopped=search.stopped)
