"""One rule, one tiny day in which that rule alone changes the answer.

Optima are worked out beside each case. Unless said otherwise: loading 5 min and unloading 10,
heat-up 10, no cool-down, no work per jar.
"""

from dataclasses import replace

from stillroom.day.problem import Crew, Problem
from stillroom.day.solver import solve
from stillroom.day.solver.solution import Solution
from tests.day.checker import complaints
from tests.day.small import day, job, oven, row, way


def best(problem: Problem) -> Solution:
    """The proven optimum, checked by the checker that shares no code with the model."""
    solution = solve(problem, 20.0)
    assert solution is not None
    assert solution.optimal
    assert solution.bound == solution.finish
    assert complaints(problem, solution) == []
    return solution


def test_one_load_takes_its_phases_one_after_another() -> None:
    """5 load + 10 heat + 20 process + 10 unload = 45."""
    assert best(day(job("a", 7, way(0, 7, row(20), 0)))).finish == 45


def test_an_eighth_jar_needs_a_second_load() -> None:
    """Two runs of 45."""
    assert best(day(job("a", 8, way(0, 7, row(20), 0)))).finish == 90


def test_a_second_canner_halves_the_day_but_for_the_hands() -> None:
    """One person loads A at 0-5 and B at 5-10; B: 5+5+10+20 = 40, unload after A (35-45): 45-55."""
    ovens = (oven("A"), oven("B"))
    order = job("a", 14, way(0, 7, row(20), 0), way(1, 7, row(20), 0))

    assert best(day(order, ovens=ovens)).finish == 55
    assert best(day(order, ovens=ovens, people=2)).finish == 45


def test_two_jars_of_different_pressure_never_share_a_load() -> None:
    """Same minutes, 11 and 6 lb: two loads of 45; alike, one."""
    high = job("high", 3, way(0, 7, row(20, 11), 0))
    low = job("low", 3, way(0, 7, row(20, 6), 0))

    assert best(day(high, low)).finish == 90
    assert best(day(high, replace(low, ways=high.ways))).finish == 45


def test_raw_and_hot_packs_never_share_a_load() -> None:
    hot = job("hot", 3, way(0, 7, row(20), 0))
    raw = job("raw", 3, way(0, 7, row(20), 0), hot=False)

    assert best(day(hot, raw)).finish == 90


def test_a_shared_load_takes_the_longest_published_time() -> None:
    """20 and 35 min together: 5+10+35+10 = 60, the shorter one processed 15 min longer."""
    quick = job("quick", 3, way(0, 7, row(20), 0))
    slow = job("slow", 3, way(0, 7, row(35), 0))

    assert best(day(quick, slow)).finish == 60


def test_a_shared_load_warms_and_cools_as_long_as_its_slowest_jars() -> None:
    """Heat-up 10 and 20 with 5 of come-up, cool-down 30 and 0: 5+25+20+30+10 = 90 together."""
    quick = job("quick", 3, way(0, 7, row(20), 30))
    slow = job("slow", 3, way(0, 7, row(20), 0, heat=20, come_up=5))

    assert best(day(quick, slow)).finish == 90
    # Apart they take 5+10+20+30+10 = 75 and 5+25+20+10 = 60.
    assert best(day(quick, replace(slow, hot=False))).finish == 135


def test_no_food_is_processed_longer_than_the_person_allows() -> None:
    """With 10 min allowed, 20 and 35 stay apart: 45 + 60."""
    quick = job("quick", 3, way(0, 7, row(20), 0))
    slow = job("slow", 3, way(0, 7, row(35), 0))

    assert best(day(quick, slow, most_extra=10)).finish == 105


def test_mixed_sizes_share_the_room_by_their_capacities() -> None:
    """4 of 7 and 4 of 9: 4/7 + 4/9 is above one, so two loads; 4/7 + 3/9 is below one."""
    big = job("big", 4, way(0, 7, row(20), 0))

    assert best(day(big, job("small", 4, way(0, 9, row(20), 0)))).finish == 90
    assert best(day(big, job("small", 3, way(0, 9, row(20), 0)))).finish == 45


def test_a_canner_that_cools_is_not_filled() -> None:
    """Cool-down 30: run of 5+10+20+30+10 = 75, twice."""
    assert best(day(job("a", 8, way(0, 7, row(20), 30)))).finish == 150


def test_a_burner_is_free_while_its_canner_cools() -> None:
    """Two canners, one burner, two people: B fills when A's heat is off (35): 35 + 75 = 110."""
    ovens = (oven("A"), oven("B"))
    order = job("a", 14, way(0, 7, row(20), 30), way(1, 7, row(20), 30))

    assert best(day(order, ovens=ovens, people=2, burners=1)).finish == 110
    assert best(day(order, ovens=ovens, people=2, burners=2)).finish == 75


