"""Recipes written to slip past the checker: each once came out *tested*, or was wrongly refused.

One row is one attack: what it tries, the published process it hides behind, the words slipped in,
the worst verdict it may get and the rule that says so. Rules are cited as in
``reference/rules``: G1 to G7 are the guides of USDA AIB-539.
"""

import pytest

from stillroom.recipes.check.verdict import check
from stillroom.recipes.text.page import read_paste

SOUP = (
    "Beef vegetable soup\n2 lb beef, cooked and cubed\n3 c carrots, sliced\n2 qt beef broth\n{}\n"
    "Boil 5 minutes.\nFill jars half with solids, then broth to 1 inch.\n"
    "Vent 10 minutes, process quarts 75 minutes at 11 lb dial gauge."
)
CORN = (
    "Corn\n20 lb corn in husk\n1/2 tsp salt per pint\n{}\nSimmer 5 minutes in boiling water.\n"
    "Fill hot pints, 1 inch headspace.\nVent 10 minutes, process 55 minutes at 11 lb dial gauge."
)
ASKED = {
    SOUP: {"base": "soups", "jar": "quart", "method": "pressure", "pack": "hot"},
    CORN: {"base": "whole-kernel corn", "jar": "pint", "method": "pressure", "pack": "hot"},
}
G4_THICK = "G4 sec. 4 rule 2: no thickener, pasta, rice, cream or milk before canning"
UNREAD = "this project: what is not understood is never passed over"


def judged(text: str, asked: dict[str, str]) -> str:
    return check(read_paste(text, base=asked["base"]), **asked).verdict


@pytest.mark.parametrize("page", [SOUP, CORN])
def test_the_pages_are_tested_with_nothing_slipped_in(page: str) -> None:
    assert judged(page.format("1/2 tsp dried thyme"), ASKED[page]) == "tested"


@pytest.mark.parametrize(
    ("page", "words", "verdict", "source"),
    [
        (SOUP, "a slurry", "barred", G4_THICK),
        (CORN, "Stir in a slurry and heat through.", "barred", G4_THICK),
        (SOUP, "Thicken the broth.", "barred", G4_THICK),
        (SOUP, "8 oz small shells", "barred", G4_THICK),
        (CORN, "a handful of alphabets", "barred", G4_THICK),
        (CORN, "1/2 c all-purpose", "unconfirmed", UNREAD),
        (SOUP, "Add the okara now.", "unconfirmed", UNREAD),
        (SOUP, "Stir in 1 c okara and heat through.", "unconfirmed", UNREAD),
        (CORN, "I put okara in each jar too.", "unconfirmed", UNREAD),
        (SOUP, "some okara", "unconfirmed", UNREAD),
        (SOUP, "flr 1/2 c", "unconfirmed", UNREAD),
        (SOUP, "2 tsp salt with clear gel", "unconfirmed", UNREAD),
        (SOUP, "Okara: 1 cup", "unconfirmed", UNREAD),
        (SOUP, "a handful of clear gel", "unconfirmed", UNREAD),
        (SOUP, "Add the flaxseed now.", "unconfirmed", "G4 sec. 4 rule 1: own directions"),
        (SOUP, "You can't leave out the cream.", "barred", G4_THICK),
        (SOUP, "No soup is complete without noodles, so in they go.", "barred", G4_THICK),
        (SOUP, "Some leave out the rice but I don't.", "barred", G4_THICK),
        (SOUP, "2 c noodles so dinner is ready when you open it", "barred", G4_THICK),
        (SOUP, "Add noodles now or at serving time.", "barred", G4_THICK),
        (SOUP, "Tastes great with rice in it.", "barred", G4_THICK),
        (SOUP, "To serve:\nAdd 2 c rice.\nFill the jars.", "barred", G4_THICK),
        (SOUP, "Instead of rice I use noodles", "barred", G4_THICK),
        (SOUP, "Thicken with flour so it is ready for serving day", "barred", G4_THICK),
        (SOUP, "1 c cream before serving it to jars", "barred", G4_THICK),
        (SOUP, "Before opening the canner stir in 1 c rice", "barred", G4_THICK),
        (SOUP, "1 lb stew beef (floured)", "barred", G4_THICK),
        (SOUP, "Dust the beef lightly and brown.", "barred", G4_THICK),
        (SOUP, "Serve with bread, add 1 c barley to the pot.", "barred", G4_THICK),
        (SOUP, "okara if you like", "unconfirmed", UNREAD),
        (CORN, "1 tsp sugar with okara", "unconfirmed", UNREAD),
    ],
)
def test_slipped_in(page: str, words: str, verdict: str, source: str) -> None:
    """A food, thickener or stranger is found wherever it stands; ``source`` says why."""
    assert judged(page.format(words), ASKED[page]) == verdict, source


