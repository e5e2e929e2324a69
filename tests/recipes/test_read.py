"""Recipe files: what is read, and each complaint with file, line, key and remedy."""

from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.recipes.line import read_line
from stillroom.recipes.read import read_recipe, starter
from stillroom.units.amounts import parse_amount

GOOD = """\
title = "Our beans"
source = "USDA AIB-539, Guide 4"
food = "snap beans"
form = "pieces"
pack = "hot"
jars = ["pint", "quart"]
makes = "7 quarts"
ingredients = [
  "snap beans, trimmed, cut, 14 lb",
  "salt, 7 tsp, optional",
]
liquid = "boiling water, 10 1/2 cups"
headspace = "1 in"
fill = ["beans", "water"]

[work]
prep_per_quart = 12
heat = 10
fill_per_jar = 2
"""


def file_of(folder: Path, text: str) -> Path:
    path = folder / "ours.toml"
    path.write_text(text, encoding="utf-8")
    return path


def complaint(folder: Path, old: str, new: str) -> str:
    assert old in GOOD
    with pytest.raises(InputError) as wrong:
        read_recipe(file_of(folder, GOOD.replace(old, new)))
    return str(wrong.value)


def test_a_recipe_is_read_with_its_published_headspace(tmp_path: Path) -> None:
    recipe = read_recipe(file_of(tmp_path, GOOD))

    assert (recipe.name, recipe.food, recipe.form, recipe.pack) == (
        "ours",
        "snap beans",
        "pieces",
        "hot",
    )
    assert recipe.jars == ("pint", "quart")
    assert recipe.makes_quarts == 7
    assert recipe.headspace_in == 1
    assert recipe.ingredients[0].prep == "trimmed, cut"
    assert recipe.ingredients[1].optional
    assert recipe.liquid is not None
    assert recipe.liquid.amount == parse_amount("10 1/2 cups")
    assert recipe.work.make == 0
    assert recipe.work.source == "common practice"
    assert recipe.notes == ()
    assert not recipe.perishable


def test_headspace_left_out_is_the_published_one(tmp_path: Path) -> None:
    assert (
        read_recipe(file_of(tmp_path, GOOD.replace('headspace = "1 in"\n', ""))).headspace_in == 1
    )


@pytest.mark.parametrize("said", ["1 in", "1 inch", "1.0 in", "1in", "2/2 inches"])
def test_the_published_headspace_may_be_written_in_several_ways(tmp_path: Path, said: str) -> None:
    assert read_recipe(file_of(tmp_path, GOOD.replace('"1 in"', f'"{said}"'))).headspace_in == 1


def test_half_inch_headspace_for_beans_is_refused_naming_both(tmp_path: Path) -> None:
    told = complaint(tmp_path, '"1 in"', '"1/2 in"')

    assert told.startswith("ours.toml, line 13, headspace:")
    assert '"1/2 in"' in told
    assert "1 in (USDA AIB-539" in told


@pytest.mark.parametrize("said", ["1", "an inch", "1 cm", "in", "1 lb in"])
def test_a_headspace_without_its_unit_is_refused(tmp_path: Path, said: str) -> None:
    assert "line 13, headspace" in complaint(tmp_path, '"1 in"', f'"{said}"')


@pytest.mark.parametrize(
    ("old", "new", "place", "words"),
    [
        ("snap beans, trimmed", "snap baens, trimmed", "line 8, ingredients, item 1", "snap beans"),
        ("salt, 7 tsp", "slat, 7 tsp", "line 8, ingredients, item 2", '"slat"'),
        ("14 lb", "lots", "line 8, ingredients, item 1", '"lots" is not an amount'),
        ("14 lb", "0 lb", "line 8, ingredients, item 1", "nothing"),
        (
            '"boiling water, 10 1/2 cups"',
            '"boiling water"',
            "line 12, liquid",
            "FOOD, PREP, AMOUNT",
        ),
        ('["pint", "quart"]', '["pnt"]', "line 6, jars", '"pint"'),
        ('["pint", "quart"]', "[]", "line 6, jars", "no jar size"),
        ('["pint", "quart"]', '["half-gallon"]', "line 6, jars", "largest printed is quart"),
        ('"snap beans"\nform', '"snap baens"\nform', "line 3, food", "snap beans"),
        (
            '"snap beans"\nform',
            '"celery"\nform',
            "line 3, food",
            "Celery has no process of its own",
        ),
        ('"snap beans"\nform', '"corn"\nform', "line 3, food", "whole-kernel corn"),
        ('"snap beans"\nform', '"lasagne"\nform', "line 3, food", "lasagne"),
        ('"pieces"', '"mashed"', "line 4, form", "mashed"),
        ('"hot"', '"warm"', "line 5, pack", '"warm" is not one of raw, hot'),
        ('"7 quarts"', '"seven quarts"', "line 7, makes", "7 quarts"),
        ('"7 quarts"', '"0 quarts"', "line 7, makes", "0 quarts"),
        ('"7 quarts"', '"7"', "line 7, makes", '"7"'),
        ('"7 quarts"', '"7 buckets"', "line 7, makes", "buckets"),
        ('"7 quarts"', "7", "line 7, makes", "does not fit"),
        ('title = "Our beans"', "", "title", "missing"),
        ('["beans", "water"]', "[1]", "line 14, fill", "does not fit"),
        ('["beans", "water"]', str(["beans"] * 201), "line 14, fill", "201 are too many"),
        ("heat = 10", "heat = -1", "line 18, work.heat", "0 to 1440"),
        ("heat = 10", "", "work.heat", "missing"),
        ("heat = 10", "heat = 10\nheet = 10", "line 19, work.heet", 'Did you mean "heat"?'),
        ('title = "Our beans"', 'title = "B"\nheadspce = "1 in"', "line 2, headspce", "headspace"),
    ],
)
def test_a_complaint_names_file_line_key_and_remedy(
    tmp_path: Path, old: str, new: str, place: str, words: str
) -> None:
    told = complaint(tmp_path, old, new)

    assert "ours.toml" in told
    assert place in told
    assert words in told


