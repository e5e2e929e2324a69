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
        (CORN, "1/2 tsp sugar per pint or none", "G1 sec. 12: salt and sugar may be left out"),
    ],
)
def test_still_tested(page: str, words: str, source: str) -> None:
    """A plain remark bars nothing; ``source`` says why."""
    assert judged(page.format(words), ASKED[page]) == "tested", source
