"""Days that cannot be planned: why, and changes that were tried and do help."""

import json
from pathlib import Path

import pytest

from stillroom.cli import main
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day
from stillroom.day.solver import Control

KITCHEN = """
name = "Small kitchen (invented)"
elevation = "{elevation}"
burners = {burners}

[[canner]]
name = "canner"
method = "{method}"
holds = {{ quart = 7, pint = 9 }}

[[person]]
name = "Marit"
hours = ["7:00 to {until}"]
"""
DAY = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "{until}"

[[order]]
recipe = "{recipe}"
jars = {jars}
jar = "pint"
"""


def written(
    folder: Path,
    *,
    recipe: str = "snap-beans",
    jars: int = 18,
    until: str = "12:00",
    method: str = "dial-gauge",
    elevation: str = "500 ft",
    burners: int = 2,
) -> Path:
    kitchen = KITCHEN.format(elevation=elevation, method=method, until=until, burners=burners)
    (folder / "kitchen.toml").write_text(kitchen, encoding="utf-8")
    day = folder / "day.toml"
    day.write_text(DAY.format(until=until, recipe=recipe, jars=jars), encoding="utf-8")
    return day


def why_not(day: Path) -> Unplannable:
    answer = plan_day(read_day(day), time_limit=10)
    assert isinstance(answer, Unplannable)
    return answer


def test_a_day_too_short_says_how_long_it_takes_and_that_time_does_plan(tmp_path: Path) -> None:
    """Two loads of beans need more than the 2 h 30 min there are."""
    answer = why_not(written(tmp_path, until="9:30"))

    assert any("9:30" in reason for reason in answer.because)
    later = next(change for change in answer.mend if change.startswith("End the day later"))
    until = later.rstrip(".").rpartition("at ")[2]
    assert isinstance(plan_day(read_day(written(tmp_path, until=until)), time_limit=10), Plan)


def test_fewer_jars_are_offered_and_do_plan(tmp_path: Path) -> None:
    answer = why_not(written(tmp_path, until="10:30"))

    fewer = next(change for change in answer.mend if "Order only 9 jars" in change)
    assert "instead of 18" in fewer
    assert isinstance(plan_day(read_day(written(tmp_path, jars=9, until="10:30"))), Plan)


def test_a_second_canner_or_helper_is_offered_only_where_it_helps(tmp_path: Path) -> None:
    """One jar: a second canner changes nothing, and neither does a second pair of hands."""
    answer = why_not(written(tmp_path, jars=1, until="8:00"))

    assert not any("canner" in change or "helper" in change for change in answer.mend)


def test_beans_above_the_dial_gauge_table_quote_where_it_ends(tmp_path: Path) -> None:
    answer = why_not(written(tmp_path, elevation="8,500 ft"))

    assert any("the table ends at 8,000 ft" in reason for reason in answer.because)
    assert any("Add a weighted-gauge canner" in change for change in answer.mend)
    assert not any("boiling-water" in change for change in answer.mend)


def test_venison_with_a_boiling_water_canner_only_asks_for_a_pressure_canner(
    tmp_path: Path,
) -> None:
    answer = why_not(written(tmp_path, recipe="venison-cubes", method="boiling-water"))

    assert any("only a pressure canner" in reason for reason in answer.because)
    assert any("Add a dial-gauge or weighted-gauge canner" in change for change in answer.mend)
    assert not any("boiling-water" in change for change in answer.mend)


def test_a_kitchen_without_burners_says_so(tmp_path: Path) -> None:
    answer = why_not(written(tmp_path, burners=0))

    assert any("no burner" in reason for reason in answer.because)
    assert answer.mend == ("Say in the kitchen file how many burners there are.",)


def test_a_search_that_is_stopped_tries_no_change(tmp_path: Path) -> None:
    """What was not tried is not offered: at half past nine fewer jars would fit, and help."""
    control = Control()
    control.stop.set()

    answer = plan_day(read_day(written(tmp_path, until="9:30")), time_limit=10, control=control)

    assert isinstance(answer, Unplannable)
    assert not any("Order only" in change or "Add" in change for change in answer.mend)


def test_one_burner_for_a_pot_and_a_canner_asks_for_a_burner_not_a_canner(tmp_path: Path) -> None:
    """A hot pack needs its pot and its canner on heat together."""
    answer = why_not(written(tmp_path, burners=1, until="20:00"))

    assert any("burners" in reason for reason in answer.because)
    assert any(change.startswith("Add one burner") for change in answer.mend)
    assert not any("canner, with" in change for change in answer.mend)


def test_json_and_exit_status_are_as_agreed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    day = written(tmp_path, elevation="8,500 ft")

    assert main(["plan", str(day), "--json"]) == 3
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) == {"infeasible"}
    assert answer["infeasible"]["because"]
    assert answer["infeasible"]["try"]

    assert main(["plan", str(day)]) == 3
    told = capsys.readouterr().err
    assert "Because:" in told
    assert "Try:" in told


def changed(day: Path, file: str, old: str, new: str) -> Path:
    """The same files with one change."""
    path = day.parent / file
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")
    return day


def planned(day: Path) -> bool:
    return isinstance(plan_day(read_day(day), time_limit=10), Plan)


def test_an_earlier_start_is_offered_and_plans_when_the_cook_comes_then(tmp_path: Path) -> None:
    day = written(tmp_path, until="10:30")
    start = next(c for c in why_not(day).mend if c.startswith("Start at ")).split()[2].rstrip(".,")

    changed(day, "kitchen.toml", '"7:00 to', f'"{start} to')
    changed(day, "day.toml", 'start = "7:00"', f'start = "{start}"')

    assert planned(day)


def test_one_canner_more_is_offered_and_does_plan(tmp_path: Path) -> None:
    """18 pints of venison, 9 a load: some 160 min from lid to opening, twice in one canner.

    Cutting and filling takes 105 min a load, so two canners are closed by 10:30 and open by 13:10.
    """
    day = written(tmp_path, recipe="venison-cubes", until="13:30", burners=3)
    assert any(c.startswith("Add one dial-gauge canner") for c in why_not(day).mend)

    canner = '[[canner]]\nname = "second"\nmethod = "dial-gauge"\nholds = { quart = 7, pint = 9 }\n'
    changed(day, "kitchen.toml", "burners = 3", "burners = 4")
    changed(day, "kitchen.toml", "[[person]]", canner + "[[person]]")

    assert planned(day)


def test_one_helper_more_is_offered_and_does_plan(tmp_path: Path) -> None:
    """Nobody is there from 8:00 on, so a canner on heat would stand alone: a helper mends it."""
    day = changed(written(tmp_path, jars=9), "kitchen.toml", "7:00 to 12:00", "7:00 to 8:00")
    assert any(c.startswith("Ask one helper more") for c in why_not(day).mend)

    changed(day, "day.toml", "[[order]]", '[[helper]]\nname = "Ada"\n\n[[order]]')

    assert planned(day)


@pytest.mark.parametrize("words", ["End the day later", "Start at"])
def test_a_change_that_needs_people_at_other_hours_says_so(tmp_path: Path, words: str) -> None:
    """Marit is there from 7:00 to 10:30 whatever the day file says."""
    day = written(tmp_path, until="10:30")
    told = next(change for change in why_not(day).mend if change.startswith(words))
    at = told.rpartition(" at ")[2].split()[0].rstrip(".,;")

    key, old = ("finish_by", "10:30") if "End" in words else ("start", "7:00")
    changed(day, "day.toml", f'{key} = "{old}"', f'{key} = "{at}"')

    assert planned(day) or any(word in told for word in ("Marit", "stay", "come", "hours"))


def test_a_later_end_is_not_found_by_working_through_a_break(tmp_path: Path) -> None:
    """Marit goes home from 9:30 to 14:00: no end before 14:00 makes room for two loads."""
    day = changed(
        written(tmp_path, until="8:00"),
        "kitchen.toml",
        'hours = ["7:00 to 8:00"]',
        'hours = ["7:00 to 9:30", "14:00 to 20:00"]',
    )
    told = next(c for c in why_not(day).mend if c.startswith("End the day later"))
    at = told.rpartition(" at ")[2].split()[0].rstrip(".,;")

    changed(day, "day.toml", 'finish_by = "8:00"', f'finish_by = "{at}"')

    assert planned(day)


def test_an_order_held_to_the_wrong_canner_is_told_to_let_it_go(tmp_path: Path) -> None:
    """Venison held to the water bath, with a pressure canner beside it."""
    day = written(tmp_path, recipe="venison-cubes", jars=5)
    bath = '[[canner]]\nname = "bath"\nmethod = "boiling-water"\nholds = { pint = 9 }\n\n[[person]]'
    changed(day, "kitchen.toml", "[[person]]", bath)
    changed(day, "day.toml", 'jar = "pint"', 'jar = "pint"\ncanners = ["bath"]')

    assert any('"canner"' in change or "canners" in change for change in why_not(day).mend)


def test_two_orders_of_one_recipe_are_told_their_remedy_once(tmp_path: Path) -> None:
    day = written(tmp_path, recipe="venison-cubes", method="boiling-water")
    order = '[[order]]\nrecipe = "venison-cubes"\njars = 3\njar = "quart"\n\n[[order]]'
    answer = why_not(changed(day, "day.toml", "[[order]]", order))

    assert len(set(answer.mend)) == len(answer.mend)
