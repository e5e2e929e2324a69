"""The checker's own tables are whole, and every name in them is one that exists."""

import csv
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from stillroom.errors import DataError
from stillroom.foods.vocabulary import find_food, foods
from stillroom.processes import library
from stillroom.recipes.check import rows, tables
from stillroom.recipes.check.rows import sources
from stillroom.recipes.check.tables import (
    OWN_PROCESS,
    Proportion,
    all_proportions,
    base_for,
    bases,
    own_words,
    proportions,
    substitutions,
)

FOODS = {one.food for one in foods()}
ROLES = {role for one in foods() for role in one.roles}
STATUSES = {"published", "common practice", "from memory", "this project"}
FAMILIES = {one.family for one in bases().values()}
FILES = ("bases.csv", "proportions.csv", "substitutions.csv", "products_words.csv")


def _read(name: str) -> list[dict[str, str]]:
    with (rows.DATA / name).open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


@pytest.mark.parametrize("name", FILES)
def test_every_row_names_a_source_a_place_and_a_status(name: str) -> None:
    for row in _read(name):
        assert row["source"] in sources(), row
        assert row["place"].strip(), row
        assert row["status"] in STATUSES, row


@pytest.mark.parametrize("name", (*FILES, "sources.csv"))
def test_no_table_calls_anything_safe(name: str) -> None:
    for row in _read(name):
        told = [text for column, text in row.items() if column != "address"]
        assert not re.search(r"\bsafe", " ".join(told), re.IGNORECASE), row


def test_every_food_of_the_library_has_a_base() -> None:
    for food in library.foods():
        for form in {row.form for row in library.processes(food)}:
            assert base_for(food, form) is not None, (food, form)
        assert base_for(food) is not None, food
    # The counts of ``stillroom foods``: 129 printed and 14 withheld.
    assert len({one.food for one in library.processes()}) == 129
    assert len(library.foods()) == 143


def test_every_withheld_food_has_a_base_too() -> None:
    for one in library.withheld():
        assert base_for(one.food, one.form) is not None, one.food


def test_every_base_is_a_food_of_the_library_and_its_form_one_of_its_forms() -> None:
    forms = {(one.food, one.form) for food in library.foods() for one in library.processes(food)}
    forms |= {(one.food, one.form) for one in library.withheld()}
    for food, form in bases():
        assert not form or (food, form) in forms, (food, form)
        assert food in {name for name, _ in forms}, food


def test_no_base_stands_twice() -> None:
    assert len(_read("bases.csv")) == len(bases())


def test_every_name_in_the_bases_is_a_food_of_the_food_list_and_every_role_one_of_its_roles() -> (
    None
):
    for base in bases().values():
        for name in {*base.always, *base.may, *base.never} - {OWN_PROCESS}:
            assert name in FOODS, (base.food, name)
        assert base.may_roles | base.own_roles | base.never_roles <= ROLES, base.food


def test_no_base_both_lets_in_and_keeps_out_a_food() -> None:
    for base in bases().values():
        assert not {*base.always, *base.may} & base.never, base.food


def test_a_base_takes_its_own_foods() -> None:
    for base in bases().values():
        for name in {*base.always, *base.may} - {OWN_PROCESS}:
            assert base.holds(find_food(name)), (base.food, name)


def test_every_ingredient_of_a_proportion_is_a_food_that_its_base_takes() -> None:
    # Bottled juice stands for vinegar in salsas by PNW 395, so salsa acids hold both.
    for one in all_proportions():
        base = base_for(one.food, one.form)
        assert base is not None, one.food
        for name in one.ingredient:
            assert base.holds(find_food(name)), (one.food, name)


def test_amounts_are_more_than_nothing() -> None:
    assert all(one.amount.value > 0 for one in all_proportions())


def test_where_acid_is_in_the_recipe_and_its_amount_was_read_a_row_says_how_much() -> None:
    unread = {
        "cantaloupe pickles, no sugar added",  # amount not seen
        "pickled sweet green tomatoes",  # amount not seen
        "chile salsa ii",  # amount not seen
    }
    for base in bases().values():
        if base.acid == "in the recipe" and base.food not in unread and base.family != "ferment":
            groups = [one.group for one in proportions(base.food, base.form)]
            formed = [one.group for one in all_proportions() if one.food == base.food]
            assert any(group.startswith("acid") for group in groups or formed), base.food


def test_amounts_not_seen_have_no_row() -> None:
    for food in ("cantaloupe pickles, no sugar added", "pickled sweet green tomatoes"):
        assert not proportions(food)
    assert not [one for one in proportions("chile salsa ii") if one.group == "acid"]


