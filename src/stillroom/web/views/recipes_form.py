"""The form over a recipe's document: what was typed to keys, and keys to what is shown."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from stillroom.errors import Conflict
from stillroom.recipes.check.own import judge
from stillroom.recipes.check.verdict import Checked
from stillroom.units.jars import SIZES
from stillroom.web.views.recipes import read

_TEXTS = ("title", "source", "food", "form", "pack", "makes", "liquid", "headspace", "gives")
_LISTS = ("ingredients", "fill", "notes")
_MINUTES = ("prep_per_quart", "heat", "fill_per_jar", "make")
_NUMBER = re.compile(r"[0-9]{1,6}(?:\.[0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class RecipeForm:
    """A form as it is shown.

    ``values`` are texts by field, a list with a line each; ``jars`` the sizes that are ticked.
    ``version`` is of the recipe as it was read; ``theirs`` what somebody else wrote meanwhile, by
    field, where it differs.
    """

    document: dict[str, Any]
    values: dict[str, str]
    jars: tuple[str, ...]
    version: int
    wrong: dict[str, str] = field(default_factory=dict)
    judged: Checked | None = None
    theirs: dict[str, str] = field(default_factory=dict)
    single_batch: bool = False


def shown(document: dict[str, Any], version: int) -> RecipeForm:
    """The form of a document, with what is wrong in it and how it is judged."""
    values = {key: _text(document.get(key)) for key in _TEXTS}
    values |= {key: "\n".join(_lines(document.get(key))) for key in _LISTS}
    work = document.get("work")
    work = work if isinstance(work, dict) else {}
    values |= {f"work.{key}": _text(work.get(key)) for key in (*_MINUTES, "source")}
    recipe, wrong = read(document)
    return RecipeForm(
        document,
        values,
        tuple(_lines(document.get("jars"))),
        version,
        {_field(wrong.place): str(wrong)} if wrong else {},
        judge(recipe) if recipe else None,
        single_batch=document.get("single_batch") is True,
    )


def sent(typed: Mapping[str, str], before: dict[str, Any]) -> RecipeForm:
    """The form as it was sent, with what is wrong in it; all that was typed stands in it."""
    said = typed.get("version", "")
    form = shown(written(typed, before), int(said) if said.isdecimal() and len(said) < 9 else 0)
    values = {key: typed.get(key, "") for key in form.values}
    return replace(form, values=values)


def conflicting(mine: RecipeForm, wrong: Conflict) -> RecipeForm:
    """The form with what somebody else wrote beside it; sent again, it goes over that."""
    if wrong.stands is None:
        return replace(mine, version=wrong.version, wrong={"conflict": str(wrong)})
    theirs = differing(mine, wrong.stands)
    return replace(mine, version=wrong.version, theirs=theirs, wrong={"conflict": str(wrong)})


def written(typed: Mapping[str, str], before: dict[str, Any]) -> dict[str, Any]:
    """The document of a form. Keys without a field stay as they were.

    What cannot be read is passed on as it was typed, so that the reader complains in its words.
    """
    said: dict[str, Any] = {key: " ".join(typed.get(key, "").split()) for key in _TEXTS}
    said |= {key: _split(typed.get(key, "")) for key in _LISTS}
    said["jars"] = [size for size in SIZES if typed.get(f"jars.{size}")]
    said["single_batch"] = bool(typed.get("single_batch"))
    work: dict[str, Any] = {key: _number(typed.get(f"work.{key}", "")) for key in _MINUTES}
    work["source"] = typed.get("work.source", "").strip()
    said["work"] = {key: value for key, value in work.items() if value not in ("", None)}
    return _without_empty(before, said)


def differing(mine: RecipeForm, stands: dict[str, Any]) -> dict[str, str]:
    """What somebody else wrote, by field, where it is not what stands in the form."""
    other = shown(stands, 0)
    told = {key: text for key, text in other.values.items() if text != mine.values[key]}
    if other.jars != mine.jars:
        told["jars"] = ", ".join(other.jars)
    return told


def _without_empty(before: dict[str, Any], said: dict[str, Any]) -> dict[str, Any]:
    """Empty fields are keys that are not written: the reader then says what is missing."""
    kept = {key: value for key, value in before.items() if key not in said}
    return kept | {key: value for key, value in said.items() if value not in ("", [], False, {})}


def _field(place: str) -> str:
    """The field of the form that a key's message stands beside."""
    return place.partition("[")[0] or "title"


def _text(value: object) -> str:
    if isinstance(value, bool) or value is None:
        return ""
    return f"{value:g}" if isinstance(value, float) else str(value)


def _lines(value: object) -> list[str]:
    return [str(one) for one in value] if isinstance(value, list) else []


def _split(text: str) -> list[str]:
    return [" ".join(line.split()) for line in text.splitlines() if line.strip()]


def _number(said: str) -> float | int | str:
    plain = said.strip()
    if not _NUMBER.fullmatch(plain):
        return plain
    value = float(plain)
    return int(value) if value == int(value) else value
