"""Why a plan is so: the chain that holds it, and figures that are differences of solved plans."""

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from stillroom.day.model import Day
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day
from stillroom.day.solver import Control
from stillroom.day.why import why
from stillroom.day.why.chain import binds, chain
from stillroom.units.clock import clock, lasting
from tests.day.test_impossible import written

SOUP = """
[[order]]
recipe = "garden-chicken-soup"
jars = 4
jar = "pint"
"""


def planned(day: Day) -> Plan:
    plan = plan_day(day, time_limit=20)
    assert isinstance(plan, Plan)
    return plan


@pytest.fixture
def beans_and_soup(tmp_path: Path) -> Day:
    """Four pints of each for one canner: 20 min and 60 min, both at 11 lb, both hot."""
    file = written(tmp_path, jars=4, until="18:00", burners=4)
    file.write_text(file.read_text("utf-8") + SOUP, "utf-8")
    return replace(read_day(file), most_extra=60)


def test_one_load_is_a_chain_of_its_own_steps(tmp_path: Path) -> None:
    plan = planned(read_day(written(tmp_path, jars=9)))

    links = chain(plan)

    assert [link.what.partition(":")[0] for link in links] == [
        "Prepare",
        "Heat and keep hot",
        "load 1",
        "Unload",
    ]
    assert links[0].start == plan.start
    assert links[-1].end == plan.finish
    assert sum(minutes for _, minutes in binds(links)) == plan.finish - plan.start


def test_two_loads_of_one_canner_hold_each_other(tmp_path: Path) -> None:
    """Between the first filling and the last unloading the canner is never without a load."""
    plan = planned(read_day(written(tmp_path, jars=18, until="18:00")))

    links = chain(plan)

    assert [link.holds for link in links].count("canner") == 2
    assert all(earlier.end == later.start for earlier, later in pairwise(links))


def test_mixing_is_priced_against_the_solved_plan_without_it(beans_and_soup: Day) -> None:
    plan = planned(beans_and_soup)
    assert len(plan.loads) == 1
    apart = planned(replace(beans_and_soup, most_extra=0))

    told = why(plan).trades[0]

    assert told.startswith("Mixing")
    assert f"saves 1 load and {lasting(apart.finish - plan.finish)}." in told
    assert "Snap beans, hot pack is processed 40 min longer than published" in told
    assert "which changes taste only" in told
    assert len(apart.loads) == 2


def test_mixing_that_the_day_does_not_allow_is_offered_with_its_price(beans_and_soup: Day) -> None:
    plan = planned(replace(beans_and_soup, most_extra=20))
    mixed = planned(beans_and_soup)

    told = next(line for line in why(plan).trades if "most_extra_minutes" in line)

    assert "most_extra_minutes = 40" in told
    assert f"saves 1 load and {lasting(plan.finish - mixed.finish)} against this plan" in told
    assert "processed 40 min longer than published" in told


def test_what_another_canner_buys_is_what_a_plan_with_it_finds(tmp_path: Path) -> None:
    day = read_day(written(tmp_path, jars=18, until="18:00"))
    plan = planned(day)
    (canner,) = day.kitchen.canners
    two = replace(
        day.kitchen,
        canners=(canner, replace(canner, name="second")),
        burners=3,
        canner_burners=3,
    )
    richer = planned(replace(day, kitchen=two))

    told = why(plan).more

    assert told[0] == (
        f"Another dial-gauge canner, with a burner for it: done by {clock(richer.finish)}, "
        f"{lasting(plan.finish - richer.finish)} earlier (proved)."
    )
    assert any(re.match(r"Another burner: no earlier finish \(proved\)", line) for line in told)


def test_an_explanation_that_is_stopped_still_tells_the_chain(beans_and_soup: Day) -> None:
    plan = planned(beans_and_soup)
    stopped = Control()
    stopped.stop.set()

    answer = why(plan, control=stopped)

    assert answer.links
    assert answer.more == ()


def test_aims_that_put_the_finish_last_are_traded_too(beans_and_soup: Day) -> None:
    """The first two aims change places; the finish, which is neither, is no part of the sentence.

    Shared loads are forbidden by the aim that comes first, and that costs heat: two runs for one.
    """
    day = replace(
        beans_and_soup,
        aims=("extra processing", "hot hours", "waiting", "tidy work", "finish"),
    )
    plan = planned(day)
    assert len(plan.loads) == 2

    told = why(plan).trades[-1]

    assert re.fullmatch(
        r"Hot hours before extra processing: .* less of hot hours, "
        r"40 min more of extra processing\.",
        told,
    )