def test_the_stranger_is_named() -> None:
    """The finding says which word was not understood."""
    page = read_paste(SOUP.format("Stir in 1 c okara and heat through."))

    found = check(page, **ASKED[SOUP]).findings

    assert [one.about for one in found if one.rule == "unread-added"] == ["1 c okara"]


@pytest.mark.parametrize(
    ("page", "words", "source"),
    [
        (SOUP, "Add the rest of the broth.", "G4 sec. 4 rule 5: broth to cover"),
        (SOUP, "Thicken the broth with flour when you serve it.", "G4 sec. 4: thicken at serving"),
        (SOUP, "Do not thicken the broth.", "G4 sec. 4 rule 2"),
        (SOUP, "Add noodles on serving day.", "G4 sec. 4 rule 2: add at serving time"),
        (SOUP, "When ready to serve, stir in cream.", "G4 sec. 4 rule 2: add at serving time"),
        (SOUP, "After opening the jar add 1 c rice.", "G4 sec. 4 rule 2: add at serving time"),
        (SOUP, "For serving: 2 c cooked noodles", "G4 sec. 4 rule 2: add at serving time"),
        (SOUP, "Leave the rice for the day you eat it.", "G4 sec. 4 rule 2: at serving time"),
        (SOUP, "Add cream when reheating, never before canning.", "G4 sec. 4 rule 2: serving"),
        (SOUP, "We eat it with rice.", "G4 sec. 4 rule 2: at serving time"),
        (CORN, "1/2 tsp sugar per pint or none", "G1 sec. 12: salt and sugar may be left out"),
    ],
)
def test_still_tested(page: str, words: str, source: str) -> None:
    """A plain remark bars nothing; ``source`` says why."""
    assert judged(page.format(words), ASKED[page]) == "tested", source


FRUIT = "Fruit\n{}\nmedium syrup\nFill hot quarts, 1/2 in. Boiling water canner {} min."
VEGETABLE = "{}\n1 tsp salt per quart\nFill hot pints, 1 inch. Vent 10 min, {} min at 11 lb dial."
JAM = "Strawberry jam\n{}\nFill half-pints, 1/4 in. Boiling water canner 10 min."
PLAIN = {"method": "boiling-water", "pack": "hot"}
PRESSED = {"jar": "pint", "method": "pressure", "pack": "hot"}
PECTIN = {"base": "jam or jelly with added pectin", "jar": "half-pint", **PLAIN}
WHITE = "G2 sec. 4: white peaches and nectarines have no process (Wisconsin 2020)"
MASHED = "G4 sec. 8: pumpkin, squash and sweet potatoes in pieces only, no mash"


