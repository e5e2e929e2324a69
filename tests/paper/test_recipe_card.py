"""The recipe card, read back from its PDF and held against the tables."""

from dataclasses import replace
from functools import cache
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest

from stillroom.day.steps import CAUTIONS
from stillroom.paper.recipe_card import card_data, recipe_card
from stillroom.processes.lookup import lookup
from stillroom.recipes.build import build, reordered
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import starter, starters

read = cache(starter)


@cache
def card(name: str, jar: str, feet: int = 5430, count: int = 7) -> bytes:
    recipe = read(name)
    return recipe_card(recipe, build(recipe, jar), count=count, elevation_ft=feet)


def pages(pdf: bytes) -> list[str]:
    return [
        " ".join(page.get_textpage().get_text_range().replace("\ufffe", "").split())
        for page in pdfium.PdfDocument(pdf)
    ]


def data(recipe: Recipe, jar: str, feet: int = 5430) -> Any:
    return card_data(recipe, build(recipe, jar), count=7, elevation_ft=feet)


@pytest.mark.parametrize("name", starters())
def test_a_starter_takes_one_page_and_has_its_process_and_cautions(name: str) -> None:
    """Minutes and pounds are those that ``lookup`` gives for each jar at this elevation."""
    recipe = read(name)
    for jar in recipe.jars:
        (page,) = pages(card(name, jar))

        assert recipe.title in page
        assert f"7 {jar} jars" in page and "at 5,430 ft" in page
        for each in recipe.jars:
            rows = lookup(recipe.food, form=recipe.form or None, pack=recipe.pack, jar=each,
                          elevation=5430).processes  # fmt: skip
            assert rows
            for row in rows:
                figure = f"{row.psi} lb" if row.psi else "boiling"
                assert f"{row.minutes} min {figure}" in page
                assert row.citation in page or each != jar
        for caution in CAUTIONS:
            assert caution[:40] in page
        assert recipe.source[:50] in page


def test_snap_beans_in_pints_at_5430_ft_are_20_min_at_13_lb_by_dial_per_usda_guide_4() -> None:
    """AIB-539 Guide 4 p. 4-8, as ``docs/reference/commands.md`` shows the row."""
    (page,) = pages(card("snap-beans", "pint"))

    assert "dial gauge 20 min 13 lb" in page


def test_each_jar_of_tomatoes_has_its_acid_on_the_card() -> None:
    (page,) = pages(card("crushed-tomatoes", "quart"))

    assert "Acid: every jar, boiling-water and pressure alike: 2 Tbsp bottled lemon juice" in page
    assert "1 bottled lemon juice: 2 Tbsp" in page


def test_what_is_bought_and_filled_is_told_by_cup_and_by_scale() -> None:
    (page,) = pages(card("garden-chicken-soup", "quart"))

    # 7 x 1/2 cup of 122 g; / 0.89.
    assert "carrots, peeled and sliced 3 1/2 cups 425 g (15 oz) 480 g (1 lb 1 oz) 1/2 cup" in page
    assert "Fill each quart in this order" in page
    assert "Solids with their gaps fill about 35 to 47 percent" in page


def test_where_a_table_ends_the_card_has_no_row_of_it() -> None:
    """AIB-539 Guide 4: the dial-gauge table ends at 8,000 ft, the weighted-gauge table does not."""
    told = data(read("snap-beans"), "pint", 8_400)

    assert [row["method"] for row in told["processes"]] == ["weighted gauge"]


def test_where_no_process_is_printed_the_card_says_why_and_gives_no_minutes() -> None:
    """Peaches have no process as a whole fruit of that pack: the refusal is printed as it is."""
    recipe = replace(read("peaches"), form="pickled whole")
    refusal = lookup("peaches", form="pickled whole", pack="hot", jar="quart", elevation=0).refusal
    assert refusal

    (page, *_) = pages(recipe_card(recipe, build(recipe, "quart"), count=7, elevation_ft=0))

    assert f"quart: {refusal.reason}"[:60] in page
    assert " min " not in page.partition("Fill each")[0]


def test_nothing_is_smaller_than_8_5_points_and_nothing_leaves_the_page() -> None:
    for name in ("garden-chicken-soup", "whole-tomatoes"):
        for page in pdfium.PdfDocument(card(name, "quart")):
            text = page.get_textpage()
            for n in range(text.count_chars()):
                edges = [raw.c_double() for _ in range(4)]
                raw.FPDFText_GetCharBox(text, n, *edges)
                left, right, bottom, top = (float(edge.value) for edge in edges)
                if not chr(raw.FPDFText_GetUnicode(text, n)).strip() or right <= left:
                    continue
                assert 24 <= left <= right <= 612 - 24 and 24 <= bottom <= top <= 792 - 20
                # The drawing is scaled as a whole: its matrix tells the size on the page.
                matrix = raw.FS_MATRIX()
                raw.FPDFText_GetMatrix(text, n, matrix)
                size = float(raw.FPDFText_GetFontSize(text, n)) * abs(matrix.d)
                assert size >= 8.49 or abs(matrix.d) == 0


def test_the_same_card_gives_the_same_bytes() -> None:
    recipe = read("carrots")
    one = build(recipe, "pint")

    made = [recipe_card(recipe, one, count=9, elevation_ft=0) for _ in range(2)]

    assert made[0] == made[1]


def test_another_order_changes_the_steps_and_no_figure_of_the_process() -> None:
    recipe = read("venison-cubes")
    one = build(recipe, "quart")
    kept, moved = (
        card_data(recipe, made, count=7, elevation_ft=5430)
        for made in (one, reordered(one, ["canning salt"]))
    )

    assert kept["steps"] != moved["steps"]
    for key in kept.keys() - {"steps", "figure"}:
        assert kept[key] == moved[key]


def test_markup_and_long_words_in_a_name_are_printed_as_words() -> None:
    recipe = replace(
        read("carrots"),
        title="#panic() *x* $y$ <z> " + "w" * 120,
        notes=("#eval(1)", "\u00e9\u00df"),
    )

    text = " ".join(pages(recipe_card(recipe, build(recipe, "pint"), count=1, elevation_ft=0)))

    assert "#panic() *x* $y$ <z>" in text
    assert "#eval(1)" in text and "\u00e9\u00df" in text
    assert "1 pint jar at" in text


def test_a_recipe_of_many_foods_runs_to_a_second_page_and_loses_none() -> None:
    recipe = read("garden-chicken-soup")
    crowd = replace(recipe, ingredients=recipe.ingredients * 6)

    text = pages(recipe_card(crowd, build(crowd, "quart"), count=7, elevation_ft=5430))

    assert len(text) >= 2
    assert " ".join(text).count("corn, whole kernels") >= 6
