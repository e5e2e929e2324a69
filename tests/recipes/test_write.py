"""From a paste to our file and back: the same recipe, or what a person must settle first."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import STARTERS, read_recipe, starters
from stillroom.recipes.text.file import from_recipe, read_paste_file
from stillroom.recipes.text.page import read_paste
from stillroom.recipes.write import to_file
from stillroom.units.amounts import parse_amount

CARD = """\
Pears
17.5 lb pears, peeled
1 1/4 c sugar
1/2 tsp ginger root, grated (optional)
10 1/2 c water
Makes 7 quarts. Hot pack quarts, 1/2 in., boiling water 25 min.
"""


def read_back(folder: Path, text: str) -> Recipe:
    path = folder / "ours.toml"
    path.write_text(text, encoding="utf-8")
    return read_recipe(path)


def kept(recipe: Recipe) -> list[tuple[object, ...]]:
    return [(one.food, one.prep, one.amount, one.optional) for one in recipe.lines]


def test_a_pasted_recipe_becomes_a_file_that_is_read_as_the_same_recipe(tmp_path: Path) -> None:
    card = read_paste(CARD)

    recipe = read_back(tmp_path, to_file(card))

    assert (recipe.title, recipe.food, recipe.pack, recipe.jars) == (
        "Pears", "pears", "hot", ("quart",)
    )  # fmt: skip
    assert recipe.makes_quarts == 7
    assert [(one.food, one.amount) for one in recipe.lines] == [
        (one.food, one.amount) for one in card.lines
    ]
    assert [one.optional for one in recipe.lines] == [False, False, True, False]
    assert recipe.lines[0].prep == "peeled"


@pytest.mark.parametrize("name", starters())
def test_our_file_pasted_and_written_again_is_the_same_recipe(tmp_path: Path, name: str) -> None:
    recipe = read_recipe(STARTERS / f"{name}.toml")
    makes = (int(recipe.makes_quarts * 4), "half-pint")

    again = read_back(
        tmp_path,
        to_file(
            from_recipe(recipe), food=recipe.food, form=recipe.form, pack=recipe.pack, makes=makes
        ),
    )

    assert kept(again) == kept(recipe)
    assert (again.jars, again.makes_quarts) == (recipe.jars, recipe.makes_quarts)
    assert again.headspace_in == recipe.headspace_in


def test_an_amount_for_each_jar_is_taken_times_the_jars(tmp_path: Path) -> None:
    card = read_paste(CARD.replace("1 1/4 c sugar", "1/2 tsp salt per pint"))

    recipe = read_back(tmp_path, to_file(card))

    # Seven quarts are fourteen pints: 7 tsp.
    assert recipe.lines[1].amount == parse_amount("7 tsp")


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("2 lb foozle", "names no food"),
        ("2-3 lb plums", "gives a range"),
        ("sugar", "tells no amount"),
        ("1 cup sugar or honey", "leaves a choice"),
        ("2 cups broth", "does not tell the kind"),
        ("1 handful basil", '"handful"'),
        ("2 lb red and green peppers", "shares its amount"),
        ("1 cup snorp sugar", '"snorp" was not understood'),
    ],
)
def test_what_a_file_cannot_hold_is_told_with_its_line(line: str, told: str) -> None:
    card = read_paste(CARD.replace("1 1/4 c sugar", line))

    with pytest.raises(InputError, match="Settle these first") as wrong:
        to_file(card)

    assert told in str(wrong.value)
    assert "line 3" in str(wrong.value)


def test_everything_open_is_told_at_once() -> None:
    with pytest.raises(InputError) as wrong:
        to_file(read_paste("My medley\n2-3 lb plums\nsome foozle"))

    said = str(wrong.value)
    for open_ in ("published food", "pack, raw or hot", "how many jars", "range", "foozle"):
        assert open_ in said


def test_text_that_could_break_a_file_is_written_as_text(tmp_path: Path) -> None:
    card = read_paste(CARD.replace("Pears\n", 'Pears "of mine" \\ = [x]\n', 1))

    recipe = read_back(tmp_path, to_file(card, food="pears"))

    assert recipe.title == 'Pears "of mine" \\ = [x]'


amounts = st.tuples(
    st.sampled_from(["1", "2", "1/2", "1 1/2", "2/3", "0.35", "1.375", "7", "12"]),
    st.sampled_from(["cups", "Tbsp", "tsp", "lb", "oz", "g", "kg", "ml", "l", "quarts", ""]),
)
named = st.sampled_from(["pears", "sugar", "cider vinegar", "carrots", "onions", "canning salt"])
preps = st.sampled_from(["", ", peeled", ", peeled and sliced", ", cut in 1-inch cubes", " (ripe)"])


@given(st.lists(st.tuples(amounts, named, preps), min_size=1, max_size=8))
@settings(max_examples=60, deadline=None)
def test_any_understood_recipe_goes_to_a_file_and_back_unchanged(
    tmp_path_factory: pytest.TempPathFactory,
    lines: list[tuple[tuple[str, str], str, str]],
) -> None:
    folder = tmp_path_factory.mktemp("trip")
    written = "\n".join(f"{n} {unit} {food}{prep}" for (n, unit), food, prep in lines)
    card = read_paste(f"Pears\n{written}\nMakes 7 quarts. Hot pack quarts, 1/2 in.")

    once = read_back(folder, to_file(card))
    again = read_back(folder, to_file(read_paste_file(folder / "ours.toml"), food="pears",
                                      makes=(7, "quart")))  # fmt: skip

    assert [(one.food, one.amount) for one in once.lines] == [
        (one.food, one.amount) for one in card.lines
    ]
    assert kept(again) == kept(once)
