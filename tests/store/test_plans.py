"""A plan is kept as it was answered, and told as out of date once what it rests on changed."""

from collections.abc import Callable
from typing import Any

import pytest
from sqlalchemy import update
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.store.days import (
    add_day,
    change_day,
    days,
    plan_file,
    plan_of,
    remove_day,
    save_plan,
)
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.lines import plan_lines
from stillroom.store.recipes import add_recipe, change_recipe
from stillroom.store.tables import PlanRow
from tests.store.made import BY, DAY, KITCHEN, RECIPE, later

ANSWER: dict[str, Any] = {"status": "optimal", "loads": [{"pressure_psi": 13}], "warnings": []}
KEY = "2026-10-17"


@pytest.fixture
def planned(store: Store) -> Store:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)
        add_recipe(session, RECIPE, "", **BY)
        add_recipe(session, {"title": "Another"}, "", **BY)
        add_day(session, DAY, **BY)
        _plan(session, files={"pdf": b"%PDF", "chart": b"<svg/>"}, why={"trades": []})
    return store


def _plan(session: Session, minutes: float = 1, kitchen: int = 1, **more: Any) -> None:
    at = later(minutes)["at"]
    versions: dict[str, Any] = {"day_version": 1, "kitchen_version": kitchen, "recipes_version": 1}
    save_plan(session, KEY, ANSWER, **versions, at=at, **more)


def test_a_plan_comes_back_with_its_reasons_and_files(planned: Store) -> None:
    with planned.read() as session:
        plan = plan_of(session, KEY)

        assert plan
        assert (plan.answer, plan.why, plan.files) == (ANSWER, {"trades": []}, ("chart", "pdf"))
        assert plan.current
        assert plan.made_at == later(1)["at"]
        assert plan_file(session, KEY, "pdf") == b"%PDF"
        assert plan_file(session, KEY, "people") is None
        assert [line.planned_at for line in days(session)] == [plan.made_at]


def test_the_newest_plan_counts_and_older_answers_are_kept(planned: Store) -> None:
    with planned.write() as session:
        _plan(session, 5, files={"people": b"%PDF2"})

        plan = plan_of(session, KEY)

        assert plan
        assert (plan.made_at, plan.why, plan.files) == (later(5)["at"], None, ("people",))
        assert plan_file(session, KEY, "pdf") is None
        assert session.query(PlanRow).count() == 2


@pytest.mark.parametrize(
    "change",
    [
        lambda s: change_day(s, KEY, DAY | {"start": "7:00"}, version=1, **later(2)),
        lambda s: save_kitchen(s, KITCHEN | {"elevation": "0 ft"}, version=1, **later(2)),
        lambda s: change_recipe(s, "carrots-of-the-garden", RECIPE, version=1, **later(2)),
    ],
    ids=["day", "kitchen", "recipe"],
)
def test_a_plan_is_out_of_date_once_what_it_rests_on_changed(
    planned: Store, change: Callable[[Session], object]
) -> None:
    """Another elevation asks for another pressure: the old figure must not be taken for today's."""
    with planned.write() as session:
        change(session)

        plan = plan_of(session, KEY)

    assert plan
    assert not plan.current


def test_a_recipe_changed_while_the_clock_stands_wrong_makes_its_plan_old(planned: Store) -> None:
    """A clock that was set back says of a later change that it came first."""
    with planned.write() as session:
        change_recipe(session, "carrots-of-the-garden", RECIPE, version=1, **later(-60))

        plan = plan_of(session, KEY)

    assert plan
    assert not plan.current


def test_a_plan_made_from_other_tables_is_out_of_date(planned: Store) -> None:
    """A printed figure that a newer Stillroom corrects must not go on standing in a plan."""
    with planned.write() as session:
        session.execute(update(PlanRow).values(tables="of an older Stillroom"))

        plan = plan_of(session, KEY)

        assert plan
        assert not plan.current
        assert not plan_lines(session)[KEY].current


def test_a_change_of_a_recipe_that_is_not_in_the_day_leaves_its_plan(planned: Store) -> None:
    with planned.write() as session:
        change_recipe(session, "another", {"title": "More"}, version=1, **later(2))

        plan = plan_of(session, KEY)

    assert plan
    assert plan.current


def test_a_plan_made_from_an_older_kitchen_is_out_of_date_at_once(planned: Store) -> None:
    """The kitchen may be changed while the solver works."""
    with planned.write() as session:
        save_kitchen(session, KITCHEN | {"elevation": "0 ft"}, version=1, **later(2))
        _plan(session, 3)

        plan = plan_of(session, KEY)

    assert plan
    assert not plan.current


def test_a_canner_that_was_looked_at_makes_no_plan_old_but_another_canner_does(
    planned: Store,
) -> None:
    canner = {"name": "big canner", "method": "dial-gauge", "holds": {"quart": 7}}
    looked_at = canner | {"care": {"gauge_tested": "2026-06-01"}}
    states = [[canner], [looked_at], [canner], [looked_at | {"holds": {"quart": 5}}], [looked_at]]
    with planned.write() as session:
        current = []
        for version, canners in enumerate(states, 1):
            save_kitchen(session, KITCHEN | {"canner": canners}, version=version, **later(version))
            if version == 1:
                _plan(session, 1, kitchen=2)
            plan = plan_of(session, KEY)
            assert plan
            assert plan_lines(session)[KEY].current == plan.current
            current.append(plan.current)

    assert current == [True, True, True, False, False]


def test_an_unplanned_day_has_no_plan(planned: Store) -> None:
    with planned.write() as session:
        other = add_day(session, {"order": "beans"}, **BY)

        assert plan_of(session, other.key) is None
        assert plan_of(session, "2026-01-01") is None
        assert plan_file(session, other.key, "pdf") is None
        with pytest.raises(InputError, match='no day "2026-01-01"'):
            save_plan(
                session,
                "2026-01-01",
                {},
                day_version=1,
                kitchen_version=1,
                recipes_version=0,
                at=BY["at"],
            )


def test_a_day_of_odd_orders_keeps_its_plan(planned: Store) -> None:
    """Documents are kept as they come; the readers complain, not the store."""
    with planned.write() as session:
        for orders in ("beans", ["beans"], [{"recipe": 7}], {"recipe": "x"}, None, 5):
            odd = add_day(session, {"order": orders}, **BY)
            made = save_plan(
                session,
                odd.key,
                {"infeasible": {}},
                day_version=1,
                kitchen_version=1,
                recipes_version=0,
                at=BY["at"],
            )
            assert made.current
            remove_day(session, odd.key, **BY)
