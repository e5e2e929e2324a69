"""The checker against its case set: nothing barred comes out tested, and how often it is right."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.recipes.check.finding import rules
from tests.docs.pages import DOCS, text
from tests.recipes.check.cases import SEVERITY, Case, cases, first_set, judged, second_set

TESTED = [case for case in cases() if case.expected == "tested"]
BARRED_FOODS = (
    "1/2 cup flour", "3 Tbsp cornstarch", "2 cups egg noodles", "1 cup rice", "1 cup heavy cream",
    "1/2 cup butter", "2 eggs, beaten", "1 cup pearl barley", "1 cup milk", "8 oz cream cheese",
    "1 cup sour cream", "2 cups cooked quinoa", "1/4 cup tapioca", "1 cup bread crumbs",
)  # fmt: skip


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.id)
def test_no_case_comes_out_kinder_than_its_rule(case: Case) -> None:
    """Recall before precision: a case may come out stricter, never kinder."""
    least = min(SEVERITY[verdict] for verdict in case.right)

    assert SEVERITY[judged(case).verdict] >= least, (case.title, case.source)


def test_the_page_tells_recall_and_precision_as_they_are() -> None:
    """docs/why/checker.md tells what is measured here, set by set."""
    page = text(DOCS / "why" / "checker.md")
    for held in (first_set(), second_set()):
        barred = [case for case in held if case.expected == "barred"]
        verdicts = {case.id: judged(case).verdict for case in held}
        found = sum(verdicts[case.id] == "barred" for case in barred)
        said = [case for case in held if verdicts[case.id] == "barred"]
        rightly = sum("barred" in case.right for case in said)
        exact = sum(verdicts[case.id] in case.right for case in held)

        for figure in (
            f"{len(held)} cases",
            f"{found} of {len(barred)} barred",
            f"{rightly} of {len(said)}",
            f"{exact} of {len(held)}",
        ):
            assert figure in page, figure


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.id)
def test_what_is_at_fault_is_named(case: Case) -> None:
    """At least one of the words that name the fault stands in a finding that is no note."""
    if not case.must_flag:
        return
    told = " ".join(
        f"{one.about} {one.message}".lower() for one in judged(case).findings if one.kind != "note"
    )

    assert any(word.lower() in told for word in case.must_flag) or case.id in UNNAMED


# Faults that are found under another name than the set's; each was looked at.
UNNAMED = frozenset(
    [
        "S240",  # honey in a jam: told as an amount that cannot be compared
        "S148",  # the singular: Morel
        "S280",  # named by its title: ramen, a stock of the wrong kind
        "S281",  # named by what is in it: onion ends, celery
        "S317",  # kept cold; named by its title
        "T035",  # the text does not say marmalade: named by its oranges
        "T086",  # nor chutney: named by its onions
        "T091",  # nor relish: named by its zucchini
        "S338",  # pears of minus 17 lb: the water of 0 cups is told instead
    ]
)


def test_every_rule_is_met_by_a_case_or_by_a_test_of_its_own() -> None:
    met = {one.rule for case in cases() for one in judged(case).findings}
    here = "".join(path.read_text("utf-8") for path in DOCS.parent.glob("tests/recipes/check/*.py"))

    unmet = {name for name in rules() if name not in met and f'"{name}"' not in here}

    assert unmet == set()


@given(case=st.sampled_from(TESTED), food=st.sampled_from(BARRED_FOODS), last=st.booleans())
def test_a_barred_food_bars_any_recipe_wherever_its_line_stands(
    case: Case, food: str, last: bool
) -> None:
    """Guide 4, soups and things with no process: no thickener, pasta, rice, grain, dairy, egg."""
    if case.recipe_text.lstrip().startswith("<") or ("butter" in food and "jam" in case.base):
        return
    lines = case.recipe_text.splitlines()
    lines.insert(len(lines) if last else 1, food)

    assert judged(case, "\n".join(lines)).verdict == "barred"


@given(case=st.sampled_from(TESTED), cut=st.integers(1, 4))
def test_a_time_cut_short_is_never_tested(case: Case, cut: int) -> None:
    """Guide 4: a short time voids the process."""
    verdict = judged(case)
    assert verdict.process is not None
    printed = verdict.process.process.minutes
    short = max(1, printed - 5 * cut)
    changed = re.sub(rf"\b{printed}(?=\s*(?:min|mins|minutes|MIN)\b)", str(short), case.recipe_text)
    if changed == case.recipe_text or short == printed:
        return

    assert judged(case, changed).verdict != "tested"


@given(case=st.sampled_from(cases()))
def test_blank_lines_and_spaces_change_nothing(case: Case) -> None:
    if case.recipe_text.lstrip().startswith("<"):
        return
    spaced = "\n\n".join(f"  {line}  " for line in case.recipe_text.splitlines())

    assert judged(case, spaced).verdict == judged(case).verdict


def test_every_finding_has_words_and_a_source() -> None:
    for case in cases():
        for one in judged(case).findings:
            assert one.message.strip(), one
            assert one.source.strip(), one
            assert "{" not in one.message + one.instead + one.source, one
            assert "safe" not in f"{one.message} {one.instead}".lower(), one
