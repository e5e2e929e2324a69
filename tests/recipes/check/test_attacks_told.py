"""Recipes that were tried on the checker to get *tested* out of what a published rule forbids.

Each stands for a hole that was found and closed; none may come out tested again. The rule beside
it tells why: the guides are those of USDA AIB-539, "G1" its Guide 1.
"""

import pytest

from stillroom.recipes.check.canner_rules import pounds
from stillroom.recipes.check.finding import rules
from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.text.page import read_paste

CARROTS = (
    "Carrots\n11 lb carrots, sliced\n1/2 tsp salt per pint\n"
    "Raw pack, pints, 1 in. headspace. Vent 10 min. 25 minutes at 11 lb.\n"
)
TOMATOES = (
    "Whole tomatoes\n21 lb tomatoes\n2 Tbsp bottled lemon juice per quart\n"
    "Raw pack, water, 1/2 in. Quarts, boiling-water canner 45 minutes.\n"
)
SALSA = (
    "Chile salsa\n5 lb tomatoes\n2 lb serrano chiles\n1 lb onions\n1 cup cider vinegar (5%)\n"
    "1 Tbsp salt\nSimmer 10 min. Hot pack, pints, 1/2 in. Boiling-water canner 15 minutes.\n"
)
PICKLES = (
    "Bread-and-butter pickles\n6 lb cucumbers\n8 cups onions\n1/2 cup canning salt\n"
    "4 cups vinegar (5%)\n4 1/2 cups sugar\nHot pack, pints, 1/2 in. Boiling-water canner 10 min.\n"
)
CHILE = (
    "Chile con carne\n3 cups dried pinto beans, soaked 12 h, boiled 30 min\n3 lb ground beef\n"
    "1 1/2 cups onions\n1 cup peppers\n5 tsp salt\n2 quarts crushed tomatoes\n"
    "Hot pack, pints, 1 in. Vent 10 min. 75 minutes at 11 lb.\n"
)
DILLS = (
    "Fermented dills\n4 lb cucumbers\n1/4 cup vinegar (5%)\n8 cups water\n1/2 cup canning salt\n"
    "Ferment 3 weeks. Boil brine, raw pack, pints, 1/2 in. Boiling-water canner 10 min.\n"
)
ASKED = {
    CARROTS: ("carrots", "pint", "pressure", "raw"),
    TOMATOES: ("tomatoes in water", "quart", "boiling-water", "raw"),
    SALSA: ("chile salsa", "pint", "boiling-water", "hot"),
    PICKLES: ("bread-and-butter pickles", "pint", "boiling-water", "hot"),
    CHILE: ("chile con carne", "pint", "pressure", "hot"),
    DILLS: ("fermented dill pickles", "pint", "boiling-water", "raw"),
}


def judged(text: str, recipe: str) -> Checked:
    base, jar, method, pack = ASKED[recipe]
    return check(read_paste(text), base=base, jar=jar, method=method, pack=pack)


@pytest.mark.parametrize("recipe", ASKED)
def test_the_recipe_is_tested_before_it_is_changed(recipe: str) -> None:
    assert judged(recipe, recipe).verdict == "tested"


