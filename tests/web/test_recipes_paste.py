"""Pasting a recipe: every line shown, findings beside the lines, settled by form, kept once."""

import json

import pytest
from fastapi.testclient import TestClient
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.read import STARTERS
from stillroom.store.engine import Store
from stillroom.store.recipes import change_recipe, recipe, recipes
from stillroom.web.views.recipes_paste import Paste, typed
from stillroom.web.views.recipes_reading import reading
from tests.web.recipe_pages import SETTLED, STEW, fields, send, shown, verdict
from tests.web.test_recipes import NOW

NEW = "/recipes/new"
PAGE = '<!doctype html><html><script type="application/ld+json">' + json.dumps(
    {
        "@type": "Recipe",
        "name": "Pears in water (invented)",
        "recipeIngredient": ["17.5 lb pears, peeled", "10 cups water"],
        "recipeInstructions": "Hot pack quarts, 1/2 in. Boiling water 25 min.",
    }
)


def _slugs(store: Store) -> list[str]:
    with store.read() as session:
        return [one.slug for one in recipes(session)]


def test_flour_in_a_stew_is_barred_at_its_own_line_with_source_and_remedy(
    client: TestClient,
) -> None:
    """AIB-539 Guide 4, soups: no thickener before canning. The blank line counts as a line."""
    page = send(client, NEW, text=STEW, base="soups").text

    line = page.split('id="at-5"')[1].split("</li>")[0]
    assert verdict(page) == "Marit's stew (invented) Barred"
    assert "Barred Flour: no thickener goes into the jar before canning." in shown(line)
    assert "Instead: Leave it out" in shown(line)
    assert "Source: USDA AIB-539, Guide 4" in shown(line)
    assert 'name="line.5" value="1/2 cup flour"' in line
    assert "Keep as a recipe" not in page


def test_a_line_that_nobody_understands_is_said_and_can_be_mended_in_place(
    client: TestClient,
) -> None:
    page = send(client, NEW, text=STEW.replace("carrots, sliced", "wumble"), base="soups").text
    assert "not understood: “wumble”" in shown(page) or "wumble" in shown(page)

    mended = send(client, NEW, page, **{"line.3": "4 cups carrots, sliced"}).text

    assert "= 4 cups (0.95 l) carrots (sliced)" in shown(mended)
    assert fields(mended)["text"].splitlines()[2] == "4 cups carrots, sliced"


def test_a_line_is_mended_only_where_it_still_stands() -> None:
    """Whoever changes the text above and leaves the field below means the text."""
    form = {"text": "Stew\n1 cup rice\n2 lb venison", "was.2": "2 lb venison", "line.2": "old"}

    assert typed(form).text == form["text"]


def test_a_settled_stew_is_kept_with_its_text_and_can_be_undone(
    client: TestClient, store: Store
) -> None:
    page = send(client, NEW, text=STEW.replace("1/2 cup flour\n", ""), **SETTLED).text
    assert verdict(page).endswith("Tested")

    answer = send(client, NEW, page, do="keep")

    assert answer.status_code == 303
    slug = answer.headers["location"].removeprefix("/recipes/").partition("?")[0]
    with store.read() as session:
        kept = recipe(session, slug)
    assert kept
    assert kept.source_text == STEW.replace("1/2 cup flour\n", "")
    assert kept.document["ingredients"][0] == "venison, cubes, browned, 3 lb"
    assert kept.document["makes"] == "7 quarts"
    there = client.get(answer.headers["location"]).text
    assert f'action="/changes/{kept.change}/undo"' in there


def test_what_is_open_is_told_field_by_field_and_all_that_was_typed_stays(
    client: TestClient, store: Store
) -> None:
    settled = SETTLED | {"count": "", "size": "", "pack": ""}
    page = send(client, NEW, text=STEW.replace("1/2 cup flour\n", ""), **settled).text

    answer = send(client, NEW, page, do="keep")

    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert 'href="#count"' in answer.text
    assert 'id="count-wrong"' in answer.text
    assert 'id="pack-wrong"' in answer.text
    kept = fields(answer.text)
    assert {kept[key] for key in ("base", "form", "source")} == {
        SETTLED[key] for key in ("base", "form", "source")
    }
    assert _slugs(store) == []


