"""Planning again in kitchens of canners alike: which canner, which order and which pot is which."""

import json
from pathlib import Path
from typing import Any

import pytest

from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day
from stillroom.day.told import plan_json
from stillroom.units.clock import clock
from tests.day.plan_checker import complaints
from tests.day.test_replan import KITCHEN, again, at, middle, saved

ONE_LOAD_EACH = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "venison-cubes"
jars = 4
jar = "quart"
canners = ["first"]

[[order]]
recipe = "chicken-stock"
jars = 7
jar = "quart"
"""


def alike(folder: Path, *, canners: tuple[str, ...], day: str) -> Path:
    """A day in a kitchen of canners that differ in nothing but their names, with its plan."""
    kitchen = KITCHEN.partition("[[canner]]")[0] + "".join(
        f'[[canner]]\nname = "{name}"\nmethod = "weighted-gauge"\n'
        "holds = { quart = 7, pint = 4 }\n"
        for name in canners
    )
    kitchen += '[[person]]\nname = "Marit"\n[[person]]\nname = "Jonas"\n'
    (folder / "kitchen.toml").write_text(kitchen, "utf-8")
    (folder / "day.toml").write_text(day, "utf-8")
    plan = plan_day(read_day(folder / "day.toml"), time_limit=20)
    assert isinstance(plan, Plan)
    assert plan.optimal
    (folder / "plan.json").write_text(json.dumps(plan_json(plan)), "utf-8")
    return folder


def test_of_two_canners_alike_the_empty_one_takes_what_is_left(tmp_path: Path) -> None:
    """The venison runs in the first; the stock need not wait for it while the second is empty."""
    folder = alike(tmp_path, canners=("first", "second"), day=ONE_LOAD_EACH)
    plan = saved(folder)
    venison = next(x for x in plan["loads"] if x["jars"][0]["recipe"] == "venison-cubes")
    # Afterwards either canner would do for any order: the two are alike.
    free = ONE_LOAD_EACH.replace('canners = ["first"]\n', "")
    (folder / "day.toml").write_text(free, "utf-8")

    now = at(plan, venison["number"], "heat", "end")[11:16]
    rest = again(folder, f'now = "{now}"\nplan = "plan.json"')

    stock = next(x for x in rest["loads"] if x["jars"][0]["recipe"] == "chicken-stock")
    assert stock["canner"] == "second"
    assert rest["finish"] == plan["finish"]


TWO_LOADS = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "venison-cubes"
jars = 8
jar = "pint"
"""


def test_a_canner_is_not_filled_while_it_is_being_unloaded(tmp_path: Path) -> None:
    """The first load is late and half unloaded; the meat of the second is cut already."""
    folder = alike(tmp_path, canners=("only",), day=TWO_LOADS)
    plan = saved(folder)
    first, second = (x["number"] for x in plan["loads"])
    out = at(plan, first, "unload", "start")[11:16]
    minute = int(out[:2]) * 60 + int(out[3:]) + 15 + 3

    rest = again(
        folder,
        f'now = "{clock(minute)}"\nplan = "plan.json"\n'
        f'[[load]]\nnumber = {first}\nlate = 15\n[[load]]\nnumber = {second}\nstate = "cut"\n',
    )

    assert complaints(rest, {"only": {"quart": 7, "pint": 4}}) == []


TWICE = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "chicken-stock"
jars = 4
jar = "quart"
not_before = "8:00"

[[order]]
recipe = "chicken-stock"
jars = 4
jar = "pint"
not_before = "9:00"
"""


def test_of_two_pots_of_one_recipe_each_stays_on(tmp_path: Path) -> None:
    """Stock in quarts and in pints, a pot of each: at 9:30 both are on heat and stay there."""
    folder = alike(tmp_path, canners=("first", "second"), day=TWICE)
    plan = saved(folder)
    on = [t for t in plan["tasks"] if t["name"] == "Cook and keep hot"]
    assert [t["start"][11:16] < "09:30" < t["end"][11:16] for t in on] == [True, True]

    rest = again(folder, 'now = "9:30"\nplan = "plan.json"')

    assert _cutting(rest) == _cutting(plan)
    assert rest["finish"] == plan["finish"]


SAME_JARS = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "venison-cubes"
jars = 4
jar = "pint"
not_before = "9:00"

[[order]]
recipe = "venison-cubes"
jars = 3
jar = "pint"
done_by = "12:00"
"""


def test_of_two_orders_alike_the_one_that_was_filled_is_done(tmp_path: Path) -> None:
    """The three jars that had to be out by noon are running; the four are still to come."""
    folder = alike(tmp_path, canners=("only",), day=SAME_JARS)
    plan = saved(folder)
    assert [x["jars"][0]["count"] for x in plan["loads"]] == [3, 4]

    rest = again(folder, f'now = "{middle(plan, 1)}"\nplan = "plan.json"')

    assert [x["jars"][0]["count"] for x in rest["loads"]] == [3, 4]
    assert rest["finish"] == plan["finish"]


