"""``stillroom plan`` on the demo day: JSON, text and sheet, checked from outside."""

import copy
import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stillroom.cli import main
from stillroom.processes import lookup
from tests.day.plan_checker import broken_promises, complaints

HOLDS = {
    name: {"quart": 7, "pint": 9} for name in ("dial canner", "weight canner", "water bath")
}  # as the demo's kitchen.toml says
ORDERS = {
    "venison-cubes": 14, "snap-beans": 14, "chicken-stock": 7, "crushed-tomatoes": 7,
    "applesauce": 9, "dilled-beans": 8,
}  # fmt: skip
# The library's words for what each starter recipe rests on.
RESTS_ON = {
    "venison-cubes": ("strips, cubes or chunks of meat", None, "raw"),
    "snap-beans": ("snap beans", None, "hot"),
    "chicken-stock": ("meat stock (broth)", None, "hot"),
    "crushed-tomatoes": ("tomatoes", "crushed", "hot"),
    "applesauce": ("applesauce", None, "hot"),
    "dilled-beans": ("pickled dilled beans", None, "raw"),
}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("demo")
    assert main(["start", str(folder)]) == 0
    return folder


@pytest.fixture(scope="module")
def plan(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """The demo plan, solved once for all tests of this module, with its sheet printed beside it."""
    import contextlib
    import io

    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        asked = ["plan", str(demo / "day.toml"), "--json", "--pdf", str(demo / "day.pdf")]
        assert main(asked) == 0
    answer: dict[str, Any] = json.loads(out.getvalue())
    return answer


def test_json_has_the_agreed_shape(plan: dict[str, Any]) -> None:
    assert set(plan) >= {
        "status", "start", "finish", "makespan_minutes", "bound_minutes", "finish_p50",
        "finish_p90", "loads", "tasks", "lists", "warnings", "stand_ins",
    }  # fmt: skip
    assert set(plan["lists"]) == {"buy", "from_shelf", "prep", "liquids", "jars", "lids"}
    assert all(isinstance(line, str) for lines in plan["lists"].values() for line in lines)
    for load in plan["loads"]:
        assert set(load) >= {
            "canner", "method", "pressure_psi", "process_minutes", "source", "jars", "phases",
        }  # fmt: skip
        assert load["source"]
    for task in plan["tasks"]:
        assert set(task) >= {"name", "recipe", "who", "where", "start", "end"}


def test_every_phase_of_a_load_tells_what_stands_behind_its_minutes(plan: dict[str, Any]) -> None:
    """Venting and waiting are published and never shorter: 10 and 10, or 5 for boiling water."""
    for load in plan["loads"]:
        told = {entry["phase"]: entry for entry in load["durations"]}
        spans = {p["name"]: p for p in load["phases"]}
        assert set(told) == set(spans) - {"process"}
        for phase, entry in told.items():
            start, end = (datetime.fromisoformat(spans[phase][k]) for k in ("start", "end"))
            assert (end - start).total_seconds() / 60 == entry["minutes"]
            assert entry["low"] <= entry["high"]
            assert entry["basis"] in ("heat model", "published", "common practice")
            assert entry["source"]
        pressure = load["pressure_psi"] is not None
        assert told["heat"]["basis"] == "heat model"
        assert (told["wait" if pressure else "cool"])["minutes"] == (10 if pressure else 5)
        if pressure:
            assert told["vent"]["minutes"] == 10


def test_what_was_taken_for_what_is_not_told_is_named_by_canner(plan: dict[str, Any]) -> None:
    """The demo kitchen tells its burners and neither weight nor water."""
    by_canner = dict(line.split(": ", 1) for line in plan["stand_ins"])

    assert set(by_canner) == {"dial canner, weight canner", "water bath"}
    for told in by_canner.values():
        assert "weight" in told
        assert "water" in told
        assert "burner" not in told


def test_the_demo_day_is_proved_or_tells_its_bound(plan: dict[str, Any]) -> None:
    assert plan["status"] in ("optimal", "feasible")
    assert plan["bound_minutes"] <= plan["makespan_minutes"]
    if plan["status"] == "optimal":
        assert plan["bound_minutes"] == plan["makespan_minutes"]


def test_times_are_iso_local_and_agree_with_each_other(plan: dict[str, Any]) -> None:
    begun = datetime(2026, 10, 17, 7, 0)
    finish = datetime.fromisoformat(plan["finish"])

    assert datetime.fromisoformat(plan["start"]) >= begun
    assert (finish - begun).total_seconds() / 60 == plan["makespan_minutes"]
    ends = [datetime.fromisoformat(x["phases"][-1]["end"]) for x in plan["loads"]]
    assert max(ends) == finish
    assert datetime.fromisoformat(plan["finish_p50"]) <= datetime.fromisoformat(plan["finish_p90"])
    assert all(t["start"].startswith("2026-10-17T") for t in plan["tasks"])


def test_every_ordered_jar_is_in_a_load_once(plan: dict[str, Any]) -> None:
    placed: dict[str, int] = dict.fromkeys(ORDERS, 0)
    for load in plan["loads"]:
        for jars in load["jars"]:
            placed[jars["recipe"]] += jars["count"]

    assert placed == ORDERS


def test_every_load_runs_by_a_printed_row_for_5430_ft(plan: dict[str, Any]) -> None:
    for load in plan["loads"]:
        for jars in load["jars"]:
            food, form, pack = RESTS_ON[jars["recipe"]]
            answer = lookup(
                food,
                form=form,
                pack=pack,
                jar=jars["jar"],
                method=load["method"],
                elevation="5,430 ft",
            )
            printed = {(p.minutes, p.psi) for p in answer.processes}
            assert (jars["published_minutes"], load["pressure_psi"]) in printed


def test_the_plan_keeps_every_rule_seen_from_outside(plan: dict[str, Any]) -> None:
    assert complaints(plan, HOLDS) == []


def test_people_work_within_their_hours(plan: dict[str, Any]) -> None:
    for task in plan["tasks"]:
        if task["who"]:
            assert datetime.fromisoformat(task["start"]).hour >= 7
            assert datetime.fromisoformat(task["end"]) <= datetime(2026, 10, 17, 19, 0)


def test_raw_venison_meets_heat_within_two_hours_of_the_first_cut(plan: dict[str, Any]) -> None:
    for load in plan["loads"]:
        if load["jars"][0]["recipe"] != "venison-cubes":
            continue
        cut = next(
            t for t in plan["tasks"] if t["name"] == "Prepare" and t["load"] == load["number"]
        )
        lid_on = datetime.fromisoformat(load["phases"][0]["end"])
        assert (lid_on - datetime.fromisoformat(cut["start"])).total_seconds() <= 120 * 60


def broken(plan: dict[str, Any], how: str) -> dict[str, Any]:
    wrong = copy.deepcopy(plan)
    first, second = wrong["loads"][0], wrong["loads"][1]
    if how == "two loads in one canner":
        for load in wrong["loads"]:
            load["canner"] = "dial canner"
    elif how == "a shortened process":
        first["process_minutes"] -= 5
    elif how == "one person twice":
        for task in wrong["tasks"]:
            task["who"] = ["Marit"] if task["who"] else []
    elif how == "an overfull canner":
        first["jars"][0]["count"] = 30
    elif how == "a doubled burner":
        for load in (first, second):
            load["burner"] = "burner 1"
            load["phases"] = first["phases"]
        for task in wrong["tasks"]:
            if task["name"] == "Fill and load":
                task.update(start=first["phases"][0]["start"], end=first["phases"][0]["end"])
    return wrong


@pytest.mark.parametrize(
    ("how", "told"),
    [
        ("two loads in one canner", "canner dial canner: doubled"),
        ("a shortened process", "process of the wrong length"),
        ("one person twice", "person Marit: doubled"),
        ("an overfull canner", "of the canner's room"),
        ("a doubled burner", "burner burner 1: doubled"),
    ],
)
def test_the_outside_checker_sees_a_broken_plan(plan: dict[str, Any], how: str, told: str) -> None:
    assert any(told in complaint for complaint in complaints(broken(plan, how), HOLDS))


def test_lists_tell_jars_lids_and_what_to_buy(plan: dict[str, Any]) -> None:
    """45 pints and 14 quarts ordered; 12 quarts on hand; venison 14 pints at 1 lb a pint."""
    lists = plan["lists"]

    assert any("pint jars: 45 needed" in line for line in lists["jars"])
    assert any("quart jars: 14 needed, 12 on hand, get 2" in line for line in lists["jars"])
    assert any("lids: 59" in line for line in lists["lids"])
    assert any("venison" in line and "buy 14 lb" in line for line in lists["buy"])
    assert any("canning salt" in line for line in lists["from_shelf"])


def test_the_acid_of_the_tomatoes_is_warned_of(plan: dict[str, Any]) -> None:
    assert any("Crushed tomatoes" in w and "lemon juice" in w for w in plan["warnings"])


def test_the_sheet_is_a_pdf(plan: dict[str, Any], demo: Path) -> None:
    assert plan
    assert (demo / "day.pdf").read_bytes().startswith(b"%PDF")


def test_the_text_shows_the_day_at_a_glance(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", str(demo / "day.toml")]) == 0

    told = capsys.readouterr().out
    for words in (
        "59 jars",
        "13 lb",
        "15 lb",
        "boiling",
        "By the clock",
        "Take care",
        "Buy",
        "Taken for",
    ):
        assert words in told
    assert "█" in told
    assert "safe" not in told.lower()


def test_a_time_limit_too_short_for_proof_still_tells_a_bound(
    demo: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The first plan is there at once, so even a tenth of a second gives a plan."""
    status = main(["plan", str(demo / "day.toml"), "--time-limit", "0.3", "--json"])

    answer = json.loads(capsys.readouterr().out)
    assert status == 0
    assert answer["bound_minutes"] <= answer["makespan_minutes"]


def test_the_demo_plan_keeps_what_its_files_say(plan: dict[str, Any], demo: Path) -> None:
    assert broken_promises(plan, demo / "day.toml") == []


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("burners_for_canners = 3", "burners_for_canners = 1", "more canners on heat than"),
        ('hours = ["7:00 to 19:00"]', 'hours = ["12:00 to 13:00"]', "outside their hours"),
        ("pint = 9", "pint = 4", "of the canner's room"),
        ('method = "weighted-gauge"', 'method = "dial-gauge"', "by a method its canner has not"),
        ('method = "dial-gauge"', 'method = "dial-gauge"\nown_plug = true', "mixed up"),
    ],
)
def test_the_checker_sees_a_plan_made_for_another_kitchen(
    plan: dict[str, Any], demo: Path, tmp_path: Path, old: str, new: str, told: str
) -> None:
    kitchen = (demo / "kitchen.toml").read_text(encoding="utf-8")
    assert old in kitchen
    (tmp_path / "kitchen.toml").write_text(kitchen.replace(old, new), encoding="utf-8")
    (tmp_path / "day.toml").write_bytes((demo / "day.toml").read_bytes())

    assert any(told in said for said in broken_promises(plan, tmp_path / "day.toml"))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("jars = 8", "jars = 9", "jars placed"),
        ('finish_by = "19:00"', 'finish_by = "9:00"', "the day ends late"),
        ('start = "7:00"', 'start = "7:30"', "makespan does not reach"),
    ],
)
def test_the_checker_sees_a_plan_made_for_another_day(
    plan: dict[str, Any], demo: Path, tmp_path: Path, old: str, new: str, told: str
) -> None:
    day = (demo / "day.toml").read_text(encoding="utf-8")
    assert old in day
    (tmp_path / "day.toml").write_text(day.replace(old, new), encoding="utf-8")
    (tmp_path / "kitchen.toml").write_bytes((demo / "kitchen.toml").read_bytes())

    assert any(told in said for said in broken_promises(plan, tmp_path / "day.toml"))


def test_the_checker_sees_venison_that_stands_out(plan: dict[str, Any], demo: Path) -> None:
    """Cut at 7:00 whatever its load, the later load of it meets heat more than two hours on."""
    wrong = copy.deepcopy(plan)
    raw = {x["number"] for x in plan["loads"] if x["jars"][0]["recipe"] == "venison-cubes"}
    for task in wrong["tasks"]:
        if task["name"] == "Prepare" and task["load"] in raw:
            task["start"] = "2026-10-17T07:00:00"

    assert any("venison stands out" in x for x in broken_promises(wrong, demo / "day.toml"))


JARS_OF = {
    "applesauce": ["pint", "quart"], "berry-jam": ["half-pint"], "carrots": ["pint", "quart"],
    "chicken-stock": ["pint", "quart"], "dilled-beans": ["pint"], "peaches": ["pint", "quart"],
    "snap-beans": ["pint", "quart"], "venison-cubes": ["pint", "quart"],
    "whole-tomatoes": ["pint", "quart"],
}  # fmt: skip


PINS = ["first = true", 'not_before = "9:32"', 'done_by = "14:59"']


@st.composite
def days(draw: st.DrawFn) -> tuple[str, str]:
    """A kitchen file and a day file such as a household may write, awkward minutes included."""

    def hours() -> str:
        start = draw(st.integers(420, 560))
        end = draw(st.integers(start + 240, 1260))
        rest = draw(st.integers(start + 60, end - 60))
        spans = [(start, end)] if draw(st.booleans()) else [(start, rest), (rest + 30, end)]
        told = [f"{a // 60}:{a % 60:02d} to {b // 60}:{b % 60:02d}" for a, b in spans if b > a]
        return json.dumps(told)

    burners = draw(st.integers(2, 5))
    kitchen = [
        'name = "A kitchen (invented)"',
        f'elevation = "{draw(st.sampled_from([0, 1001, 3000, 5430, 7900]))} ft"',
        f"burners = {burners}",
        f"burners_for_canners = {draw(st.integers(1, burners))}",
        f"counters = {draw(st.integers(1, 3))}",
    ]
    methods = ["dial-gauge", "weighted-gauge", "boiling-water"]
    # One of each kind, so that every starter has a process, and perhaps one more.
    for n, method in enumerate([*methods, *draw(st.lists(st.sampled_from(methods), max_size=1))]):
        kitchen += ["[[canner]]", f'name = "canner {n}"', f'method = "{method}"']
        kitchen.append(f"holds = {{ quart = {draw(st.integers(4, 9))}, pint = 9 }}")
        kitchen += ["layers = { pint = 2 }"] * draw(st.booleans())
        kitchen += ["own_plug = true"] * draw(st.booleans())
    for n in range(draw(st.integers(1, 3))):
        kitchen += ["[[person]]", f'name = "person {n}"', f"hours = {hours()}"]
        leaves = draw(st.sampled_from([[], ["lifting"], ["pressure canner"]])) if n else []
        kitchen.append(f"leaves = {json.dumps(leaves)}")
    day = [
        "date = 2026-10-17",
        'kitchen = "kitchen.toml"',
        f'start = "{draw(st.sampled_from(["6:30", "7:00", "7:03"]))}"',
        f'finish_by = "{draw(st.sampled_from(["18:47", "22:00", "24:00"]))}"',
        f"most_extra_minutes = {draw(st.sampled_from([0, 20, 120]))}",
    ]
    day += ['heat_off_by = "17:00"'] * draw(st.booleans())
    day += ["jars_wait_minutes = 25"] * draw(st.booleans())
    recipes = draw(st.lists(st.sampled_from(sorted(JARS_OF)), min_size=1, max_size=4))
    for recipe in recipes:
        jar = draw(st.sampled_from(JARS_OF[recipe]))
        day += ["[[order]]", f'recipe = "{recipe}"', f'jar = "{jar}"']
        day.append(f"jars = {draw(st.integers(1, 14))}")
        if recipes.count(recipe) == 1:
            day += draw(st.lists(st.sampled_from(PINS), max_size=1))
    for span in draw(st.lists(st.sampled_from(["12:00 to 12:30", "9:04 to 9:21"]), max_size=1)):
        start, _, end = span.partition(" to ")
        day += ["[[break]]", f'from = "{start}"', f'to = "{end}"']
    if draw(st.booleans()):
        day += ["[[helper]]", 'name = "helper"', f"hours = {hours()}"]
    return "\n".join(kitchen), "\n".join(day)


@given(files=days())
@settings(
    max_examples=20,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
def test_a_plan_for_any_household_keeps_what_its_files_say(
    files: tuple[str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Planned, refused with reasons, or out of time: never a plan that breaks its own files."""
    kitchen, day = files
    (tmp_path / "kitchen.toml").write_text(kitchen, encoding="utf-8")
    (tmp_path / "day.toml").write_text(day, encoding="utf-8")
    capsys.readouterr()

    status = main(["plan", str(tmp_path / "day.toml"), "--time-limit", "1", "--json"])

    out = capsys.readouterr()
    if status == 2:
        assert "Give a longer --time-limit" in out.err
    elif status == 3:
        assert json.loads(out.out)["infeasible"]["because"]
    else:
        assert broken_promises(json.loads(out.out), tmp_path / "day.toml") == []


# Too much for a proof in half a second; tidying then often ends the day earlier than was found.
BUSY_KITCHEN = """
name = "Busy kitchen (invented)"
elevation = "1001 ft"
burners = 2

[[canner]]
name = "dial"
method = "dial-gauge"
holds = { quart = 6, pint = 9 }
own_plug = true

[[canner]]
name = "weight"
method = "weighted-gauge"
holds = { quart = 6, pint = 18 }
own_plug = true

[[canner]]
name = "bath"
method = "boiling-water"
holds = { quart = 6, pint = 9 }

[[canner]]
name = "large bath"
method = "boiling-water"
holds = { quart = 7, pint = 18 }

[[person]]
name = "Marit"
hours = ["8:04 to 11:09", "11:39 to 12:35"]

[[person]]
name = "Jonas"
hours = ["8:53 to 14:59"]

[[person]]
name = "Ada"
hours = ["9:02 to 10:18", "10:48 to 18:47"]
"""
BUSY_DAY = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:03"
finish_by = "24:00"
""" + "".join(
    f'[[order]]\nrecipe = "{recipe}"\njar = "{jar}"\njars = {count}\n'
    for recipe, jar, count in (
        ("applesauce", "quart", 13),
        ("applesauce", "pint", 8),
        ("chicken-stock", "pint", 1),
        ("carrots", "pint", 5),
    )
)


@pytest.mark.parametrize("limit", ["0.4", "0.6", "0.8"])
def test_the_finish_told_is_the_last_unloading_though_the_time_ran_out(
    limit: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "kitchen.toml").write_text(BUSY_KITCHEN, encoding="utf-8")
    (tmp_path / "day.toml").write_text(BUSY_DAY, encoding="utf-8")

    status = main(["plan", str(tmp_path / "day.toml"), "--time-limit", limit, "--json"])

    # A slow machine may find no plan in so short a time; then nothing is told, which is allowed.
    if status == 0:
        answer = json.loads(capsys.readouterr().out)
        assert broken_promises(answer, tmp_path / "day.toml") == []
    else:
        assert status == 2


def test_the_first_interrupt_ends_the_search_and_the_plan_is_shown(
    demo: Path, tmp_path: Path
) -> None:
    """Ctrl-C three seconds into a minute: the answer is the best plan so far, and says so."""
    import signal
    import subprocess
    import sys
    import time

    large = tmp_path / "day.toml"
    more = (demo / "day.toml").read_text("utf-8").replace("jars = 14", "jars = 25")
    large.write_text(more.replace("19:00", "24:00"), "utf-8")
    kitchen = (demo / "kitchen.toml").read_text("utf-8")
    (tmp_path / "kitchen.toml").write_text(kitchen.replace("19:00", "24:00"), "utf-8")
    words = [sys.executable, "-m", "stillroom", "plan", str(large), "--json", "--time-limit", "90"]
    begun = time.monotonic()
    with subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8"
    ) as asked:
        time.sleep(4)
        asked.send_signal(signal.SIGINT)
        out, told = asked.communicate(timeout=60)

    assert asked.returncode == 0, told
    assert time.monotonic() - begun < 60
    assert "best plan so far" in told
    answer = json.loads(out)
    assert answer["stopped"] is True
    assert broken_promises(answer, large) == []


def test_a_terminal_hears_of_the_first_plan_and_of_each_earlier_finish_once(
    demo: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from stillroom.cli.follow import _teller
    from stillroom.day.read import read_day
    from stillroom.day.solver import Progress

    tell = _teller(read_day(demo / "day.toml"))
    tell(Progress("first plan", 600, 0, 0.01))
    tell(Progress("finish", 540, 300, 1.5))
    tell(Progress("waiting", 540, 0, 2.5))

    lines = capsys.readouterr().err.splitlines()
    assert lines == [
        "   0.0 s  first plan: done by 17:00",
        "   1.5 s  better plan: done by 16:00, none before 12:00",
    ]
