"""Days that cannot be planned: why, and changes that were tried and do help."""

import json
from pathlib import Path

import pytest

from stillroom.cli import main
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day

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
