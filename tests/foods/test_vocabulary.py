"""The food list: names, cup weights and trim. Figures: USDA SR28."""

import csv
from fractions import Fraction

import pytest

from stillroom.errors import InputError
from stillroom.foods.vocabulary import (
    DATA,
    as_bought,
    cup_grams,
    find_food,
    foods,
    measures,
)
from stillroom.units.amounts import POUND, parse_amount
from stillroom.words import key

KINDS = frozenset(
    """acid dairy fat fish fruit grain herb liquid meat pectin poultry salt spice stock sugar
    thickening vegetable""".split()
) | {"dry beans"}
SOLD_IN = frozenset(["lb", "oz", "each", "head", "bunch", "cup", "quart", "tsp"])


def test_every_row_of_the_food_list_has_a_known_kind_unit_of_sale_source_and_measures() -> None:
    with (DATA / "sources.csv").open(encoding="utf-8", newline="") as f:
        sources = {row["source"] for row in csv.DictReader(f)}
    measured = {m.ndb for m in measures()}

    for food in foods():
        assert food.kind in KINDS, food
        assert food.buy_in in SOLD_IN, food
        assert food.source in sources, food
        assert 0 <= food.refuse < 1, food
        assert not food.ndb or food.ndb in measured, food
    assert {m.source for m in measures()} <= sources


def test_every_measure_has_a_positive_weight_and_a_food_of_the_list_or_a_use_later() -> None:
    for measure in measures():
        assert measure.amount > 0, measure
        assert measure.grams > 0, measure
    assert not any("sausage" in m.name.lower() for m in measures())


def test_an_own_figure_says_where_it_comes_from() -> None:
    with (DATA / "foods.csv").open(encoding="utf-8", newline="") as f:
        rows = list(csv.DictReader(f))

    for row in rows:
        if row["grams_per_cup"] or row["refuse_pct"] or row["pieces"]:
            assert row["note"], row["food"]


def test_no_name_stands_for_two_foods() -> None:
    owner: dict[frozenset[str], str] = {}

    for food in foods():
        for name in (food.food, *food.other_names):
            assert owner.setdefault(key(name), food.food) == food.food, name


def test_raw_meat_poultry_fish_and_stock_are_perishable_and_vegetables_are_not() -> None:
    for food in foods():
        if food.kind in ("meat", "poultry", "fish", "stock"):
            assert food.perishable, food.food
        if food.kind in ("vegetable", "fruit", "salt", "sugar", "spice", "acid"):
            assert not food.perishable, food.food


@pytest.mark.parametrize(
    ("said", "food"),
    [
        ("Green Beans", "snap beans"),
        ("onion", "onions"),
        ("tomato", "tomatoes"),
        ("broth, chicken", "chicken stock"),
        ("salt", "canning salt"),
        ("table salt", "table salt"),
        ("lemon juice", "fresh lemon juice"),  # not the acid: a bottle must be named
        ("boiling water", "water"),
        ("berries", "berries"),
    ],
)
def test_a_food_is_found_by_the_names_people_use(said: str, food: str) -> None:
    assert find_food(said).food == food


def test_an_unknown_food_is_told_with_the_nearest_one() -> None:
    with pytest.raises(InputError) as wrong:
        find_food("carots", "soup.toml, line 8, ingredients, item 2")

    assert "soup.toml, line 8, ingredients, item 2" in str(wrong.value)
    assert 'Did you mean "carrots"?' in str(wrong.value)


@pytest.mark.parametrize("said", ["", "   ", "unobtainium", "vinegar", "🥕"])
def test_a_food_is_never_guessed(said: str) -> None:
    with pytest.raises(InputError):
        find_food(said)


@pytest.mark.parametrize(
    ("food", "prep", "grams"),
    [
        ("onions", "sliced", 115),
        ("onions", "chopped", 160),
        ("onions", "diced", 160),  # cut alike
        ("potatoes", "peeled and diced", 150),  # printed as 75 g in half a cup
        ("carrots", "peeled and sliced", 122),
        ("carrots", "grated", 110),
        ("snap beans", "cut in 1 in pieces", 100),
        ("tomatoes", "peeled and chopped", 180),
        ("peas", "", 145),
        ("sweet cherries", "pitted", 154),
        ("cooked chicken", "cubed", 140),
        ("venison", "cubed", 227),  # half a pound: common practice
        ("sugar", "", 200),
        ("canning salt", "", 292),
        ("celery seed", "", 104),  # 16 Tbsp of 6.5 g
    ],
)
def test_a_cup_weighs_what_sr28_prints_for_the_prep(food: str, prep: str, grams: int) -> None:
    assert cup_grams(find_food(food), prep) == grams


@pytest.mark.parametrize(
    ("food", "prep"), [("onions", ""), ("blackberries", "crushed"), ("dill heads", "")]
)
def test_a_cup_that_no_measure_fits_has_no_weight(food: str, prep: str) -> None:
    assert cup_grams(find_food(food), prep) is None


def test_seven_cups_of_diced_potato_weigh_1050_g() -> None:
    """Half a cup, diced, is 75 g; 7 x 2 x 75 = 1050."""
    cup = cup_grams(find_food("potatoes"), "diced")

    assert cup is not None
    assert 7 * cup == 1050


def test_a_pound_of_carrots_gives_3_31_cups_of_slices() -> None:
    """453.59 g x (1 - 0.11) = 403.7 g; / 122 g a cup = 3.31 cups."""
    carrots = find_food("carrots")
    prepared = POUND * (1 - carrots.refuse)
    cup = cup_grams(carrots, "sliced")

    assert cup is not None
    assert round(float(prepared)) == 404
    assert round(float(prepared / cup), 2) == 3.31


def test_five_pounds_of_peas_in_the_pod_give_5_94_cups() -> None:
    """2267.96 g x (1 - 0.62) = 861.8 g; / 145 g a cup = 5.94 cups."""
    peas = find_food("peas")
    prepared = parse_amount("5 lb").value * (1 - peas.refuse)
    cup = cup_grams(peas)

    assert cup is not None
    assert round(float(prepared)) == 862
    assert round(float(prepared / cup), 2) == 5.94


def test_what_trimming_takes_is_bought_back() -> None:
    """Tomatoes lose 9 percent: 910 g prepared is 1000 g bought."""
    assert as_bought(find_food("tomatoes"), Fraction(910)) == 1000
