"""Editing a recipe, making a starter one's own, and taking one off the list."""

import pytest
from fastapi.testclient import TestClient

from stillroom.recipes.read import STARTERS, recipe_from, starter, starters
from stillroom.store.changes import changes
from stillroom.store.engine import Store
from stillroom.store.recipes import change_recipe, recipe, remove_recipe
from stillroom.toml_file import table_of
from stillroom.web.views.recipes_form import sent, shown
from tests.web.recipe_pages import fields, send, verdict
from tests.web.test_recipes import NOW


def _copied(client: TestClient, name: str = "carrots") -> str:
    """A starter made one's own; the address of the copy."""
    answer = send(client, f"/recipes/{name}/copy", client.get(f"/recipes/{name}").text)
    place: str = answer.headers["location"]
    return place.partition("/edit")[0]


def _document(store: Store, path: str) -> dict[str, object]:
    with store.read() as session:
        stored = recipe(session, path.removeprefix("/recipes/"))
    assert stored
    return stored.document


@pytest.mark.parametrize("name", starters())
def test_the_form_of_a_starter_sent_unchanged_is_the_same_recipe(name: str) -> None:
    """What a form shows and what it sends are the same keys, for every recipe that ships."""
    import tomllib

    document = tomllib.loads((STARTERS / f"{name}.toml").read_text(encoding="utf-8"))
    form = shown(document, 1)
    typed = {**form.values, **{f"jars.{jar}": "yes" for jar in form.jars}, "version": "1"}
    typed |= {"single_batch": "yes"} if form.single_batch else {}

    again = sent(typed, document)

    assert again.wrong == {}
    assert recipe_from(table_of(again.document, "recipe"), name) == starter(name)


def test_a_copy_of_a_starter_is_edited_and_the_starter_stays(
    client: TestClient, store: Store
) -> None:
    path = _copied(client)

    answer = send(client, f"{path}/edit", title="Our carrots", notes="Scrub them.\n\nPeel them.")

    assert answer.status_code == 303
    assert _document(store, path)["notes"] == ["Scrub them.", "Peel them."]
    assert "Our carrots" in client.get(path).text
    assert "Our carrots" not in client.get("/recipes/carrots").text
    assert client.get("/recipes/carrots/edit").headers["location"] == "/recipes/carrots"


@pytest.mark.parametrize(
    ("field", "typed", "says"),
    [
        ("title", "", "title: missing"),
        ("food", "carots", "Did you mean"),
        ("form", "in roses", "roses"),
        ("makes", "plenty", "does not say how many jars"),
        ("ingredients", "carrots, 2 lb\nwumble, 1 cup", "item 2"),
        ("ingredients", "carrots, 2 lb\nsalt", "cannot be read"),
        ("headspace", "1/4 in", "not the published headspace"),
        ("liquid", "water", "cannot be read"),
        ("work.heat", "a while", "work.heat"),
        ("work.heat", "-5", "work.heat"),
        ("gives", "wumble", "not in the food list"),
    ],
)
def test_a_slip_is_told_beside_its_field_and_all_that_was_typed_stays(
    client: TestClient, store: Store, field: str, typed: str, says: str
) -> None:
    path = _copied(client)
    before = _document(store, path)

    answer = send(client, f"{path}/edit", notes="Do not lose me.", **{field: typed})

    assert answer.status_code == 422
    message = answer.text.split(f'id="{field}-wrong"')[1].split("</p>")[0]
    assert says in message.replace("&#34;", '"')
    assert f'href="#{field}"' in answer.text
    kept = fields(answer.text)
    assert kept[field].replace("\r\n", "\n") == typed
    assert kept["notes"] == "Do not lose me."
    assert _document(store, path) == before


def test_a_recipe_with_a_slip_is_kept_unfinished_where_that_is_asked(
    client: TestClient, store: Store
) -> None:
    path = _copied(client)

    answer = send(client, f"{path}/edit", makes="plenty", do="unfinished")

    assert answer.status_code == 303
    assert _document(store, path)["makes"] == "plenty"
    assert "cannot be ordered for a day yet" in client.get(path).text


def test_judging_first_shows_the_verdict_and_keeps_nothing(
    client: TestClient, store: Store
) -> None:
    """AIB-539 Guide 4, introduction of soups; Guide 1: no thickener before canning."""
    path = _copied(client)
    page = client.get(f"{path}/edit").text
    lines = fields(page)["ingredients"] + "\nflour, 1 cup"

    answer = send(client, f"{path}/edit", page, ingredients=lines, do="check")

    assert answer.status_code == 200
    assert verdict(answer.text).endswith("Barred")
    assert "At “flour, 1 cup”:" in answer.text
    assert "flour, 1 cup" not in str(_document(store, path))


def test_of_two_who_edit_the_second_sees_what_the_first_wrote(
    client: TestClient, store: Store
) -> None:
    path = _copied(client)
    page = client.get(f"{path}/edit").text
    slug = path.removeprefix("/recipes/")
    document = _document(store, path)
    with store.write() as session:
        change_recipe(
            session, slug, document | {"makes": "2 quarts"}, version=1, at=NOW, who="Jonas"
        )

    answer = send(client, f"{path}/edit", page, title="Mine")

    assert answer.status_code == 409
    assert "Somebody changed this recipe meanwhile" in answer.text
    assert "They wrote:</strong> <span>2 quarts" in answer.text
    assert fields(answer.text)["title"] == "Mine"
    again = send(client, f"{path}/edit", answer.text)
    assert again.status_code == 303
    assert _document(store, path)["title"] == "Mine"


def test_a_removed_recipe_is_off_the_list_and_comes_back_by_undo(
    client: TestClient, store: Store
) -> None:
    path = _copied(client)

    answer = send(client, f"{path}/remove", client.get(path).text)

    after = client.get(answer.headers["location"]).text
    assert f'href="{path}"' not in after
    with store.read() as session:
        change = changes(session, 1)[0].id
    assert f'action="/changes/{change}/undo"' in after
    token = fields(client.get("/recipes/new").text)["csrf"]
    assert client.post(f"/changes/{change}/undo", data={"csrf": token}).status_code == 303
    assert client.get(path).status_code == 200


@pytest.mark.parametrize("end", ["edit", "remove", "copy"])
def test_nothing_is_changed_by_a_form_without_its_mark(
    client: TestClient, store: Store, end: str
) -> None:
    path = _copied(client)
    before = _document(store, path)

    answer = client.post(f"{path}/{end}", data={"title": "Sneaked in"})

    assert answer.status_code == 403
    assert _document(store, path) == before


def test_what_was_typed_is_not_lost_where_somebody_removed_the_recipe_meanwhile(
    client: TestClient, store: Store
) -> None:
    path = _copied(client)
    page = client.get(f"{path}/edit").text
    with store.write() as session:
        remove_recipe(session, path.removeprefix("/recipes/"), at=NOW, who="Jonas")

    late = send(client, f"{path}/edit", page, notes="An hour of typing.")
    again = send(client, f"{path}/edit", late.text)

    assert late.status_code == 409
    assert "Somebody removed this recipe meanwhile" in late.text
    assert "An hour of typing." in late.text
    assert again.status_code == 303
    assert _document(store, path)["notes"] == ["An hour of typing."]
