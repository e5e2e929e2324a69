"""One pin, one tiny day in which that pin alone changes the answer; then pins in a day file.

Optima are worked out beside each case. Unless said otherwise: loading 5 min and unloading 10,
heat-up 10, no cool-down, no work per jar, so that a load of 20 min takes 45.
"""

from dataclasses import replace
from pathlib import Path

import pytest

from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.problem import Crew, Oven, Problem
from stillroom.day.read import read_day
from stillroom.day.solver import solve
from stillroom.day.told import plan_json
from stillroom.errors import InputError
from tests.day.plan_checker import broken_promises
from tests.day.small import day, job, oven, row, way
from tests.day.test_impossible import written
from tests.day.test_rules import best


def starts(problem: Problem, of: int = 0) -> list[int]:
    """When loads with jars of an order are filled, in the best plan."""
    return sorted(s.fill.start for s in best(problem).loads if any(j == of for j, _, _ in s.jars))


def test_no_work_on_an_order_before_its_hour() -> None:
    """Cutting of 10 min may begin at 60: 60 + 10 + 45."""
    order = job("a", 5, way(0, 7, row(20), 0), prep=2)

    assert best(day(order)).finish == 55
    assert best(day(replace(order, not_before=60))).finish == 115


def test_a_pot_made_once_waits_for_its_hour_too() -> None:
    order = job("a", 5, way(0, 7, row(20), 0), make=30)

    assert best(day(order)).finish == 75
    assert best(day(replace(order, not_before=60))).finish == 135


def test_an_order_that_must_be_out_early_goes_before_a_longer_one() -> None:
    """One canner, 20 and 60 min, kept apart: either order of the two ends at 45 + 85."""
    quick = job("quick", 3, way(0, 7, row(20), 0), done_by=45)
    slow = job("slow", 3, way(0, 7, row(60), 0))

    assert starts(day(quick, slow, most_extra=0)) == [0]
    assert best(day(quick, slow, most_extra=0)).finish == 130
    assert solve(day(replace(quick, done_by=40), slow, most_extra=0), 10.0) is None


def test_a_first_order_goes_in_first_though_the_day_ends_later() -> None:
    """Own canners, one person. The long load first: 5 + 10 + 90 + 10 = 115 in all.

    With the short one first the long one is filled from 5 on, and ends at 120.
    """
    ovens = (oven("A"), oven("B"))
    short = job("short", 3, way(0, 7, row(20), 0))
    long = job("long", 3, way(1, 7, row(90), 0))

    assert best(day(short, long, ovens=ovens)).finish == 115
    pinned = day(replace(short, first=True), long, ovens=ovens)
    assert best(pinned).finish == 120
    assert starts(pinned) == [0]


def test_on_its_canner_every_load_of_a_first_order_comes_before_other_food() -> None:
    """Ten jars are two loads of one canner; the other load waits for both."""
    beans = job("beans", 10, way(0, 7, row(20, 11), 0), first=True)
    other = job("other", 5, way(0, 7, row(20, 6), 0))

    assert starts(day(beans, other)) == [0, 45]


def test_nothing_is_on_heat_after_the_day_s_hour() -> None:
    """Heat off at 35 at the earliest; a cool-down of 30 may go on after."""
    order = job("a", 3, way(0, 7, row(20), 30))

    assert best(replace(day(order), heat_off_by=35)).finish == 75
    assert solve(replace(day(order), heat_off_by=30), 10.0) is None


def test_a_canner_that_is_out_is_not_filled() -> None:
    """Out from 30 to 100: a load of 45 does not fit before."""
    order = job("a", 3, way(0, 7, row(20), 0))
    out = replace(oven(), out=((30, 100),))

    assert best(day(order, ovens=(out,))).finish == 145


def test_work_stops_for_a_break_but_a_canner_may_run_on() -> None:
    """A break from 10 to 40: filled by 5, on heat until 35, unloaded after the break, 40-50."""
    order = job("a", 3, way(0, 7, row(20), 0))
    rest = replace(day(order), crews=(Crew(("Marit",), (), (), ((10, 40, 1),)),))
    away = replace(day(order), crews=(Crew(("Marit",), ((10, 40),)),))

    assert best(rest).finish == 50
    # Away altogether, nobody minds the heat: everything waits until 40.
    assert best(away).finish == 85