@pytest.mark.parametrize("count", ["0", "seven", "-1", "1000", "²"])
def test_a_count_of_jars_that_is_none_is_told(client: TestClient, count: str) -> None:
    text = STEW.replace("1/2 cup flour\n", "")

    answer = send(client, NEW, text=text, do="keep", **(SETTLED | {"count": count}))

    assert answer.status_code == 422
    assert 'id="count-wrong"' in answer.text


def test_a_barred_stew_is_not_kept_as_a_recipe_even_if_everything_else_is_settled(
    client: TestClient, store: Store
) -> None:
    answer = send(client, NEW, text=STEW, do="keep", **SETTLED)

    assert answer.status_code == 422
    assert "a recipe that is not tested cannot be ordered for a day" in answer.text
    assert _slugs(store) == []


def test_a_barred_stew_is_kept_unfinished_and_settled_later(
    client: TestClient, store: Store
) -> None:
    page = send(client, NEW, text=STEW, **SETTLED).text
    kept = send(client, NEW, page, do="unfinished").headers["location"].partition("?")[0]
    assert "cannot be ordered for a day yet" in client.get(kept).text

    again = client.get(f"{kept}/paste").text
    done = send(client, f"{kept}/paste", again, **{"line.5": "", "do": "keep"})

    assert verdict(again).endswith("Barred")
    assert fields(again)["jars.quart"] == "yes"
    assert done.status_code == 303
    assert done.headers["location"].startswith(f"{kept}?changed=")
    assert "Process" in shown(client.get(kept).text)
    assert len(_slugs(store)) == 1


def test_two_who_settle_one_paste_do_not_undo_each_other(client: TestClient, store: Store) -> None:
    first = send(client, NEW, text=STEW, do="unfinished", **SETTLED).headers["location"]
    slug = first.removeprefix("/recipes/").partition("?")[0]
    page = client.get(f"/recipes/{slug}/paste").text
    with store.write() as session:
        document = {"title": "Changed by another"}
        change_recipe(session, slug, document, version=1, at=NOW, who="Jonas")

    answer = send(client, f"/recipes/{slug}/paste", page, **{"line.5": "", "do": "keep"})

    assert answer.status_code == 409
    assert "Somebody changed this recipe meanwhile" in answer.text
    assert "flour" not in fields(answer.text)["text"]
    assert send(client, f"/recipes/{slug}/paste", answer.text, do="keep").status_code == 303


def test_the_paste_of_a_kept_recipe_is_read_again_and_keeps_nothing(
    client: TestClient, store: Store
) -> None:
    text = STEW.replace("1/2 cup flour\n", "")
    kept = send(client, NEW, text=text, do="keep", **SETTLED).headers["location"].partition("?")[0]

    page = client.get(f"{kept}/paste").text
    answer = send(client, f"{kept}/paste", page, do="unfinished")

    assert "is changed in its own form" in page
    assert answer.status_code == 200
    with store.read() as session:
        stored = recipe(session, kept.removeprefix("/recipes/"))
    assert stored
    assert stored.version == 1


def test_a_saved_page_is_read_by_its_recipe_data(client: TestClient) -> None:
    answer = client.post(
        NEW,
        data=fields(client.get(NEW).text) | {"do": "read"},
        files={"file": ("pears.html", f"{PAGE}</script></html>".encode(), "text/html")},
    )

    assert answer.status_code == 200
    assert "17.5 lb pears, peeled" in fields(answer.text)["text"]
    assert "<script" not in fields(answer.text)["text"]


def test_one_of_our_recipe_files_is_kept_as_it_is(client: TestClient, store: Store) -> None:
    form = fields(client.get(NEW).text)
    good = (STARTERS / "carrots.toml").read_bytes()

    kept = client.post(NEW, data=form, files={"file": ("carrots.toml", good)})
    broken = client.post(NEW, data=form, files={"file": ("carrots.toml", b"title = 7\n")})

    assert kept.status_code == 303
    assert broken.status_code == 422
    assert "carrots.toml: recipe, title" in shown(broken.text)
    assert len(_slugs(store)) == 1


