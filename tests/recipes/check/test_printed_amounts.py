"""The amounts of the checker's tables are the printed ones.

They are typed again below from the columns ``acid_required`` and ``prohibitions`` of
``processes/data/products.csv``, with the words that the print has; where another print was read,
the case names it.
"""

from fractions import Fraction

import pytest

from stillroom.processes import library
from stillroom.recipes.check.tables import jar_acid, proportions
from stillroom.units.amounts import parse_amount


def _printed(food: str) -> str:
    return " ".join(
        f"{one.acid_required} {one.prohibitions}" for one in library.products() if one.food == food
    )


# Food, form, ingredient that is counted, printed amount, rule, the words of the print.
PRINTED = [
    ("bread-and-butter pickles", "", "white vinegar", "4 cups", "at least", "4 cups vinegar 5%"),
    ("bread-and-butter pickles", "", "cucumbers", "6 lb", "at most", "6 lb cucumbers"),
    ("bread-and-butter pickles", "", "onions", "8 cups", "at most", "8 cups onions"),
    ("quick fresh-pack dill pickles", "", "cider vinegar", "6 cups", "at least",
     "1-1/2 quarts vinegar 5%"),
    ("quick fresh-pack dill pickles", "", "water", "8 cups", "at most", "2 quarts water"),
    ("sweet gherkin pickles", "", "cucumbers", "7 lb", "at most", "for 7 lb cucumbers"),
    ("14-day sweet pickles", "", "white vinegar", "4 cups", "at least", "4 cups vinegar 5%"),
    ("quick sweet pickles", "", "white vinegar", "3 1/2 cups", "at least", "3-1/2 cups vinegar 5%"),
    ("pickled dilled beans", "", "snap beans", "4 lb", "at most", "for 4 lb beans"),
    ("pickled dilled beans", "", "water", "4 cups", "at most", "4 cups water"),
    ("pickled three-bean salad", "", "bottled lemon juice", "1/4 cup", "at least",
     "1/4 cup bottled lemon juice"),
    ("pickled three-bean salad", "", "oil", "1/4 cup", "at most", "oil as written (1/4 cup)"),
    ("pickled beets", "", "beets", "7 lb", "at most", "for 7 lb beets"),
    ("pickled carrots", "", "carrots", "2 3/4 lb", "at most", "2-3/4 lb peeled carrots"),
    ("marinated whole mushrooms", "", "oil", "2 cups", "at most", "2 cups oil as written"),
    ("pickled dilled okra", "", "okra", "7 lb", "at most", "for 7 lb small pods"),
    ("marinated peppers", "", "bottled lemon juice", "1 cup", "at least",
     "1 cup bottled lemon juice"),
    ("pickled bell peppers", "", "water", "3 cups", "at most", "3 cups water"),
    ("pickled jalapeno rings", "", "water", "1 3/4 cups", "at most", "1-3/4 cups water"),
    ("pickled mixed vegetables", "", "white vinegar", "5 cups", "at least", "5 cups white vinegar"),
    ("piccalilli", "", "cabbage", "7 1/2 cups", "at most", "7-1/2 cups cabbage"),
    ("pickled corn relish", "", "flour", "1/4 cup", "at most", "1/4 cup flour in 1/4 cup water"),
    ("pickled green tomato relish", "", "cornstarch", "2 tbsp", "at most", "only the 2 Tbsp"),
    ("spicy jicama relish", "", "sweet peppers", "8 1/2 cups", "at most", "8-1/2 cups bell"),
    ("sauerkraut", "", "canning salt", "3/4 cup", "exactly", "3/4 cup canning salt per 25 lb"),
    ("sauerkraut", "", "canning salt", "3 tbsp", "exactly", "(3 Tbsp per 5 lb)"),
    ("dill pickles", "", "canning salt", "1/2 cup", "exactly", "1/2 cup salt for 4 lb"),
    ("chile salsa", "hot tomato-pepper sauce", "hot peppers", "2 lb", "at most", "2 lb chiles"),
    ("chile salsa", "hot tomato-pepper sauce", "white vinegar", "1 cup", "at least",
     "1 cup 5% vinegar"),
    ("tomato salsa", "using paste tomatoes", "onions", "5 cups", "at most", "5 cups onion"),
    ("tomato salsa", "using paste tomatoes", "bottled lime juice", "2 cups", "at least",
     "2 cups bottled lemon or lime juice"),
    ("tomato salsa", "using slicing tomatoes", "onions", "3/4 cup", "at most", "3/4 cup onion"),
    ("tomatillo green salsa", "", "tomatillos", "5 cups", "at least", "5 cups tomatillos"),
    ("tomato/tomato paste salsa", "", "tomato paste", "24 oz", "at most", "two 12-oz cans paste"),
    ("tomato ketchup", "", "cider vinegar", "3 cups", "at least", "3 cups cider vinegar"),
    ("blender ketchup", "", "onions", "2 lb", "at most", "plus 2 lb onions"),
    ("country western ketchup", "", "white vinegar", "2 2/3 cups", "at least", "2 2/3 cups 5%"),
    ("mexican tomato sauce", "", "hot peppers", "3 lb", "at most", "2.5-3 lb chiles"),
    ("tomato and vegetable juice blend", "", "celery", "3 cups", "at most",
     "at most 3 cups of other vegetables"),
    ("tomatoes with okra or zucchini", "", "zucchini", "4 lb", "at most", "plus 4 lb okra"),
    ("spaghetti sauce with meat", "", "ground beef", "2 1/2 lb", "at most", "plus 2.5 lb ground"),
    ("chile con carne", "", "ground beef", "3 lb", "about", "3 lb beef"),
    ("chile con carne", "", "kidney beans", "3 cups", "at most", "3 cups dry beans"),
    ("pie filling, apple", "", "bottled lemon juice", "3/4 cup", "at least",
     "3/4 cup per 7 quarts"),
    ("pie filling, blueberry", "", "bottled lemon juice", "1/2 cup", "at least",
     "1/2 cup per 7 quarts"),
    ("pie filling, peach", "", "bottled lemon juice", "1 3/4 cups", "at least",
     "1-3/4 cups per 7 quarts"),
    ("pie filling, green tomato", "", "bottled lemon juice", "1 cup", "at least",
     "1 cup bottled lemon juice"),
    ("zucchini-pineapple", "", "bottled lemon juice", "1 1/2 cups", "at least",
     "1-1/2 cups bottled lemon juice"),
    ("zucchini-pineapple", "", "pineapple juice", "46 fl oz", "at least", "46 oz unsweetened"),
    ("crabapples", "", "cider vinegar", "4 1/2 cups", "at least", "4-1/2 cups 5% cider vinegar"),
    ("spicy cranberry salsa", "", "onions", "6 cups", "at most", "6 cups onion"),
    ("peach apple salsa", "", "cider vinegar", "2 1/4 cups", "at least", "2-1/4 cups 5% cider"),
    ("mango sauce", "", "bottled lemon juice", "4 tbsp", "at least", "4 Tbsp bottled lemon juice"),
    ("pear-apple jam", "", "bottled lemon juice", "1/3 cup", "at least", "1/3 cup bottled lemon"),
    ("blueberry-spice jam", "", "bottled lemon juice", "1 tbsp", "at least", "1 Tbsp lemon juice"),
    ("golden pepper jelly", "", "white vinegar", "1 1/2 cups", "at least", "1-1/2 cups 5% white"),
    ("peach-pineapple spread", "", "bottled lemon juice", "1/4 cup", "at least",
     "1/4 cup bottled lemon juice per 4 cups pulp"),
]  # fmt: skip


