"""Days as a household writes them down, through the pages, scripts off."""

import re
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from fastapi.testclient import TestClient

from benchmarks.pages.household import kitchen_document
from stillroom.store.changes import changes
from stillroom.store.days import StoredDay, add_day, day, days, remove_day, save_plan
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe
from stillroom.web.views.days_form import from_document
from stillroom.web.work.desk import close_desk
from tests.web.days_sent import marked, sent

AT = datetime(2026, 10, 14, 17, 30, tzinfo=UTC)
FORM = {
    "date": "2026-10-17",
    "start": "08:00",
    "finish_by": "18:00",
    "title": "Bean day",
    "order[1].recipe": "dilled-beans",
    "order[1].jars": "8",
    "order[1].jar": "pint",
    "do": "save",
}
# Everything that a day file may hold (docs/reference/files.md).
WHOLE: dict[str, Any] = {
    "date": "2026-10-17",
    "start": "8:00",
    "finish_by": "24:00",
    "most_extra_minutes": 10,
    "heat_off_by": "17:00",
    "jars_wait_minutes": 30,
    "aims": ["hot hours", "finish"],
    "prices": {"peaches": "24 per 20 lb"},
    "order": [
        {"recipe": "snap-beans", "jar": "pint", "jars": 14, "canners": ["dial canner"],
         "first": True, "not_before": "9:00", "done_by": "15:00"},
        {"recipe": "dilled-beans", "jar": "pint", "jars": 5},
    ],
    "helper": [
        {"name": "Ada", "hours": ["9:00 to 12:00", "13:00 to 15:00"], "leaves": ["lifting"]}
    ],
    "break": [{"who": ["Ada"], "from": "12:00", "to": "12:30"}, {"from": "15:00", "to": "15:15"}],
    "keep": [{"canner": "water bath", "jars": ["pint"], "recipes": ["dilled-beans"]}],
}  # fmt: skip


@pytest.fixture(autouse=True)
def kitchen(store: Store, client: TestClient) -> Iterator[None]:
    with store.write() as session:
        save_kitchen(session, kitchen_document(), version=0, at=AT, who="Marit")
    yield
    close_desk(client.app)  # type: ignore[arg-type]  # the application under test


def only(store: Store) -> StoredDay:
    with store.read() as session:
        (line,) = days(session)
        found = day(session, line.key)
    assert found is not None
    return found


def typed(document: dict[str, Any]) -> dict[str, Any]:
    """A document as a browser sends its form."""
    return {name: list(values) for name, values in from_document(document).values.items()}


def test_a_day_is_kept_as_a_day_file_would_say_it(client: TestClient, store: Store) -> None:
    answer = sent(client, "/days/new", FORM)

    kept = only(store)
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/days/2026-10-17?changed={kept.change}"
    assert kept.title == "Bean day"
    assert kept.document == {
        "date": "2026-10-17",
        "start": "8:00",
        "finish_by": "18:00",
        "order": [{"recipe": "dilled-beans", "jars": 8, "jar": "pint"}],
    }


def test_everything_a_day_file_may_hold_goes_through_the_form_unchanged(
    client: TestClient, store: Store
) -> None:
    answer = sent(client, "/days/new", {**typed(WHOLE), "do": "save"})

    assert answer.status_code == 303
    assert only(store).document == WHOLE
    again = sent(client, "/days/2026-10-17/edit", {**typed(WHOLE), "do": "save"})
    assert again.status_code == 303
    assert only(store).document == WHOLE


def test_every_slip_is_told_beside_its_field_and_what_was_typed_stays(
    client: TestClient, store: Store
) -> None:
    wrong = {
        **FORM,
        "finish_by": "07:00",
        "order[1].jars": "a few",
        "order[2].recipe": "snap-beans",
        "order[2].jars": "7",
        "order[2].jar": "half-gallon",
        "helper[1].name": "Ada",
        "helper[1].hours": "all morning",
    }

    answer = sent(client, "/days/new", wrong)

    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    for field in ("finish_by", "order-1-jars", "order-2-jar", "helper-1-hours"):
        assert f'href="#{field}"' in answer.text
        assert f'id="{field}-wrong"' in answer.text
    assert 'value="a few"' in answer.text and 'value="all morning"' in answer.text
    with store.read() as session:
        assert days(session) == []


def test_an_empty_form_says_what_it_lacks_in_its_own_words(client: TestClient) -> None:
    answer = sent(client, "/days/new", {"do": "save"})

    assert answer.status_code == 422
    assert "Choose the date of the day." in answer.text
    assert "Choose at least one recipe." in answer.text


def test_rows_come_and_go_without_scripts_and_nothing_typed_is_lost(client: TestClient) -> None:
    more = sent(client, "/days/new", {**FORM, "do": "add-order"})
    two = {**FORM, "order[2].recipe": "applesauce", "order[2].jars": "9", "order[2].jar": "pint"}
    less = sent(client, "/days/new", {**two, "do": "remove-order-1"})

    assert more.status_code == 200
    assert 'name="order[2].recipe"' in more.text and 'value="8"' in more.text
    assert '<option value="applesauce" selected data-jars="pint|quart">' in less.text
    assert 'name="order[2].recipe"' not in less.text


