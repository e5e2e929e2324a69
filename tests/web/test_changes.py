"""What was changed, and the way back."""

from datetime import UTC, datetime

from fastapi.testclient import TestClient

from stillroom.store.changes import changes
from stillroom.store.days import add_day, day, remove_day
from stillroom.store.engine import Store
from stillroom.store.kitchens import kitchen, save_kitchen
from tests.web.filling import send

NOW = datetime(2026, 8, 1, 9, tzinfo=UTC)
FIRST = {"name": "Ridge", "elevation": "900 ft"}
SECOND = {"name": "Ridge", "elevation": "5,430 ft", "lids": 7}


def _twice(store: Store) -> tuple[int, int]:
    with store.write() as session:
        first = save_kitchen(session, FIRST, version=0, at=NOW, who="Marit")
        second = save_kitchen(session, SECOND, version=1, at=NOW, who="kitchen phone")
    return first.change, second.change


def test_changes_are_listed_newest_first_with_who_and_what(
    client: TestClient, store: Store
) -> None:
    _twice(store)

    page = client.get("/changes").text

    assert page.index("Kitchen changed: elevation, lids") < page.index("Kitchen written down")
    assert page.index("kitchen phone") < page.index("Marit")
    # The older one is not to be undone before the newer.
    assert "changed again since" in page


def test_an_undone_change_is_back_and_can_be_brought_back_again(
    client: TestClient, store: Store
) -> None:
    _, second = _twice(store)

    undone = send(client, "/changes", f"/changes/{second}/undo")
    with store.read() as session:
        stored = kitchen(session)
        assert stored is not None
        assert stored.document == FIRST
        again = changes(session, 1)[0].id
    page = client.get(undone.headers["location"])
    send(client, page, f"/changes/{again}/undo")

    assert undone.headers["location"] == f"/kitchen?changed={again}"
    assert "Undone: change of the kitchen" in page.text
    with store.read() as session:
        assert kitchen(session).document == SECOND  # type: ignore[union-attr]


def test_a_change_with_a_later_one_over_it_is_not_undone(client: TestClient, store: Store) -> None:
    first, second = _twice(store)
    page = client.get("/changes")

    answer = client.post(
        f"/changes/{first}/undo",
        data={"csrf": page.text.split('name="csrf" value="')[1].split('"')[0]},
    )

    assert answer.status_code == 409
    assert "Undo the later change first" in answer.text
    with store.read() as session:
        assert kitchen(session).change == second  # type: ignore[union-attr]


def test_what_is_no_longer_there_is_no_link(client: TestClient, store: Store) -> None:
    with store.write() as session:
        added = add_day(session, {"date": "2026-10-17"}, at=NOW, who="Marit", title="Beans")
        remove_day(session, added.key, at=NOW, who="Marit")

    page = client.get("/changes").text

    assert "Day added: Beans" in page
    assert f'href="/days/{added.key}"' not in page


def test_undoing_what_was_added_leads_to_the_list_it_is_gone_from(
    client: TestClient, store: Store
) -> None:
    with store.write() as session:
        added = add_day(session, {"date": "2026-10-17"}, at=NOW, who="Marit", title="Beans")

    answer = send(client, "/changes", f"/changes/{added.change}/undo")

    assert answer.headers["location"].startswith("/days?changed=")
    with store.read() as session:
        assert day(session, added.key) is None


def test_a_change_that_is_not_there_is_told(client: TestClient, store: Store) -> None:
    _twice(store)
    mark = client.get("/changes").text.split('name="csrf" value="')[1].split('"')[0]

    for number in (99, 10**30):
        assert client.post(f"/changes/{number}/undo", data={"csrf": mark}).status_code == 404


def test_an_address_that_names_no_change_offers_nothing(client: TestClient) -> None:
    for said in ("7", "x", "-1", "9" * 40, "²"):
        page = client.get("/kitchen", params={"changed": said})
        assert page.status_code == 200
        assert "/undo" not in page.text


def test_older_changes_are_a_page_further(client: TestClient, store: Store) -> None:
    with store.write() as session:
        for version in range(40):
            save_kitchen(session, {"lids": version}, version=version, at=NOW, who="Marit")

    first = client.get("/changes").text
    older = next(path for path in first.split('"') if path.startswith("/changes?before="))
    second = client.get(older).text

    assert first.count('class="change"') == 30
    assert second.count('class="change"') == 10
    assert "/changes?before=" not in second


def test_several_changes_are_undone_one_after_the_other(client: TestClient, store: Store) -> None:
    first, second = _twice(store)
    with store.write() as session:
        third = save_kitchen(session, SECOND | {"lids": 9}, version=2, at=NOW, who="Marit").change

    send(client, "/changes", f"/changes/{third}/undo")
    page = client.get("/changes").text
    answer = send(client, "/changes", f"/changes/{second}/undo")

    assert f'action="/changes/{second}/undo"' in page
    assert f'action="/changes/{first}/undo"' not in page
    assert answer.status_code == 303
    with store.read() as session:
        assert kitchen(session).document == FIRST  # type: ignore[union-attr]
