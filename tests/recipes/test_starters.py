"""The recipes that come with Stillroom rest on printed rows and published amounts."""

import argparse
from fractions import Fraction

import pytest

from stillroom.cli.recipes import run
from stillroom.foods.vocabulary import find_food
from stillroom.processes import lookup
from stillroom.processes.library import product
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import starter, starters
from stillroom.units.amounts import CUP, POUND, QUART, Amount, parse_amount

NAMES = """applesauce berry-jam bread-and-butter-pickles carrots chicken-stock crushed-tomatoes
    dilled-beans garden-chicken-soup peaches snap-beans venison-cubes whole-tomatoes""".split()
# The process each solid of the soup has of its own: food, form.
OWN_DIRECTIONS = {
    "cooked chicken": ("chicken or rabbit", "without bones"),
    "carrots": ("carrots", "sliced or diced"),
    "snap beans": ("snap beans", "pieces"),
    "corn": ("whole-kernel corn", None),
    "tomatoes": ("tomatoes", "whole or halved"),
}


def per_quart(recipe: Recipe, food: str) -> Fraction:
    """The amount of a food for a quart of jars, in teaspoons or grams."""
    (line,) = (line for line in recipe.lines if line.food == food)
    return line.amount.value / Fraction(recipe.makes_quarts)


def test_there_are_twelve_starters() -> None:
    assert list(starters()) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_each_jar_of_a_starter_has_its_own_printed_row_with_the_same_headspace(name: str) -> None:
    recipe = starter(name)

    for jar in recipe.jars:
        answer = lookup(
            recipe.food, form=recipe.form or None, pack=recipe.pack, jar=jar, elevation="0 ft"
        )
        assert answer.refusal is None
        for row in answer.processes:
            assert (row.food, row.form, row.jar) == (recipe.food, recipe.form, jar)
            assert row.pack in (recipe.pack, "raw or hot")
            assert row.headspace_in == recipe.headspace_in


@pytest.mark.parametrize("name", NAMES)
def test_a_starter_cites_its_process_and_names_no_verdict(name: str) -> None:
    recipe = starter(name)
    words = " ".join([recipe.title, recipe.source, *recipe.fill, *recipe.notes, recipe.work.source])

    assert "USDA AIB-539, Guide" in recipe.source
    assert "safe" not in words.lower()
    assert recipe.work.source
    assert recipe.fill


@pytest.mark.parametrize("name", NAMES)
def test_pressure_only_starters_say_so(name: str) -> None:
    recipe = starter(name)
    fact = product(recipe.food, recipe.form)

    if fact and fact.acidity == "low-acid":
        assert "never boiling water" in " ".join(recipe.notes)


@pytest.mark.parametrize(
    ("name", "food"),
    [
        ("snap-beans", "snap beans"),
        ("carrots", "carrots"),
        ("crushed-tomatoes", "tomatoes"),
        ("whole-tomatoes", "tomatoes"),
        ("applesauce", "apples"),
        ("peaches", "peaches"),
    ],
)
def test_pounds_are_those_printed_for_a_load_of_seven_quarts(name: str, food: str) -> None:
    recipe = starter(name)
    fact = product(recipe.food, recipe.form)

    assert fact is not None
    assert per_quart(recipe, food) * 7 == Fraction(fact.lb_per_7qt) * POUND


@pytest.mark.parametrize("name", ["crushed-tomatoes", "whole-tomatoes"])
def test_tomatoes_take_two_tablespoons_of_bottled_lemon_juice_a_quart_first(name: str) -> None:
    """AIB-539 Guide 3: 2 Tbsp a quart, 1 Tbsp a pint, before the food."""
    recipe = starter(name)

    assert per_quart(recipe, "bottled lemon juice") == parse_amount("2 Tbsp").value
    assert recipe.fill[0].startswith("acid first: bottled lemon juice, 2 Tbsp a quart or 1 Tbsp")


def test_peaches_take_the_light_syrup_of_the_seven_quart_load() -> None:
    """AIB-539 Guide 2, syrup table: 9 cups water, 2 1/4 cups sugar."""
    peaches = starter("peaches")

    assert per_quart(peaches, "water") * 7 == 9 * CUP
    assert per_quart(peaches, "sugar") * 7 == Fraction(9, 4) * CUP


