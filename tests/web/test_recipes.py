"""The room Recipes: the list, one recipe for so many jars, the jar drawn, the card."""

from datetime import UTC, datetime
from xml.etree import ElementTree

import pypdfium2
import pytest
from fastapi.testclient import TestClient

from stillroom.processes import lookup
from stillroom.recipes.read import starters
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe
from stillroom.web.views.recipes_asked import Asked
from stillroom.web.views.recipes_jars import jars
from tests.household import recipe_documents
from tests.web.recipe_pages import shown, verdict

NOW = datetime(2026, 9, 12, 9, tzinfo=UTC)
KITCHEN = {
    "name": "Alder Fork kitchen (invented)",
    "elevation": "5,430 ft",
    "burners": 4,
    "canner": [{"name": "big canner", "method": "weighted-gauge", "holds": {"quart": 7}}],
    "person": [{"name": "Marit"}],
    "pantry": {"canning salt": "1 lb"},
    "prices": {"carrots": "1.30 per lb"},
}


@pytest.fixture
def slugs(store: Store) -> dict[str, str]:
    """A kitchen and four recipes: one in order, one barred, one unfinished, one more in order."""
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, at=NOW, who="Marit")
        return {
            kind: add_recipe(session, document, "", at=NOW, who="Marit").slug
            for kind, document in recipe_documents().items()
        }


def test_the_list_marks_every_recipe_with_a_word(client: TestClient, slugs: dict[str, str]) -> None:
    page = client.get("/recipes").text

    for slug, mark in (
        (slugs["own"], "tested"), (slugs["barred"], "barred"),
        (slugs["unfinished"], "not finished"), *((name, "tested") for name in starters()),
    ):  # fmt: skip
        link = page.split(f'href="/recipes/{slug}"')[1].split("</a>")[0]
        assert mark in shown(f"<a{link}")


def test_search_looks_into_titles_foods_and_ingredients(
    client: TestClient, slugs: dict[str, str]
) -> None:
    by_ingredient = client.get("/recipes", params={"words": "flour"}).text
    by_nothing = client.get("/recipes", params={"words": "xyzzy"}).text

    assert slugs["barred"] in by_ingredient
    assert slugs["own"] not in by_ingredient
    assert "No recipe holds “xyzzy”" in shown(by_nothing)


def test_seven_quarts_of_carrots_at_5430_ft_are_30_minutes_at_15_lb_per_usda_guide_4(
    client: TestClient, slugs: dict[str, str]
) -> None:
    """AIB-539 Guide 4, carrots, hot, quarts, weighted gauge above 1,000 ft: 30 min, 15 lb.

    The starter's 2 1/2 lb a quart make 17 1/2 lb for 7 quarts: 17.5 * 453.59 g = 7,938 g.
    """
    page = client.get("/recipes/carrots", params={"jars": "7", "jar": "quart"}).text

    weighted = page.split('aria-label="weighted-gauge"')[1].split("</section>")[0]
    assert "<b>30</b> min" in weighted
    assert "<b>15</b> lb" in weighted
    assert "7940 g (17 lb 8 oz) as bought · about 58 cups · about 7065 g" in shown(page)
    # 18 lb are bought, as a shop weighs above ten pounds; 18 * 1.30 = 23.40.
    assert "costs 23.40" in page


def test_without_a_kitchen_amounts_are_told_and_no_figure(client: TestClient) -> None:
    page = client.get("/recipes/carrots").text

    assert 'class="figure"' not in page
    assert "Pressure and time go by elevation" in page
    assert "carrots, peeled and sliced" in page


def test_an_elevation_above_the_tables_is_refused_in_place_of_figures(client: TestClient) -> None:
    """AIB-539 Guide 4 prints the dial gauge up to 8,000 ft; the weighted gauge has no upper end."""
    page = client.get("/recipes/carrots", params={"elevation": "9000 ft"}).text
    answer = lookup("carrots", pack="hot", jar="quart", elevation=9000)

    assert {one.method for one in answer.processes} == {"weighted-gauge"}
    assert 'aria-label="weighted-gauge"' in page
    assert 'aria-label="dial-gauge"' not in page


