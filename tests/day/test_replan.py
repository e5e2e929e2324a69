"""Planning again while the day is under way: nothing that runs moves, nothing done comes back."""

import json
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stillroom.day.orders import Unplannable
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day, plan_from
from stillroom.day.read import read_day
from stillroom.day.replan.read import read_status
from stillroom.day.told import plan_json
from stillroom.day.why import why
from stillroom.errors import InputError
from stillroom.units.clock import clock
from tests.day.plan_checker import complaints

KITCHEN = """
name = "Two canners (invented)"
elevation = "500 ft"
burners = 5

[[canner]]
name = "dial"
method = "dial-gauge"
holds = { quart = 7, pint = 9 }

[[canner]]
name = "weight"
method = "weighted-gauge"
holds = { quart = 7, pint = 9 }

[[person]]
name = "Marit"

[[person]]
name = "Jonas"
"""
DAY = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "20:00"

[[order]]
recipe = "snap-beans"
jars = 16
jar = "pint"

[[order]]
recipe = "chicken-stock"
jars = 7
jar = "quart"

[[order]]
recipe = "venison-cubes"
jars = 9
jar = "pint"
"""
HOLDS = {name: {"quart": 7, "pint": 9} for name in ("dial", "weight")}
ORDERED = Counter({"snap-beans": 16, "chicken-stock": 7, "venison-cubes": 9})


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a day and its plan, saved as a person would."""
    folder = tmp_path_factory.mktemp("begun")
    (folder / "kitchen.toml").write_text(KITCHEN, "utf-8")
    (folder / "day.toml").write_text(DAY, "utf-8")
    plan = plan_day(read_day(folder / "day.toml"), time_limit=20)
    assert isinstance(plan, Plan)
    assert plan.optimal
    (folder / "plan.json").write_text(json.dumps(plan_json(plan)), "utf-8")
    return folder


def saved(folder: Path) -> dict[str, Any]:
    plan: dict[str, Any] = json.loads((folder / "plan.json").read_text("utf-8"))
    return plan


def again(folder: Path, status: str, *, name: str = "status.toml") -> dict[str, Any]:
    """The rest of the day as a program sees it."""
    day = read_day(folder / "day.toml")
    (folder / name).write_text(status, "utf-8")
    plan = plan_from(day, read_status(folder / name, day), time_limit=20)
    assert isinstance(plan, Plan), plan
    answer: dict[str, Any] = json.loads(json.dumps(plan_json(plan)))
    return answer


def at(plan: dict[str, Any], number: int, phase: str, edge: str) -> str:
    load = next(load for load in plan["loads"] if load["number"] == number)
    time: str = next(p[edge] for p in load["phases"] if p["name"] == phase)
    return time


def jars(plan: dict[str, Any]) -> Counter[str]:
    placed: Counter[str] = Counter()
    for load in (*plan["loads"], *plan["done"]):
        for inside in load["jars"]:
            placed[inside["recipe"]] += inside["count"]
    return placed


def middle(plan: dict[str, Any], number: int) -> str:
    """Half way through a load's process, as a clock time."""
    return at(plan, number, "process", "start")[11:16]


def test_a_day_that_went_as_planned_ends_as_planned(begun: Path) -> None:
    """The plan was proved the earliest, so no rest of it can end earlier, and it need not later."""
    plan = saved(begun)

    for number in (1, 2, 3):
        rest = again(begun, f'now = "{middle(plan, number)}"\nplan = "plan.json"')

        assert rest["finish"] == plan["finish"]
        assert jars(rest) == ORDERED
        assert complaints(rest, HOLDS) == []


def test_what_runs_stays_where_and_when_it_is(begun: Path) -> None:
    plan = saved(begun)

    rest = again(begun, f'now = "{middle(plan, 2)}"\nplan = "plan.json"')

    number = 2
    for phase in ("load", "process", "cool"):
        assert at(rest, number, phase, "start") == at(plan, number, phase, "start")
    before, after = (
        next(load for load in p["loads"] if load["number"] == number) for p in (plan, rest)
    )
    assert after["canner"] == before["canner"]
    assert after["burner"] == before["burner"]
    assert after["jars"] == before["jars"]
    assert any("Taken as planned" in line for line in rest["warnings"])


