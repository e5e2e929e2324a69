"""What was written becomes what the planner works with, by the readers of our files."""

import shutil
from pathlib import Path
from typing import Any

import pytest

from stillroom.day.read import read_day
from stillroom.errors import InputError
from stillroom.kitchen import read_kitchen
from stillroom.recipes.read import starter
from stillroom.store.days import add_day
from stillroom.store.engine import Store
from stillroom.store.household import household
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe, remove_recipe
from tests.store.made import BY, DAY, DEMO, KITCHEN, RECIPE, demo, later


def test_the_demo_day_is_the_same_from_files_and_from_the_store(
    store: Store, tmp_path: Path
) -> None:
    for file in DEMO.glob("*.toml"):
        shutil.copy(file, tmp_path)
    from_files = read_day(tmp_path / "day.toml")

    with store.write() as session:
        save_kitchen(session, demo("kitchen.toml"), version=0, **BY)
        stored = add_day(session, demo("day.toml"), **BY)
        home = household(session)
        from_store = home.day(stored)

    assert home.kitchen == read_kitchen(tmp_path / "kitchen.toml")
    assert from_store.kitchen == from_files.kitchen
    assert [(o.recipe, o.jar, o.count) for o in from_store.orders] == [
        (o.recipe, o.jar, o.count) for o in from_files.orders
    ]
    assert (from_store.date, from_store.people) == (from_files.date, from_files.people)


def test_a_household_of_nothing_says_what_a_day_needs(store: Store) -> None:
    with store.read() as session:
        home = household(session)

        assert (home.stored, home.kitchen, home.lacks, home.elevation_ft) == (None,) * 4
        with pytest.raises(InputError, match="Nothing is written of the kitchen yet"):
            home.day_of(DAY)


@pytest.mark.parametrize(
    ("said", "feet"), [("5,430 ft", 5430), ("high", None), (7, None), (None, None)]
)
def test_an_unfinished_kitchen_tells_its_elevation_and_what_it_lacks(
    store: Store, said: Any, feet: int | None
) -> None:
    """A newcomer types the elevation first, and asks for a food before a canner is written."""
    with store.write() as session:
        save_kitchen(session, {"elevation": said, "burners": 4}, version=0, **BY)

        home = household(session)

        assert home.kitchen is None
        assert home.elevation_ft == feet
        assert home.lacks
        with pytest.raises(InputError, match=r"The kitchen is not finished\. kitchen, name"):
            home.day_of(DAY)


def test_an_own_recipe_is_found_by_its_slug_removed_or_not(store: Store) -> None:
    with store.write() as session:
        made = add_recipe(session, RECIPE, "", **BY)
        save_kitchen(session, KITCHEN, version=0, **BY)
        remove_recipe(session, made.slug, **later(1))

        home = household(session)

        assert home.recipe(made.slug).name == made.slug
        assert home.day_of(DAY).orders[0].recipe is home.recipe(made.slug)
        assert home.recipe("snap-beans") == starter("snap-beans")


def test_a_slip_in_a_day_knows_the_field_it_is_in(store: Store) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)
        add_recipe(session, RECIPE | {"ingredients": ["carrots, 17"]}, "", **BY)
        add_recipe(session, {"title": "Relish"}, "", **BY)
        home = household(session)
        order = DAY["order"][0]

        slips: tuple[tuple[dict[str, Any], str, str], ...] = (
            ({"order": [order | {"recipe": "relish"}]}, "order[1].recipe", "not finished"),
            ({"order": [order | {"recipe": "relsh"}]}, "order[1].recipe", 'mean "relish"'),
            ({"order": [order | {"jar": "qrt"}]}, "order[1].jar", "qrt"),
            ({"finish_by": "7:00"}, "finish_by", "ends before it starts"),
            ({"date": "17 October"}, "date", "not a date"),
            ({"ordr": []}, "ordr", "belongs here"),
        )
        day = DAY | {"order": [order | {"recipe": "snap-beans"}]}
        for change, place, says in slips:
            with pytest.raises(InputError, match=says) as told:
                home.day_of(day | change)
            assert told.value.place == place, told.value


def test_a_day_takes_no_recipe_that_a_published_rule_bars_as_it_stands(store: Store) -> None:
    """AIB-539 Guide 4, soups: no thickener before canning. The recipe itself is still read."""
    lines = [*RECIPE["ingredients"], "flour, 1 cup"]
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)
        made = add_recipe(session, RECIPE | {"ingredients": lines}, "", **BY)
        home = household(session)
        order = DAY["order"][0] | {"recipe": made.slug}

        assert home.recipe(made.slug).ingredients[-1].food == "flour"
        with pytest.raises(InputError, match="is barred as it stands") as told:
            home.day_of(DAY | {"order": [order]})

    assert told.value.place == "order[1].recipe"
