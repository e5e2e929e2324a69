"""Saved pages: the recipe comes from schema.org data alone, however it is nested."""

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.text.jsonld import is_page, page_text
from stillroom.recipes.text.page import read_paste

RECIPE: dict[str, Any] = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Pears &amp; ginger",
    "recipeYield": "7 quarts",
    "recipeIngredient": ["17 &frac12; lb pears", "1 c sugar"],
    "recipeInstructions": "Boil 5 minutes. Hot pack quarts, 1/2 in. Boiling water 25 min.",
}


def page(data: object, kind: str = "application/ld+json") -> str:
    held = json.dumps(data).replace("</", "<\\/")
    return (
        "<!doctype html><html><head><title>A kitchen</title><script>while (true) {}</script>"
        f'<SCRIPT type="{kind}">{held}</SCRIPT></head><body>2 cups of nothing</body></html>'
    )


def test_name_ingredients_method_and_yield_are_read() -> None:
    assert page_text(page(RECIPE)).splitlines() == [
        "Pears & ginger",
        "Ingredients",
        "17 ½ lb pears",
        "1 c sugar",
        "Method",
        "Boil 5 minutes. Hot pack quarts, 1/2 in. Boiling water 25 min.",
        "Makes 7 quarts.",
    ]


@pytest.mark.parametrize(
    "data",
    [
        [RECIPE],
        {"@graph": [{"@type": "WebPage", "name": "Other"}, RECIPE]},
        {"@type": "WebPage", "mainEntity": {"deep": [{"er": RECIPE}]}},
        RECIPE | {"@type": ["Thing", "Recipe"]},
        RECIPE | {"@type": "http://schema.org/Recipe"},
        [{"@type": "Recipe", "name": "Empty"}, RECIPE],
    ],
)
def test_a_recipe_is_found_wherever_the_page_puts_it(data: object) -> None:
    assert page_text(page(data)).splitlines()[0] == "Pears & ginger"


@pytest.mark.parametrize(
    "steps",
    [
        ["Boil 5 minutes.", "Fill hot quarts."],
        [{"@type": "HowToStep", "text": "Boil 5 minutes."}, {"text": "Fill hot quarts."}],
        {
            "@type": "HowToSection",
            "itemListElement": [
                {"@type": "HowToStep", "name": "Boil 5 minutes."},
                {"@type": "HowToStep", "text": "<p>Fill hot quarts.</p>"},
            ],
        },
        "<ol><li>Boil 5 minutes.</li><li>Fill hot quarts.</li></ol>",
        [[["Boil 5 minutes."], "Fill hot quarts."]],
    ],
)
def test_steps_are_read_as_texts_steps_or_sections(steps: object) -> None:
    text = page_text(page(RECIPE | {"recipeInstructions": steps, "recipeYield": None}))

    assert text.splitlines()[-2:] == ["Boil 5 minutes.", "Fill hot quarts."]


def test_a_section_keeps_its_heading() -> None:
    section = {"@type": "HowToSection", "name": "Brine", "itemListElement": [{"text": "Boil."}]}

    text = page_text(page(RECIPE | {"recipeInstructions": [section]}))

    assert "Brine:\nBoil." in text


def test_scripts_within_a_text_are_cut_out_whole() -> None:
    text = page_text(page(RECIPE | {"recipeIngredient": ["2 lb <script>steal()</script>pears"]}))

    assert "2 lb pears" in text
    assert "steal" not in text


@pytest.mark.parametrize(
    "html",
    [
        "<html><body><h1>Pears</h1></body></html>",
        page({"@type": "WebPage"}),
        page(RECIPE, kind="text/javascript"),
        '<html><script type="application/ld+json">{"@type": "Recipe", </script></html>',
        '<html><script type="application/ld+json">' + "[" * 100_000 + "</script></html>",
        "<html>" + "<script" * 10_000,
    ],
)
def test_a_page_without_recipe_data_is_told_to_be_pasted_as_text(html: str) -> None:
    with pytest.raises(InputError, match="paste them as text"):
        page_text(html, "pears.html")


def test_an_empty_recipe_is_told() -> None:
    with pytest.raises(InputError, match="empty"):
        page_text(page({"@type": "Recipe"}))


def test_a_page_is_read_like_its_words() -> None:
    card = read_paste(page(RECIPE))

    assert (card.kind, card.title) == ("page", "Pears & ginger")
    assert [one.food for one in card.lines] == ["pears", "sugar"]
    assert card.facts.makes == ((7, "quart"),)
    assert [(m.minutes, m.what) for m in card.facts.minutes] == [(5, "boil"), (25, "process")]


@pytest.mark.parametrize("text", ["2 cups < 3 cups", "<3 my mother's beans", "", "a > b"])
def test_plain_text_is_no_page(text: str) -> None:
    assert not is_page(text)


values = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4)
    | st.dictionaries(
        st.sampled_from(
            ["@type", "@graph", "name", "recipeIngredient", "recipeInstructions", "text",
             "recipeYield", "itemListElement"]
        ),
        inner | st.just("Recipe"),
        max_size=5,
    ),
    max_leaves=20,
)  # fmt: skip


@given(values)
@settings(max_examples=200, deadline=None)
def test_data_of_any_shape_is_read_or_told(data: object) -> None:
    try:
        text = page_text(page([{"@type": "Recipe"}, data]))
    except InputError:
        return
    assert text.strip()
