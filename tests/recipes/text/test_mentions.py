"""Foods met in prose, and whether the text keeps them out of the jar."""

import pytest

from stillroom.recipes.text.mentions import mentions_in
from stillroom.recipes.text.page import read_paste

IN, OUT, LATER = "in the jar", "stays out", "at serving"
TOLD = [
    ("No salt.", {"canning salt": OUT}),
    ("Do not add flour before canning.", {"flour": OUT}),
    ("Thicken with flour when you serve it.", {"flour": LATER}),
    ("I thicken with cornstarch when I open the jar.", {"cornstarch": LATER}),
    ("Serve over rice.", {"rice": LATER}),
    ("Use honey instead of sugar.", {"honey": IN, "sugar": OUT}),
    ("Omit the celery.", {"celery": OUT}),
    ("No noodles, rice, or flour; add carrots.",
     {"noodles": OUT, "rice": OUT, "flour": OUT, "carrots": IN}),
    ("Salt may be left out.", {"canning salt": OUT}),
    ("Cornstarch is not used.", {"cornstarch": OUT}),
    ("Without any oil or butter", {"oil": OUT, "butter": OUT}),
    ("Add cream when serving.", {"cream": LATER}),
    ("Add milk later.", {"milk": LATER}),
    ("When you serve, stir in the noodles and cream.", {"noodles": LATER, "cream": LATER}),
    # What goes in stays in, whatever else the sentence tells.
    ("Add flour before canning and serve over rice.", {"flour": IN, "rice": LATER}),
    ("Thicken with flour, then fill jars.", {"flour": IN}),
    ("Do not peel the tomatoes.", {"tomatoes": IN}),
    ("Do not overcook the carrots.", {"carrots": IN}),
    ("Without peeling the tomatoes", {"tomatoes": IN}),
    ("No more than 1 cup celery", {"celery": IN}),
    ("No salt, 1 cup flour", {"canning salt": OUT, "flour": IN}),
    ("No salt, add flour", {"canning salt": OUT, "flour": IN}),
    ("Skim off the fat.", {"lard": OUT}),
    ("Simmer the noodles until ready to serve", {"noodles": IN}),
    # Words that only look like foods.
    ("Pour into jelly jars, wipe rims, label and date.", {}),
    ("Boiling water bath 20 min", {}),
    ("3 cloves garlic", {"garlic": IN}),
    ("green, in 1-inch pieces", {}),
    ("minced", {}),
]  # fmt: skip


@pytest.mark.parametrize(("sentence", "told"), TOLD, ids=[row[0] for row in TOLD])
def test_foods_of_a_sentence(sentence: str, told: dict[str, str]) -> None:
    got = {
        one.food: OUT if one.negated else LATER if one.at_serving else IN
        for one in mentions_in(sentence, 1, "method")
    }

    assert got == told


def foods_of(text: str, where: str) -> list[str]:
    return [one.food for one in read_paste(text).mentions if one.where == where]


def test_a_loose_word_of_the_method_is_read_as_the_listed_ingredient() -> None:
    text = "Beans\n4 lb green beans\n2 c cider vinegar\nPack the beans. Add the vinegar."

    assert foods_of(text, "method") == ["snap beans", "cider vinegar"]


def test_a_word_of_another_food_is_not_read_as_the_listed_one() -> None:
    text = "Soup\n2 qt chicken broth\n3 c carrots\nAdd the chicken. Boil 5 minutes."

    assert foods_of(text, "method") == ["chicken"]


def test_a_line_read_as_one_food_is_mentioned_as_that_food() -> None:
    assert foods_of("Pickle\nbeans, green, 4 lb", "ingredient") == ["snap beans"]
    assert foods_of("Pickle\nlemon juice, bottled, 1 c", "ingredient") == ["bottled lemon juice"]


def test_foods_in_parentheses_and_remarks_are_mentioned_too() -> None:
    found = read_paste("Pickle\n2 c water (instead of 4 c vinegar)\n2 lb pork (rolled in flour)")

    assert [(m.food, m.negated) for m in found.mentions if m.where == "ingredient"] == [
        ("water", False),
        ("vinegar, kind not told", True),
        ("pork", False),
        ("flour", False),
    ]


def test_the_product_of_the_title_adds_nothing_in_the_method() -> None:
    text = "Tomato salsa\n5 lb tomatoes\nLadle the salsa into pints."

    assert foods_of(text, "method") == []
    assert foods_of("Noodle soup\n2 qt broth\nAdd noodles.", "method") == ["noodles"]