@pytest.mark.parametrize(
    ("text", "asked", "verdict", "source"),
    [
        (
            FRUIT.format("17 lb peaches (our tree has white flesh)", 25),
            {"base": "peaches", "jar": "quart", **PLAIN},
            "barred",
            WHITE,
        ),
        (
            FRUIT.format("17 lb nectarines, their flesh is white", 25),
            {"base": "nectarines", "jar": "quart", **PLAIN},
            "barred",
            WHITE,
        ),
        (
            FRUIT.format("17 lb yellow peaches, not white ones", 25),
            {"base": "peaches", "jar": "quart", **PLAIN},
            "tested",
            "G2, peaches: hot quarts 25 min",
        ),
        (
            VEGETABLE.format("Pumpkin\n16 lb pumpkin\nSteam, run through the ricer.", 55),
            {"base": "pumpkin", **PRESSED},
            "barred",
            MASHED,
        ),
        (
            VEGETABLE.format("Squash\n16 lb butternut\nRoast soft and scoop out the flesh.", 55),
            {"base": "winter squash", **PRESSED},
            "barred",
            MASHED,
        ),
        (
            VEGETABLE.format("Squash\n16 lb butternut in 1 inch cubes\nNever mash squash.", 55),
            {"base": "winter squash", **PRESSED},
            "tested",
            "G4, winter squash: cubes, pints 55 min",
        ),
        (
            VEGETABLE.format("Squash\n16 lb butternut, pureed\nDo not mash too long.", 55),
            {"base": "winter squash", **PRESSED},
            "barred",
            MASHED,
        ),
        (
            VEGETABLE.format("Sweet potatoes\n13 lb sweet potatoes, peeled, whipped", 65),
            {"base": "sweet potatoes", **PRESSED},
            "barred",
            MASHED,
        ),
        (
            VEGETABLE.format("Sweet potatoes\n13 lb sweet potatoes, peeled, no liquid", 65),
            {"base": "sweet potatoes", **PRESSED},
            "barred",
            "G4 sec. 8: sweet potatoes, no dry pack",
        ),
        (
            VEGETABLE.format("Carrots\n11 lb carrots, liquefied", 25),
            {"base": "carrots", **PRESSED},
            "barred",
            "G1 sec. 12: no pureed vegetables",
        ),
        (
            VEGETABLE.format("Carrots\n11 lb carrots, sliced, dry pack", 25),
            {"base": "carrots", **PRESSED},
            "unconfirmed",
            "G1 sec. 6: covering liquid is boiling, raw or hot pack",
        ),
        (
            VEGETABLE.format("Mushrooms we picked in the woods\n14 lb mushrooms", 45),
            {"base": "mushrooms", **PRESSED},
            "barred",
            "G4 sec. 8: wild mushrooms",
        ),
        (
            VEGETABLE.format("Hummus\n5 lb chickpeas, soaked, boiled 30 min", 75),
            {"base": "dried beans or peas", **PRESSED},
            "barred",
            "G4 sec. 8: dense purees (Penn State)",
        ),
        (
            JAM.format("5 c crushed strawberries\n1 box regular pectin\n2 c sugar"),
            PECTIN,
            "unconfirmed",
            "G7 sec. 6: follow the leaflet of the pectin",
        ),
        (
            JAM.format("5 c crushed strawberries\n1 box pectin\n1 cup honey"),
            PECTIN,
            "unconfirmed",
            "G7 sec. 6: follow the leaflet of the pectin",
        ),
        (
            JAM.format("5 c crushed strawberries\n1 box pectin\n7 c sugar\n1/2 c butter"),
            PECTIN,
            "barred",
            "G4 sec. 8: dairy; G7 sec. 6: 1/2 tsp butter cuts foam",
        ),
        (
            JAM.format("5 c crushed strawberries\n1 box pectin\n7 c sugar\n1/2 tsp butter"),
            PECTIN,
            "tested",
            "G7 sec. 6: 1/2 tsp butter cuts foam",
        ),
    ],
)
def test_form(text: str, asked: dict[str, str], verdict: str, source: str) -> None:
    """What a food is made into, or told to be, counts as much as its name."""
    assert judged(text, asked) == verdict, source


@pytest.mark.parametrize(
    ("rule", "text", "asked"),
    [
        ("dry-pack", "Sweet potatoes\n13 lb sweet potatoes, no liquid", "sweet potatoes"),
        ("no-liquid", "Carrots\n11 lb carrots, dry pack", "carrots"),
        ("wild-mushrooms", "Foraged mushrooms\n14 lb mushrooms", "mushrooms"),
    ],
)
def test_the_finding_names_its_rule(rule: str, text: str, asked: str) -> None:
    found = check(read_paste(VEGETABLE.format(text, 90)), base=asked, **PRESSED).findings

    assert rule in {one.rule for one in found}


def test_more_butter_than_foam_asks_for() -> None:
    """G7 sec. 6: 1/2 tsp."""
    jam = JAM.format("5 c crushed strawberries\n1 box pectin\n7 c sugar\n1 Tbsp butter")

    found = check(read_paste(jam), **PECTIN).findings

    assert "more-butter" in {one.rule for one in found}


TOMATOES = (
    "Tomatoes\n21 lb tomatoes, peeled\n2 Tbsp bottled lemon juice per quart\n{}\n"
    "{} quarts, 1/2 in. headspace. Boiling water canner {} min."
)
CHICKEN = "Chicken\n10 lb {}\nHot quarts, boiling broth, 1 1/4 in. Vent 10{} {} min at 11 lb dial."
LONGER = "G1 sec. 6: the time belongs to the pack named; Guide 3, tomatoes"
BONED = "Guide 5: chicken without bones takes longer (quarts 90) than with bones (75)"