ADDED = [
    # G4 sec. 4 and 8, G1 sec. 11: what never goes in, named by the method alone
    (CARROTS, "Stir in the potassium sorbate.", "never"),
    (CARROTS, "Then add a cup of pumpkin puree and fill the jars.", "never"),
    (CARROTS, "Pour the heavy cream over the carrots and fill.", "dairy"),
    (CARROTS, "Drain the noodles and add.", "pasta"),
    (CARROTS, "Stir in the cabbage.", "extra"),
    (TOMATOES, "Add the celery and a splash of wine.", "boiling-extra"),
    # words of serving day that are none, and denials that deny nothing
    (CARROTS, "After heating it, add flour and fill.", "thickener"),
    (CARROTS, "Do not leave out the flour.", "thickener"),
    (CARROTS, "Never without cream.", "dairy"),
    # G1 sec. 4: equipment not recommended
    (CARROTS, "Process in a rice cooker.", "other-canner"),
    (TOMATOES, "Do not process, the lids will pop by themselves.", "open-kettle"),
    (TOMATOES, "Top with melted wax.", "paraffin"),
    (TOMATOES, "We use old mayonnaise jars.", "jar-kind"),
    (CARROTS, "Use jars with a zinc cap.", "jar-kind"),
    # G1 sec. 5: half-gallons and larger; a process is for its jar
    (CARROTS, "Fill half-gallon jars.", "half-gallon"),
    (CARROTS, "Fill 2-quart jars.", "big-jar"),
    # G1 sec. 7: a vigorous boil, an inch over the jars
    (TOMATOES, "Keep the water below a boil.", "not-boiling"),
    (TOMATOES, "Water half way up the jars.", "not-boiling"),
    # G1 sec. 8: exhaust ten full minutes; no forced cooling
    (CARROTS, "Vent 2 minutes.", "vent-short"),
    (CARROTS, "Vent for a few seconds.", "vent-short"),
    (CARROTS, "Put the weight on right away.", "no-vent"),
    (CARROTS, "Cool under the faucet.", "forced-cool"),
    # G4 sec. 1: low pressure voids the process
    (CARROTS, "At five pounds.", "low-pressure"),
    (CARROTS, "Use the 5-lb weight.", "low-pressure"),
    (CARROTS, "Dial gauge 8.", "low-pressure"),
    (CARROTS, "Held at 40 kPa.", "low-pressure"),
    (CARROTS, "We live at 5,000 ft.", "low-pressure"),
    (CARROTS, "Altitude 1500 m.", "low-pressure"),
    (CARROTS, "Without the weight.", "not-held"),
    # G1 sec. 1: the canner asked is not the one told
    (CARROTS, "A water bath works as well.", "method-told"),
    (TOMATOES, "Or pressure can at 5 lb.", "method-told"),
    # G4 sec. 1: a short time voids the process
    (CARROTS, "Process 15 minutes.", "two-times"),
    (CARROTS, "That is 25 minutes minus 5.", "time-doubt"),
    # Guide 6: proportions of vinegar and water are fixed
    (PICKLES, "Top up with water.", "water-added"),
]  # fmt: skip


@pytest.mark.parametrize(("recipe", "sentence", "rule"), ADDED)
def test_a_sentence_that_a_rule_forbids_is_never_passed_over(
    recipe: str, sentence: str, rule: str
) -> None:
    result = judged(f"{recipe}{sentence}\n", recipe)

    assert result.verdict != "tested"
    assert rule in {one.rule for one in result.findings}


CHANGED = [
    # the title names what the published food does not hold
    (CARROTS, "Carrots\n", "Carrots with macaroni\n", "title-food"),
    (CARROTS, "Carrots\n", "Pumpkin puree\n", "title-food"),
    # G1 sec. 5 and 6: a process is for its jar and its pack
    (CARROTS, "Raw pack, pints", "Raw pack, quarts", "jar-told"),
    (CARROTS, "Raw pack", "Hot pack", "pack-told"),
    # G4 sec. 1: a low pressure, a short time
    (CARROTS, "25 minutes at 11 lb", "25 minutes, 5 lb dial", "low-pressure"),
    (CARROTS, "25 minutes at 11 lb", "20 mn", "time-unread"),
    (CARROTS, "25 minutes at", "15:00, at", "time-unread"),
    (CARROTS, "25 minutes at", "a quarter of an hour at", "time-doubt"),
    # Guide 3: acid in every jar; Guide 6 and PNW 395: the acid is never cut
    (TOMATOES, "juice per quart", "juice every other quart", "acid-doubt"),
    (TOMATOES, "juice per quart", "juice per quart (optional)", "acid-doubt"),
    (SALSA, "cider vinegar (5%)", "vinegar or water", "acid-doubt"),
    (SALSA, "cider vinegar (5%)", "half-strength vinegar", "acid-doubt"),
    (SALSA, "cider vinegar (5%)", "cider vinegar (5%)\n1 cup water", "water-added"),
    # PNW 395: never more vegetables for the tomatoes and acid
    (SALSA, "5 lb tomatoes", "3-5 lb tomatoes", "more-low-acid"),
    (SALSA, "5 lb tomatoes", "tomatoes", "amount-unclear"),
    (SALSA, "1 lb onions", "1 lb or more onions", "amount-unclear"),
    (SALSA, "5 lb tomatoes\n", "", "missing"),
    # Guide 5: chile con carne as printed
    (CHILE, "3 lb ground beef", "6 lb ground beef", "amounts-apart"),
    (CHILE, "2 quarts crushed tomatoes", "2 quarts water", "missing"),
    # Guide 3: packed without liquid, whole tomatoes take 85 min and not 45
    (TOMATOES, "Raw pack, water, 1/2 in.", "Raw pack, no added liquid, 1/2 in.", "missing"),
    # G1 sec. 6 and 12: the salt of a ferment is never cut
    (DILLS, "1/2 cup canning salt", "canning salt to taste", "amount-unclear"),
]  # fmt: skip