def pressure(name: str = "canner") -> Oven:
    return Oven(name, "dial-gauge", False, 0, 0)


def test_who_leaves_lifting_to_others_neither_fills_nor_unloads() -> None:
    """The one who lifts comes at 30; the other may cut meanwhile."""
    order = job("a", 4, way(0, 7, row(20), 0), prep=5)
    crews = (Crew(("cuts",), (), ("lifting",)), Crew(("lifts",), ((0, 30),)))
    problem = replace(day(order), crews=crews)

    assert best(problem).finish == 30 + 45
    # Without her wish she fills after 20 min of cutting.
    assert best(replace(problem, crews=(Crew(("cuts",), ()), crews[1]))).finish == 20 + 45


def test_a_pressure_canner_is_minded_only_by_who_answers_for_it() -> None:
    """The one who answers for it goes from 20 to 60: a load on heat from 0 to 35 waits until 60.

    A boiling-water canner the other one minds, and unloads.
    """
    order = job("a", 3, way(0, 7, row(20), 0))
    crews = (Crew(("other",), (), ("pressure canner",)), Crew(("answers",), ((20, 60),)))

    assert best(replace(day(order, ovens=(pressure(),)), crews=crews)).finish == 60 + 45
    assert best(replace(day(order), crews=crews)).finish == 45


def add(file: Path, text: str, to: str = "") -> Path:
    """The day file with something added at its end, or at its top."""
    told = file.read_text("utf-8")
    file.write_text(f"{to}\n{told}\n{text}\n", "utf-8")
    return file


def planned(file: Path) -> Plan:
    answer = plan_day(read_day(file), time_limit=10)
    assert isinstance(answer, Plan)
    return answer


def test_pins_of_a_day_file_are_kept(tmp_path: Path) -> None:
    file = written(tmp_path, jars=9)
    add(file, 'not_before = "8:00"\ndone_by = "11:55"\nfirst = true', 'heat_off_by = "11:20"')
    add(file, '[[break]]\nwho = ["Marit"]\nfrom = "8:00"\nto = "8:30"')

    plan = planned(file)

    assert min(task.start for task in plan.tasks) >= 8 * 60 + 30
    assert plan.finish <= 11 * 60 + 55
    assert max(load.phase("process").end for load in plan.loads) <= 11 * 60 + 20


def test_a_canner_kept_for_other_jars_is_not_used(tmp_path: Path) -> None:
    file = add(written(tmp_path), '[[keep]]\ncanner = "canner"\njars = ["quart"]')

    answer = plan_day(read_day(file))

    assert isinstance(answer, Unplannable)
    (told,) = answer.because
    assert told == "Snap beans, hot pack: day.toml, line 13, keep[1] keeps the canner for quart."
    assert any("Take out day.toml, line 13, keep[1]" in change for change in answer.mend)
    fitting = add(written(tmp_path, jars=9), '[[keep]]\ncanner = "canner"\njars = ["pint"]')
    assert planned(fitting).loads


PINS = [
    ('done_by = "8:00"', "", "out by 8:00 (done_by)"),
    ('not_before = "11:30"', "", "before 11:30 (not_before)"),
    ("", 'heat_off_by = "7:30"', "on heat after 7:30 (heat_off_by)"),
    ('[[break]]\nfrom = "7:00"\nto = "11:30"', "", "the break of Marit from 7:00 to 11:30"),
]


@pytest.mark.parametrize(("text", "top", "told"), PINS)
def test_a_pin_that_leaves_no_plan_is_named_with_the_way_to_be_rid_of_it(
    tmp_path: Path, text: str, top: str, told: str
) -> None:
    answer = plan_day(read_day(add(written(tmp_path, jars=9), text, top)), time_limit=10)

    assert isinstance(answer, Unplannable)
    assert len(answer.because) == 1
    assert told in answer.because[0]
    assert "without it one was found" in answer.because[0]
    assert answer.mend[0].startswith("Leave out")


