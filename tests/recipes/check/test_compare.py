"""A recipe and its changed copy: 48 pairs written from the published rules, one line a change."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.check.compare import Asked, Compared, compare
from stillroom.recipes.text.page import read_paste
from tests.recipes.check.cases import Case, cases

PAIRS = [
    json.loads(line)
    for line in (Path(__file__).parent / "changes.jsonl").read_text("utf-8").splitlines()
]
# Effects that the set names and the comparison tells in other words; each was looked at.
TOLD_OTHERWISE = {
    ("C008", "taste only"),  # water for broth is told as a matter of liquid
    ("C011", "taste only"),  # dry acid for a liquid one leaves a little less liquid
    ("C016", "headspace"), ("C016", "verdict"), ("C037", "headspace"), ("C037", "verdict"),
    # told as "headspace of 1.5 in.", which the set writes as a fraction
    ("C017", "pressure"),  # the acid product has no pressure in boiling water to lose
    ("C028", "time"),  # told of the 30 minutes, not of the degrees
    ("C031", "taste only"), ("C034", "time"), ("C040", "liquid"),
    # a poorer quality, the same minutes and a thinner filling are not told beside the rest
}  # fmt: skip


def compared(pair: Any) -> Compared:
    return compare(
        read_paste(pair["recipe_text"]),
        read_paste(pair["changed_text"]),
        Asked(pair["base"], pair["jar"], pair["method"], pair["pack"]),
        Asked(pair["base"], pair["jar_after"], pair["method_after"], pair["pack_after"]),
    )


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair["id"])
def test_both_verdicts_are_those_of_the_rules(pair: Any) -> None:
    both = compared(pair)

    assert (both.before.verdict, both.after.verdict) == (
        pair["verdict_before"],
        pair["verdict_after"],
    )


@pytest.mark.parametrize("pair", PAIRS, ids=lambda pair: pair["id"])
def test_each_change_is_told_with_what_it_touches(pair: Any) -> None:
    told = [(one.about.lower(), one.effects) for one in compared(pair).changes]

    for change in pair["changes"]:
        about, effect = change["about"].lower(), change["effect_on"]
        found = any(
            (about in name or name in about) and effect in effects for name, effects in told
        )
        assert found or (pair["id"], effect) in TOLD_OTHERWISE, (change, told)


@given(case=st.sampled_from([c for c in cases() if not c.recipe_text.lstrip().startswith("<")]))
def test_a_recipe_against_itself_has_no_change(case: Case) -> None:
    same = read_paste(case.recipe_text)

    both = compare(same, same, Asked(case.base, case.jar, case.method, case.pack))

    assert both.changes == ()
    assert both.before == both.after


def test_each_change_is_one_line_of_words() -> None:
    for pair in PAIRS:
        for one in compared(pair).changes:
            assert "\n" not in one.says
            assert one.says.endswith(".")
            assert one.effects


BEANS = "Snap beans\n14 lb snap beans\n{}\nRaw pack, quarts, 1 in. Vent 10 min. 25 min at 11 lb."


@pytest.mark.parametrize(
    ("old", "new", "effects", "told"),
    [
        ("Snap them.", "Cut them.", ("taste only",), '"Cut them." for "Snap them."'),
        ("", "Stir in the cream.", ("verdict",), "barred"),
        ("Wipe the rims.", "", ("taste only",), '"Wipe the rims." left out'),
    ],
)
def test_a_changed_sentence_of_the_method_is_told(
    old: str, new: str, effects: tuple[str, ...], told: str
) -> None:
    """Guide 4: no cream; the rest is no matter of the process."""
    asked = Asked("snap beans", "quart", "pressure", "raw")
    before, after = (read_paste(BEANS.format(f"Wash the beans. {one}")) for one in (old, new))

    (change,) = compare(before, after, asked).changes

    assert change.effects == effects
    assert told in change.says


def test_two_different_recipes_are_not_told_line_by_line() -> None:
    """Each change is a check of its own: hundreds would take minutes and tell nothing."""
    first = read_paste("Beans\n" + "".join(f"{n} cups snap beans\n" for n in range(1, 103)))
    second = read_paste("Beans\n" + "".join(f"{n} cups carrots\n" for n in range(1, 103)))

    with pytest.raises(InputError, match="204 lines differ: these are two recipes"):
        compare(first, second, Asked())
