"""Rules that no case of the set meets, each with the smallest recipe on which it alone decides."""

import pytest

from stillroom.recipes.check.finding import rules
from stillroom.recipes.check.verdict import check
from stillroom.recipes.text.page import read_paste

TOMATOES = (
    "Whole tomatoes\n21 lb tomatoes\n{}\nRaw pack, water, 1/2 in. Quarts, boiling water 45 min."
)


@pytest.mark.parametrize(
    ("rule", "text", "asked"),
    [
        (
            "acid-unclear",
            TOMATOES.format("1/2 cup bottled lemon juice"),
            {"base": "tomatoes in water", "jar": "quart", "method": "boiling-water", "pack": "raw"},
        ),
        (
            "no-pressure-row",
            "Apple butter\n8 lb apples\n4 cups sugar\nPints, 1/4 in. Vent 10 min. 10 lb, 15 min.",
            {"base": "apple butter", "jar": "pint", "method": "pressure", "pack": "hot"},
        ),
        (
            "beans-unsoaked",
            "Pinto beans\n5 lb dry pinto beans, unsoaked\nQuarts, 1 in. Vent 10 min. 90 min.",
            {"base": "pinto beans", "jar": "quart", "method": "pressure", "pack": "hot"},
        ),
        (
            "ambiguous-base",
            "Beans\n4 lb beans\nPints, 1 in. Vent 10 min. 20 min.",
            {"base": "beans", "jar": "pint", "method": "pressure", "pack": "raw"},
        ),
        (
            "unknown-base",
            "Beans\n4 lb beans\nPints, 1 in. Vent 10 min. 20 min.",
            {"base": "xyzzy", "jar": "pint", "method": "pressure", "pack": "raw"},
        ),
        (
            # Guide 4: dial-gauge tables end at 8,000 ft
            "no-row",
            "Snap beans\n9 lb green beans\nWe live at 8,400 ft. Pints, 1 in. Vent 10 min. 20 min.",
            {"base": "snap beans", "jar": "pint", "method": "dial-gauge", "pack": "raw"},
        ),
    ],
)
def test_rule_decides(rule: str, text: str, asked: dict[str, str]) -> None:
    judged = check(read_paste(text), **asked)

    assert rule in {one.rule for one in judged.findings}
    assert judged.verdict == rules()[rule].kind


@pytest.mark.parametrize(
    ("acid", "verdict"),
    [
        ("2 Tbsp bottled lemon juice per quart", "tested"),
        ("1/2 tsp citric acid in each jar", "tested"),
        ("4 Tbsp vinegar (5%) per quart", "tested"),
        ("1 Tbsp bottled lemon juice per quart", "barred"),
        ("2 Tbsp fresh lemon juice per quart", "barred"),
        ("1/4 tsp citric acid per quart", "barred"),
        ("2 Tbsp vinegar (5%) per quart", "barred"),
        ("1 tsp salt per quart", "barred"),
    ],
)
def test_acid_of_tomatoes_is_held_to_the_printed_spoon(acid: str, verdict: str) -> None:
    """AIB-539 Guide 3, a quart: 2 Tbsp bottled lemon juice, 1/2 tsp citric acid, 4 Tbsp vinegar."""
    judged = check(
        read_paste(TOMATOES.format(acid)),
        base="tomatoes in water", jar="quart", method="boiling-water", pack="raw",
    )  # fmt: skip

    assert judged.verdict == verdict


def test_a_recipe_without_a_base_is_never_tested_unless_its_title_is_a_published_food() -> None:
    own = check(read_paste("Garden medley\n3 lb carrots\n2 lb beets\nPints 30 min, vented"))
    named = check(
        read_paste("Carrots\n11 lb carrots, sliced\nRaw pack pints, 1 in. Vent 10 min. 25 min."),
        method="pressure",
    )

    assert own.verdict == "unconfirmed"
    assert named.verdict == "tested"
    assert named.process is not None
    assert named.process.process.food == "carrots"


def test_the_process_shown_is_the_printed_row_and_never_the_time_of_the_recipe() -> None:
    """AIB-539 Guide 4: carrots, pints, 25 min."""
    long = check(
        read_paste("Carrots\n11 lb carrots\nRaw pack pints, 1 in. Vent 10 min. 40 min."),
        base="carrots", jar="pint", method="pressure", pack="raw",
    )  # fmt: skip

    assert long.process is not None
    assert long.process.process.minutes == 25


