"""A recipe of ours judged as it stands."""

from dataclasses import replace

import pytest

from stillroom.recipes.check.own import judge
from stillroom.recipes.line import read_line
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import starter, starters


def _with(recipe: Recipe, line: str) -> Recipe:
    return replace(recipe, ingredients=(*recipe.ingredients, read_line(line, "here")))


def _noted(recipe: Recipe, note: str) -> Recipe:
    return replace(recipe, notes=(*recipe.notes, note))


@pytest.mark.parametrize("name", starters())
def test_every_starter_is_judged_tested_for_all_its_jars_and_for_each(name: str) -> None:
    """Each follows a printed product of AIB-539; the file says in its source which."""
    recipe = starter(name)

    verdicts = {judge(recipe, jar).verdict for jar in ("", *recipe.jars)}

    assert verdicts == {"tested"}


def test_flour_in_a_recipe_of_ours_is_barred_at_its_line() -> None:
    """AIB-539 Guide 4, soups: no thickener before canning."""
    soup = _with(starter("garden-chicken-soup"), "flour, 1/4 cup")

    judged = judge(soup)

    assert judged.verdict == "barred"
    assert [one.line for one in judged.findings if one.kind == "barred"] == [9]


def test_a_note_that_puts_flour_into_the_jar_is_barred_and_one_that_keeps_it_out_is_not() -> None:
    """AIB-539 Guide 4, soups: no thickener before canning."""
    soup = replace(starter("garden-chicken-soup"), notes=())

    put_in = judge(_noted(soup, "Stir in some flour before filling."))
    kept_out = judge(_noted(soup, "No flour before canning."))

    assert (put_in.verdict, kept_out.verdict) == ("barred", "tested")


def test_lemon_juice_for_the_whole_batch_is_divided_by_its_jars() -> None:
    """AIB-539 Guide 3, tomatoes: 2 Tbsp bottled lemon juice a quart; 7 quarts take 14 Tbsp."""
    tomatoes = starter("crushed-tomatoes")
    short = tuple(
        read_line("bottled lemon juice, 7 Tbsp", "here") if "lemon" in one.food else one
        for one in tomatoes.ingredients
    )

    judged = judge(replace(tomatoes, ingredients=short))

    assert judged.verdict == "barred"
    assert any(one.rule == "acid-short" for one in judged.findings)


def test_frost_in_a_note_is_barred_unless_the_note_keeps_it_out() -> None:
    """AIB-539 Guide 3: do not can tomatoes from dead or frost-killed vines."""
    tomatoes = replace(starter("crushed-tomatoes"), notes=())

    kept_out = judge(_noted(tomatoes, "Never use tomatoes from dead or frost-killed vines."))
    let_in = judge(_noted(tomatoes, "Good use for tomatoes after the first frost."))

    assert not any(one.rule == "frost" for one in kept_out.findings)
    assert any(one.rule == "frost" for one in let_in.findings)


def test_a_note_that_shortens_the_process_is_no_mere_cooking_time() -> None:
    """AIB-539 Guide 4: quarts of carrots 30 min; simmering 5 min before filling is no process."""
    carrots = replace(starter("carrots"), notes=())

    cooked = judge(_noted(carrots, "Simmer 5 minutes before filling."))
    short = judge(_noted(carrots, "Process quarts 10 minutes at 11 pounds."))

    assert cooked.verdict == "tested"
    assert short.verdict == "barred"
