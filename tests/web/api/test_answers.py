"""Each answer of the interface is what the command of the same name prints, or the store holds."""

import json
from pathlib import Path
from typing import Any

import pytest

from benchmarks.pages.household import from_file, kitchen_document
from stillroom.cli import main
from stillroom.recipes.read import STARTERS, starters
from stillroom.store.days import plan_of
from stillroom.store.transfer import export_document
from tests.household import HOUSEHOLD, day_document
from tests.web.api.asking import Asker

PASTE = """\
Ridge beans
2 lb green beans, cut
1 tsp salt
1 cup flour
Pack hot into pints, cover with boiling water, 1 in headspace. Process at 11 lb for 20 minutes.
"""


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    capsys.readouterr()
    main([*words, "--json"])
    return json.loads(capsys.readouterr().out)


@pytest.mark.parametrize(
    ("query", "words"),
    [
        (
            "food=green+beans&elevation=5430+ft&jar=quart&pack=hot&method=dial-gauge",
            ["green beans", "--elevation=5430 ft", "--jar=quart", "--pack=hot",
             "--method=dial-gauge"],
        ),
        ("food=carrots&elevation=-20ft", ["carrots", "--elevation=-20ft"]),
        ("food=pumpkin+butter&elevation=100+m", ["pumpkin butter", "--elevation=100 m"]),
        (
            "food=green+beans&elevation=0ft&method=boiling-water",
            ["green beans", "--elevation=0ft", "--method=boiling-water"],
        ),
    ],
)  # fmt: skip
def test_a_process_is_told_as_the_command_prints_it(
    empty: Asker, capsys: pytest.CaptureFixture[str], query: str, words: list[str]
) -> None:
    answer = empty.get(f"/api/process?{query}")

    assert answer.status == 200
    assert answer.json() == printed(capsys, "process", *words)


def test_without_an_elevation_the_kitchens_counts(home: Asker) -> None:
    """The demo kitchen stands at 5,430 ft."""
    answer = home.get("/api/process?food=green+beans&jar=quart&method=dial-gauge")

    assert answer.json()["elevation_ft"] == 5430
    assert [(m["minutes"], m["pressure_psi"]) for m in answer.json()["matches"]] == [(25, 13)]


def test_without_an_elevation_and_a_kitchen_it_is_asked_for(empty: Asker) -> None:
    answer = empty.get("/api/process?food=green+beans")

    assert answer.status == 422
    assert answer.fault["place"] == "elevation"
    assert "5200 ft" in answer.fault["message"]


def test_a_refusal_is_an_answer(home: Asker) -> None:
    answer = home.get("/api/process?food=green+beans&method=boiling-water")

    assert answer.status == 200
    assert answer.json()["refusal"]["code"] == "method-barred"


def test_steam_is_told_as_the_command_prints_it(
    home: Asker, capsys: pytest.CaptureFixture[str]
) -> None:
    answer = home.get("/api/heat/steam?psi=13")

    words = ("heat", "steam", "--elevation=5430 ft", "--psi=13")
    assert answer.json() == printed(capsys, *words)


def test_the_foods_are_those_of_the_library(
    empty: Asker, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["foods"])
    lines = capsys.readouterr().out.splitlines()

    told = empty.get("/api/foods").json()["foods"]

    assert [line.partition(":")[0].partition("  (")[0] for line in lines] == [
        food["food"] for food in told
    ]
    assert sum(food["withheld"] for food in told) == sum("(withheld" in line for line in lines)