def test_what_the_address_asks_wrongly_is_told_beside_its_field_and_kept(
    client: TestClient,
) -> None:
    asked = {"jars": "minus 3", "jar": "bucket", "elevation": "high", "order": "sand"}
    answer = client.get("/recipes/carrots", params=asked)

    assert answer.status_code == 422
    for field in ("jars", "jar", "elevation"):
        assert f'id="{field}-wrong"' in answer.text
    assert 'value="minus 3"' in answer.text
    assert 'value="high"' in answer.text
    assert "&#34;sand&#34; is no layer" in answer.text


def test_a_barred_recipe_says_so_and_gives_neither_process_nor_card(
    client: TestClient, slugs: dict[str, str]
) -> None:
    page = client.get(f"/recipes/{slugs['barred']}").text

    assert verdict(page) == "Barred"
    assert "It cannot be ordered for a day as it stands." in page
    assert "does not hold for this recipe as it stands" in page
    assert 'class="figure"' not in page
    assert "Print the card" not in page
    assert client.get(f"/recipes/{slugs['barred']}/card.pdf").status_code == 422


def test_an_unfinished_recipe_says_what_is_open_and_gives_no_process(
    client: TestClient, slugs: dict[str, str]
) -> None:
    page = client.get(f"/recipes/{slugs['unfinished']}").text

    assert "cannot be ordered for a day yet" in page
    assert "source: missing" in page
    assert 'class="figure"' not in page


def test_the_order_of_layers_is_in_the_address_and_changes_nothing_else(
    client: TestClient,
) -> None:
    from stillroom.recipes.read import starter

    asked = Asked(order="carrots,canning salt")
    usual = jars(starter("carrots"), "/recipes/carrots/build", Asked(), None, 0)
    other = jars(starter("carrots"), "/recipes/carrots/build", asked, None, 0)

    assert [one.name for one in other.steps][:2] == ["carrots", "canning salt"]
    assert {one.name for one in other.steps} == {one.name for one in usual.steps}
    assert other.amounts == usual.amounts
    assert other.steps[1].earlier.endswith("order=canning+salt%2Ccarrots")
    assert client.get(other.steps[1].earlier).status_code == 200


def test_the_jar_is_drawn_without_styles_that_the_policy_of_the_pages_forbids(
    client: TestClient,
) -> None:
    answer = client.get("/recipes/garden-chicken-soup/jar.svg?jar=pint")

    drawing = ElementTree.fromstring(answer.content)
    assert answer.headers["content-type"].startswith("image/svg+xml")
    assert drawing.tag.endswith("svg")
    assert not [one for one in drawing.iter() if "style" in one.attrib or one.tag.endswith("style")]
    page = client.get("/recipes/garden-chicken-soup").text
    assert "<svg xmlns" in page
    assert " style=" not in page


def test_the_card_is_a_pdf_that_says_the_printed_time(
    client: TestClient, slugs: dict[str, str]
) -> None:
    """AIB-539 Guide 4, snap beans, hot, quarts: 25 min."""
    answer = client.get(f"/recipes/{slugs['own']}/card.pdf?jar=quart&jars=7")

    assert answer.headers["content-type"] == "application/pdf"
    text = pypdfium2.PdfDocument(answer.content)[0].get_textpage().get_text_bounded()
    assert "Ridge beans" in text
    assert "25" in text


def test_a_card_without_an_elevation_says_what_it_needs(client: TestClient) -> None:
    answer = client.get("/recipes/carrots/card.pdf")

    assert answer.status_code == 422
    assert "write its elevation in Kitchen first" in answer.text


def test_print_leads_to_the_card_with_the_same_question(client: TestClient) -> None:
    answer = client.get("/recipes/carrots/print?jar=pint")

    assert answer.headers["location"] == "/recipes/carrots/card.pdf?jar=pint"


@pytest.mark.parametrize("end", ["", "/build", "/check", "/compare", "/edit", "/jar.svg", "/paste"])
def test_a_recipe_that_is_not_there_is_said_to_be_so(client: TestClient, end: str) -> None:
    answer = client.get(f"/recipes/nobody-wrote-it{end}")

    assert answer.status_code == 404
    assert "nobody-wrote-it" in answer.text
