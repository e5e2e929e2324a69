"""A kept recipe judged line by line, and its changes tried one by one."""

import pytest
from fastapi.testclient import TestClient

from stillroom.recipes.read import starter
from stillroom.web.views.recipes_judged import changed, judged, unchanged
from tests.web.recipe_pages import fields, send, shown, verdict

SOUP = "/recipes/garden-chicken-soup/compare"


@pytest.mark.parametrize("jar", ["", "pint", "quart", "bucket"])
def test_a_starter_is_judged_for_each_of_its_jars_and_for_all(jar: str) -> None:
    told = judged(starter("carrots"), "/recipes/carrots/check", jar)

    assert told.checked.verdict == "tested"
    assert [one.name for one in told.jars] == ["all", "pint", "quart"]
    assert [one.name for one in told.jars if one.chosen] == [jar if told.jar else "all"]
    assert len(told.lines) == len(starter("carrots").lines)


def test_the_check_shows_the_printed_row_it_holds_the_recipe_against(client: TestClient) -> None:
    """AIB-539 Guide 4, soups, hot pack, quarts: 75 min; dial gauge at the lowest band 11 lb."""
    page = client.get("/recipes/garden-chicken-soup/check?jar=quart").text

    assert verdict(page).endswith("Tested")
    assert "soups, hot pack, quart: 75 min, 11 lb at the lowest elevation" in shown(page)


def test_flour_is_told_as_touching_the_verdict_and_more_thyme_as_taste(
    client: TestClient,
) -> None:
    """AIB-539 Guide 4, soups: no thickener before canning."""
    page = client.get(SOUP).text
    lines = fields(page)["lines"].replace("leaves, 1/4 tsp", "leaves, 1/2 tsp") + "\na cup of flour"

    answer = shown(send(client, SOUP, page, lines=lines).text)

    assert "2 changes" in answer
    assert "Before: tested → After: barred" in answer
    assert "○ taste only Thyme changed: a matter of taste" in answer
    assert "■ verdict Flour added: barred." in answer


def test_a_pint_in_place_of_a_quart_touches_the_time_as_printed(client: TestClient) -> None:
    """AIB-539 Guide 4, soups: pints 60 min, quarts 75 min."""
    answer = shown(send(client, SOUP, jar="quart", jar_after="pint").text)

    assert "Pint: 60 min are printed instead of 75." in answer


def test_boiling_water_for_a_soup_is_barred(client: TestClient) -> None:
    answer = shown(send(client, SOUP, method_after="boiling-water").text)

    assert "After: barred" in answer
    assert "under pressure only" in answer


def test_nothing_changed_is_said_to_be_nothing(client: TestClient) -> None:
    answer = shown(send(client, SOUP).text)

    assert "No change was found" in answer
    assert "Before: tested → After: tested" in answer


def test_a_note_that_puts_cream_into_the_jar_is_a_change(client: TestClient) -> None:
    """AIB-539 Guide 4, soups: no cream or milk before canning."""
    notes = fields(client.get(SOUP).text)["notes"] + "\nStir in some cream."

    assert "After: barred" in shown(send(client, SOUP, notes=notes).text)


def test_a_line_that_nobody_understands_does_not_pass_as_taste() -> None:
    soup = starter("garden-chicken-soup")
    form = unchanged(soup)

    told = changed(soup, {"lines": f"{form.lines}\na handful of wumble", "notes": form.notes})

    assert told.compared
    assert told.compared.after.verdict == "unconfirmed"
    assert told.compared.changes[0].effects == ("verdict",)


def test_too_much_text_is_told_and_kept(client: TestClient) -> None:
    answer = send(client, SOUP, lines="carrots, 1 cup\n" * 300)

    assert answer.status_code == 422
    assert "too much for a recipe" in answer.text
    assert fields(answer.text)["lines"].count("carrots") == 300


def test_findings_of_a_barred_recipe_stand_beside_their_line(client: TestClient) -> None:
    page = send(client, "/recipes/carrots/copy", client.get("/recipes/carrots").text)
    path = page.headers["location"].partition("/edit")[0]
    form = client.get(f"{path}/edit").text
    lines = fields(form)["ingredients"] + "\nflour, 1 cup"
    assert send(client, f"{path}/edit", form, ingredients=lines).status_code == 303

    check = client.get(f"{path}/check").text

    line = check.split("flour, 1 cup</p>")[1].split("</li>")[0]
    assert "Barred Flour" in shown(line)
    assert verdict(client.get(path).text) == "Barred"