def test_what_a_day_takes_is_shown_before_it_is_kept(client: TestClient) -> None:
    """Eight pints of dilled beans: one load of the water bath, 10 min at 5,430 ft (2015 guide)."""
    part = client.post("/days/draft", data={**FORM, **marked(client, "/days/new")}).text

    assert "<b>8</b> jars" in part and "<b>1</b> load" in part
    assert "lids: 8 new ones needed" in part
    assert "<html" not in part


def test_the_lists_say_a_recipes_title_and_an_unfinished_one_is_marked(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        add_recipe(session, {"title": "Aunt's stew"}, "Aunt's stew", at=AT, who="Marit")

    part = client.post("/days/draft", data={**FORM, **marked(client, "/days/new")}).text
    form = client.get("/days/new").text

    assert "(Dilled beans)" in part and "dilled-beans" not in part
    assert "Aunt&#39;s stew (not finished)</option>" in form


def test_a_recipe_that_no_canner_here_may_take_is_refused_at_once(
    client: TestClient, store: Store
) -> None:
    document = kitchen_document()
    document["canner"] = [c for c in document["canner"] if c["method"] == "boiling-water"]
    with store.write() as session:
        save_kitchen(session, document, version=1, at=AT, who="Marit")
    form = {**FORM, "order[1].recipe": "snap-beans"}

    kept = sent(client, "/days/new", form)
    page = client.get(kept.headers["location"]).text

    assert "Cannot be planned like this" in page
    assert "Snap beans" in page and "What would help" in page
    assert 'action="/days/2026-10-17/plan"' not in page


def test_who_writes_on_what_another_has_changed_keeps_what_was_typed(
    client: TestClient, store: Store
) -> None:
    sent(client, "/days/new", FORM)
    sent(client, "/days/2026-10-17/edit", {**FORM, "order[1].jars": "9"})

    late = sent(client, "/days/2026-10-17/edit", {**FORM, "order[1].jars": "7", "version": "1"})

    assert late.status_code == 409
    assert 'value="7"' in late.text and "omebody changed this" in late.text
    assert only(store).document["order"][0]["jars"] == 9
    version = re.search(r'name="version" value="(\d+)"', late.text)
    assert version and version[1] == "2"


def test_a_removed_day_is_offered_back(client: TestClient, store: Store) -> None:
    sent(client, "/days/new", FORM)
    mark = marked(client, "/days/2026-10-17")

    gone = client.post("/days/2026-10-17/remove", data=mark)
    listed = client.get(gone.headers["location"])

    with store.read() as session:
        (last, *_rest) = changes(session)
    assert gone.status_code == 303
    assert f'action="/changes/{last.id}/undo"' in listed.text
    assert client.get("/days/2026-10-17").status_code == 404
    client.post(f"/changes/{last.id}/undo", data=mark)
    assert client.get("/days/2026-10-17").status_code == 200


def test_a_day_like_another_begins_with_all_but_its_date(client: TestClient) -> None:
    sent(client, "/days/new", FORM)

    page = client.get("/days/new?like=2026-10-17").text

    assert 'value="8"' in page and "Bean day" in page
    assert 'value="2026-10-17"' not in page


@pytest.mark.parametrize("name", ["print.pdf", "people.pdf", "calendar.ics"])
def test_an_address_of_a_sheet_that_was_kept_gives_no_old_figure_unasked(
    client: TestClient, store: Store, name: str
) -> None:
    """Who moved to another elevation needs another pressure; a bookmark knows nothing of that."""
    with store.write() as session:
        key = add_day(session, WHOLE, at=AT, who="Marit").key
        save_plan(
            session, key, {"status": "optimal"}, day_version=1, kitchen_version=1,
            recipes_version=0, at=AT,
            files={"pdf": b"13 lb", "people": b"13 lb", "calendar": b"13 lb"},
        )  # fmt: skip
    before = client.get(f"/days/{key}/{name}")
    with store.write() as session:
        higher = kitchen_document() | {"elevation": "7,000 ft"}
        save_kitchen(session, higher, version=1, at=AT, who="Marit")

    after = client.get(f"/days/{key}/{name}")
    asked = client.get(f"/days/{key}/{name}?old=1")

    assert before.content == asked.content == b"13 lb"
    assert after.status_code == 409
    assert "was changed since" in after.text and "13 lb" not in after.text
    assert "-old" in asked.headers["content-disposition"]


def test_what_was_typed_is_not_lost_where_somebody_removed_the_day_meanwhile(
    client: TestClient, store: Store
) -> None:
    key = sent(client, "/days/new", FORM).headers["location"].split("/")[2].partition("?")[0]
    hidden = marked(client, f"/days/{key}/edit")
    with store.write() as session:
        remove_day(session, key, at=AT, who="Jonas")

    late = client.post(f"/days/{key}/edit", data={**hidden, **FORM, "order[1].jars": "12"})
    newer = dict(re.findall(r'name="(csrf|version)" value="([^"]*)"', late.text))
    again = client.post(f"/days/{key}/edit", data={**newer, **FORM, "order[1].jars": "12"})

    assert late.status_code == 409
    assert 'value="12"' in late.text
    assert again.status_code == 303
    with store.read() as session:
        kept = day(session, key)
    assert kept is not None
    assert kept.document["order"][0]["jars"] == 12
