"""The first page: what matters today."""

from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

import pytest
from fastapi.testclient import TestClient

from stillroom.store.days import add_day, save_plan
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe
from tests.household import recipe_documents
from tests.web.filling import filled

NOW = datetime(2026, 10, 17, 9, 30).astimezone()
KITCHEN: dict[str, Any] = {
    "name": "Ridge kitchen (invented)",
    "elevation": "5,430 ft",
    "burners": 4,
    "canner": [
        {
            "name": "tall canner",
            "method": "dial-gauge",
            "holds": {"quart": 7},
            "care": {
                "gauge_tested": "2026-06-01", "gasket_checked": "2026-06-01",
                "vent_checked": "2026-06-01", "plug_checked": "2026-06-01",
                "rack_checked": "2026-06-01",
            },
        }
    ],
}  # fmt: skip
DAY = {
    "date": "2026-10-17",
    "start": "8:00",
    "finish_by": "18:00",
    "order": [{"recipe": "snap-beans", "jars": 7, "jar": "quart"}],
}


def _step(start: str, end: str, what: str) -> dict[str, object]:
    at = "2026-10-17T"
    return {"start": f"{at}{start}:00", "end": f"{at}{end}:00", "who": "Marit", "what": what,
            "load": 1}  # fmt: skip


PLAN = {
    "finish": "2026-10-17T11:40:00",
    "status": "optimal",
    "said": {
        "steps": [
            _step("08:00", "08:40", "Trim beans"),
            _step("09:10", "09:35", "Fill the tall canner"),
            _step("09:40", "09:50", "Vent"),
            _step("10:00", "10:25", "Time the process"),
        ]
    },
}


@pytest.fixture(autouse=True)
def clock(client: TestClient) -> None:
    _set(client, NOW)


def _set(client: TestClient, moment: datetime) -> None:
    state = client.app.state  # type: ignore[attr-defined]
    state.settings = replace(state.settings, now=lambda: moment)


def _keep(store: Store, *, kitchen: dict[str, Any] | None = None, **day: object) -> str:
    with store.write() as session:
        save_kitchen(session, kitchen or KITCHEN, version=0, at=NOW, who="Marit")
        return add_day(session, {**DAY, **day}, at=NOW, who="Marit", title="Bean day").key


def _plan(store: Store, key: str) -> None:
    with store.write() as session:
        save_plan(session, key, PLAN, day_version=1, kitchen_version=1, recipes_version=0, at=NOW)


def test_a_newcomers_first_form_asks_food_and_elevation_and_leads_to_the_food(
    client: TestClient,
) -> None:
    page = client.get("/").text
    form = filled(page, "/foods")

    assert set(form) == {"food", "elevation"}
    asked = client.get("/foods", params={"food": "green beans", "elevation": "5,430 ft"})
    assert asked.headers["location"].startswith("/foods/green%20beans?elevation=")
    assert page.index("Ask for a food") < page.index("Write your kitchen down")
    assert page.index("Write your kitchen down") < page.index("Plan a day")


def test_once_the_kitchen_is_known_the_elevation_is_not_asked_again(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, at=NOW, who="Marit")

    assert set(filled(client.get("/").text, "/foods")) == {"food"}


def test_on_the_day_the_steps_stand_by_the_clock(client: TestClient, store: Store) -> None:
    _plan(store, _keep(store))

    page = client.get("/").text
    going, ahead = page.split("By the plan, now")[1].split("Next</h3>")

    assert "Fill the tall canner" in going
    assert "until 9:35" in going
    assert "Trim beans" not in page
    assert ahead.index("Vent") < ahead.index("Time the process")
    assert "The gauge, the weight and the boil decide" in page


def test_after_the_last_step_the_plan_is_over(client: TestClient, store: Store) -> None:
    _plan(store, _keep(store))
    _set(client, NOW + timedelta(hours=3))

    assert "By the plan all is done" in client.get("/").text


def test_steps_of_a_plan_that_no_longer_holds_are_not_shown(
    client: TestClient, store: Store
) -> None:
    """Its times and pressures may be for another elevation."""
    _plan(store, _keep(store))
    moved = {**KITCHEN, "elevation": "900 ft"}
    with store.write() as session:
        save_kitchen(session, moved, version=1, at=NOW, who="Marit")

    page = client.get("/").text

    assert "Fill the tall canner" not in page
    assert "something changed since it was planned" in page


def test_a_day_without_a_plan_wants_one(client: TestClient, store: Store) -> None:
    _keep(store, date="2026-10-24")

    page = client.get("/").text

    assert "Bean day is not planned yet" in page
    assert "Saturday 24 October 2026" in page


def test_a_gauge_past_its_year_is_told_per_usda_guide_1(client: TestClient, store: Store) -> None:
    """AIB-539 Guide 1: dial gauges are checked each year."""
    _keep(store)
    assert "yearly test" not in client.get("/").text

    _set(client, NOW + timedelta(days=365))

    assert "The dial gauge of tall canner is due for its yearly test" in client.get("/").text


def test_a_recipe_that_a_rule_forbids_is_told_with_the_day_it_is_for(
    client: TestClient, store: Store
) -> None:
    """AIB-539 Guide 4, soups: no flour or other thickener before canning."""
    recipe = recipe_documents()["barred"]
    with store.write() as session:
        slug = add_recipe(session, recipe, "", at=NOW, who="Marit").slug
    _keep(store, order=[{"recipe": slug, "jars": 4, "jar": "pint"}])

    page = client.get("/").text

    assert "Thick soup (invented), for Bean day: a published rule forbids it" in page
    assert f'href="/recipes/{slug}/check"' in page


def test_what_is_odd_in_a_kept_document_does_not_hide_the_rest(
    client: TestClient, store: Store
) -> None:
    """As the JSON interface or an import may keep it."""
    _keep(store, order=[{"recipe": 7}, "x", {"recipe": "nobody-knows"}])

    page = client.get("/")

    assert page.status_code == 200
    assert "nobody-knows" in page.text


def test_a_day_without_a_name_is_told_by_its_date_in_words(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, at=NOW, who="Marit")
        made = add_day(session, DAY, at=NOW, who="Marit")

    page = client.get("/").text

    assert f"{made.date:%a} {made.date.day if made.date else ''}" in page
    assert f"{made.key} is not planned yet" not in page
