"""Loads for a day of many equal jars."""

import time

import pytest

from stillroom.errors import InputError
from stillroom.loads.result import Status
from stillroom.loads.search import Progress
from stillroom.loads.spread import spread
from tests.loads.small import canner, job

DAY = ((0, 3000),)


def test_two_canners_end_together() -> None:
    """28 pints, seven a load: two loads on each canner, 30 + 20 + 30."""
    two = (canner("A", 7, DAY), canner("B", 7, DAY))

    made = spread([job("pints", 30, count=28, canners=(0, 1))], two, [20], 10.0, workers=1)

    assert made.status is Status.OPTIMAL
    assert made.makespan == made.bound == 80
    assert sorted(load.canner for load in made.loads) == [0, 0, 1, 1]


def test_of_two_days_that_end_alike_the_one_with_less_time_on_heat_is_taken() -> None:
    """10 jars of 20 and 4 of 60 on two canners of seven: the day ends at 60 whatever the others do.

    One canner takes the 60s with three of the 20s; the other the last seven: 60 + 20.
    """
    two = (canner("A", 7, DAY), canner("B", 7, DAY))
    jars = [
        job("short", 20, count=10, canners=(0, 1)),
        job("long", 60, count=4, canners=(0, 1)),
    ]

    made = spread(jars, two, [20], 10.0, workers=1)

    assert made.makespan == 60
    assert sum(load.minutes for load in made.loads) == 80


def test_six_hundred_jars_on_twenty_canners_have_loads_at_once() -> None:
    """The first plan is told long before the limit; every jar is in a load."""
    jars = [
        job(str(g), 20 + 5 * g, family=g % 3, size=2, canners=tuple(range(20)), count=50)
        for g in range(12)
    ]
    told: list[Progress] = []
    begun = time.monotonic()

    made = spread(
        jars,
        [canner(str(k), 14 if k % 2 else 21, DAY) for k in range(20)],
        [45, 45, 45],
        30.0,
        tell=told.append,
        cancelled=lambda: bool(told) and told[-1].objective is not None,
    )

    assert time.monotonic() - begun < 20
    assert sum(n for load in made.loads for _, n in load.jars) == 600
    assert made.makespan is not None
    assert made.bound <= made.makespan


def test_a_family_without_turnaround_is_told() -> None:
    with pytest.raises(InputError, match=r"Job pints: family 1 has no turnaround\."):
        spread([job("pints", family=1)], [canner()], [20], 5.0)
