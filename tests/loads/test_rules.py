"""One rule, one tiny problem in which that rule alone changes the answer.

Unless said otherwise: one canner with room for two jars, jars of 10 minutes, runtime counts 1.
"""

from dataclasses import replace

import pytest

from stillroom.loads.problem import Weights
from stillroom.loads.result import Status
from stillroom.loads.search import Progress
from stillroom.loads.solve import solve
from tests.loads.small import best, canner, job, problem

LATE = Weights(runtime=1, late=100)
SETUPS = Weights(runtime=1, setup_cost=1)


def test_jars_that_fit_share_a_load() -> None:
    assert best(problem(job("a"), job("b"))).objective == 10


def test_a_third_jar_needs_a_second_load() -> None:
    assert best(problem(job("a", count=3))).objective == 20


def test_jars_of_two_families_never_share_a_load() -> None:
    assert best(problem(job("a"), job("b", family=1))).objective == 20


def test_a_big_jar_takes_the_room_of_two() -> None:
    assert best(problem(job("a"), job("b", size=2))).objective == 20


def test_a_load_runs_as_long_as_its_longest_jar() -> None:
    """10 and 15 together: 15; apart 25."""
    assert best(problem(job("a"), job("b", 15))).objective == 15


def test_no_jar_runs_longer_than_it_bears() -> None:
    """14 is too short for 15, so the two run apart: 10 + 15."""
    assert best(problem(job("a", most=14), job("b", 15))).objective == 25


def test_long_jars_go_together_and_short_ones_do() -> None:
    """30+30 and 10+10 cost 40; 30+10 twice would cost 60."""
    assert best(problem(job("a", count=2), job("b", 30, count=2))).objective == 40


def test_a_jar_stays_out_of_a_canner_that_may_not_take_it() -> None:
    """Both would fit into A in one load, but b must go into B."""
    two = (canner("A"), canner("B"))

    assert best(problem(job("a"), job("b", canners=(1,)), canners=two)).objective == 20
    assert best(problem(job("a"), job("b", canners=(0, 1)), canners=two)).objective == 10


def test_the_roomier_canner_takes_all_in_one_load() -> None:
    two = (canner("A", room=2), canner("B", room=3))

    assert best(problem(job("a", count=3, canners=(0, 1)), canners=two)).objective == 10


def test_a_load_waits_for_its_last_jar_even_if_that_makes_another_late() -> None:
    """Together they end at 15, b late: 10 + 100; apart a ends at 10 in time, b at 20: 20."""
    a, b = job("a", due=10), job("b", release=5)

    assert best(problem(a, b, weights=LATE)).objective == 20
    # Where a late jar costs 5 they go together.
    assert best(problem(a, b, weights=replace(LATE, late=5))).objective == 15


def test_the_jar_that_is_due_goes_first() -> None:
    """Room for one: a is due at 10 and goes first, b is never late."""
    one = (canner(room=1),)

    result = best(problem(job("b"), job("a", due=10), canners=one, weights=LATE))

    assert result.objective == 20
    assert [load.jars for load in result.loads] == [((1, 1),), ((0, 1),)]


def test_as_few_jars_as_can_be_are_late() -> None:
    """Room for one, three jars due at 20: two loads end by then, the third jar is late."""
    result = best(problem(job("a", due=20, count=3), canners=(canner(room=1),), weights=LATE))

    assert result.objective == 30 + 100


def test_a_late_jar_before_one_in_time_has_its_time_too() -> None:
    """b comes at 12 and is due at 22, so a, late in any case, fits before it only up to 12."""
    one = (canner(room=1, windows=((0, 22),)),)

    result = best(problem(job("a", due=1), job("b", release=12, due=22), canners=one, weights=LATE))

    assert result.objective == 20 + 100
    assert [(load.start, load.end) for load in result.loads] == [(0, 10), (12, 22)]


def test_a_canner_is_set_up_between_families() -> None:
    """Changing 0 to 1 costs 7, 1 to 0 costs 2: family 1 goes first."""
    cost = ((0, 7), (2, 0))
    asked = problem(job("a"), job("b", family=1), weights=SETUPS, setup_cost=cost)

    assert best(asked).objective == 22


def test_the_first_setup_is_from_what_the_canner_is_set_up_for() -> None:
    """From family 0: a first costs 7 in all; b first would cost 7 + 2."""
    cost = ((0, 7), (2, 0))
    one = (canner(state=0),)
    asked = problem(job("a"), job("b", family=1), canners=one, weights=SETUPS, setup_cost=cost)

    assert best(asked).objective == 27


