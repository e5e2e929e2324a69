"""A day planned through the pages, scripts off: followed, stopped, shown, asked about, made anew.

The household, its canners and its days are invented; the figures are the tables' own.
"""

import time
import tomllib
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from fastapi.testclient import TestClient

from benchmarks.pages.household import kitchen_document
from stillroom import cli
from stillroom.store.days import add_day, change_day, day, plan_of
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.tasks import begin_task
from stillroom.web.app import create_app
from stillroom.web.settings import Settings
from stillroom.web.views.days_plan import shown_plan
from stillroom.web.work.desk import close_desk
from tests.web.days_sent import sent

AT = datetime(2026, 10, 14, 17, 30, tzinfo=UTC)
KEY = "2026-10-17"
DAY: dict[str, Any] = {
    "date": KEY,
    "start": "8:00",
    "finish_by": "18:00",
    "order": [{"recipe": "dilled-beans", "jars": 8, "jar": "pint"}],
}
# Longer than anything here takes, on a machine that is busy with other work.
LONG = 120.0


@pytest.fixture(scope="module")
def store(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    made = open_store(Path(tmp_path_factory.mktemp("store")) / "stillroom.sqlite3")
    with made.write() as session:
        save_kitchen(session, kitchen_document(), version=0, at=AT, who="Marit")
        add_day(session, DAY, at=AT, who="Marit", title="Bean day")
        short = {**DAY, "date": "2026-10-18", "finish_by": "8:30"}
        add_day(session, short, at=AT, who="Marit")
        lost = add_day(session, {**DAY, "date": "2026-10-19"}, at=AT, who="Marit")
        begin_task(
            session, lost.key, "plan", made_for={"day": 1, "kitchen": 1, "recipes": 0}, at=AT
        )
    yield made
    made.close()


@pytest.fixture(scope="module")
def client(store: Store) -> Iterator[TestClient]:
    settings = Settings()
    address = f"http://localhost:{settings.port}"
    app = create_app(store, settings)
    with TestClient(
        app,
        base_url=address,
        headers={"Origin": address},
        client=("127.0.0.1", 50000),
        follow_redirects=False,
    ) as made:
        yield made
    close_desk(app)


def settled(client: TestClient, key: str) -> dict[str, Any]:
    """What the page's script hears once nothing of the day is under way."""
    until = time.monotonic() + LONG
    while time.monotonic() < until:
        news: dict[str, Any] = client.get(f"/days/{key}/plan/news.json").json()
        if not news["planning"] and not news["waiting"]:
            return news
        time.sleep(0.05)
    raise AssertionError("it goes on")


@pytest.fixture(scope="module")
def planned(client: TestClient) -> str:
    """The day's plan page, once it has a plan."""
    answer = sent(client, f"/days/{KEY}/plan", {}, seen=f"/days/{KEY}")
    assert answer.status_code == 303
    settled(client, KEY)
    return client.get(f"/days/{KEY}/plan").text


def test_the_plan_shows_minutes_headspace_and_source_of_each_load(planned: str) -> None:
    """Dilled beans, pints, above 1,000 to 6,000 ft: 10 min, headspace 1/2 in (2015 guide 6)."""
    assert "<b>10</b> min" in planned
    assert "boiling" in planned
    assert "headspace ½ in" in planned
    assert "Guide 6" in planned


def test_lists_name_recipes_as_the_household_does(planned: str) -> None:
    lists = planned.split('id="lists"')[1]

    assert "(Dilled beans)" in lists
    assert "(dilled-beans)" not in lists


def test_a_plan_that_more_likely_than_not_ends_too_late_says_so(store: Store, planned: str) -> None:
    """The day is asked to end at 18:00; half of such days end by what the plan itself tells."""
    with store.read() as session:
        plan = plan_of(session, KEY)
    assert plan
    shown = shown_plan(plan)
    half = plan.answer["finish_p50"][11:16]

    assert "More likely than not" not in planned
    assert not shown.late(half)
    assert shown.late("8:30")
    assert not shown.late("")


def test_the_drawing_has_a_row_for_each_canner_in_use_each_person_and_each_burner(
    planned: str,
) -> None:
    rows = [
        piece.partition('<span class="tt-name">')[2].partition("<")[0]
        for piece in planned.split('class="tt-row tt-')[2:]
    ]

    assert rows[:3] == ["water bath", "Marit", "Jonas"]
    assert set(rows[3:]) <= {"burner 1", "burner 2", "burner 3", "burner 4"}
    assert "start timing 10 min" in planned  # and the same by the clock


def test_sheets_and_calendar_are_files_of_their_kind(client: TestClient, planned: str) -> None:
    sheet = client.get(f"/days/{KEY}/print.pdf")
    people = client.get(f"/days/{KEY}/people.pdf")
    calendar = client.get(f"/days/{KEY}/calendar.ics")

    assert sheet.content.startswith(b"%PDF") and people.content.startswith(b"%PDF")
    assert sheet.headers["content-type"] == "application/pdf"
    assert calendar.content.startswith(b"BEGIN:VCALENDAR")
    assert f'filename="{KEY}.ics"' in calendar.headers["content-disposition"]


def test_what_an_hour_earlier_would_bring_is_told_against_this_plan(
    client: TestClient, planned: str
) -> None:
    """Nobody waits for anything in a day of one load: an hour earlier ends an hour earlier."""
    answer = sent(
        client, f"/days/{KEY}/what-if", {"change": "earlier 60"}, seen=f"/days/{KEY}/plan"
    )
    assert answer.headers["location"] == f"/days/{KEY}/plan#what-if"
    settled(client, KEY)

    page = client.get(f"/days/{KEY}/plan").text

    assert "ends 1 h earlier" in page and "(proved)" in page


def test_why_is_found_once_and_kept(client: TestClient, store: Store, planned: str) -> None:
    sent(client, f"/days/{KEY}/why", {}, seen=f"/days/{KEY}/plan")
    settled(client, KEY)

    with store.read() as session:
        plan = plan_of(session, KEY)
    assert plan is not None and plan.why is not None
    assert "Each waits for the one above it." in client.get(f"/days/{KEY}/plan").text


def test_a_day_without_a_plan_says_why_and_what_would_help(client: TestClient) -> None:
    sent(client, "/days/2026-10-18/plan", {}, seen="/days/2026-10-18")
    settled(client, "2026-10-18")

    page = client.get("/days/2026-10-18/plan").text

    assert "No plan keeps the rules" in page and "What would help" in page
    assert client.get("/days/2026-10-18/print.pdf").status_code == 404
    assert "No plan found" in client.get("/days").text


def test_a_change_that_cannot_be_tried_is_refused_before_the_solver_is_asked(
    client: TestClient, planned: str
) -> None:
    answer = sent(client, f"/days/{KEY}/what-if", {"change": "magic"}, seen=f"/days/{KEY}/plan")

    assert answer.status_code == 422
    assert settled(client, KEY)["waiting"] == 0


def test_reasons_are_not_told_of_a_day_that_was_changed_since(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        stored = day(session, "2026-10-18")
        assert stored is not None
        longer = {**stored.document, "finish_by": "18:00"}
        change_day(session, stored.key, longer, version=stored.version, at=AT, who="Marit")

    assert "No plan keeps the rules" not in client.get("/days/2026-10-18/plan").text
    assert "No plan was found" not in client.get("/days/2026-10-18").text


def test_a_plan_that_was_being_made_when_stillroom_ended_is_told_as_lost(
    client: TestClient,
) -> None:
    page = client.get("/days/2026-10-19/plan").text

    assert "Stillroom was ended while it was being made." in page


def test_the_rest_of_a_day_is_planned_from_how_it_stands(
    client: TestClient, store: Store, planned: str
) -> None:
    """At 8:05 the beans are being cut; the load is said to be 30 minutes late, so it ends later."""
    with store.read() as session:
        before = plan_of(session, KEY)
    assert before is not None

    wrong = sent(client, f"/days/{KEY}/now", {"now": "07:00"})
    answer = sent(
        client, f"/days/{KEY}/now", {"now": "08:05", "load[1].state": "waiting", "load[1].late": ""}
    )
    settled(client, KEY)

    with store.read() as session:
        after = plan_of(session, KEY)
    assert wrong.status_code == 422 and 'href="#now"' in wrong.text
    assert answer.status_code == 303
    assert after is not None and after.answer["now"] == f"{KEY}T08:05:00"
    assert after.answer["finish"] > before.answer["finish"]
    assert "Planned anew at 8:05" in client.get(f"/days/{KEY}/plan").text


def test_a_plan_of_a_day_that_was_changed_since_is_kept_and_said_to_be_old(
    client: TestClient, store: Store, planned: str
) -> None:
    with store.write() as session:
        stored = day(session, KEY)
        assert stored is not None
        changed = {**DAY, "order": [{"recipe": "dilled-beans", "jars": 9, "jar": "pint"}]}
        change_day(session, KEY, changed, version=stored.version, at=AT, who="Jonas")

    page = client.get(f"/days/{KEY}/plan").text

    assert "was changed since this plan was made" in page
    assert "<b>10</b> min" in page
    assert "What if" not in page


def test_a_long_search_is_followed_and_stopped_with_the_best_so_far(
    client: TestClient, store: Store
) -> None:
    demo = tomllib.loads((Path(cli.__file__).parent / "demo" / "day.toml").read_text())
    long = {**DAY, "date": "2026-10-20", "finish_by": "20:00", "order": demo["order"]}
    with store.write() as session:
        big = add_day(session, long, at=AT, who="Marit")
    sent(client, f"/days/{big.key}/plan", {"patience": "long"}, seen=f"/days/{big.key}")
    until = time.monotonic() + LONG
    while time.monotonic() < until:
        news = client.get(f"/days/{big.key}/plan/news.json").json()
        if news["finish"]:
            break
        time.sleep(0.05)
    page = client.get(f"/days/{big.key}/plan").text
    sent(client, f"/days/{big.key}/stop", {}, seen=f"/days/{big.key}/plan")
    settled(client, big.key)

    assert news["planning"] and news["limit"] == 90
    assert '<meta http-equiv="refresh"' in page and "Stop and take the best so far" in page
    with store.read() as session:
        plan = plan_of(session, big.key)
    assert plan is not None and plan.answer["loads"]
    assert plan.current