@pytest.mark.parametrize(
    ("file", "says"),
    [(b"", "empty"), (b"\x00\x01\x02\x03" * 50, "not text"), (b"a\n" * 60_000, "too many")],
)
def test_a_file_that_is_no_recipe_is_told_beside_the_text(
    client: TestClient, file: bytes, says: str
) -> None:
    answer = client.post(
        NEW, data=fields(client.get(NEW).text), files={"file": ("recipe.txt", file)}
    )

    assert answer.status_code == 422
    assert says in shown(answer.text)


def test_a_base_that_names_no_published_food_is_told(client: TestClient) -> None:
    answer = send(client, NEW, text=STEW, do="keep", **(SETTLED | {"base": "moon cheese"}))

    assert answer.status_code == 422
    assert 'id="base-wrong"' in answer.text
    assert fields(answer.text)["base"] == "moon cheese"


def test_words_of_a_paste_never_become_markup(client: TestClient) -> None:
    page = send(client, NEW, text="<b>Stew</b>\n2 lb <i onclick=x>venison</i>\n'\"><script>").text

    assert "<i onclick" not in page
    assert "<b>Stew" not in page
    assert "&lt;script&gt;" in page


WORDS = st.sampled_from(
    ["2 lb", "carrots", ",", "flour", "wumble", "quarts", "75 min", "hot pack", "\n", "\n\n", ":",
     "Makes 7 quarts.", "1/2 cup", "Ingredients", "no salt", "(optional)", "½", "-", "<b>", "Ähre"]
)  # fmt: skip


@given(st.lists(WORDS, min_size=1, max_size=30).map(" ".join))
@settings(max_examples=80)
def test_every_line_of_a_paste_is_shown_and_every_finding_has_its_place(text: str) -> None:
    """Nothing that was pasted and nothing that was found is left out of the page."""
    try:
        read = reading(Paste(text=text))
    except InputError:
        assert not text.strip()
        return

    assert [row.text for row in read.rows] == [
        line.strip() for line in text.splitlines() if line.strip()
    ]
    beside = [one for row in read.rows for one in row.findings]
    assert sorted(map(repr, (*beside, *read.whole))) == sorted(map(repr, read.judged.findings))
    left = {piece for row in read.rows for piece in row.left}
    assert left == {piece for _, piece in read.pasted.not_understood}


def test_a_book_is_told_to_be_too_much_and_stays_in_its_field(client: TestClient) -> None:
    answer = send(client, NEW, text="carrots, 1 cup\n" * 2_100)

    assert answer.status_code == 422
    assert "letters are too many for one recipe" in answer.text
    assert fields(answer.text)["text"].count("carrots") == 2_100


def test_no_printed_process_stands_beside_a_verdict_that_is_not_tested(client: TestClient) -> None:
    barred = send(client, NEW, text=STEW, base="soups").text
    tested = send(client, NEW, text=STEW.replace("1/2 cup flour\n", ""), **SETTLED).text

    assert verdict(barred).endswith("Barred")
    assert "Printed process held against" not in barred
    assert verdict(tested).endswith("Tested")
    assert "Printed process held against" in tested


def test_findings_on_a_page_do_not_speak_of_the_command_line(client: TestClient) -> None:
    page = send(client, NEW, text="Aunt's carrots\n7 quarts\n17 lb carrots").text

    assert "Name the published food it follows" in shown(page)
    assert "--base" not in page


def test_an_unfinished_recipe_says_what_bars_it_and_no_field_names_of_a_file(
    client: TestClient,
) -> None:
    page = send(client, NEW, text=STEW, base="soups").text
    answer = send(client, NEW, page, do="unfinished")

    there = client.get(answer.headers["location"]).text

    assert "Not finished" in shown(there)
    assert "Barred Flour: no thickener goes into the jar before canning." in shown(there)
    assert "source =" not in there
