"""What a kitchen file tells of its burners and canners, and what that does to a day."""

from pathlib import Path

from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day
from tests.day.test_impossible import changed, written

TIMED = """holds = { quart = 7, pint = 9 }

[[canner.timed]]
jar = "pint"
jars = 9
pack = "hot"
liquid = true
heat = 25
come_up = 14
cool = 40
"""


def planned(folder: Path, *, top: str = "", canner: str = "") -> Plan:
    """Nine pints of snap beans in a small kitchen, by dial gauge at 500 ft."""
    day = written(folder, jars=9)
    changed(day, "kitchen.toml", "burners = 2", f"burners = 2\n{top}")
    if canner:
        changed(day, "kitchen.toml", "holds = { quart = 7, pint = 9 }\n", canner)
    plan = plan_day(read_day(day), time_limit=10)
    assert isinstance(plan, Plan)
    return plan


def length(plan: Plan, phase: str) -> int:
    return next(p.end - p.start for p in plan.loads[0].phases if p.name == phase)


def test_a_weak_burner_makes_a_long_day_and_venting_stays_ten_minutes(tmp_path: Path) -> None:
    weak = planned(tmp_path, top='burner_kind = "gas"\nburner_power = "7,000 Btu/h"')
    strong = planned(tmp_path, top='burner_kind = "induction"\nburner_power = "3,000 W"')

    assert weak.finish > strong.finish
    assert length(weak, "vent") == length(strong, "vent") == 10
    assert length(weak, "wait") == length(strong, "wait") == 10
    # The published process is what it is: snap beans, pints, 20 min (AIB-539 Guide 4 p. 4-8).
    assert length(weak, "process") == length(strong, "process") == 20


def test_a_burner_too_weak_is_warned_of_and_published_minutes_stand_in(tmp_path: Path) -> None:
    """900 W of gas put some 380 W into the pot, less than a canner loses at 240 F."""
    plan = planned(tmp_path, top='burner_kind = "gas"\nburner_power = "900 W"')
    told = {entry.phase: entry for entry in plan.loads[0].lengths}

    assert any("may never bring 9 pint jars to 11 lb" in w for w in plan.warnings)
    assert any("the published 20 min for warming" in w for w in plan.warnings)
    assert (told["heat"].minutes, told["heat"].basis) == (15, "published")
    assert (length(plan, "heat"), length(plan, "come-up"), length(plan, "cool")) == (15, 5, 30)
    assert plan.likely.p50 <= plan.likely.p90


def test_a_timed_run_moves_the_plan_and_is_told(tmp_path: Path) -> None:
    """Twenty-five and fourteen minutes where about ten and six were thought: the plan follows."""
    silent, timed = planned(tmp_path), planned(tmp_path, canner=TIMED)
    told = {entry.phase: entry for entry in timed.loads[0].lengths}

    assert length(timed, "heat") + length(timed, "come-up") > (
        length(silent, "heat") + length(silent, "come-up")
    )
    assert told["heat"].source == "timed runs: 1"
    assert timed.stand_ins[0].endswith("all corrected by 1 timed run")
    assert silent.stand_ins[0].startswith("canner: burner 2,550 W")


def test_pints_in_thin_air_come_up_longer_than_by_the_sea(tmp_path: Path) -> None:
    low = planned(tmp_path)
    day = written(tmp_path, jars=9, elevation="7,500 ft")
    high = plan_day(read_day(day), time_limit=10)
    assert isinstance(high, Plan)

    assert length(high, "come-up") + length(high, "cool") > (
        length(low, "come-up") + length(low, "cool")
    )
