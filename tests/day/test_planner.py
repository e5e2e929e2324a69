"""What a plan tells beyond its figures."""

from pathlib import Path

from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day

AWAY = """
name = "Small kitchen (invented)"
elevation = "500 ft"
burners = 3

[[canner]]
name = "kettle"
method = "boiling-water"
holds = { quart = 7, pint = 9 }

[[person]]
name = "Marit"
hours = ["7:00 to 9:05", "15:00 to 18:00"]
"""


def test_jars_that_nobody_is_there_to_lift_out_are_told(tmp_path: Path) -> None:
    """One load is over by five past nine; nobody is back before three in the afternoon."""
    (tmp_path / "kitchen.toml").write_text(AWAY, encoding="utf-8")
    (tmp_path / "day.toml").write_text(
        'date = 2026-10-17\nkitchen = "kitchen.toml"\nstart = "7:00"\nfinish_by = "18:00"\n'
        '[[order]]\nrecipe = "dilled-beans"\njars = 4\njar = "pint"\n',
        encoding="utf-8",
    )

    plan = plan_day(read_day(tmp_path / "day.toml"), time_limit=10)

    assert isinstance(plan, Plan)
    (load,) = plan.loads
    assert load.end == 15 * 60 + 10
    assert load.held > 4 * 60
    (told,) = [one for one in plan.warnings if "free to lift them only at 15:00" in one]
    assert "common practice" in told