def test_pins_of_which_no_single_one_can_go_are_named_together(tmp_path: Path) -> None:
    """Nine jars take more than an hour: each of the two hours is too early by itself."""
    file = add(written(tmp_path, jars=9), 'done_by = "8:00"', 'heat_off_by = "7:30"')

    answer = plan_day(read_day(file), time_limit=10)

    assert isinstance(answer, Unplannable)
    (told,) = answer.because
    assert "heat_off_by" in told
    assert "done_by" in told
    assert "together" in told


SLIPS = [
    ('done_by = "25:00"', "", "order[1].done_by"),
    ('not_before = "9:00"\ndone_by = "9:00"', "", "not later than not_before"),
    ("", 'aims = ["finnish"]', 'Did you mean "finish"?'),
    ("", 'aims = ["finish", "finish"]', "stands there twice"),
    ('[[break]]\nwho = ["Mart"]\nfrom = "7:00"\nto = "7:30"', "", 'Did you mean "Marit"?'),
    ('[[break]]\nfrom = "8:00"\nto = "7:30"', "", "ends before it begins"),
    ('[[keep]]\ncanner = "caner"\njars = ["pint"]', "", 'Did you mean "canner"?'),
    ('[[keep]]\ncanner = "canner"', "", "kept for what?"),
    ('[[keep]]\ncanner = "canner"\nrecipes = ["beans"]', "", "no order is for"),
]


@pytest.mark.parametrize(("text", "top", "told"), SLIPS)
def test_a_slip_in_a_pin_is_told_with_its_place(
    tmp_path: Path, text: str, top: str, told: str
) -> None:
    with pytest.raises(InputError, match=r"day\.toml, line \d+, ") as slip:
        read_day(add(written(tmp_path), text, top))

    assert told in str(slip.value)


def test_the_checker_of_printed_plans_sees_a_broken_pin(tmp_path: Path) -> None:
    """A plan made without pins, held against the same day with each of them."""
    file = written(tmp_path, jars=9)
    plan = plan_json(planned(file))
    assert broken_promises(plan, file) == []

    for text, top, told in (
        ('not_before = "9:00"', "", "work on it before not_before"),
        ('done_by = "8:00"', "", "out after done_by"),
        ("", 'heat_off_by = "7:30"', "on heat after heat_off_by"),
        ('[[break]]\nfrom = "7:00"\nto = "9:00"', "", "Marit: works in a break"),
        ('[[keep]]\ncanner = "canner"\njars = ["quart"]', "", "in a canner kept for others"),
    ):
        pinned = add(written(tmp_path, jars=9), text, top)
        assert any(told in said for said in broken_promises(plan, pinned)), told


def test_aims_that_are_not_named_follow_in_their_usual_order(tmp_path: Path) -> None:
    file = add(written(tmp_path), "", 'aims = ["hot hours"]')
    expected = ("hot hours", "finish", "waiting", "extra processing", "tidy work")

    read = read_day(file)

    assert read.aims == expected
    problem = make_problem(read)
    assert isinstance(problem, Problem)
    assert problem.aims == expected


def test_filled_jars_wait_no_longer_than_the_person_allows() -> None:
    """Seven jars at 5 min are filled in 35, and lowered in 5: the first one waits for 40.

    With 30 allowed, five jars (25 + 5) and two (10 + 5) go in two loads: 30 + 40 + 15 + 40.
    """
    order = job("a", 7, way(0, 7, row(20), 0), fill=5)

    assert best(day(order)).finish == 80
    assert best(replace(day(order), jars_wait=30)).finish == 125


def test_everybody_who_cuts_needs_a_place_at_the_counter() -> None:
    """40 min of cutting: two people share it in 20, at one place one of them does it in 40."""
    order = job("a", 4, way(0, 7, row(20), 0), prep=10)

    assert best(day(order, people=2)).finish == 65
    assert best(replace(day(order, people=2), counters=1)).finish == 85
    # The same where the two keep different hours.
    apart = (Crew(("early",), ((900, 1000),)), Crew(("late",), ((950, 1000),)))
    assert best(replace(day(order), crews=apart)).finish == 65
    assert best(replace(day(order), crews=apart, counters=1)).finish == 85
