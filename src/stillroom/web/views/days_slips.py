"""What is wrong with a day's form: every slip at once, each beside its field."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from stillroom.day.model import Day
from stillroom.errors import InputError
from stillroom.store.household import Household
from stillroom.web.views.days_form import Form, Wrong, document
from stillroom.web.words.mark import _

_ROW = re.compile(r"(order|helper|break|keep)\[(\d+)\]")
# What stands in for a slip at the top, so that the rest can be read.
_STAND_IN = {"date": "2000-01-01", "start": "0:00", "finish_by": "24:00"}

# Who stands in for the people that are not named yet, so that the rest can be shown at once.
_SOMEBODY = "somebody"


@dataclass(frozen=True, slots=True)
class Read:
    """A form read: its document, the day as far as it can be read, and what is wrong.

    ``day`` leaves out rows that cannot be read; it is the day that was meant only where nothing
    is wrong.
    """

    document: dict[str, Any]
    day: Day | None
    wrong: tuple[Wrong, ...]


def read(form: Form, house: Household) -> Read:
    """The day of a form, with every slip."""
    made, fields = document(form)
    wrong = list(_left_empty(form, made, fields))
    nobody = house.kitchen is not None and not house.kitchen.people and "helper" not in made
    if nobody:
        wrong.append(Wrong("helper[1].name", _("Nobody works on this day yet. Name at least one.")))
    day, told = _through(made | {"helper": [{"name": _SOMEBODY}]} if nobody else made, house)
    for slip in told:
        name = _field(slip.place, fields)
        if not any(w.name == name for w in wrong):
            wrong.append(Wrong(name, _without_place(slip)))
    return Read(made, day, tuple(wrong))


def with_slips(form: Form, found: Read) -> Form:
    """The form with what is wrong beside its fields."""
    return replace(form, wrong=found.wrong)


def _left_empty(form: Form, made: dict[str, Any], fields: dict[str, str]) -> Iterator[Wrong]:
    """What a form lacks, said as a form says it."""
    if "date" not in made:
        yield Wrong("date", _("Choose the date of the day."))
    if "start" not in made:
        yield Wrong("start", _("Say when you start."))
    if "finish_by" not in made:
        yield Wrong("finish_by", _("Say when the last jar must be out."))
    if "order" not in made:
        yield Wrong("order[1].recipe", _("Choose at least one recipe."))
    for number, row in enumerate(made.get("order", ()), 1):
        path = fields[f"order[{number}]"]
        if "recipe" not in row:
            yield Wrong(f"{path}.recipe", _("Choose a recipe, or take this row out."))
        if "jar" not in row:
            yield Wrong(f"{path}.jar", _("Choose a jar size."))
        if "jars" not in row:
            yield Wrong(f"{path}.jars", _("Say how many jars."))
    for number, row in enumerate(made.get("break", ()), 1):
        path = fields[f"break[{number}]"]
        for key in ("from", "to"):
            if key not in row:
                yield Wrong(f"{path}.{key}", _("Say when."))


def _through(made: dict[str, Any], house: Household) -> tuple[Day | None, list[InputError]]:
    """Read again and again, each time without what was wrong."""
    left = {key: list(value) if isinstance(value, list) else value for key, value in made.items()}
    places = {key: list(range(1, len(rows) + 1)) for key, rows in left.items() if _is_rows(rows)}
    told: list[InputError] = []
    dropped: set[str] = set()
    for _attempt in range(60):
        try:
            return house.day_of(left), told
        except InputError as slip:
            place = slip.place
            row = _ROW.match(place)
            key = re.split(r"[.\[]", place)[0]
            if row:
                table, number = row[1], int(row[2])
                slip.place = f"{table}[{places[table][number - 1]}]{place[row.end() :]}"
                del left[table][number - 1], places[table][number - 1]
            elif key in left and key not in _STAND_IN:
                del left[key]
            elif key in _STAND_IN and left.get(key) != _STAND_IN[key]:
                left[key] = _STAND_IN[key]
            else:
                return None, [*told, slip]
            # Who or what was named in a row that is gone now is not unknown for that.
            if not _follows(slip.place, dropped):
                told.append(slip)
            dropped.add(key)
    return None, told


def _is_rows(value: Any) -> bool:
    return isinstance(value, list) and all(isinstance(row, dict) for row in value)


def _follows(place: str, dropped: set[str]) -> bool:
    return (place.startswith("keep") and "order" in dropped) or (
        place.startswith("break") and "helper" in dropped
    )


def _field(place: str, fields: dict[str, str]) -> str:
    """The field of a place; a place that has none of its own belongs to the first of its row."""
    row = _ROW.match(place)
    if row is None:
        name = re.split(r"[.\[]", place)[0]
        return "aim[1]" if name == "aims" else "order[1].recipe" if name == "order" else name
    first = {"order": ".recipe", "helper": ".name", "break": ".from", "keep": ".canner"}[row[1]]
    return fields[row[0]] + (place[row.end() :] or first)


def _without_place(slip: InputError) -> str:
    """The message without file and key, which the field beside it says."""
    said = str(slip)
    lead, colon, rest = said.partition(": ")
    if colon and lead.startswith("day"):
        return rest[:1].upper() + rest[1:]
    return said