def test_dilled_beans_take_as_much_vinegar_as_water_for_four_pounds() -> None:
    """AIB-539 Guide 6: 4 cups vinegar, 4 cups water, 4 lb beans, about 8 pints."""
    beans = starter("dilled-beans")

    assert per_quart(beans, "white vinegar") == per_quart(beans, "water") == CUP
    assert per_quart(beans, "snap beans") == POUND


def test_bread_and_butter_pickles_take_four_cups_of_vinegar_for_six_pounds() -> None:
    """MSU Extension 01600131 (Guide 6:19)."""
    amounts = {line.food: line.amount for line in starter("bread-and-butter-pickles").ingredients}

    assert amounts == {
        "cucumbers": parse_amount("6 lb"),
        "onions": parse_amount("8 cups"),
        "canning salt": parse_amount("1/2 cup"),
        "white vinegar": parse_amount("4 cups"),
        "sugar": parse_amount("4 1/2 cups"),
        "mustard seed": parse_amount("2 Tbsp"),
        "celery seed": parse_amount("1 1/2 Tbsp"),
        "turmeric": parse_amount("1 Tbsp"),
    }


def test_jam_is_nine_cups_of_berries_to_six_of_sugar_in_one_batch() -> None:
    """Univ. of Missouri Extension, page 437: 7 or 8 half-pints."""
    jam = starter("berry-jam")

    assert [line.amount for line in jam.ingredients] == [
        parse_amount("9 cups"),
        parse_amount("6 cups"),
    ]
    assert jam.makes_quarts == 7 / 4
    assert jam.single_batch


def test_soup_solids_fill_at_most_half_of_the_jar() -> None:
    """AIB-539 Guide 4, soups. Chicken 1/2, carrots 1/2, beans, corn and tomatoes 1/4 cup each:
    1 3/4 of the 4 cups of a quart."""
    soup = starter("garden-chicken-soup")
    solids = [
        line for line in soup.ingredients if find_food(line.food).kind not in ("salt", "spice")
    ]

    assert {line.food for line in solids} == set(OWN_DIRECTIONS)
    total = sum((line.amount for line in solids), Amount(Fraction(0), "tsp"))
    assert total == parse_amount("1 3/4 cups")
    assert total.value * 2 <= QUART


def test_soup_solids_are_no_more_than_the_stock_they_stand_in() -> None:
    """AIB-539 Guide 4: half solids, half liquid."""
    soup = starter("garden-chicken-soup")

    assert soup.liquid is not None
    assert soup.liquid.amount.value >= parse_amount("1 3/4 cups").value


@pytest.mark.parametrize("food", OWN_DIRECTIONS)
def test_each_soup_solid_has_canning_directions_of_its_own(food: str) -> None:
    named, form = OWN_DIRECTIONS[food]

    assert lookup(named, form=form, pack="hot", elevation="0 ft").refusal is None


@pytest.mark.parametrize("name", NAMES)
def test_no_starter_holds_a_thickener_grain_dairy_or_fat(name: str) -> None:
    kinds = {find_food(line.food).kind for line in starter(name).lines}

    assert not kinds & {"thickening", "grain", "dairy", "fat"}


def test_raw_meat_and_bones_are_perishable_and_the_cooked_soup_is_not() -> None:
    assert {name for name in NAMES if starter(name).perishable} == {
        "venison-cubes",
        "chicken-stock",
    }


def test_raw_packed_meat_has_no_covering_liquid() -> None:
    """AIB-539 Guide 5, strips, cubes or chunks: raw pack, no liquid."""
    assert starter("venison-cubes").liquid is None


def test_the_command_lists_every_starter_with_process_jars_and_source(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run(argparse.Namespace()) == 0

    told = capsys.readouterr().out
    for name in NAMES:
        recipe = starter(name)
        assert f"{name}: {recipe.title}" in told
        assert f"Process: {recipe.food}" in told
        assert f"Jars: {', '.join(recipe.jars)}" in told
    assert told.count("Source: ") == 12
