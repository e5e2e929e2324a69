"""A problem that cannot be meant is told with the job or canner at fault."""

from dataclasses import replace

import pytest

from stillroom.errors import InputError
from stillroom.loads.problem import Canner, Job, Problem, Weights
from tests.loads.small import canner, job, problem

BEANS = job("beans")


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        (replace(BEANS, count=0), "Job beans has no jars (count 0)."),
        (replace(BEANS, family=-1), "Job beans: family -1 is below 0."),
        (replace(BEANS, size=0), "Job beans: a jar takes room 0; it has to be 1 or more."),
        (replace(BEANS, least=20, most=10), "Job beans: no time lies within 20 to 10."),
        (replace(BEANS, least=0), "Job beans: no time lies within 0 to 99."),
        (replace(BEANS, release=-5), "Job beans: release -5 is below 0."),
        (replace(BEANS, canners=()), "Job beans has no canner."),
        (replace(BEANS, canners=(0, 3)), "Job beans: there is no canner number 3."),
        (replace(BEANS, canners=(0, 0)), "Job beans names a canner twice."),
    ],
)
def test_a_job_that_cannot_be_meant_is_named(wrong: Job, message: str) -> None:
    with pytest.raises(InputError) as told:
        problem(job("peas"), wrong)

    assert str(told.value) == message


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        (canner("A", room=0), "Canner A has no room."),
        (canner("A", windows=((5, 2),)), "Canner A: there is no time from 5 to 2."),
        (
            canner("A", windows=((0, 9), (5, 20))),
            "Canner A: windows overlap or are out of order at 5.",
        ),
        (canner("A", state=-1), "Canner A: family -1 is below 0."),
    ],
)
def test_a_canner_that_cannot_be_meant_is_named(wrong: Canner, message: str) -> None:
    with pytest.raises(InputError) as told:
        problem(BEANS, canners=(wrong,))

    assert str(told.value) == message


def test_a_problem_without_canners_is_told() -> None:
    with pytest.raises(InputError, match=r"There is no canner\."):
        Problem((), ())


def test_a_setup_table_that_leaves_a_family_out_is_told() -> None:
    with pytest.raises(InputError, match="setup_time has to be square over 2 families"):
        problem(BEANS, job("peas", family=1), setup_time=((0,),))


def test_a_weight_below_0_is_told() -> None:
    with pytest.raises(InputError, match="The weight of late is below 0"):
        problem(BEANS, weights=Weights(late=-1))
