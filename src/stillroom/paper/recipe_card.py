"""The printed recipe card: the published process for one kitchen's elevation, and how to fill."""

from fractions import Fraction

from stillroom.day.steps import CAUTIONS
from stillroom.errors import InputError
from stillroom.paper.jar_figure import jar_figure
from stillroom.paper.letters import printable
from stillroom.paper.typeset import typeset
from stillroom.processes.model import Answer, Process
from stillroom.recipes.build import ESTIMATED, Build
from stillroom.recipes.check.own import judge
from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import Measured, between, measured_line
from stillroom.recipes.model import Recipe
from stillroom.recipes.process import rows_of
from stillroom.units.jars import quarts
from stillroom.units.rulers import inches

_METHODS = {
    "boiling-water": "boiling water",
    "dial-gauge": "dial gauge",
    "weighted-gauge": "weighted gauge",
}


def recipe_card(recipe: Recipe, made: Build, *, count: int, elevation_ft: int) -> bytes:
    """The card as a PDF, US Letter.

    Parameters
    ----------
    recipe : Recipe
    made : the build of one of its jars, in the order it is to be filled
    count : jars to put up
    elevation_ft : of the kitchen, ft

    Returns
    -------
    bytes of the PDF, the same for the same card; one page for a usual recipe, in black and white
    as well

    Raises
    ------
    InputError
        The recipe is barred, or rows are printed for its food that do not hold for it.
    typst.TypstError
        The layout itself is wrong; no recipe causes it.

    Source
    ------
    Minutes, pounds, headspace and acid: the printed rows of ``processes.lookup``. Amounts: the
    recipe. Liquid and shares: the estimate of ``recipes.build``.
    """
    verdict = judge(recipe).verdict
    is_printed = any(rows_of(recipe, jar, elevation_ft).matches for jar in recipe.jars)
    if verdict == "barred" or (verdict == "unconfirmed" and is_printed):
        raise InputError(f"There is no card: this recipe is {verdict} as it stands. See its check.")
    told = card_data(recipe, made, count=count, elevation_ft=elevation_ft)
    return typeset("recipe_card.typ", "card", told)


def card_data(recipe: Recipe, made: Build, *, count: int, elevation_ft: int) -> dict[str, object]:
    """What the card says, as plain data for the layout.

    Parameters
    ----------
    as ``recipe_card``

    Returns
    -------
    texts as a person reads them; ``processes`` holds a row for each canner and option with a cell
    for each of ``jars``, ``None`` where no process is printed; ``refused`` tells why

    Source
    ------
    As ``recipe_card``.
    """
    answers = {jar: rows_of(recipe, jar, elevation_ft) for jar in recipe.jars}
    matches = answers[made.jar].matches
    times = Fraction(quarts(made.jar)) / Fraction(recipe.makes_quarts)
    form = f", {recipe.form}" if recipe.form else ""
    return {
        "title": printable(recipe.title),
        "rests": f"{recipe.food}{form}: {recipe.pack} pack",
        "elevation": f"{elevation_ft:,} ft",
        "jar": made.jar,
        "count": f"{count} {made.jar} jar{'s' if count > 1 else ''}",
        "many": count > 1,
        "headspace": inches(recipe.headspace_in),
        "jars": list(recipe.jars),
        "processes": _processes(answers),
        "refused": [
            f"{jar}: {answer.refusal.reason}" for jar, answer in answers.items() if answer.refusal
        ],
        "acid": printable(made.acid),
        "requires": list(dict.fromkeys(r for match in matches for r in match.requires)),
        "ingredients": [
            _ingredient(measured_line(line, times * count), measured_line(line, times))
            for line in recipe.lines
        ],
        "strained": ", ".join(item.food for item in made.strained),
        "steps": [_step(made, layer) for layer in made.layers],
        "liquid": f"{made.poured}: {between(made.liquid)} a jar" if made.liquid else "",
        "share": made.share_told,
        "fits": [{"kind": fit.kind, "text": printable(fit.message)} for fit in made.fits],
        "notes": [printable(note) for note in recipe.notes],
        "care": list(dict.fromkeys(n for match in matches for n in match.notes)),
        "cautions": list(CAUTIONS),
        "sources": [
            printable(recipe.source),
            *dict.fromkeys(f"Process: {m.process.citation}." for m in matches),
            ESTIMATED,
        ],
        "figure": jar_figure(made, alone=False),
    }


def _processes(answers: dict[str, Answer]) -> list[dict[str, object]]:
    """A row for each canner and option, in the order of the tables."""
    rows: dict[tuple[str, str], dict[str, list[Process]]] = {}
    for jar, answer in answers.items():
        for row in answer.processes:
            rows.setdefault((row.method, row.option), {}).setdefault(jar, []).append(row)
    return [
        {
            "method": _METHODS[method],
            "option": option,
            "cells": [[_cell(row) for row in held.get(jar, [])] for jar in answers],
        }
        for (method, option), held in rows.items()
    ]


def _cell(row: Process) -> dict[str, str]:
    return {"minutes": str(row.minutes), "psi": str(row.psi) if row.psi else ""}


def _ingredient(all_jars: Measured, one: Measured) -> dict[str, object]:
    return {
        "name": printable(", ".join(part for part in (one.food, one.prep) if part)),
        "optional": one.optional,
        "cups": all_jars.by_cup,
        "weight": all_jars.by_weight,
        "bought": all_jars.as_purchased,
        "each": one.by_cup or one.as_purchased or one.by_weight,
    }


def _step(made: Build, layer: Layer) -> dict[str, object]:
    if layer.name == made.poured:
        amount = f"about {between(made.liquid or layer.volume)}, to the headspace line"
    else:
        amount = layer.said
    wanted = bool(layer.items) and all(item.optional for item in layer.items)
    return {
        "name": printable(layer.name),
        "amount": amount + (", if wanted" if wanted else ""),
        "text": "" if layer.ours else printable(layer.step),
    }