def test_two_packs_of_one_food_are_not_mixed_up(tmp_path: Path) -> None:
    """Soup is hot pack only in AIB-539 Guide 4."""
    soup = GOOD.replace('"snap beans"\nform = "pieces"\npack = "hot"', '"soups"\npack = "raw"')

    with pytest.raises(InputError, match=r"ours\.toml, line 4, pack: .*Printed: hot pack"):
        read_recipe(file_of(tmp_path, soup))


def test_a_food_the_look_up_would_mend_must_be_spelled_right_in_a_file(tmp_path: Path) -> None:
    told = complaint(tmp_path, '"snap beans"\nform = "pieces"', '"carrotts"')

    assert 'line 3, food: "carrotts" is not a food' in told
    assert 'Did you mean "carrots"?' in told


def test_a_food_of_several_forms_must_say_which(tmp_path: Path) -> None:
    tomatoes = GOOD.replace('"snap beans"\nform = "pieces"', '"tomatoes"')

    with pytest.raises(InputError, match=r"ours\.toml, form: .*crushed, no added liquid"):
        read_recipe(file_of(tmp_path, tomatoes.replace('"1 in"', '"1/2 in"')))


def test_jars_of_different_headspace_need_a_recipe_each(tmp_path: Path) -> None:
    """Small lima beans, raw: 1 in for pints, 1 1/2 in for quarts (AIB-539 Guide 4)."""
    limas = GOOD.replace(
        '"snap beans"\nform = "pieces"\npack = "hot"',
        '"lima beans"\nform = "small beans"\npack = "raw"',
    )

    with pytest.raises(InputError, match=r"line 6, jars: .*1 in, 1\.5 in"):
        read_recipe(file_of(tmp_path, limas))


def test_a_withheld_process_is_refused_with_where_to_look(tmp_path: Path) -> None:
    withheld = GOOD.replace('"snap beans"\nform = "pieces"\n', '"mango sauce"\n')

    with pytest.raises(InputError, match=r"line 3, food: .*not given here"):
        read_recipe(file_of(tmp_path, withheld))


def test_a_file_that_is_missing_or_not_toml_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_recipe(tmp_path / "none.toml")
    with pytest.raises(InputError, match=r"ours\.toml"):
        read_recipe(file_of(tmp_path, "title = Beans"))


def test_an_unknown_starter_is_told_with_the_nearest() -> None:
    with pytest.raises(InputError, match='Did you mean "snap-beans"'):
        starter("snap-bean")


def test_a_weight_is_as_bought_and_a_volume_prepared_unless_said() -> None:
    assert read_line("carrots, 2 lb", "here").as_bought
    assert not read_line("carrots, sliced, 2 cups", "here").as_bought
    assert not read_line("carrots, 2 lb, prepared", "here").as_bought
    assert read_line("cranberries, 2 cups, as bought, optional", "here").as_bought
    assert read_line("garlic, 3 cloves", "here").as_bought


@pytest.mark.parametrize(
    "line", ["", ",", "2 cups", "carrots, 2 lb, prepared, as bought", ", 1 lb"]
)
def test_a_line_without_food_and_amount_is_refused(line: str) -> None:
    with pytest.raises(InputError, match="here"):
        read_line(line, "here")


def test_raw_meat_is_perishable_until_its_prep_says_cooked() -> None:
    assert read_line("chicken, cubed, 2 lb", "here").perishable
    assert not read_line("chicken, cooked and cubed, 2 lb", "here").perishable
    assert not read_line("chicken stock, boiling, 2 cups", "here").perishable
    assert not read_line("onions, 2 lb", "here").perishable


def test_a_book_pasted_into_a_recipe_is_refused_before_anybody_judges_it(tmp_path: Path) -> None:
    told = complaint(tmp_path, '"beans", "water"', f'"beans", "{"water and salt " * 2_100}"')

    assert "letters are too many for one recipe" in told
    assert "ours.toml, notes" in told
