"""What is told of a day before it is planned: refusals as in the plan, and bounds that hold."""

from dataclasses import replace
from pathlib import Path

import stillroom
from stillroom.day.fits import fits
from stillroom.day.model import Day
from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day

DEMO = Path(stillroom.__file__).parent / "cli" / "demo" / "day.toml"


def only(*names: str) -> Day:
    day = read_day(DEMO)
    return replace(day, orders=tuple(o for o in day.orders if o.recipe.name in names))


def test_nine_pints_a_load_make_fourteen_pints_two_loads() -> None:
    """The demo kitchen's pressure canners hold nine pints: 9 + 5."""
    (one,) = fits(only("snap-beans")).orders

    assert one.loads == 2
    assert {place.canner for place in one.places} == {"dial canner", "weight canner"}


def test_published_minutes_alone_are_a_bound_that_a_plan_keeps() -> None:
    """Snap beans, hot, pints: 20 min (AIB-539 Guide 4). With load, vent, wait and unload two loads
    on two canners keep each canner 14/9 loads; no plan may be shorter than that."""
    day = only("snap-beans")
    told = fits(day)
    plan = plan_day(day, time_limit=5)

    assert isinstance(plan, Plan)
    one = told.orders[0]
    least = one.order.count * min(p.least for p in one.places) / 9 / 2
    assert plan.finish - plan.start >= least
    assert not told.too_long


def test_a_day_of_half_an_hour_is_too_short_for_a_pressure_canner() -> None:
    day = only("snap-beans")

    assert fits(replace(day, finish_by=day.start + 30)).too_long


def test_an_order_without_a_process_is_refused_in_the_plans_own_words() -> None:
    day = only("snap-beans", "dilled-beans")
    kitchen = replace(
        day.kitchen, canners=tuple(c for c in day.kitchen.canners if c.method == "boiling-water")
    )
    day = replace(day, kitchen=kitchen)

    told, asked = fits(day), make_problem(day)

    assert isinstance(asked, Unplannable)
    assert told.refused == asked.because
    assert told.mend == asked.mend
