"""A kept recipe judged line by line, and what changes to it would do."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from stillroom.errors import InputError
from stillroom.recipes.check.compare import Compared
from stillroom.recipes.check.edited import compare_edited
from stillroom.recipes.check.finding import Finding
from stillroom.recipes.check.own import judge
from stillroom.recipes.check.verdict import Checked
from stillroom.recipes.model import Recipe
from stillroom.recipes.published import PACKS
from stillroom.recipes.told.words import understood
from stillroom.units.jars import SIZES
from stillroom.web.views.foods import Choice
from stillroom.web.views.recipes_paste import METHODS


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a recipe, what it is read as, and what was found of it."""

    text: str
    read: str
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Judged:
    """A recipe judged for one of its jars, or for all; ``whole`` are findings of no one line."""

    checked: Checked
    lines: tuple[Line, ...]
    whole: tuple[Finding, ...]
    jars: tuple[Choice, ...]
    jar: str


def judged(recipe: Recipe, path: str, jar: str) -> Judged:
    """A recipe judged; a jar that it is not for counts as none."""
    jar = jar if jar in recipe.jars else ""
    made = judge(recipe, jar)
    lines = tuple(
        Line(
            line.text,
            understood(line),
            tuple(one for one in made.findings if one.line == number),
        )
        for number, line in enumerate(made.ingredients, 1)
    )
    whole = tuple(one for one in made.findings if not 1 <= one.line <= len(lines))
    jars = [Choice("all", path, not jar)]
    jars += [Choice(one, f"{path}?jar={one}", one == jar) for one in recipe.jars]
    return Judged(made, lines, whole, tuple(jars), jar)


@dataclass(frozen=True, slots=True)
class Changed:
    """The form of changes to a recipe: its lines and notes as texts, and other ways to put it up.

    ``compared`` is ``None`` until something was sent.
    """

    lines: str
    notes: str
    jar: str = ""
    jar_after: str = ""
    pack_after: str = ""
    method_after: str = ""
    compared: Compared | None = None
    wrong: str = ""


def unchanged(recipe: Recipe) -> Changed:
    """The form as it begins."""
    return Changed("\n".join(one.line for one in recipe.lines), "\n".join(recipe.notes))


def changed(recipe: Recipe, typed: Mapping[str, str]) -> Changed:
    """The form as it was sent, and what each change does."""
    lines, notes = typed.get("lines", ""), typed.get("notes", "")
    ways = {
        "jar": _one_of(typed.get("jar", ""), recipe.jars),
        "jar_after": _one_of(typed.get("jar_after", ""), SIZES),
        "pack_after": _one_of(typed.get("pack_after", ""), PACKS),
        "method_after": _one_of(typed.get("method_after", ""), METHODS),
    }
    made = replace(Changed(lines, notes), **ways)  # type: ignore[arg-type]  # texts, all of them
    try:
        compared = compare_edited(recipe, _split(lines), _split(notes), **ways)
    except InputError as wrong:
        return replace(made, wrong=str(wrong))
    return replace(made, compared=compared)


def _split(text: str) -> list[str]:
    return [" ".join(line.split()) for line in text.splitlines() if line.strip()]


def _one_of(said: str, options: tuple[str, ...]) -> str:
    return said if said in options else ""
