"""A day's form and its document: what was typed, kept as typed, and what is wrong with it.

A field is called what the document calls its place, such as ``order[2].jars``. So a slip that a
reader tells finds its field, and nothing is lost on the way.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, Final

from markupsafe import Markup

from stillroom.day.aims import AIMS

_ROW: Final = re.compile(r"(order|helper|break|keep)\[(\d{1,3})\]\.(\w{1,20})")
MOST_ROWS: Final = 60

# The keys of each list table that are typed as one text, as a whole number, and ticked.
TEXTS: Final = {
    "order": ("recipe", "jar", "not_before", "done_by"),
    "helper": ("name",),
    "break": ("from", "to"),
    "keep": ("canner",),
}
MANY: Final = {
    "order": ("canners",),
    "helper": ("leaves",),
    "break": ("who",),
    "keep": ("jars", "recipes"),
}
TOP_TEXTS: Final = ("date", "start", "finish_by", "heat_off_by")
TOP_WHOLES: Final = ("most_extra_minutes", "jars_wait_minutes")
TABLES: Final = ("order", "helper", "break", "keep")
_CLOCKS: Final = ("start", "finish_by", "heat_off_by", "not_before", "done_by", "from", "to")

Typed = Mapping[str, tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Wrong:
    """A slip: the field it belongs to, "" where none does, and what to do."""

    name: str
    message: str


@dataclass(frozen=True, slots=True)
class Form:
    """What stands in the form: values by field, rows of each table, and what is wrong."""

    values: Typed
    rows: Mapping[str, int]
    wrong: tuple[Wrong, ...] = ()
    # The row that was just added, to put the cursor there.
    fresh: str = field(default="")

    def one(self, name: str) -> str:
        """The text of a field, as typed."""
        return next(iter(self.values.get(name, ())), "")

    def has(self, name: str, value: str) -> bool:
        """Whether one of several values is ticked."""
        return value in self.values.get(name, ())

    def slip(self, name: str) -> str:
        """What is wrong with a field, or ""."""
        return next((w.message for w in self.wrong if w.name == name), "")

    def path(self, table: str, number: int) -> str:
        """What the fields of a row begin with."""
        return f"{table}[{number}]"

    def id(self, name: str) -> str:
        """A field's name as an address within the page."""
        return field_id(name)

    def told(self, name: str, *, helped: bool = False) -> Markup:
        """The attributes that tie a field to what is wrong with it, or to its help."""
        own = field_id(name)
        if self.slip(name):
            return Markup(' aria-invalid="true" aria-describedby="{}-wrong"').format(own)
        return Markup(' aria-describedby="{}-help"').format(own) if helped else Markup()

    def any_in(self, *names: str) -> bool:
        """Whether something stands in one of some fields, or is wrong there."""
        return any(self.one(name) or self.slip(name) for name in names)


def field_id(name: str) -> str:
    """A field's name as an address within the page.

    Examples
    --------
    >>> field_id("order[2].jars"), field_id("aim[1]"), field_id("date")
    ('order-2-jars', 'aim-1', 'date')
    """
    return name.replace("[", "-").replace("].", "-").replace("]", "")


def typed(items: Iterable[tuple[str, str]]) -> Form:
    """The form as it was sent: pairs of field and value, several of one name for ticked ones."""
    values: dict[str, tuple[str, ...]] = {}
    for name, value in items:
        values[name] = (*values.get(name, ()), value)
    rows = dict.fromkeys(TABLES, 0)
    for name in values:
        found = _ROW.fullmatch(name)
        if found:
            rows[found[1]] = min(max(rows[found[1]], int(found[2])), MOST_ROWS)
    return Form(values, rows)