def test_a_late_load_holds_up_what_waits_for_its_canner(begun: Path) -> None:
    plan = saved(begun)
    now = middle(plan, 1)

    rest = again(begun, f'now = "{now}"\nplan = "plan.json"\n[[load]]\nnumber = 1\nlate = 40')

    canner = plan["loads"][0]["canner"]
    ready = at(rest, 1, "unload", "start")
    later = [x for x in rest["loads"] if x["canner"] == canner and x["number"] != 1]
    assert all(load["phases"][0]["start"] >= ready for load in later)
    assert rest["finish"] >= plan["finish"]


def test_a_load_has_not_begun_while_a_late_one_is_still_in_its_canner(begun: Path) -> None:
    """By the clock the next load of the canner runs; but the one before it is 60 min behind."""
    plan = saved(begun)
    day = read_day(begun / "day.toml")
    first = plan["loads"][0]
    then = next(
        x
        for x in plan["loads"]
        if x["canner"] == first["canner"] and x["number"] != first["number"]
    )
    text = f'now = "{middle(plan, then["number"])}"\nplan = "plan.json"\n'
    text += f"[[load]]\nnumber = {first['number']}\nlate = 100\n"

    rest = again(begun, text)

    assert first["number"] in {load["number"] for load in rest["loads"]}
    assert then["number"] not in {load["number"] for load in rest["loads"]}
    assert [x for x in complaints(rest, HOLDS) if "canner" in x] == []
    (begun / "both.toml").write_text(
        text + f'[[load]]\nnumber = {then["number"]}\nstate = "running"', "utf-8"
    )
    with pytest.raises(InputError, match="cannot run while load"):
        plan_from(day, read_status(begun / "both.toml", day), time_limit=5)


def test_a_canner_that_drops_out_takes_no_more_loads(begun: Path) -> None:
    plan = saved(begun)
    now = middle(plan, 1)
    running = next(x["number"] for x in plan["loads"] if x["canner"] == "weight")
    status = f"""
now = "{now}"
plan = "plan.json"

[[canner]]
name = "weight"

[[load]]
number = {running}
state = "waiting"
"""

    rest = again(begun, status)

    assert {load["canner"] for load in rest["loads"]} == {"dial"}
    assert jars(rest) == ORDERED
    assert rest["finish"] > plan["finish"]
    assert complaints(rest, HOLDS) == []


def test_who_has_gone_home_does_nothing_more(begun: Path) -> None:
    plan = saved(begun)
    now = middle(plan, 1)

    rest = again(begun, f'now = "{now}"\nplan = "plan.json"\n[[gone]]\nwho = "Jonas"')

    since = f"2026-10-17T{now}:00"
    busy = {t["load"] for t in plan["tasks"] if t["start"] <= since < t["end"]}
    fresh = [t for t in rest["tasks"] if t["start"] >= since and t["load"] not in busy]
    assert fresh
    assert not any("Jonas" in task["who"] for task in fresh)


def test_a_plan_of_a_rest_is_planned_from_again(begun: Path, tmp_path: Path) -> None:
    """Numbers go on, jars that are out stay out, and the finish stays."""
    plan = saved(begun)
    for name in ("kitchen.toml", "day.toml", "plan.json"):
        (tmp_path / name).write_bytes((begun / name).read_bytes())
    first = again(tmp_path, f'now = "{middle(plan, 3)}"\nplan = "plan.json"')
    (tmp_path / "second.json").write_text(json.dumps(first), "utf-8")
    last = max(load["number"] for load in first["loads"])

    second = again(tmp_path, f'now = "{middle(first, last)}"\nplan = "second.json"')

    assert second["finish"] == plan["finish"]
    assert jars(second) == ORDERED
    assert all(load["number"] >= last or load in first["loads"] for load in second["loads"])


