"""The room Kitchen: each form keeps what was typed, and only that."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from html import unescape
from typing import Any

import pytest
from fastapi.testclient import TestClient

from stillroom.kitchen import kitchen_from
from stillroom.store.changes import changes
from stillroom.store.engine import Store
from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.toml_file import table_of
from tests.web.filling import filled, send

# By the clock on the wall of the computer that serves.
NOW = datetime(2026, 8, 1, 9, 30).astimezone()
WHOLE: dict[str, Any] = {
    "name": "Ridge kitchen (invented)",
    "elevation": "5,430 ft",
    "burners": 4,
    "burners_for_canners": 2,
    "burner_kind": "gas",
    "burner_power": "12,000 Btu/h",
    "counters": 2,
    "lids": 24,
    "bands": 20,
    "canner": [
        {
            "name": "big canner",
            "method": "dial-gauge",
            "holds": {"quart": 7, "pint": 9},
            "layers": {"pint": 2},
            "wall": "heavy",
            "weighs": "22 lb",
            "water": "3 quarts",
            "timed": [
                {"jar": "quart", "jars": 7, "pack": "hot", "lb": 13, "heat": 14.5, "liquid": True}
            ],
            "care": {"gauge_tested": "2025-05-01", "gauge_reads_high": 0.5, "gasket": False},
        },
        {"name": "pot", "method": "boiling-water", "holds": {"pint": 5}, "own_plug": True,
         "burner_power": "1,500 W"},
    ],
    "person": [
        {"name": "Marit", "hours": ["8:00 to 12:00", "13:00 to 18:00"], "leaves": ["lifting"]},
        {"name": "Jonas"},
    ],
    "jars": {"pint": 24, "quart": 12},
    "pantry": {"canning salt": "1 lb", "sugar": "5 lb"},
    "prices": {"beets": "1.10 per lb"},
    "rates": {"peel": 1.5, "trim": 2},
}  # fmt: skip
FORMS = ("place", "stove", "people", "hand", "pantry", "prices", "rates")


@pytest.fixture(autouse=True)
def clock(client: TestClient) -> Iterator[None]:
    state = client.app.state  # type: ignore[attr-defined]
    state.settings = replace(state.settings, now=lambda: NOW)
    yield


@pytest.fixture
def kept(store: Store) -> None:
    with store.write() as session:
        save_kitchen(session, WHOLE, version=0, at=NOW, who="Marit")


def _document(store: Store) -> dict[str, Any]:
    with store.read() as session:
        stored = kitchen(session)
    return stored.document if stored else {}


def test_a_newcomer_keeps_a_whole_kitchen_with_one_short_form(
    client: TestClient, store: Store
) -> None:
    answer = send(client, "/kitchen", "/kitchen", elevation="5,430 ft", method="dial-gauge")

    made = kitchen_from(table_of(_document(store), "kitchen"))
    assert answer.status_code == 303
    assert made.elevation_ft == 5430
    # Common for a canner of 16 quarts (from memory), as the form suggests.
    assert [(c.method, dict(c.holds)) for c in made.canners] == [
        ("dial-gauge", {"pint": 9, "quart": 7})
    ]


def test_the_suggested_numbers_say_that_they_are_common_practice(client: TestClient) -> None:
    page = client.get("/kitchen").text

    assert "(common practice)" in page
    assert "Check your canner's manual" in unescape(page)


def test_an_elevation_typed_at_a_food_stands_in_the_newcomers_form(client: TestClient) -> None:
    page = client.get("/kitchen", params={"elevation": "1655 m"}).text

    assert filled(page, "/kitchen")["elevation"] == "1655 m"


@pytest.mark.parametrize("part", FORMS)
def test_a_form_that_is_sent_as_it_came_changes_nothing(
    client: TestClient, store: Store, kept: None, part: str
) -> None:
    answer = send(client, f"/kitchen/{part}", f"/kitchen/{part}")

    assert answer.status_code == 303
    assert _document(store) == WHOLE


@pytest.mark.parametrize("path", ["/kitchen/canners/1", "/kitchen/canners/2"])
def test_a_canners_forms_sent_as_they_came_change_nothing(
    client: TestClient, store: Store, kept: None, path: str
) -> None:
    sent = [send(client, path, form).status_code for form in (path, f"{path}/care")]

    assert sent == [303, 303]
    assert _document(store) == WHOLE


@pytest.mark.parametrize(
    ("part", "typed", "key", "written"),
    [
        ("place", {"elevation": "900 m"}, "elevation", "900 m"),
        ("stove", {"burners": "5"}, "burners", 5),
        ("stove", {"burner_kind": ""}, "burner_kind", None),
        ("hand", {"jars__12 oz": "1,200"}, "jars", {"12 oz": 1200, "pint": 24, "quart": 12}),
        ("people", {"person__2__name": ""}, "person", WHOLE["person"][:1]),
        (
            "people",
            {"person__3__name": "Ada", "person__3__hours": "9:00 to 12:00"},
            "person",
            [*WHOLE["person"], {"name": "Ada", "hours": ["9:00 to 12:00"]}],
        ),
        ("pantry", {"pantry__1__food": "", "pantry__1__amount": ""}, "pantry", {"sugar": "5 lb"}),
        ("rates", {"rates__peel": "2.5"}, "rates", {"peel": 2.5, "trim": 2}),
        ("prices", {"prices__1__food": "", "prices__1__price": ""}, "prices", None),
    ],
)  # fmt: skip
def test_what_is_typed_is_what_is_kept_and_nothing_else(
    client: TestClient, store: Store, kept: None,
    part: str, typed: dict[str, str], key: str, written: object,
) -> None:  # fmt: skip
    answer = send(client, f"/kitchen/{part}", f"/kitchen/{part}", **typed)

    assert answer.status_code == 303
    assert _document(store).get(key) == written
    assert {k: v for k, v in _document(store).items() if k != key} == {
        k: v for k, v in WHOLE.items() if k != key
    }


@pytest.mark.parametrize(
    ("part", "typed", "at", "said"),
    [
        ("place", {"elevation": "5430"}, "elevation", "is not an elevation"),
        ("place", {"name": " "}, "name", "cannot be left empty"),
        ("stove", {"burners": "four"}, "burners", "whole number from 0 to 40"),
        ("stove", {"burners_for_canners": "9"}, "burners_for_canners", "more than the 4 burners"),
        ("stove", {"burner_power": "hot"}, "burner_power", "is not the power of a burner"),
        ("hand", {"jars__pint": "-3"}, "jars.pint", "whole number"),
        ("people", {"person__2__hours": "12:00 to 8:00"}, "person.2.hours", "ends before"),
        ("people", {"person__3__hours": "8:00 to 9:00"}, "person.3.name", "cannot be left empty"),
        ("pantry", {"pantry__3__food": "sugr"}, "pantry.3.amount", "Half of this line is empty"),
        (
            "pantry",
            {"pantry__3__food": "moon dust", "pantry__3__amount": "1 lb"},
            "pantry.3.amount",
            "moon dust",
        ),
        (
            "pantry",
            {"pantry__3__food": "sugar", "pantry__3__amount": "1 lb"},
            "pantry.3.food",
            "twice",
        ),
        ("prices", {"prices__1__price": "cheap"}, "prices.1.price", "is not a price"),
        ("rates", {"rates__peel": "x"}, "rates.peel", "number from 0 to 60"),
    ],
)
def test_a_slip_is_told_beside_its_field_and_all_that_was_typed_stays(
    client: TestClient, store: Store, kept: None,
    part: str, typed: dict[str, str], at: str, said: str,
) -> None:  # fmt: skip
    answer = send(client, f"/kitchen/{part}", f"/kitchen/{part}", **typed)

    page = answer.text
    form = filled(page, f"/kitchen/{part}")
    assert answer.status_code == 422
    assert f'href="#{at}"' in page.split('role="alert"')[1].split("</div>")[0]
    assert said in page.split(f'id="{at}-wrong"')[1].split("</p>")[0]
    assert {key: form[key.replace("__", ".")] for key in typed} == typed
    assert _document(store) == WHOLE


@pytest.mark.parametrize(
    ("typed", "at", "said"),
    [
        ({"holds__quart": "", "holds__pint": ""}, "holds.4_oz", "cannot be left empty"),
        ({"name": "pot"}, "name", "Another canner has this name"),
        ({"weighs": "2 tons"}, "weighs", ""),
        ({"layers__half-gallon": "2"}, "layers.4_oz", "is not in holds"),
        ({"timed__1__jars": "8"}, "timed.1.jars", "do not fit"),
        ({"timed__1__jar": ""}, "timed.1.jar", "cannot be left empty"),
        ({"method": "steam"}, "method", "is not one of"),
    ],
)
def test_a_slip_in_a_canner_is_told_beside_its_field(
    client: TestClient, store: Store, kept: None, typed: dict[str, str], at: str, said: str
) -> None:
    answer = send(client, "/kitchen/canners/1", "/kitchen/canners/1", **typed)

    assert answer.status_code == 422
    assert said in answer.text.split(f'id="{at}-wrong"')[1].split("</p>")[0]
    assert _document(store) == WHOLE


def test_another_canner_is_added_and_taken_out_and_brought_back(
    client: TestClient, store: Store, kept: None
) -> None:
    added = send(
        client, "/kitchen/canners/new", "/kitchen/canners/new",
        name="small", method="weighted-gauge", holds__pint="8",
    )  # fmt: skip
    small = {"name": "small", "method": "weighted-gauge", "holds": {"pint": 8}}
    assert _document(store)["canner"] == [*WHOLE["canner"], small]

    out = send(client, "/kitchen/canners/3", "/kitchen/canners/3/remove")
    assert _document(store) == WHOLE
    strip = client.get(out.headers["location"])
    undo = next(path for path in strip.text.split('"') if path.endswith("/undo"))
    send(client, strip, undo)

    assert added.status_code == out.status_code == 303
    assert _document(store)["canner"] == [*WHOLE["canner"], small]


def test_a_canner_of_another_kind_loses_the_care_of_parts_it_has_not(
    client: TestClient, store: Store, kept: None
) -> None:
    answer = send(client, "/kitchen/canners/1", "/kitchen/canners/1", method="weighted-gauge")

    assert answer.status_code == 303
    assert _document(store)["canner"][0]["care"] == {"gasket": False}


def test_done_today_writes_the_date_and_forgets_what_the_older_test_found(
    client: TestClient, store: Store, kept: None
) -> None:
    page = client.get("/kitchen/canners/1")
    assert "due since 1 May 2026" in page.text

    done = send(client, page, "/kitchen/canners/1/looked", check="gauge_tested")

    care = _document(store)["canner"][0]["care"]
    assert done.status_code == 303
    assert care == {"gauge_tested": "2026-08-01", "gasket": False}
    assert "done, next by 1 Aug 2027" in client.get("/kitchen/canners/1").text


def test_done_today_is_written_of_no_other_canner_that_has_its_number_by_now(
    client: TestClient, store: Store, kept: None
) -> None:
    """A gauge that nobody tested must not be told as tested."""
    second = WHOLE["canner"][0] | {"name": "the other"}
    with store.write() as session:
        document = WHOLE | {"canner": [WHOLE["canner"][0], second]}
        save_kitchen(session, document, version=1, at=NOW, who="Marit")
    page = client.get("/kitchen/canners/1")
    with store.write() as session:
        save_kitchen(session, WHOLE | {"canner": [second]}, version=2, at=NOW, who="Jonas")

    late = send(client, page, "/kitchen/canners/1/looked", check="gauge_tested")

    assert late.status_code == 409
    assert _document(store)["canner"] == [second]


def test_dates_are_not_kept_of_another_canner_of_which_as_little_was_written(
    client: TestClient, store: Store, kept: None
) -> None:
    bare = {"method": "dial-gauge", "holds": {"quart": 7}}
    both = [bare | {"name": "first"}, bare | {"name": "second"}]
    with store.write() as session:
        save_kitchen(session, WHOLE | {"canner": both}, version=1, at=NOW, who="Marit")
    page = client.get("/kitchen/canners/1")
    with store.write() as session:
        save_kitchen(session, WHOLE | {"canner": both[1:]}, version=2, at=NOW, who="Jonas")

    late = send(client, page, "/kitchen/canners/1/care", gauge_tested="2026-07-01")

    assert late.status_code == 409
    assert _document(store)["canner"] == both[1:]


def test_a_date_still_to_come_is_not_kept(client: TestClient, store: Store, kept: None) -> None:
    answer = send(
        client, "/kitchen/canners/1", "/kitchen/canners/1/care", gauge_tested="2026-08-02"
    )

    assert answer.status_code == 422
    assert "still to come" in answer.text.split('id="gauge_tested-wrong"')[1]
    assert _document(store) == WHOLE


def test_of_two_who_edit_one_part_the_second_is_told_and_loses_nothing(
    client: TestClient, store: Store, kept: None
) -> None:
    mine, theirs = client.get("/kitchen/place"), client.get("/kitchen/place")
    send(client, theirs, "/kitchen/place", elevation="4,100 ft")

    answer = send(client, mine, "/kitchen/place", elevation="5,500 ft")

    assert answer.status_code == 409
    alarm = answer.text.split('role="alert"')[1].split("</div>")[0]
    assert "5,500 ft" in alarm
    assert "4,100 ft" in alarm
    assert filled(answer.text, "/kitchen/place")["elevation"] == "5,500 ft"
    assert _document(store)["elevation"] == "4,100 ft"
    # Sent again, knowing what the other wrote, it is kept.
    assert send(client, answer, "/kitchen/place").status_code == 303
    assert _document(store)["elevation"] == "5,500 ft"


def test_two_who_edit_different_parts_are_not_in_each_others_way(
    client: TestClient, store: Store, kept: None
) -> None:
    mine, theirs = client.get("/kitchen/place"), client.get("/kitchen/hand")
    send(client, theirs, "/kitchen/hand", lids="9")

    answer = send(client, mine, "/kitchen/place", elevation="5,500 ft")

    assert answer.status_code == 303
    assert (_document(store)["lids"], _document(store)["elevation"]) == (9, "5,500 ft")


def test_a_canner_that_was_changed_meanwhile_is_not_taken_out(
    client: TestClient, store: Store, kept: None
) -> None:
    mine = client.get("/kitchen/canners/2")
    send(client, "/kitchen/canners/1", "/kitchen/canners/1/remove")

    answer = send(client, mine, "/kitchen/canners/2/remove")

    assert answer.status_code in (409, 422)
    assert [c["name"] for c in _document(store)["canner"]] == ["pot"]


def test_the_bands_shown_are_the_printed_ones_per_usda_guide_4(
    client: TestClient, kept: None
) -> None:
    """AIB-539 Guide 4 p. 4-8, snap beans: dial gauge 4,001 to 6,000 ft 13 lb; weighted above
    1,000 ft 15 lb."""
    page = client.get("/kitchen").text

    dial, weighted = page.split('class="band"')[1:3]
    assert "<b>13</b> lb" in dial
    assert "4,001 – 6,000 ft" in dial.split('class="own"')[1].split("</tr>")[0]
    assert "<b>15</b> lb" in weighted
    assert "above 1,000 ft" in weighted.split('class="own"')[1].split("</tr>")[0]
    assert "Guide 4 p. 4-8" in dial


def test_above_the_last_printed_band_no_figure_is_shown(
    client: TestClient, store: Store, kept: None
) -> None:
    """The dial-gauge table ends at 8,000 ft (AIB-539 Guide 4)."""
    send(client, "/kitchen/place", "/kitchen/place", elevation="8,400 ft")

    dial = client.get("/kitchen").text.split('class="band"')[1]

    assert "Printed up to 8,000 ft only" in dial
    assert "<b>" not in dial


def test_an_edge_that_is_near_is_told(client: TestClient, kept: None) -> None:
    send(client, "/kitchen/place", "/kitchen/place", elevation="5,950 ft")

    page = client.get("/kitchen").text

    assert "The edge at 6,000 ft is near" in page.split('class="band"')[1]


def test_units_are_the_households(client: TestClient, kept: None) -> None:
    answer = send(client, "/kitchen/shown", "/kitchen/shown", units="metric", language="xx")

    assert answer.status_code == 303
    # 5,430 ft are 1,655.06 m (1 ft = 0.3048 m).
    assert "<b>1,655 m</b>" in client.get("/kitchen").text


def test_every_change_is_signed_and_told(client: TestClient, store: Store, kept: None) -> None:
    send(client, "/kitchen/place", "/kitchen/place", elevation="900 ft")

    with store.read() as session:
        made = changes(session, 1)[0]
    assert (made.who, made.what, made.at) == ("this computer", "change", NOW)


@pytest.mark.parametrize(
    "path", ["/kitchen/attic", "/kitchen/canners/3", "/kitchen/canners/0", "/kitchen/canners/-1"]
)
def test_a_part_that_is_not_there_is_told(client: TestClient, kept: None, path: str) -> None:
    assert client.get(path).status_code == 404


def test_a_kitchen_that_was_kept_unfinished_is_shown_with_what_it_lacks(
    client: TestClient, store: Store
) -> None:
    """As the JSON interface or an import may keep it."""
    odd = {"elevation": "900 ft", "canner": [{"name": 7, "holds": "many"}, "x"], "person": "Ada",
           "pantry": [1], "jars": "few"}  # fmt: skip
    with store.write() as session:
        save_kitchen(session, odd, version=0, at=NOW, who="Marit")

    pages = [client.get(path) for path in ("/kitchen", "/kitchen/people", "/kitchen/canners/1")]

    assert [page.status_code for page in pages] == [200, 200, 200]
    assert "Something is missing" in pages[0].text


def test_the_short_form_takes_out_no_canner_that_was_written_before(
    client: TestClient, store: Store
) -> None:
    """As an import may leave a kitchen: canners, and no elevation."""
    canners = WHOLE["canner"]
    with store.write() as session:
        save_kitchen(session, {"canner": canners}, version=0, at=NOW, who="Marit")

    answer = send(client, "/kitchen", "/kitchen", elevation="900 ft")

    assert answer.status_code == 303
    assert _document(store)["canner"] == canners


def test_of_two_newcomers_the_second_is_told(client: TestClient, store: Store) -> None:
    mine, theirs = client.get("/kitchen"), client.get("/kitchen")
    send(client, theirs, "/kitchen", elevation="900 ft", method="dial-gauge")

    answer = send(client, mine, "/kitchen", elevation="5,430 ft", method="boiling-water")

    assert answer.status_code == 409
    assert filled(answer.text, "/kitchen")["elevation"] == "5,430 ft"
    assert _document(store)["elevation"] == "900 ft"
