"""Minutes of preparing, by ingredient and cut."""

from dataclasses import replace
from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.kitchen import WORK, read_kitchen
from stillroom.recipes.model import Recipe
from stillroom.recipes.prep import minutes_per_quart, prep, rates
from stillroom.recipes.read import starter


def untimed(name: str) -> Recipe:
    """A starter recipe whose file tells no minutes of preparing."""
    recipe = starter(name)
    return replace(recipe, work=replace(recipe.work, prep_per_quart=None))


def test_each_kind_of_work_is_counted_once_by_the_pound() -> None:
    """Carrots, 2.5 lb a quart: wash 1, peel 2.5, slice 2 minutes a pound are 13.75."""
    (carrots,) = prep(starter("carrots"))

    assert carrots.work == ("wash", "peel", "slice")
    assert carrots.minutes == pytest.approx(13.75)
    assert minutes_per_quart(untimed("carrots")) == pytest.approx(13.75)


def test_cutting_in_cubes_is_one_cutting_and_raw_meat_is_not_washed() -> None:
    (venison,) = prep(starter("venison-cubes"))

    assert venison.work == ("trim", "cube")


def test_cooked_chicken_is_boned_and_cubed_and_not_washed() -> None:
    chicken = prep(starter("garden-chicken-soup"))[0]

    assert chicken.work == ("bone", "cube")


def test_bones_salt_and_vinegar_ask_for_no_cutting() -> None:
    assert prep(starter("chicken-stock")) == ()


def test_what_a_recipe_says_itself_stands() -> None:
    recipe = starter("carrots")

    assert minutes_per_quart(recipe, {"peel": 60}) == recipe.work.prep_per_quart


def test_a_household_s_own_rate_takes_the_place_of_the_usual_one() -> None:
    """2.5 lb, peeled in 1 minute a pound instead of 2.5."""
    assert minutes_per_quart(untimed("carrots"), {"peel": 1}) == pytest.approx(10.0)


def test_the_kitchen_file_knows_every_kind_of_work_of_the_table() -> None:
    assert {rate.work for rate in rates()} == set(WORK)


KITCHEN = """
name = "Ours (invented)"
elevation = "500 ft"
burners = 2

[[canner]]
name = "canner"
method = "dial-gauge"
holds = { pint = 9 }

[rates]
"""


def test_rates_are_read_from_the_kitchen_file_and_slips_are_told(tmp_path: Path) -> None:
    file = tmp_path / "kitchen.toml"
    file.write_text(KITCHEN + "peel = 1.5", "utf-8")
    assert read_kitchen(file).rates == {"peel": 1.5}

    file.write_text(KITCHEN + "peal = 1.5", "utf-8")
    with pytest.raises(InputError, match=r'line 12, rates\.peal.*Did you mean "peel"'):
        read_kitchen(file)