def test_why_tells_what_holds_the_rest_of_the_day(begun: Path) -> None:
    day = read_day(begun / "day.toml")
    (begun / "why.toml").write_text(f'now = "{middle(saved(begun), 2)}"\nplan = "plan.json"')
    plan = plan_from(day, read_status(begun / "why.toml", day), time_limit=10)
    assert isinstance(plan, Plan)

    answer = why(plan)

    assert answer.links[-1].end == plan.finish
    assert (answer.trades, answer.more) == ((), ())


def test_a_status_in_json_says_the_same(begun: Path) -> None:
    now = middle(saved(begun), 2)

    toml = again(begun, f'now = "{now}"\nplan = "plan.json"\n[[load]]\nnumber = 2\nlate = 5')
    told = {"now": now, "plan": "plan.json", "load": [{"number": 2, "late": 5}]}
    same = again(begun, json.dumps(told), name="status.json")

    assert same["loads"] == toml["loads"]


def test_when_all_is_in_the_canners_only_unloading_is_left(begun: Path) -> None:
    plan = saved(begun)
    last = max(load["number"] for load in plan["loads"])

    rest = again(begun, f'now = "{middle(plan, last)}"\nplan = "plan.json"')

    assert rest["finish"] == plan["finish"]
    assert {load["number"] for load in rest["loads"]} <= {x["number"] for x in plan["loads"]}


def test_raw_venison_that_was_cut_too_long_ago_is_not_planned(begun: Path) -> None:
    plan = saved(begun)
    cut, load = next(
        (task, load)
        for load in plan["loads"]
        for task in plan["tasks"]
        if load["jars"][0]["recipe"] == "venison-cubes"
        and task["load"] == load["number"]
        and task["name"] == "Prepare"
    )
    day = read_day(begun / "day.toml")
    hours, minutes = (int(x) for x in cut["start"][11:16].split(":"))
    later = clock(hours * 60 + minutes + 125)
    text = f'now = "{later}"\nplan = "plan.json"\n[[load]]\nnumber = {load["number"]}\n'
    (begun / "late.toml").write_text(text + 'state = "cut"', "utf-8")

    answer = plan_from(day, read_status(begun / "late.toml", day), time_limit=10)

    assert isinstance(answer, Unplannable)
    assert "two hours or more" in answer.because[0]


def test_more_than_the_rest_of_the_day_holds_is_said(begun: Path) -> None:
    day = read_day(begun / "day.toml")
    text = 'now = "19:00"\nplan = "plan.json"\n' + "".join(
        f'[[load]]\nnumber = {load["number"]}\nstate = "waiting"\n'
        for load in saved(begun)["loads"]
    )
    (begun / "evening.toml").write_text(text, "utf-8")

    answer = plan_from(day, read_status(begun / "evening.toml", day), time_limit=10)

    assert isinstance(answer, Unplannable)
    assert "What is left at 19:00 cannot be done by 20:00" in answer.because[0]


SLIPS = [
    ('now = "3:00"\nplan = "plan.json"', "the day is from start to finish_by"),
    ('now = "9:00"\nplan = "nowhere.json"', "cannot be read"),
    ('now = "9:00"\nplan = "kitchen.toml"', "this is not a saved plan"),
    ('now = "9:00"\nplan = "plan.json"\n[[load]]\nnumber = 99', "the plan has no load 99"),
    (
        'now = "7:00"\nplan = "plan.json"\n[[load]]\nnumber = 4\nstate = "running"',
        "by the plan it begins at",
    ),
    (
        'now = "9:00"\nplan = "plan.json"\n[[load]]\nnumber = 1\nstate = "runing"',
        'Did you mean "running"?',
    ),
    ('now = "9:00"\nplan = "plan.json"\n[[canner]]\nname = "dail"', 'Did you mean "dial"?'),
    ('now = "9:00"\nplan = "plan.json"\n[[gone]]\nwho = "Jon"', 'Did you mean "Jonas"?'),
    (
        'now = "9:00"\nplan = "plan.json"\n[[pot]]\nrecipe = "snap-beans"\nlate = 5',
        "no pot of this day is made for",
    ),
    ('now = "9:00"\nplan = "plan.json"\nlate = 5', "not a key that belongs here"),
]