SOUP = (
    "Pork soup\n2 lb lean pork, cooked, cubed\n3 c carrots\n2 qt broth\n"
    "Boil 5 min. Hot pack, half solids, 1 inch. Vent 10 min. 11 lb. {}"
)
PEACHES = "Peaches\n17 lb peaches\n9 cups water\n2 1/4 cups sugar\n1/2 inch. {}"


@pytest.mark.parametrize(
    ("times", "verdict", "rule"),
    [
        ("Pints 60 min, quarts 75 min.", "tested", ""),
        ("Pints 60 min, quarts 65 min.", "barred", "soup-short"),
        ("Pints 40 min, quarts 75 min.", "barred", "soup-short"),
        ("60 min for both pints and quarts.", "barred", "soup-short"),
        ("Process 75 min.", "tested", ""),
        ("Process 60 min.", "unconfirmed", "which-unsaid"),
        ("Pints 60 min, or a boiling-water bath of 3 hours.", "barred", "boiling-low-acid"),
    ],
)
def test_a_recipe_for_several_jars_or_canners_must_hold_for_each(
    times: str, verdict: str, rule: str
) -> None:
    """AIB-539 Guide 4, soups: pints 60 min, quarts 75 min, under pressure only."""
    judged = check(read_paste(SOUP.format(times)), base="soups")

    assert judged.verdict == verdict
    assert rule in {one.rule for one in judged.findings} or not rule


@pytest.mark.parametrize(
    ("times", "verdict"),
    [
        ("Hot pack, pints 20 min in boiling water.", "tested"),
        ("Raw or hot pack, pints 20 min in boiling water.", "barred"),
        ("Hot pack, pints 20 min.", "tested"),
        ("Hot pack, pints 15 min.", "unconfirmed"),  # enough under pressure only: 10 min
        ("Pints 20 min in boiling water.", "unconfirmed"),
        ("Pints 25 min in boiling water.", "tested"),
    ],
)
def test_a_time_must_hold_for_every_pack_and_canner_that_may_be_meant(
    times: str, verdict: str
) -> None:
    """AIB-539 Guide 2, peaches, pints to 1,000 ft: hot 20 min, raw 25 min."""
    assert check(read_paste(PEACHES.format(times)), base="peaches").verdict == verdict


def test_the_row_shown_has_the_pressure_that_the_recipe_tells() -> None:
    """AIB-539 Guide 4, soups to 1,000 ft: 10 lb by a weighted gauge, 11 lb by a dial gauge."""
    text = SOUP.format("Pints 60 min.").replace("11 lb", "10 lb weighted")

    row = check(read_paste(text), base="soups").process

    assert row is not None
    assert row.process.psi == 10


def findings(text: str, base: str = "") -> list[tuple[str, str, str]]:
    return [
        (one.rule, one.about, one.instead)
        for one in check(read_paste(text), base=base).findings
        if one.kind != "note"
    ]


def test_a_recipe_that_names_no_published_food_is_asked_for_one_and_told_the_nearest() -> None:
    """One cause, one finding: its foods are not told to be left out of what was not compared."""
    text = (
        "Nils's green ones\n4 lb green beans\n8 heads dill\n8 cloves garlic\n1/2 cup canning salt\n"
        "4 cups vinegar (5%)\n4 cups water\nPints 5 min in boiling water, 1/2 inch."
    )

    named, alone = findings(text)

    assert named[0] == "no-base"
    assert "pickled dilled beans" in named[2]
    assert alone[:2] == ("no-process-alone", "garlic")


def test_foods_without_a_process_are_told_in_one_finding() -> None:
    """Univ. of Wisconsin Extension: only ingredients that each have a tested process."""
    text = "Green pot\n2 lb celery\n1 lb onions\n3 lb carrots\nQuarts, pressure, 11 lb, 75 min."

    told = [one for one in findings(text) if one[0] == "no-process-alone"]

    assert [about for _, about, _ in told] == ["celery and onions"]


def test_an_own_preserve_is_told_with_its_reason_and_what_is_published_instead() -> None:
    """AIB-539 Guide 6 has four relishes and no other."""
    told, alone = findings(
        "Zucchini relish\n4 cups zucchini\n2 cups vinegar\nPints 10 min water bath."
    )

    assert told[0] == "own-mixture"
    assert "piccalilli" in told[2]
    assert alone[:2] == ("no-process-alone", "zucchini")