def test_alike_families_go_one_after_another() -> None:
    """Room for one: 0 0 1 1 changes once for 5; any other order changes more often."""
    asked = problem(
        job("a", count=2),
        job("b", family=1, count=2),
        canners=(canner(room=1),),
        weights=SETUPS,
        setup_cost=((0, 5), (5, 0)),
    )

    assert best(asked).objective == 45


def test_families_of_one_canner_are_joined_to_its_first() -> None:
    """Staying costs 0 and changing 9: three families on a canner change twice, never less."""
    cost = tuple(tuple(0 if f == g else 9 for g in range(3)) for f in range(3))
    jars = [job(str(f), family=f, count=2) for f in range(3)]
    asked = problem(*jars, canners=(canner(room=1),), weights=SETUPS, setup_cost=cost)

    assert best(asked).objective == 60 + 18


def test_a_setup_takes_time_from_the_day() -> None:
    """Two loads of 10 with 5 between end at 25: b, due at 24, cannot follow a, due at 10."""
    two = (job("a", due=10), job("b", family=1, due=24))
    time = ((0, 5), (5, 0))

    assert best(problem(*two, weights=LATE, setup_time=time)).objective == 120
    assert best(problem(*two, weights=LATE)).objective == 20


def test_setup_time_has_a_price_of_its_own() -> None:
    asked = problem(
        job("a"),
        job("b", family=1),
        weights=Weights(runtime=1, setup_time=3),
        setup_time=((0, 5), (4, 0)),
    )

    assert best(asked).objective == 20 + 3 * 4


def test_a_load_and_its_setup_lie_in_one_window() -> None:
    """After a at 0-10 a setup of 5 leaves 15-25, past the window's 24: b waits until 30 + 5."""
    one = (canner(windows=((0, 24), (30, 60))),)
    asked = problem(
        job("a", due=10),
        job("b", family=1, due=44),
        canners=one,
        weights=LATE,
        setup_time=((0, 5), (5, 0)),
    )

    result = best(asked)

    assert result.objective == 120
    assert [load.start for load in result.loads] == [0, 35]


def test_windows_that_touch_are_still_two() -> None:
    """15 does not fit into 0-10 nor across its end: 10-25."""
    one = (canner(windows=((0, 10), (10, 40))),)

    assert best(problem(job("a", 15), canners=one)).loads[0].start == 10


def test_the_last_load_counts_where_makespan_does() -> None:
    """Two loads of 30: side by side they end at 30, in one canner at 60."""
    two = (canner("A", room=1), canner("B", room=1))
    jars = job("a", 30, count=2, canners=(0, 1))

    assert best(problem(jars, canners=two, weights=Weights(runtime=0, makespan=1))).objective == 30
    one = replace(jars, canners=(0,))
    assert best(problem(one, canners=two, weights=Weights(runtime=0, makespan=1))).objective == 60


def test_no_room_in_the_day_is_told_as_infeasible() -> None:
    asked = problem(job("a", 30), canners=(canner(windows=((0, 29),)),))

    assert solve(asked, 5.0, workers=1).status is Status.INFEASIBLE


def test_a_jar_larger_than_every_canner_is_told_as_infeasible() -> None:
    assert solve(problem(job("a", size=3)), 5.0, workers=1).status is Status.INFEASIBLE


def test_nothing_to_do_costs_nothing() -> None:
    result = solve(problem(), 5.0)

    assert result.status is Status.OPTIMAL
    assert result.objective == 0


@pytest.mark.parametrize("workers", [1, 2])
def test_cancelling_keeps_the_best_so_far(workers: int) -> None:
    """Asked to stop at once, the engine still gives the plan of the first rule."""
    jars = [job(str(n), 10 + n, size=1 + n % 2, due=40, canners=(0,)) for n in range(12)]
    asked = problem(*jars, canners=(canner(room=3, windows=((0, 999),)),), weights=LATE)

    result = solve(asked, 20.0, workers=workers, cancelled=lambda: True)

    assert result.objective is not None
    assert result.seconds < 10
    assert [found.by for found in result.found][:1] == ["rule"]


def test_each_better_plan_is_told() -> None:
    told: list[Progress] = []
    asked = problem(job("a", due=20, count=3), canners=(canner(room=1),), weights=LATE)

    result = solve(asked, 10.0, workers=1, tell=told.append)

    assert told[-1].objective == result.objective
    assert told[-1].bound == result.bound


def test_one_seed_gives_one_plan() -> None:
    jars = [job(str(n), 10 + n % 4, due=15 + n) for n in range(7)]
    asked = problem(*jars, weights=LATE)

    assert best(asked).loads == best(asked).loads
