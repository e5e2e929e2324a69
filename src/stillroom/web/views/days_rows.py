"""Rows of a day's form added and taken away, with all else kept as typed."""

import re
from dataclasses import replace

from stillroom.web.views.days_form import MOST_ROWS, TABLES, Form

_ADD = re.compile(r"add-(\w+)")
_REMOVE = re.compile(r"remove-(\w+)-(\d{1,3})")


def pressed(form: Form, button: str) -> Form | None:
    """The form with a row more or less, if the button was one for rows."""
    if (found := _ADD.fullmatch(button)) and found[1] in TABLES:
        return _added(form, found[1])
    if (found := _REMOVE.fullmatch(button)) and found[1] in TABLES:
        return _removed(form, found[1], int(found[2]))
    return None


def at_least(form: Form, table: str, rows: int) -> Form:
    """The form with at least so many rows of a table, blank ones at the end."""
    return replace(form, rows={**form.rows, table: max(form.rows[table], rows)})


def _added(form: Form, table: str) -> Form:
    number = min(form.rows[table] + 1, MOST_ROWS)
    return replace(form, rows={**form.rows, table: number}, fresh=f"{table}[{number}]")


def _removed(form: Form, table: str, number: int) -> Form:
    if not 1 <= number <= form.rows[table]:
        return form
    values = {}
    for name, value in form.values.items():
        found = re.fullmatch(rf"{table}\[(\d+)\](.*)", name)
        place = int(found[1]) if found else 0
        if found and place == number:
            continue
        moved = f"{table}[{place - 1}]{found[2]}" if found and place > number else name
        values[moved] = value
    return replace(form, values=values, rows={**form.rows, table: form.rows[table] - 1})