@pytest.mark.parametrize(
    ("text", "asked", "verdict", "source"),
    [
        (TOMATOES.format("Cover with tomato juice.", "Hot", 45), "tomatoes hot", "barred", LONGER),
        (TOMATOES.format("Cover with tomato juice.", "Hot", 85), "tomatoes hot", "tested", LONGER),
        (TOMATOES.format("Cover with hot water.", "Hot", 45), "tomatoes hot", "tested", LONGER),
        (TOMATOES.format("", "Hot", 45), "tomatoes hot", "unconfirmed", LONGER),
        (
            TOMATOES.format("Cover with hot water.", "Hot", 45).replace("bottled", "homemade"),
            "tomatoes hot",
            "barred",
            "Guide 3, acid in every jar: bottled juice (NC State FAQ 491)",
        ),
        (TOMATOES.format("In their own juice.", "Raw", 45), "tomatoes raw", "barred", LONGER),
        (TOMATOES.format("In their own juice.", "Raw", 85), "tomatoes raw", "tested", LONGER),
        (CHICKEN.format("chicken, boned", ",", 75), "chicken hot", "barred", BONED),
        (CHICKEN.format("chicken breasts", ",", 75), "chicken hot", "barred", BONED),
        (CHICKEN.format("chicken", ",", 75), "chicken hot", "unconfirmed", BONED),
        (CHICKEN.format("chicken, bone in", ",", 75), "chicken hot", "tested", BONED),
        (CHICKEN.format("chicken, boned", ",", 90), "chicken hot", "tested", BONED),
        (CHICKEN.format("chicken, bone in", "", 40), "chicken hot", "barred", BONED),
    ],
)
def test_the_time_of_the_form(text: str, asked: str, verdict: str, source: str) -> None:
    """A base that leaves the form open does not lend the shortest time to every form."""
    base, pack = asked.split()
    method = "boiling-water" if base == "tomatoes" else "pressure"

    got = judged(text, {"base": base, "jar": "quart", "method": method, "pack": pack})

    assert got == verdict, source


def test_a_form_that_is_not_told_is_asked_for() -> None:
    """Guide 5: quarts 75 min with bones, 90 without."""
    page = read_paste(CHICKEN.format("chicken", ",", 75), base="chicken")

    found = check(page, base="chicken", jar="quart", method="pressure", pack="hot").findings

    assert "form-unsaid" in {one.rule for one in found}


RAW = {"method": "pressure", "pack": "raw"}
WET = {"method": "boiling-water", "pack": "hot"}


@pytest.mark.parametrize(
    ("text", "asked", "source"),
    [
        (
            "Green beans\n14 lb beans, snapped\nsalt\nPack them tight in hot quart jars, an inch "
            "at the top. Boiling water. Vent 10 min. 25 min at 11 lb dial.",
            {"base": "snap beans", "jar": "quart", **RAW},
            "G4, snap beans: raw quarts 25 min",
        ),
        (
            'Venison\n14 lbs. lean venison, cut in 1" cubes, all fat and gristle trimmed away\n'
            "Raw quarts, 1 in. Do not add liquid. Vent 10 min; 90 min at 11 lb dial.",
            {"base": "strips, cubes or chunks of meat", "jar": "quart", **RAW},
            "Guide 5, strips, cubes or chunks: raw quarts 90 min, fat trimmed",
        ),
        (
            "Chicken\n16 lb boneless skinless breasts\n1 tsp salt/qt if you like\n"
            "Raw quarts, 1 1/4 in. No liquid!! Vent 10. 90 min, 11 lb dial.",
            {"base": "chicken or rabbit without bones", "jar": "quart", **RAW},
            "Guide 5, chicken without bones: raw quarts 90 min",
        ),
        (
            "Chile salsa\n5 lb tomatoes\n2 lb chiles\n1 lb onions\n1 cup vinegar (5%)\n3 tsp salt\n"
            "Wear gloves! Simmer 10 minutes. Hot pints, 1/2 inch. 15 min.",
            {"base": "chile salsa", "jar": "pint", **WET},
            "Guide 3, chile salsa: hot pints 15 min",
        ),
        (
            "Bread & butters\n6 lb cucumbers\n8 cups onions\n1/2 c canning salt\n"
            "4 c vinegar (5%)\n4 1/2 c sugar\nHot pints, 1/2 in. Boiling water canner 10 min.",
            {"base": "bread-and-butter pickles", "jar": "pint", **WET},
            "Guide 6, bread-and-butter pickles: hot pints 10 min",
        ),
        (
            "Plums\n14 lb plums, washed, pricked with a fork\nmedium syrup\n"
            'Hot quarts 1/2". 25 min BW',
            {"base": "plums", "jar": "quart", **WET},
            "G2, plums: hot quarts 25 min",
        ),
        (
            "Dilly beans\n4 lb tender green beans\n8 heads fresh dill\n1/2 c salt\n"
            "4 c vinegar (5%)\n4 c water\nRaw pints, 1/2 in. 5 min BW",
            {"base": "pickled dilled beans", "jar": "pint", **WET, "pack": "raw"},
            "Guide 6, pickled dilled beans: raw pints 5 min",
        ),
        (
            "Tomatoes\n21 lb tomatoes\n2 T bottled lemon juice per quart\n"
            "Hot quarts, cover with boiling water, 1/2 in. 45 BW",
            {"base": "tomatoes in water", "jar": "quart", **WET},
            "Guide 3, tomatoes in water: quarts 45 min",
        ),
    ],
)
def test_cards_as_people_write_them(text: str, asked: dict[str, str], source: str) -> None:
    """Plain published recipes that were once refused for a word; ``source`` names the row."""
    assert judged(text, asked) == "tested", source


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        ("Add the 1 cup onions and simmer.", "tested"),
        ("Stir in 3 cups onions and simmer.", "unconfirmed"),
        ("Boil soft. Stir in 1 cup garlic and simmer.", "unconfirmed"),
    ],
)
def test_more_in_the_method_than_in_the_list(words: str, verdict: str) -> None:
    """Guide 3, spaghetti sauce: never raise onions, peppers or mushrooms."""
    sauce = (
        "Spaghetti sauce\n30 lb tomatoes\n1 c onions\n5 cloves garlic\n1 c celery\n"
        f"1/4 c oil\n{words}\nHot pints, 1 in. Vent 10 min, 20 min at 11 lb dial."
    )

    assert judged(sauce, {"base": "spaghetti sauce without meat", **PRESSED}) == verdict