@pytest.mark.parametrize(("recipe", "old", "new", "rule"), CHANGED)
def test_a_change_that_a_rule_forbids_is_never_passed_over(
    recipe: str, old: str, new: str, rule: str
) -> None:
    assert old in recipe

    result = judged(recipe.replace(old, new), recipe)

    assert result.verdict != "tested"
    assert rule in {one.rule for one in result.findings}


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        # G4 sec. 7: plain dried beans 75 and 90 min, sauced beans 65 and 75
        ("Beans\n5 lb dried black beans, soaked 12 h, boiled 30 min\nHot pack, quarts, 1 in. "
         "Vent 10 min. 75 minutes at 11 lb.", ("beans in tomato sauce", "quart", "pressure")),
        # Guide 5: cubed meat 75 and 90 min, stock 20 and 25
        ("Broth\n9 lb stew beef\nBoiling broth, hot pack, quarts, 1 in. Vent 10 min. 25 minutes "
         "at 11 lb.", ("beef stock", "quart", "pressure")),
        # Guide 3: crushed tomatoes 45 min a quart, juice blend 40
        ("Tomatoes\n22 lb tomatoes, crushed\n2 Tbsp bottled lemon juice per quart\n"
         "Hot pack, quarts, 1/2 in. Boiling-water canner 40 minutes.",
         ("tomato and vegetable juice blend", "quart", "boiling-water")),
        # Guide 7: with added pectin
        ("Jam\n5 cups crushed strawberries\n7 cups sugar\nHot pack, half-pints, 1/4 in. "
         "Boiling-water canner 5 min.",
         ("jam or jelly with added pectin", "half-pint", "boiling-water")),
    ],
)  # fmt: skip
def test_a_food_asked_as_another_with_a_shorter_time_is_never_tested(
    text: str, asked: tuple[str, str, str]
) -> None:
    base, jar, method = asked

    result = check(read_paste(text), base=base, jar=jar, method=method, pack="hot")

    assert result.verdict != "tested"
    assert "missing" in {one.rule for one in result.findings}


@pytest.mark.parametrize(
    ("recipe", "sentence"),
    [
        (CARROTS, "Vent no less than ten minutes; do not use zinc caps."),
        (CARROTS, "Fills 2 quart jars or 4 pint jars; we fill pints."),
        (CARROTS, "To serve: add butter and flour."),
        (TOMATOES, "Cover the jars with water by 1 inch in the canner."),
        (SALSA, "Do not dilute."),
    ],
)
def test_what_only_warns_is_not_barred(recipe: str, sentence: str) -> None:
    """A denial, a word of serving day, water of the canner: none of it goes into the jar."""
    assert judged(f"{recipe}{sentence}\n", recipe).verdict == "tested"


@pytest.mark.parametrize(
    ("text", "least"),
    [
        ("at five pounds", 5), ("5 lb dial", 5), ("with the 5-lb weight", 5), ("dial gauge 8", 8),
        ("pressure: 6", 6), ("at 5 to 6 lb", 5), ("at 10 lb weighted", 10), ("@11#", 11),
    ],
)  # fmt: skip
def test_pounds_of_pressure_are_read_however_they_are_written(text: str, least: float) -> None:
    assert min(pounds(text)) == least


@pytest.mark.parametrize("text", ["9 lb beans", "vent 10 min", "weight 3 oz", "pressure 1/2 inch"])
def test_other_numbers_are_no_pressure(text: str) -> None:
    assert pounds(text) == []


def test_kilopascals_are_read_as_pounds() -> None:
    """1 psi is 6.894757 kPa (NIST SP 811)."""
    assert pounds("at 68.94757 kpa") == [pytest.approx(10, rel=1e-6)]


def test_every_rule_of_an_attack_is_a_rule() -> None:
    assert {one[2] for one in ADDED} | {one[3] for one in CHANGED} <= set(rules())