def test_a_canner_on_its_own_plug_needs_no_burner() -> None:
    ovens = (oven("A"), oven("B", own_plug=True))
    order = job("a", 14, way(0, 7, row(20), 30), way(1, 7, row(20), 30))

    assert best(day(order, ovens=ovens, people=2, burners=1)).finish == 75


def test_a_pot_takes_a_burner_too() -> None:
    """The pot keeps its burner until the lid is on; the canner wants one from the filling on."""
    order = job("a", 7, way(0, 7, row(20), 0), heat=15)

    assert solve(day(order, burners=1), 10.0) is None
    assert best(day(order, burners=2)).finish == 60


def test_hands_share_the_cutting() -> None:
    """40 min of cutting: one person 40 + 45; two people 20 + 45."""
    order = job("a", 4, way(0, 7, row(20), 0), prep=10)

    assert best(day(order, people=1)).finish == 85
    assert best(day(order, people=2)).finish == 65


def test_raw_perishable_food_is_cut_for_no_load_later_than_two_hours() -> None:
    """One canner busy for 205 min with a long load first would leave meat out; it is cut later."""
    meat = job("meat", 7, way(0, 7, row(20), 0), prep=5, hot=False, perishable=True)
    other = job("other", 7, way(0, 7, row(180), 0))

    for load in best(day(meat, other)).loads:
        if any(j == 0 for j, _, _ in load.jars):
            assert load.lid_on - load.prep.start <= 120


def test_more_raw_food_than_two_hours_can_cut_is_impossible() -> None:
    """7 jars at 20 min are 140 min of one person's cutting: no order of work mends it."""
    meat = job("meat", 7, way(0, 7, row(20), 0), prep=20, hot=False, perishable=True)

    split = best(day(meat))
    assert max(sum(n for _, _, n in load.jars) for load in split.loads) < 7
    whole = replace(meat, count=1, prep_tenths=1400)
    assert solve(day(whole), 10.0) is None
    assert best(day(whole, people=2)).finish == 70 + 45


def test_a_pot_made_once_is_ready_before_its_jars_are_filled_and_stays_hot() -> None:
    """10 min cutting + 60 simmering, then 45."""
    stock = job("stock", 5, way(0, 7, row(20), 0), prep=2, make=60)

    solution = best(day(stock))

    assert solution.finish == 10 + 60 + 45
    assert solution.batches[0].empty == solution.loads[0].lid_on


def test_helpers_hours_hold_back_their_work() -> None:
    """Nobody there in the first hour: everything starts at 60."""
    order = job("a", 7, way(0, 7, row(20), 0))

    assert best(day(order, away=((0, 60),))).finish == 105


def test_nothing_is_on_heat_while_nobody_is_there() -> None:
    """Away 30-90: a load from 0 would be on heat until 35, so it starts at 90."""
    order = job("a", 7, way(0, 7, row(20), 0))

    assert best(day(order, away=((30, 90),))).finish == 135


def test_a_canner_may_cool_unwatched_and_be_unloaded_later() -> None:
    """Heat off at 35, away 40-100, unloading 100-110."""
    order = job("a", 7, way(0, 7, row(20), 20))

    assert best(day(order, away=((40, 100),))).finish == 110


def test_crews_of_different_hours_do_their_own_tasks() -> None:
    """The second person comes at 30; the cutting of 40 min by one, unloading by either."""
    order = job("a", 4, way(0, 7, row(20), 0), prep=10)
    problem = replace(
        day(order), crews=(Crew(("early",), ((50, 1000),)), Crew(("late",), ((0, 30),)))
    )

    solution = best(problem)

    # Both cut from 30 to 50 (20 min), which beats one alone from 0 to 40 by nothing: 40 + 45.
    assert solution.finish == 85
    assert solution.loads[0].unload.hands == (0, 1)


def test_a_day_too_short_for_its_jars_has_no_plan() -> None:
    assert solve(day(job("a", 7, way(0, 7, row(20), 0)), horizon=44), 10.0) is None
    assert best(day(job("a", 7, way(0, 7, row(20), 0)), horizon=45)).finish == 45


def test_a_way_with_a_shorter_published_option_is_found() -> None:
    """Tomato tables offer options; each stands alone, and the planner may take the quicker one."""
    order = job("a", 7, way(0, 7, row(40, 6), 0), way(0, 7, row(25, 11), 0))

    assert best(day(order)).finish == 50