def from_document(document: Mapping[str, Any], title: str = "") -> Form:
    """The form of a document."""
    values: dict[str, tuple[str, ...]] = {"title": (title,)}
    for key in (*TOP_TEXTS, *TOP_WHOLES):
        if key in document:
            values[key] = (_shown(key, document[key]),)
    for place, aim in enumerate(_list(document.get("aims")), 1):
        values[f"aim[{place}]"] = (str(aim),)
    prices = document.get("prices")
    if isinstance(prices, dict):
        values["prices"] = ("\n".join(f"{food}: {price}" for food, price in prices.items()),)
    rows = {}
    for table in TABLES:
        found = [row for row in _list(document.get(table)) if isinstance(row, dict)]
        rows[table] = min(len(found), MOST_ROWS)
        for number, row in enumerate(found[:MOST_ROWS], 1):
            values |= dict(_row_values(f"{table}[{number}]", table, row))
    return Form(values, rows)


def _row_values(
    path: str, table: str, row: Mapping[str, Any]
) -> Iterator[tuple[str, tuple[str, ...]]]:
    for key, value in row.items():
        name = f"{path}.{key}"
        if key == "hours":
            yield name, (", ".join(map(str, _list(value))),)
        elif isinstance(value, list):
            yield name, tuple(str(one) for one in value)
        elif value is True:
            yield name, ("yes",)
        elif value is not False:
            yield name, (_shown(key, value),)
    if table == "break" and "who" not in row:
        yield f"{path}.who", ()


def _shown(key: str, value: Any) -> str:
    """A value as a field shows it; a browser's clock wants two digits of the hour."""
    said = str(value)
    return said.zfill(5) if key in _CLOCKS and re.fullmatch(r"\d:\d\d", said) else said


def _list(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []


def document(form: Form) -> tuple[dict[str, Any], dict[str, str]]:
    """The document of a form, and the fields of its rows.

    Returns
    -------
    the document; and row paths of the form by row paths of the document, which has no blank rows
    """
    made: dict[str, Any] = {}
    for key in TOP_TEXTS:
        if form.one(key).strip():
            made[key] = _value(key, form.one(key))
    for key in TOP_WHOLES:
        if form.one(key).strip():
            made[key] = _whole(form.one(key))
    named = [form.one(f"aim[{place}]") for place in range(1, len(AIMS) + 1)]
    if any(named):
        made["aims"] = [aim for aim in named if aim]
    if form.one("prices").strip():
        made["prices"] = dict(_prices(form.one("prices")))
    fields = {}
    for table in TABLES:
        found = []
        for number in range(1, form.rows[table] + 1):
            row = _row(form, table, f"{table}[{number}]")
            if row:
                found.append(row)
                fields[f"{table}[{len(found)}]"] = f"{table}[{number}]"
        if found:
            made[table] = found
    return made, fields


def _row(form: Form, table: str, path: str) -> dict[str, Any]:
    row: dict[str, Any] = {}
    for key in TEXTS[table]:
        said = form.one(f"{path}.{key}").strip()
        if said:
            row[key] = _value(key, said)
    for key in MANY[table]:
        chosen = [one for one in form.values.get(f"{path}.{key}", ()) if one.strip()]
        if chosen:
            row[key] = chosen
    if table == "order":
        said = form.one(f"{path}.jars").strip()
        if said:
            row["jars"] = _whole(said)
        if form.one(f"{path}.first"):
            row["first"] = True
        # A size alone is what an untouched row holds.
        return row if row.keys() - {"jar"} else {}
    if table == "helper":
        hours = [span.strip() for span in form.one(f"{path}.hours").split(",") if span.strip()]
        if hours:
            row["hours"] = hours
    return row


def _value(key: str, said: str) -> str:
    said = said.strip()
    return said[1:] if key in _CLOCKS and re.fullmatch(r"0\d:\d\d", said) else said


def _whole(said: str) -> int | str:
    """A whole number, or the text for the reader to complain of."""
    plain = said.strip().replace(",", "")
    return int(plain) if plain.isascii() and plain.isdigit() and len(plain) < 10 else said.strip()


def _prices(said: str) -> Iterator[tuple[str, str]]:
    for line in said.splitlines():
        food, _, price = line.partition(":" if ":" in line else "=")
        if food.strip():
            yield food.strip(), price.strip().strip('"')


def version(form: Form) -> int:
    """The version of the day that the form was made from, 0 where it does not say."""
    said = form.one("version")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 10 else 0