@pytest.mark.parametrize(("text", "told"), SLIPS)
def test_a_slip_in_a_status_is_told(begun: Path, text: str, told: str) -> None:
    day = read_day(begun / "day.toml")
    (begun / "slip.toml").write_text(text, "utf-8")

    with pytest.raises(InputError) as slip:
        plan_from(day, read_status(begun / "slip.toml", day), time_limit=10)

    assert told in str(slip.value)


def test_a_canner_that_drops_out_with_a_load_in_it_is_asked_about(begun: Path) -> None:
    day = read_day(begun / "day.toml")
    first = saved(begun)["loads"][0]
    text = f'now = "{middle(saved(begun), 1)}"\nplan = "plan.json"\n[[canner]]\n'
    (begun / "ask.toml").write_text(text + f'name = "{first["canner"]}"', "utf-8")

    with pytest.raises(InputError, match=r"Say in .* what became of it"):
        plan_from(day, read_status(begun / "ask.toml", day), time_limit=10)


@given(
    now=st.integers(7 * 60, 14 * 60),
    late=st.dictionaries(st.integers(1, 4), st.integers(0, 45), max_size=2),
    gone=st.booleans(),
)
@settings(
    max_examples=15,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
def test_whatever_happened_the_rest_keeps_the_rules(
    begun: Path, now: int, late: dict[int, int], gone: bool
) -> None:
    """Where a load was late, the past may overlap; nothing does from now on."""
    day = read_day(begun / "day.toml")
    text = f'now = "{clock(now)}"\nplan = "plan.json"\n'
    text += "".join(f"[[load]]\nnumber = {n}\nlate = {by}\n" for n, by in late.items())
    text += '[[gone]]\nwho = "Jonas"\n' * gone
    (begun / "any.toml").write_text(text, "utf-8")

    try:
        answer = plan_from(day, read_status(begun / "any.toml", day), time_limit=5)
    except InputError as said:
        assert "every jar is out" in str(said)
        hours, minutes = saved(begun)["finish"][11:16].split(":")
        assert now >= 60 * int(hours) + int(minutes)
        return

    assert isinstance(answer, Plan), answer
    rest = json.loads(json.dumps(plan_json(answer)))
    assert jars(rest) == ORDERED
    told = complaints(rest, HOLDS)
    # Who cannot be at two loads that have both begun is named, and not moved.
    named = [w.split()[0] for w in rest["warnings"] if " cannot " in w and "say in [[load]]" in w]
    told = [x for x in told if not any(x.startswith(f"person {who}:") for who in named)]
    assert [x for x in told if not _in_the_past(x, now)] == []
    fresh = [t for t in rest["tasks"] if t["name"] == "Unload" and t["start"][11:16] >= clock(now)]
    assert not gone or not any("Jonas" in t["who"] for t in fresh if t["start"][11:16] > clock(now))


def _in_the_past(told: str, now: int) -> bool:
    _, doubled, minute = told.rpartition("doubled at ")
    return bool(doubled) and int(minute) < now


def test_hands_that_are_wanted_twice_are_named(begun: Path) -> None:
    """Both loads are begun: what holds up the first keeps its people from the second."""
    plan = saved(begun)
    fills = {t["load"]: t for t in plan["tasks"] if t["name"] == "Fill and load"}
    pots = {t["load"]: t for t in plan["tasks"] if t["name"] == "Heat and keep hot"}
    assert fills[1]["who"] == fills[2]["who"]
    apart = _minute(fills[2]["start"]) - _minute(fills[1]["end"])
    (who,) = fills[1]["who"]

    late = again(
        begun,
        f'now = "{pots[2]["start"][11:16]}"\nplan = "plan.json"\n'
        f"[[load]]\nnumber = 1\nlate = {apart + 1}",
    )
    gone = again(
        begun, f'now = "{pots[2]["start"][11:16]}"\nplan = "plan.json"\n[[gone]]\nwho = "{who}"'
    )

    assert any(w.startswith(f"{who} cannot fill load 1 until") for w in late["warnings"])
    assert any(w.startswith(f"{who} was to fill load 2 from") for w in gone["warnings"])


def _minute(text: str) -> int:
    return int(text[11:13]) * 60 + int(text[14:16])