def test_below_a_heading_of_serving_day() -> None:
    """G4 sec. 4 rule 2: pasta, rice and cream are added at serving time."""
    text = SOUP.format("") + "\n\nTO SERVE\nAdd 2 c cooked rice and a cup of cream."

    assert judged(text, ASKED[SOUP]) == "tested"
    assert judged(text + "\nDIRECTIONS\nAdd 2 c rice.", ASKED[SOUP]) == "barred"


@pytest.mark.parametrize(
    ("words", "verdict", "source"),
    [
        ("90 min at 11 lb dial. Mile high.", "barred", "G1 sec. 2: 13 psi at 4,001-6,000 ft"),
        ("90 min at 10 lb weighted. Elevation 6,200'.", "barred", "G1 sec. 2: 15 psi"),
        ("90 min at 15 lb weighted. Elevation 6,200'.", "tested", "G1 sec. 2: 15 psi"),
        ("90 min at 11 lb dial. Reuse last year's lids.", "barred", "G1 sec. 5: lids new"),
    ],
)
def test_where_and_with_what(words: str, verdict: str, source: str) -> None:
    beef = f"Beef\n14 lb beef cubes\nRaw quarts, 1 in. Vent 10 min, {words}"
    base = {"base": "strips, cubes or chunks of meat", "jar": "quart", **RAW}

    got = judged(beef, base)

    assert got == verdict, source


@pytest.mark.parametrize("words", ["seal and let stand, no bath", "bake at 250 for an hour"])
def test_no_canner(words: str) -> None:
    """G1 sec. 4, not recommended: open kettle, ovens."""
    peaches = f"Peaches\n17 lb peaches, light syrup\nhot quarts, {words}"

    assert judged(peaches, {"base": "peaches", "jar": "quart", **WET}) == "barred"


PEACHES = (
    "Peaches\nMakes 7 quarts\n17 lb peaches\n9 cups water\n{}\nHot pack, quarts, boiling water {}."
)


def test_a_line_among_the_ingredients_that_names_no_food_leaves_the_recipe_open() -> None:
    """Nobody knows what a glurb is; a tested verdict would be a guess."""
    text = PEACHES.format("a glurb of mothers secret", "25 min")

    told = check(read_paste(text, base="peaches"), base="peaches")

    assert told.verdict == "unconfirmed"
    assert [f.line for f in told.findings if f.rule == "not-understood"] == [5]


def test_longer_than_the_lowest_elevation_prints_is_not_called_too_long_without_saying_where() -> (
    None
):
    """AIB-539 Guide 2 p. 2-19: quarts of peaches 25 min up to 1,000 ft, 35 min at 5,430 ft."""
    text = PEACHES.format("2 cups sugar", "35 min")

    told = check(read_paste(text, base="peaches"), base="peaches")

    notes = [f.message for f in told.findings if f.rule == "long-time"]
    assert told.verdict == "tested"
    assert "25 min in quart jars for the lowest elevation (higher up more is printed)" in notes[0]