@pytest.mark.parametrize(("food", "form", "ingredient", "amount", "rule", "words"), PRINTED)
def test_an_amount_is_the_printed_one(
    food: str, form: str, ingredient: str, amount: str, rule: str, words: str
) -> None:
    assert words in _printed(food), "the print says otherwise"
    told = [one for one in proportions(food, form) if ingredient in one.ingredient]
    assert (parse_amount(amount), rule) in [(one.amount, one.rule) for one in told]


def test_more_than_twenty_five_products_are_read_again() -> None:
    assert len({case[0] for case in PRINTED}) >= 25


@pytest.mark.parametrize(
    ("food", "starch"),  # rules of Guide 2 sec. 5, per 7 quarts
    [
        ("pie filling, apple", "1 1/2 cups"),
        ("pie filling, blueberry", "2 1/4 cups"),
        ("pie filling, cherry", "1 3/4 cups"),
        ("pie filling, peach", "2 cups 3 tbsp"),
    ],
)
def test_starch_of_a_pie_filling_is_the_printed_one(food: str, starch: str) -> None:
    told = [one for one in proportions(food) if one.group == "starch"]
    assert [one.amount for one in told] == [parse_amount(starch)]
    assert told[0].ingredient == ("modified corn starch",)


JAR = "2 Tbsp bottled lemon juice or 1/2 tsp citric acid per quart"


@pytest.mark.parametrize(
    ("food", "said"),  # products.csv, acid_required, per quart in teaspoons
    [
        ("tomatoes", {"lemon juice": 6, "citric acid": Fraction(1, 2), "vinegar": 12}),
        ("tomato juice", {"lemon juice": 6, "citric acid": Fraction(1, 2), "vinegar": 12}),
        ("tomato sauce", {"lemon juice": 6, "citric acid": Fraction(1, 2), "vinegar": 12}),
        ("tomatillos", {"lemon juice": 6, "citric acid": Fraction(1, 2), "vinegar": 12}),
        ("figs", {"lemon juice": 6, "citric acid": Fraction(1, 2)}),
        ("asian pears", {"lemon juice": 6}),
        # Crab: 2 Tbsp or 1/2 tsp the half-pint, so four times that the quart.
        ("crab meat", {"lemon juice": 24, "citric acid": 2}),
    ],
)
def test_acid_by_the_jar_is_the_printed_one(food: str, said: dict[str, Fraction]) -> None:
    assert {one.acid: one.teaspoons_per_quart for one in jar_acid(food)} == said


def test_acid_is_told_in_the_spoons_of_the_print() -> None:
    lemon, citric, vinegar = jar_acid("tomatoes", "crushed, no added liquid")
    assert JAR in _printed("tomatoes")
    assert (lemon.said("quart"), lemon.said("pint")) == ("2 Tbsp", "1 Tbsp")
    assert (citric.said("quart"), citric.said("pint")) == ("1/2 tsp", "1/4 tsp")
    assert (vinegar.said("quart"), vinegar.said("pint")) == ("4 Tbsp", "2 Tbsp")


def test_acid_of_a_recipe_is_not_asked_for_by_the_jar() -> None:
    assert not jar_acid("pie filling, apple")
    assert not jar_acid("bread-and-butter pickles")
    assert not jar_acid("carrots")


def test_every_product_that_prints_acid_for_every_jar_has_it_here() -> None:
    for one in library.products():
        if one.food and one.acid.startswith("every jar"):
            assert jar_acid(one.food, one.form), one.product