ALONE = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "peaches"
jars = 8
jar = "pint"
"""


def test_whoever_fills_the_next_load_unloads_the_one_before(tmp_path: Path) -> None:
    """A pot takes 15 min and goes on 5 min before the canner is opened, 15 before it is filled."""
    folder = alike(tmp_path, canners=("only",), day=ALONE)
    kitchen = (
        (folder / "kitchen.toml").read_text("utf-8").replace("weighted-gauge", "boiling-water")
    )
    (folder / "kitchen.toml").write_text(
        kitchen.partition('[[person]]\nname = "Jonas"')[0], "utf-8"
    )
    first = plan_day(read_day(folder / "day.toml"), time_limit=20)
    assert isinstance(first, Plan)
    (folder / "plan.json").write_text(json.dumps(plan_json(first)), "utf-8")
    plan = saved(folder)
    pot = max(t["start"] for t in plan["tasks"] if t["name"] == "Heat and keep hot")
    assert pot < at(plan, 1, "unload", "start")

    rest = again(folder, f'now = "{pot[11:16]}"\nplan = "plan.json"')

    assert all(t["who"] == ["Marit"] for t in rest["tasks"] if t["where"] == "only")
    assert rest["finish"] == plan["finish"]


SHARED = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "snap-beans"
jars = 2
jar = "pint"

[[order]]
recipe = "carrots"
jars = 2
jar = "pint"
"""


def test_cutting_for_a_shared_load_is_one_piece_of_work(tmp_path: Path) -> None:
    folder = alike(tmp_path, canners=("only",), day=SHARED)
    plan = saved(folder)
    (cut,) = (t for t in plan["tasks"] if t["name"] == "Prepare")
    assert "+" in cut["recipe"]

    rest = again(
        folder,
        f'now = "{cut["end"][11:16]}"\nplan = "plan.json"\n[[load]]\nnumber = 1\n'
        'state = "cut"\nlate = 2\n',
    )

    (still,) = (t for t in rest["tasks"] if t["name"] == "Prepare")
    assert (still["recipe"], still["who"]) == (cut["recipe"], cut["who"])
    assert complaints(rest, {"only": {"quart": 7, "pint": 4}}) == []


BEANS = """
date = 2026-10-17
kitchen = "kitchen.toml"
start = "7:00"
finish_by = "22:00"

[[order]]
recipe = "snap-beans"
jars = 8
jar = "pint"
"""


def test_what_is_not_cut_yet_for_a_begun_load_is_still_to_be_cut(tmp_path: Path) -> None:
    """Four pints are being cut when a larger canner is found: all eight go into it together.

    Asked once more before the other four are cut, the plan still has their cutting.
    """
    folder = alike(tmp_path, canners=("only",), day=BEANS)
    first = saved(folder)
    begun = next(t for t in first["tasks"] if t["name"] == "Prepare")
    kitchen = (folder / "kitchen.toml").read_text("utf-8")
    (folder / "kitchen.toml").write_text(kitchen.replace("pint = 4", "pint = 8"), "utf-8")
    now = f'now = "{clock(_minute(begun["start"]) + 5)}"\n'
    once = again(folder, f'{now}plan = "plan.json"')
    assert len(once["loads"]) == 1
    assert len(_cutting(once)) == 2
    (folder / "once.json").write_text(json.dumps(once), "utf-8")

    twice = again(folder, f'{now}plan = "once.json"')

    assert _cutting(twice) == _cutting(once)
    assert twice["finish"] == once["finish"]


def _cutting(plan: dict[str, Any]) -> list[tuple[list[str], str, str]]:
    """Who cuts, from when to when."""
    return [(t["who"], t["start"], t["end"]) for t in plan["tasks"] if t["name"] == "Prepare"]


def _minute(text: str) -> int:
    return int(text[11:13]) * 60 + int(text[14:16])


@pytest.mark.parametrize("minutes", [5, 30])
def test_a_pot_that_is_begun_stays_begun_however_often_one_asks(
    tmp_path: Path, minutes: int
) -> None:
    """While the bones are cut, and while the stock simmers: asked twice, the pot is not late."""
    folder = alike(tmp_path, canners=("first", "second"), day=TWICE)
    plan = saved(folder)
    cut = next(t for t in plan["tasks"] if t["name"] == "Prepare")
    cook = next(t for t in plan["tasks"] if t["name"] == "Cook and keep hot")
    begun = _minute(cut["start"])
    once = again(folder, f'now = "{clock(begun + minutes)}"\nplan = "plan.json"')
    (folder / "once.json").write_text(json.dumps(once), "utf-8")

    twice = again(folder, f'now = "{clock(begun + minutes + 5)}"\nplan = "once.json"')

    assert twice["finish"] == once["finish"] == plan["finish"]
    told = [t for t in twice["tasks"] if t["order"] == cut["order"]]
    assert [(t["name"], t["start"]) for t in told] == [
        ("Prepare", cut["start"]),
        ("Cook and keep hot", cook["start"]),
    ]
