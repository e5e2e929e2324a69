"""Large-neighbourhood search: free some loads of the best plan, solve the rest of it anew.

Loads are freed around one drawn at random. What counts as near changes from try to try: the same
family, the same canner, near in time, alike in length. So a try may free one family everywhere,
a stretch of one canner, or alike loads of all canners. A neighbourhood that is solved to the end
grows, one that is not shrinks.
"""

import random
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from stillroom.loads.complete import complete
from stillroom.loads.model import Effort, build, solve_model
from stillroom.loads.problem import Problem
from stillroom.loads.result import Load, Status
from stillroom.loads.search import Search
from stillroom.loads.timing import family_of, late_jars
from stillroom.loads.variables import Kept

FIRST_JARS = 18.0
LEAST_JARS, MOST_JARS = 6.0, 90.0
# Many short tries do better than a few long ones: of 25 s on 100 jars half were lost at 2.5 s.
TRY_SECONDS = 1.0
MOST_CANNERS = 5
MOST_LOADS = 20
# None of these wins everywhere: without the linear relaxation good plans come sooner where much
# is on time, with it the end is proved sooner where little is.
SEARCHES: tuple[tuple[str, ...], ...] = ((), ("no_lp",), ("pseudo_costs",))


@dataclass(slots=True)
class _Size:
    """How many jars the next try frees."""

    jars: float = FIRST_JARS

    def learn(self, status: Status, seconds: float) -> None:
        if status in (Status.OPTIMAL, Status.INFEASIBLE):
            self.jars *= 1.15 if seconds < TRY_SECONDS / 4 else 1.04
        else:
            self.jars *= 0.9
        self.jars = min(max(self.jars, LEAST_JARS), MOST_JARS)


def improve(search: Search, until: float, workers: int, seed: int) -> None:
    """Improve the best plan until so many seconds since the search began."""
    if search.loads is None or not search.loads:
        return
    with ThreadPoolExecutor(max(1, workers)) as threads:
        tries = [
            threads.submit(_improve, search, until, seed * 1009 + n) for n in range(max(1, workers))
        ]
    for ended in tries:
        ended.result()  # A fault in a thread is a fault here.


def _improve(search: Search, until: float, seed: int) -> None:
    rng = random.Random(seed)
    size = _Size()
    while not search.stopped() and search.seconds() < until:
        loads = search.loads
        assert loads is not None
        seconds = min(TRY_SECONDS, until - search.seconds())
        begun = search.seconds()
        searches = rng.choice(SEARCHES)
        effort = Effort(seconds, 1, rng.randrange(2**30), searches)
        status = _try(search, loads, size, effort, rng)
        size.learn(status, search.seconds() - begun)


def _try(
    search: Search, loads: tuple[Load, ...], size: _Size, effort: Effort, rng: random.Random
) -> Status:
    problem = search.problem
    freed = choose(problem, loads, size.jars, rng)
    v = build(
        problem,
        free_late=not problem.weights.makespan,
        start_from=loads,
        kept=keep(problem, loads, freed, rng),
        below=search.objective,
    )
    answer = solve_model(v, effort, stopped=search.stopped)
    if answer.objective is not None:
        search.offer(complete(problem, answer.timed, answer.untimed), "neighbourhood")
    return answer.status


def keep(
    problem: Problem, loads: Sequence[Load], freed: frozenset[Load], rng: random.Random
) -> Kept:
    """What stays when these loads are freed: the others, in order."""
    families = {family_of(problem, load.jars) for load in freed}
    among = {load.canner for load in freed}
    others = [k for k in range(len(problem.canners)) if k not in among]
    among.update(rng.sample(others, min(len(others), max(0, MOST_CANNERS - len(among)))))
    stay = [load for load in loads if load not in freed]
    can_join = [
        load for load in stay if family_of(problem, load.jars) in families and load.canner in among
    ]
    return Kept(
        open=tuple(can_join),
        closed=tuple(load for load in stay if load not in can_join),
        among=frozenset(among),
        # A free order finds more and takes longer: every other try where canners run few loads.
        in_order=len(stay) > MOST_LOADS * len(problem.canners) or rng.random() < 0.5,
    )


def choose(
    problem: Problem, loads: Sequence[Load], jars: float, rng: random.Random
) -> frozenset[Load]:
    """Loads with about so many jars, near one drawn at random."""
    seed = rng.choice(loads)
    if problem.weights.makespan and rng.random() < 0.5:
        seed = max(loads, key=lambda load: load.end)
    family = family_of(problem, seed.jars)
    span = max(load.end for load in loads) or 1
    longest = max(load.minutes for load in loads)
    of_family, of_canner, of_time, of_length, of_late = (
        rng.choice((0.0, 0.3, 1.0, 3.0)) for _ in range(5)
    )

    def distance(load: Load) -> float:
        return (
            of_family * (family_of(problem, load.jars) != family)
            + of_canner * (load.canner != seed.canner)
            + of_time * abs(load.start - seed.start) / span * 4
            + of_length * abs(load.minutes - seed.minutes) / longest
            + of_late * (late_jars(problem, load) > 0) * 0.5
            + rng.random() * 0.5
        )

    freed: list[Load] = []
    count = 0
    for load in sorted(loads, key=lambda load: (load is not seed, distance(load))):
        freed.append(load)
        count += sum(n for _, n in load.jars)
        if count >= jars:
            break
    return frozenset(freed)
