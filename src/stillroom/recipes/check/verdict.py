"""The verdict: every rule asked, and the worst finding decides.

*Barred* where a published rule forbids something; *unconfirmed* where nothing published covers the
recipe, or it could not be understood; *tested* only where a printed row fits and nothing is left.
"""

from dataclasses import dataclass, replace
from itertools import chain
from typing import Literal

from stillroom.processes.model import PRESSURE, Match
from stillroom.recipes.check import (
    acid_rules,
    base_rules,
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
from stillroom.units.jars import SIZES

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
    *base_rules.RULES,
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
    jar : a jar size
    method : "boiling-water" or "pressure" (or one gauge)
    pack : "raw" or "hot"
        Without one of these three, the recipe must hold for every one that its text tells.

    Returns
    -------
    Checked; barred if any finding is barred, tested only with a printed row and no finding but
    notes

    Source
    ------
    ``data/rules.csv``, ``data/bases.csv`` and ``data/proportions.csv``, a source in each row.
    """
    told = pasted.facts
    case = Case(
        pasted=pasted,
        base=base.strip(),
        jar=jar or _only(told.jars),
        method=method or _only(tuple(m for m in told.methods if m in _HEATS)),
        pack=pack or _only(told.packs),
    )
    every = [list(chain.from_iterable(rule(one) for rule in RULES)) for one in _each(case)]
    found = sorted(_joined(every), key=lambda one: _ORDER[one.kind])
    if not case.rows and all(one.kind == "note" for one in found):
        found = [_no_row(case), *found]
    kinds = {one.kind for one in found}
    verdict: Verdict = (
        "barred" if "barred" in kinds else "unconfirmed" if "unconfirmed" in kinds else "tested"
    )
    return Checked(verdict, _process(case), pasted.lines, tuple(found), case.feet)


_BOILING = "boiling-water"
_HEATS = (_BOILING, "pressure", *PRESSURE)


def _each(case: Case) -> list[Case]:
    """The case once for every jar, pack and way of heating that its text tells: all must hold.

    The largest jar comes first.
    """
    facts = case.pasted.facts
    made = [case]
    if not case.jar and facts.jars:
        jars = sorted(set(facts.jars), key=SIZES.index, reverse=True)
        made = [replace(_told(case, jars=(jar,)), jar=jar) for jar in jars]
    if not case.pack and facts.packs:
        made = [
            replace(_told(one, packs=(pack,)), pack=pack)
            for one in made for pack in dict.fromkeys(facts.packs)
        ]  # fmt: skip
    pressed = tuple(m for m in facts.methods if m in (*PRESSURE, "pressure"))
    if not case.method and pressed and _BOILING in facts.methods:
        under = tuple(m for m in facts.methods if m != _BOILING)
        boiled = tuple(m for m in facts.methods if m not in pressed)
        made = [
            alone
            for one in made
            for alone in (
                replace(_told(one, methods=under), method=_only(pressed) or "pressure"),
                replace(_told(one, methods=boiled), method=_BOILING),
            )
        ]
    return made


def _told(case: Case, **facts: tuple[str, ...]) -> Case:
    """The case as if its text told these facts and no others of their kind."""
    read = replace(case.pasted.facts, **facts)  # type: ignore[arg-type]  # jars or methods
    return replace(case, pasted=replace(case.pasted, facts=read))


def _joined(every: list[list[Finding]]) -> list[Finding]:
    """The findings of every jar, each cause once; a note only where it is one for all of them, and
    no word that is not understood beside the whole that blocks."""
    once: dict[tuple[str, str, int], Finding] = {}
    for found in every:
        for one in found:
            if one.kind != "note" or all(one.rule in {o.rule for o in other} for other in every):
                once.setdefault((one.rule, one.about, one.line), one)
    unread = {one.about for one in once.values() if one.kind != "note"}
    return [
        one for one in once.values() if one.rule != "part-not-understood" or one.about not in unread
    ]


def _only(told: tuple[str, ...]) -> str:
    return told[0] if len(set(told)) == 1 else ""


def _no_row(case: Case) -> Finding:
    """Why there is no row, where no rule has told it."""
    if case.answer and case.answer.refusal:
        return finding("no-row", case.food_name, why=case.answer.refusal.reason)
    return finding("no-base", case.food_name, title=case.food_name)


def _process(case: Case) -> Match | None:
    """The row with the time the recipe says, and the pressure where it says one of theirs; else
    the longest of those that fit."""
    if not case.answer or not case.answer.matches:
        return None
    said = {m.minutes for m in case.process_minutes}
    seafood = any(case.with_role("seafood"))
    fitting = [m for m in case.answer.matches if ("with seafood" in m.process.form) == seafood]
    rows = fitting if case.family == "soup" and fitting else list(case.answer.matches)
    exact = [m for m in rows if m.process.minutes in said]
    psi = case.pasted.facts.psi
    held = [m for m in exact if m.process.psi in psi] or exact
    return held[0] if held else max(rows, key=lambda m: m.process.minutes)