@pytest.mark.parametrize(
    ("base", "food", "fresh", "taken"),
    [
        ("carrots", "canning salt", False, True),  # salt is for taste, Guide 1 sec. 12
        ("carrots", "thyme", False, True),  # dry seasoning
        ("carrots", "thyme", True, False),
        ("carrots", "parsley", False, False),  # a fresh herb
        ("whole-kernel corn", "garlic", False, False),  # no process for garlic
        ("soups", "carrots", False, True),  # rule 1
        ("soups", "celery", False, False),
        ("soups", "cabbage", False, False),
        ("soups", "ham", False, False),
        ("soups", "pinto beans", False, True),  # rule 3
        ("soups", "lentils", False, False),
        ("soups", "noodles", False, False),  # rule 2
        ("soups", "flour", False, False),
        ("soups", "wild mushrooms", False, False),
        ("soups", "apples", False, False),  # own process, and yet no soup
        ("mixed vegetables", "asparagus", False, True),  # sec. 5: others may replace
        ("mixed vegetables", "zucchini", False, True),
        ("mixed vegetables", "spinach", False, False),  # and the exceptions
        ("mixed vegetables", "kidney beans", False, False),
        ("mixed vegetables", "winter squash", False, False),
        ("mixed vegetables", "sweet potatoes", False, False),
        ("mixed vegetables", "cream-style corn", False, False),
        ("mixed vegetables", "broccoli", False, False),
        ("strips, cubes or chunks of meat", "red wine", False, False),
        ("strips, cubes or chunks of meat", "beef stock", False, True),
        ("pears", "asian pears", False, False),
        ("peaches", "white peaches", False, False),
        ("pie filling, apple", "cornstarch", False, False),  # Guide 2 sec. 5
        ("pie filling, apple", "modified corn starch", False, True),
        ("pickled corn relish", "flour", False, True),  # the one written
        ("pickle relish", "flour", False, False),
        ("tomatillo green salsa", "white vinegar", False, False),  # never for the juice
        ("sauerkraut", "salt substitute", False, False),
    ],
)
def test_a_base_takes_what_is_published_and_nothing_else(
    base: str, food: str, fresh: bool, taken: bool
) -> None:
    found = base_for(base)
    assert found is not None
    assert found.holds(find_food(food), fresh=fresh) is taken


def test_no_base_lets_in_pasta_grain_bread_dairy_eggs_or_wine_by_its_role() -> None:
    barred = {"pasta", "grain", "rice", "bread", "egg", "alcohol", "dairy"}
    for base in bases().values():
        for food in foods():
            if food.roles & barred and food.food not in {*base.always, *base.may}:
                assert not base.holds(food), (base.food, food.food)


def test_seafood_goes_into_a_soup_only_where_its_form_says_so() -> None:
    with_it, without = base_for("soups", "with seafood"), base_for("soups", "without seafood")
    assert with_it is not None
    assert without is not None
    assert with_it.holds(find_food("clams"))
    assert not without.holds(find_food("clams"))


def test_low_temperature_pasteurization_is_offered_by_the_recipes_that_print_it() -> None:
    printed = {
        one.food
        for one in library.products()
        if "low-temperature pasteurization allowed" in one.prohibitions
    }
    assert {one.food for one in bases().values() if one.pasteurization} == printed


def test_a_base_takes_its_form_before_the_row_of_all_forms() -> None:
    row = base_for("tomatoes", "whole or halved, packed in water")
    assert row is not None
    assert "water" in row.may
    raw = base_for("tomatoes", "whole or halved, raw without added liquid")
    assert raw is not None
    assert "water" not in raw.may
    assert base_for("soap") is None


def test_substitutions_name_foods_roles_and_families_that_exist() -> None:
    for one in substitutions():
        for name in (*one.of, *one.instead):
            role = name.removeprefix("role:")
            assert name in FOODS or (role != name and role in ROLES), name
        assert set(one.families) <= {*FAMILIES, "*"}, one.families
        assert 0 <= one.share <= 1
        assert one.instead or one.share == 0, "what is exchanged for nothing is left out"


def test_vinegar_never_stands_for_the_juice_of_a_salsa() -> None:
    juice = [
        one
        for one in substitutions()
        if "bottled lemon juice" in one.of and "salsa" in one.families
    ]
    assert juice
    assert not any("vinegar" in name for one in juice for name in one.instead)


def test_salt_is_never_left_out_of_a_ferment() -> None:
    for one in substitutions():
        if any("salt" in name for name in one.of):
            assert "ferment" not in one.families


def test_own_words_are_written_once_in_lower_case_and_say_why_and_what_instead() -> None:
    words = [one.word for one in own_words()]
    assert len(set(words)) == len(words) >= 100
    for one in own_words():
        assert one.word == one.word.lower().strip()
        assert one.why
        assert one.instead
        assert one.cited.partition(": ")[0]


def test_no_own_word_is_the_name_of_a_published_product() -> None:
    assert not {one.word for one in own_words()} & set(library.foods())


def _with(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / "sources.csv").write_bytes((rows.DATA / "sources.csv").read_bytes())
    (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.setattr(rows, "DATA", tmp_path)


HEAD = "food,form,ingredient,group,choice,amount,unit,rule,per,makes,source,place,status,note\n"


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("x,,salt,salt,,many,cups,at least,batch,,usda-aib539-g6,p,published,", "many cups"),
        ("x,,salt,salt,,1,cup,roughly,batch,,usda-aib539-g6,p,published,", '"roughly" is none of'),
        ("x,,salt,salt,,1,cup,about,batch,,hearsay,p,published,", 'has no "hearsay"'),
        ("x,,salt,salt,,1,cup,about", "too few fields"),
    ],
)
def test_a_broken_row_is_refused_with_its_file_line_and_cause(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, line: str, told: str
) -> None:
    _with(monkeypatch, tmp_path, "proportions.csv", HEAD + line + "\n")
    read: Callable[[], tuple[Proportion, ...]] = tables.all_proportions.__wrapped__
    with pytest.raises(DataError, match=r"proportions\.csv, line 2, x") as caught:
        read()
    assert told in str(caught.value)