def test_a_verdict_is_told_as_the_command_prints_it(
    empty: Asker, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    (tmp_path / "paste.txt").write_text(PASTE, encoding="utf-8")
    words = ("check", str(tmp_path / "paste.txt"), "--base=green beans", "--jar=pint")

    answer = empty.send(
        "POST", "/api/check", {"recipe": PASTE, "base": "green beans", "jar": "pint"}
    )

    assert answer.status == 200
    assert answer.json() == printed(capsys, *words)
    assert answer.json()["verdict"] == "barred"


def test_a_recipe_is_judged_by_name_and_by_document_alike(home: Asker) -> None:
    document = from_file(STARTERS / "snap-beans.toml")

    by_name = home.send("POST", "/api/check", {"recipe": {"name": "snap-beans"}})
    by_document = home.send("POST", "/api/check", {"recipe": {"document": document}})

    assert by_name.json() == by_document.json()
    assert by_name.json()["verdict"] == "tested"
    own = home.send("POST", "/api/check", {"recipe": {"name": HOUSEHOLD.barred}})
    assert own.json()["verdict"] == "barred"


def test_a_comparison_is_told_as_the_command_prints_it(
    empty: Asker, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    changed = PASTE.replace("1 cup flour\n", "")
    (tmp_path / "before.txt").write_text(PASTE, encoding="utf-8")
    (tmp_path / "after.txt").write_text(changed, encoding="utf-8")
    words = ("check", str(tmp_path / "before.txt"), "--changed", str(tmp_path / "after.txt"),
             "--jar=pint", "--changed-jar=quart")  # fmt: skip

    answer = empty.send(
        "POST",
        "/api/compare",
        {"before": PASTE, "after": changed, "jar": "pint", "jar_after": "quart"},
    )

    assert answer.json() == printed(capsys, *words)
    assert answer.json()["changes"]


@pytest.mark.parametrize("name", starters())
def test_a_build_is_told_as_the_command_prints_it(
    home: Asker, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    answer = home.send("POST", "/api/build", {"recipe": {"name": name}, "jars": 7})

    words = ("build", name, "--jars=7", "--elevation=5430 ft")
    assert answer.json() == printed(capsys, *words)


def test_no_process_stands_with_a_recipe_that_a_published_rule_forbids(home: Asker) -> None:
    """Flour in a soup is barred (USDA AIB-539 Guide 4), whatever is printed for soups."""
    answer = home.send("POST", "/api/build", {"recipe": {"name": HOUSEHOLD.barred}}).json()

    assert answer["verdict"] == "barred"
    assert answer["processes"] == [] and answer["refusal"] is None


def test_a_kitchen_is_written_read_and_not_written_over(empty: Asker) -> None:
    document = kitchen_document()
    assert empty.get("/api/kitchen").json()["version"] == 0

    first = empty.send("PUT", "/api/kitchen", {"document": document, "version": 0})
    late = empty.send("PUT", "/api/kitchen", {"document": document, "version": 0})

    assert first.status == 200
    assert first.json()["document"] == document
    assert first.json()["lacks"] is None
    assert late.status == 409
    assert late.fault["stands"] == document
    assert late.fault["version"] == first.json()["version"] == 1


def test_an_unfinished_kitchen_is_kept_as_a_draft_only(empty: Asker) -> None:
    asked = {"document": {"elevation": "5200 ft"}, "version": 0}

    refused = empty.send("PUT", "/api/kitchen", asked)
    kept = empty.send("PUT", "/api/kitchen", asked | {"draft": True})

    assert refused.status == 422
    assert refused.fault["place"] == kept.json()["lacks"]["place"] == "burners"
    # Its elevation counts already.
    assert empty.get("/api/process?food=carrots").json()["elevation_ft"] == 5200


def test_a_slip_in_a_document_names_its_key(empty: Asker) -> None:
    document = kitchen_document()
    document["canner"][1]["holds"] = {"qrt": 7}

    answer = empty.send("PUT", "/api/kitchen", {"document": document, "version": 0})

    assert answer.status == 422
    assert answer.fault["place"] == "canner[2].holds.qrt"
    assert '"quart"?' in answer.fault["message"]


def test_a_recipe_is_added_changed_removed_and_brought_back(home: Asker) -> None:
    document = from_file(STARTERS / "carrots.toml") | {"title": "Carrots, grandmother's"}

    added = home.send("POST", "/api/recipes", {"document": document, "source_text": "carrots"})
    address = f"/api/recipes/{added.json()['slug']}"
    changed = document | {"notes": ["Good ones."]}
    home.send("PUT", address, {"document": changed, "version": 1})
    stale = home.send("PUT", address, {"document": document, "version": 1})
    removed = home.send("DELETE", address)
    gone = home.get(address)
    undone = home.send("POST", f"/api/changes/{removed.json()['change']}/undo")

    assert added.status == 201
    assert added.json()["slug"] == "carrots-grandmother-s"
    assert stale.status == 409
    assert stale.fault["stands"] == changed
    assert gone.status == 404
    assert undone.status == 200
    back = home.get(address).json()
    assert back["document"] == changed
    assert back["source_text"] == "carrots"
    assert home.send("POST", f"/api/changes/{removed.json()['change']}/undo").status == 409


def test_lists_name_what_is_there_and_not_what_was_removed(home: Asker) -> None:
    recipes = home.get("/api/recipes").json()
    slugs = [line["slug"] for line in recipes["recipes"]]
    days = [line["key"] for line in home.get("/api/days").json()["days"]]

    assert HOUSEHOLD.own in slugs
    assert HOUSEHOLD.removed not in slugs
    assert [line["name"] for line in recipes["starters"]] == list(starters())
    assert days == [HOUSEHOLD.impossible, HOUSEHOLD.unplanned, HOUSEHOLD.planned, HOUSEHOLD.past]
    assert home.get("/api/recipes?words=soup").json()["recipes"][0]["slug"] == HOUSEHOLD.barred


def test_a_day_is_added_changed_and_removed(home: Asker) -> None:
    document = day_document("2026-11-07", "18:00", (HOUSEHOLD.own, 7, "quart"))

    added = home.send("POST", "/api/days", {"document": document, "title": "Last beans"})
    address = f"/api/days/{added.json()['key']}"
    later = home.send("PUT", address, {"document": document | {"start": "9:00"}, "version": 1})
    wrong = home.send("PUT", address, {"document": document | {"start": "19:00"}, "version": 2})

    assert added.status == 201
    assert (added.json()["key"], added.json()["date"]) == ("2026-11-07", "2026-11-07")
    assert later.json()["title"] == "Last beans"
    assert wrong.status == 422
    assert wrong.fault["place"] == "finish_by"
    assert home.send("DELETE", address).status == 200
    assert home.get(address).status == 404


def test_changes_are_told_newest_first_and_page_by_page(home: Asker) -> None:
    every = home.get("/api/changes").json()["changes"]
    page = home.get(f"/api/changes?limit=2&before={every[1]['id']}").json()["changes"]

    assert [one["id"] for one in every] == sorted((one["id"] for one in every), reverse=True)
    assert [one["id"] for one in page] == [one["id"] for one in every[2:4]]
    assert {one["who"] for one in every} == {"Marit"}


def test_the_export_is_the_stores(home: Asker) -> None:
    with home.store.read() as session:
        assert home.get("/api/export").json() == export_document(session)


@pytest.mark.parametrize("key", [HOUSEHOLD.planned, HOUSEHOLD.impossible])
def test_a_plan_is_told_whole(home: Asker, key: str) -> None:
    """No key of the document that was kept is lost on its way out."""
    with home.store.read() as session:
        kept = plan_of(session, key)
    assert kept is not None

    told = home.get(f"/api/days/{key}/plan").json()

    assert told["answer"] == kept.answer
    assert told["current"] is True


def test_a_day_without_a_plan_has_none(home: Asker) -> None:
    assert home.get(f"/api/days/{HOUSEHOLD.unplanned}/plan").status == 404
    assert home.get("/api/days/2000-01-01/plan").status == 404


def test_a_plan_is_asked_for_watched_and_kept(home: Asker) -> None:
    address = f"/api/days/{HOUSEHOLD.unplanned}/plan"

    asked = home.send("POST", address, {"seconds": 2})
    assert asked.status == 202
    number = asked.json()["id"]
    home.app.state.desk.worker.wait(number, 60)
    task = home.get(f"/api/tasks/{number}").json()

    assert (task["state"], task["kind"], task["day"]) == ("done", "plan", HOUSEHOLD.unplanned)
    assert task["answer"] == home.get(address).json()["answer"]
    assert task["news"]["finish"] == task["answer"]["finish"]


def test_a_plan_that_is_not_wanted_any_more_is_stopped(home: Asker) -> None:
    asked = home.send("POST", f"/api/days/{HOUSEHOLD.unplanned}/plan", {"seconds": 60}).json()

    stopped = home.send("DELETE", f"/api/tasks/{asked['id']}").json()
    home.app.state.desk.worker.wait(asked["id"], 30)

    assert stopped["stopping"] or stopped["state"] == "dropped"
    assert home.get(f"/api/tasks/{asked['id']}").json()["state"] in ("done", "failed", "dropped")
    assert home.get("/api/tasks/999").status == 404


def test_a_question_about_a_plan_needs_one(home: Asker) -> None:
    address = f"/api/days/{HOUSEHOLD.unplanned}/plan"

    for asked in ({"kind": "why"}, {"kind": "what-if", "change": "helper"}, {"kind": "rest"}):
        answer = home.send("POST", address, asked)
        assert answer.status == 422
        assert "no plan yet" in answer.fault["message"]
