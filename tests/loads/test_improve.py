"""Neighbourhoods keep every rule and never lose the best plan."""

import random

import pytest

from stillroom.loads.construct import construct, schedule
from stillroom.loads.improve import choose, improve
from stillroom.loads.problem import Problem, Weights
from stillroom.loads.result import Load, Result, Status
from stillroom.loads.search import Search
from stillroom.loads.timing import Jars
from tests.loads.checker import complaints
from tests.loads.small import canner, job, problem

SETUPS = ((0, 4, 4), (2, 0, 4), (4, 1, 0))


def _day(weights: Weights) -> Problem:
    """Thirty jars of three families for two canners, from a fixed seed."""
    rng = random.Random(7)
    jars = [
        job(
            str(n),
            rng.randint(5, 30),
            family=rng.randrange(3),
            size=rng.randint(1, 3),
            canners=rng.choice([(0,), (1,), (0, 1)]),
            release=rng.randint(0, 30),
            due=rng.randint(40, 200),
        )
        for n in range(30)
    ]
    two = (canner("A", 6, ((0, 90), (100, 900)), 0), canner("B", 4, ((5, 900),), 1))
    return problem(*jars, canners=two, weights=weights, setup_time=SETUPS, setup_cost=SETUPS)


def _one_by_one(day: Problem) -> list[Load]:
    """A poor plan: every jar alone, in the order written, on the first canner that takes it."""
    orders: list[list[Jars]] = [[] for _ in day.canners]
    for j, of in enumerate(day.jobs):
        orders[of.canners[0]].append(((j, 1),))
    return schedule(day, orders)


@pytest.mark.parametrize(
    "weights", [Weights(5, late=100, setup_cost=3), Weights(1, makespan=20)], ids=["late", "end"]
)
def test_neighbourhoods_better_a_poor_plan(weights: Weights) -> None:
    """However slow the machine: the search ends once it has bettered the plan three times."""
    day = _day(weights)
    search = Search(day, 120.0, cancelled=lambda: len(search.found) > 3)
    search.offer(_one_by_one(day), "poor")
    first = search.objective

    improve(search, 120.0, 2, 1)

    assert first is not None
    assert search.objective is not None
    assert search.objective < first
    answer = Result(Status.FEASIBLE, search.objective, 0, 0.0, search.loads or (), ())
    assert complaints(day, answer) == []


def test_a_neighbourhood_holds_the_jars_asked_for() -> None:
    day = _day(Weights(5, late=100))
    loads = next(construct(day, 1))

    freed = choose(day, loads, 10, random.Random(3))

    assert sum(n for load in freed for _, n in load.jars) >= 10
    assert freed < set(loads)
