"""The verdict: every rule asked, and the worst finding decides.

*Barred* where a published rule forbids something; *unconfirmed* where nothing published covers the
recipe, or it could not be understood; *tested* only where a printed row fits and nothing is left.
"""

from dataclasses import dataclass
from itertools import chain
from typing import Literal

from stillroom.processes.model import Match
from stillroom.recipes.check import (
    acid_rules,
    canner_rules,
    content_rules,
    form_rules,
    heat_rules,
    jar_rules,
    proportion_rules,
    soup_rules,
    told_rules,
    unread_rules,
)
from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.pasted import Pasted, PastedLine

Verdict = Literal["tested", "unconfirmed", "barred"]

RULES = (
    *heat_rules.RULES,
    *jar_rules.RULES,
    *soup_rules.RULES,
    *acid_rules.RULES,
    *proportion_rules.RULES,
    *content_rules.RULES,
    *told_rules.RULES,
    *canner_rules.RULES,
    *unread_rules.RULES,
    *form_rules.RULES,
)
_ORDER = {"barred": 0, "unconfirmed": 1, "note": 2}


@dataclass(frozen=True, slots=True)
class Checked:
    """A recipe judged: verdict, the printed process it follows where there is one, findings."""

    verdict: Verdict
    process: Match | None
    ingredients: tuple[PastedLine, ...]
    findings: tuple[Finding, ...]
    elevation_ft: int


def check(
    pasted: Pasted, *, base: str = "", jar: str = "", method: str = "", pack: str = ""
) -> Checked:
    """Judge a pasted recipe.

    Parameters
    ----------
    pasted : a recipe as read
    base : the published food it is to follow, as a person types it
    jar : a jar size; without it the first one the text tells
    method : "boiling-water" or "pressure" (or one gauge); without it what the text tells
    pack : "raw" or "hot"; without it what the text tells

    Returns
    -------
    Checked; barred if any finding is barred, tested only with a printed row and no finding but
    notes

    Source
    ------
    ``data/rules.csv``, ``data/bases.csv`` and ``data/proportions.csv``, a source in each row.
    """
    case = Case(
        pasted=pasted,
        base=base.strip(),
        jar=jar or _only(pasted.facts.jars),
        method=method or _only(tuple(m for m in pasted.facts.methods if m in _HEATS)),
        pack=pack or _only(pasted.facts.packs),
    )
    found = sorted(
        dict.fromkeys(chain.from_iterable(rule(case) for rule in RULES)),
        key=lambda one: _ORDER[one.kind],
    )
    if not case.rows and not any(one.kind == "barred" for one in found):
        found += _no_row(case, found)
    found = _once(found)
    kinds = {one.kind for one in found}
    verdict: Verdict = (
        "barred" if "barred" in kinds else "unconfirmed" if "unconfirmed" in kinds else "tested"
    )
    return Checked(verdict, _process(case), pasted.lines, tuple(found), case.feet)


_HEATS = ("boiling-water", "pressure", "dial-gauge", "weighted-gauge")


def _once(found: list[Finding]) -> list[Finding]:
    """That nothing published covers a food is not told beside what else is wrong with it."""
    wrong = {(one.about, one.line) for one in found if one.rule != "no-base"}
    return [one for one in found if one.rule != "no-base" or (one.about, one.line) not in wrong]


def _only(told: tuple[str, ...]) -> str:
    return told[0] if len(set(told)) == 1 else ""


def _no_row(case: Case, found: list[Finding]) -> list[Finding]:
    if any(one.kind == "unconfirmed" for one in found):
        return []
    reason = case.answer.refusal.reason if case.answer and case.answer.refusal else ""
    about = case.food_name
    return [finding("no-base", about) if not reason else finding("withheld", about, why=reason,
            source="the process tables")]  # fmt: skip


def _process(case: Case) -> Match | None:
    """The row with the time the recipe says, else the longest of those that fit."""
    if not case.answer or not case.answer.matches:
        return None
    said = {m.minutes for m in case.process_minutes}
    seafood = any(case.with_role("seafood"))
    fitting = [m for m in case.answer.matches if ("with seafood" in m.process.form) == seafood]
    rows = fitting if case.family == "soup" and fitting else list(case.answer.matches)
    exact = [m for m in rows if m.process.minutes in said]
    return exact[0] if exact else max(rows, key=lambda m: m.process.minutes)
