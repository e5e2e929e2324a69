"""Every ingredient finds its place in the jar."""

from collections import Counter

import pytest
from hypothesis import given

from stillroom.recipes.model import Recipe
from stillroom.recipes.read import starter, starters
from stillroom.recipes.steps import filling
from tests.recipes.any_recipe import recipes


def placed(name: str) -> list[tuple[str, str, list[str]]]:
    return [
        (step.kind, step.word, [line.food for line in step.lines])
        for step in filling(starter(name)).steps
    ]


def test_a_pickle_has_its_solids_and_a_brine_of_all_that_is_boiled() -> None:
    """The recipe's notes: bring vinegar, water, salt and pepper flakes to a boil."""
    *dry, poured = placed("dilled-beans")

    assert dry == [
        ("seasoning", "", ["dill heads", "garlic"]),
        ("solids", "", ["snap beans"]),
    ]
    assert poured[:2] == ("liquid", "brine")
    assert set(poured[2]) == {"white vinegar", "water", "canning salt", "red pepper flakes"}


def test_what_is_cooked_together_is_one_layer() -> None:
    assert placed("berry-jam") == [("whole", "jam without added pectin", ["berries", "sugar"])]
    assert placed("crushed-tomatoes")[-1] == ("whole", "tomatoes", ["tomatoes"])


def test_bones_stay_in_the_pot() -> None:
    stock = filling(starter("chicken-stock"))

    assert [line.food for line in stock.strained] == ["chicken bones"]
    assert [step.word for step in stock.steps] == ["chicken stock"]


def test_salt_that_draws_water_from_cucumbers_runs_off() -> None:
    """Notes: mix slices and salt ... add the drained cucumbers."""
    pickles = filling(starter("bread-and-butter-pickles"))

    assert [line.food for line in pickles.strained] == ["canning salt"]


def test_dry_seasoning_that_no_step_names_goes_in_first_and_is_marked() -> None:
    soup = filling(starter("garden-chicken-soup")).steps

    assert [(step.lines[0].food, step.ours) for step in soup[:3]] == [
        ("canning salt", True),
        ("black pepper", True),
        ("thyme", True),
    ]
    assert not any(step.ours for step in soup[3:])


@pytest.mark.parametrize("name", starters())
def test_a_starter_keeps_the_order_of_its_fill_list(name: str) -> None:
    recipe = starter(name)

    told = [step.text for step in filling(recipe).steps if not step.ours]

    assert told == list(recipe.fill)


@given(recipes())
def test_every_ingredient_stands_in_exactly_one_place(recipe: Recipe) -> None:
    done = filling(recipe)

    held = [line for step in done.steps for line in step.lines]
    assert Counter((*held, *done.strained)) == Counter(recipe.lines)
