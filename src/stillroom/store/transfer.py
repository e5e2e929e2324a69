"""All that the household recorded, out in one document and back in with nothing changed.

Not in it: who may come in (passphrase, devices, codes) and plans that are being made, which
belong to one computer and one hour. ``docs/reference/files.md`` lists the keys.
"""

import base64
import binascii
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.store.documents import DEEPEST, LARGEST_EXPORT, checked
from stillroom.store.settings import set_setting, settings
from stillroom.store.tables import (
    Base,
    ChangeRow,
    DayRow,
    Document,
    KitchenRow,
    PlanFileRow,
    PlanRow,
    RecipeRow,
    SettingRow,
)
from stillroom.toml_file import Table, placed, table_of

FORMAT = 1
# Columns that are written as they are, by table; moments and documents by their type.
_CHANGE = ("id", "at", "who", "what", "kind", "row", "before", "after", "undone_at")
_WRITTEN = ("document", "version", "created_at", "changed_at", "removed_at", "change_id")
_RECIPE = ("slug", "title", "food", "source_text", *_WRITTEN)
_DAY = ("key", "date", "title", *_WRITTEN)
_VERSIONS = ("day_version", "kitchen_version", "recipes_version")
_PLAN = ("made_at", *_VERSIONS, "tables", "answer", "why")
# The tables of the export around a document.
_AROUND = 10


@dataclass(frozen=True, slots=True)
class Counts:
    """How much a store holds; what was removed counts, too."""

    kitchens: int
    recipes: int
    days: int
    plans: int
    changes: int
    settings: int


def counts(session: Session) -> Counts:
    """What the household recorded, counted."""
    tables = (KitchenRow, RecipeRow, DayRow, PlanRow, ChangeRow, SettingRow)
    return Counts(*(session.scalar(select(func.count()).select_from(t)) or 0 for t in tables))


def export_document(session: Session) -> Document:
    """Everything the household recorded, as plain JSON."""
    return {
        "stillroom": {"format": FORMAT},
        "kitchen": next(_columns(session.scalars(select(KitchenRow)), _WRITTEN), None),
        "recipes": list(
            _columns(session.scalars(select(RecipeRow).order_by(RecipeRow.id)), _RECIPE)
        ),
        "days": [
            next(_columns([row], _DAY)) | {"plans": list(_plans(session, row.id))}
            for row in session.scalars(select(DayRow).order_by(DayRow.id))
        ],
        "settings": settings(session),
        "changes": list(
            _columns(session.scalars(select(ChangeRow).order_by(ChangeRow.id)), _CHANGE)
        ),
    }


def _plans(session: Session, day_id: int) -> Iterator[Document]:
    rows = session.scalars(select(PlanRow).where(PlanRow.day_id == day_id).order_by(PlanRow.id))
    for row in rows:
        files = select(PlanFileRow).where(PlanFileRow.plan_id == row.id).order_by(PlanFileRow.name)
        yield next(_columns([row], _PLAN)) | {
            "files": {
                file.name: base64.b64encode(file.content).decode()
                for file in session.scalars(files)
            }
        }


def _columns(rows: Iterable[Base], names: Iterable[str]) -> Iterator[Document]:
    for row in rows:
        values = {name: getattr(row, name) for name in names}
        yield {
            name: value.isoformat() if isinstance(value, datetime) else value
            for name, value in values.items()
        }


def import_document(session: Session, document: Document, file: str = "export") -> Counts:
    """Take an export back into an empty store.

    Parameters
    ----------
    document : as ``export_document`` gave it
    file : what errors call it

    Raises
    ------
    InputError
        The store is not empty, or the document is no export; the message names the key.
    """
    if counts(session) != Counts(0, 0, 0, 0, 0, 0):
        raise InputError(
            "This store is not empty. An export is taken into an empty one, so that nothing is "
            "written over: name a new file with --store."
        )
    try:
        plain = checked(document, file, largest=LARGEST_EXPORT, deepest=DEEPEST + _AROUND)
        _take_all(table_of(plain, file), session)
        session.flush()
    except IntegrityError as wrong:
        raise InputError(
            f"{file}: its parts do not fit together ({wrong.orig}). Take the export as it was "
            "written."
        ) from None
    return counts(session)


@placed
def _take_all(top: Table, session: Session) -> None:
    about = top.table("stillroom")
    number = about.whole("format", least=1, most=1_000_000)
    if number > FORMAT:
        raise InputError(
            f"{about.where('format')}: this export was written by a newer Stillroom "
            f"(format {number}; this one reads up to {FORMAT}). Update Stillroom."
        )
    about.no_more()
    for table in top.tables("changes"):
        session.add(ChangeRow(**_values(table, _CHANGE)))
        table.no_more()
    session.flush()
    if _value(top, "kitchen", dict) is not None:
        kitchen = top.table("kitchen")
        session.add(KitchenRow(id=1, **_values(kitchen, _WRITTEN)))
        kitchen.no_more()
    for table in top.tables("recipes"):
        session.add(RecipeRow(**_values(table, _RECIPE)))
        session.flush()
        table.no_more()
    for table in top.tables("days"):
        _take_day(table, session)
    chosen = top.as_written("settings", dict, "a table of settings")
    for key, value in chosen.items():
        set_setting(session, key, value)
    top.no_more()


def _take_day(table: Table, session: Session) -> None:
    row = DayRow(**_values(table, _DAY))
    session.add(row)
    session.flush()
    for told in table.tables("plans"):
        plan = PlanRow(day_id=row.id, **_values(told, _PLAN))
        session.add(plan)
        session.flush()
        for name, content in told.as_written("files", dict, "files by name").items():
            where = told.where("files")
            session.add(PlanFileRow(plan_id=plan.id, name=name, content=_bytes(content, where)))
        told.no_more()
    table.no_more()


def _bytes(content: Any, where: str) -> bytes:
    try:
        return base64.b64decode(content, validate=True)
    except (TypeError, ValueError, binascii.Error):
        raise InputError(f"{where}: a file is written in base64; this one is not.") from None


# What a column holds, and whether it may hold nothing.
_KINDS: dict[str, tuple[type, bool]] = {
    **dict.fromkeys(("id", "version", "change_id", *_VERSIONS), (int, False)),
    **dict.fromkeys(("at", "created_at", "changed_at", "made_at"), (datetime, False)),
    **dict.fromkeys(("removed_at", "undone_at"), (datetime, True)),
    **dict.fromkeys(("document", "after", "answer"), (dict, False)),
    **dict.fromkeys(("before", "why"), (dict, True)),
}


def _values(table: Table, names: Iterable[str]) -> dict[str, Any]:
    """The columns of a row, each of its kind; text where none is said."""
    made = {}
    for name in names:
        kind, may_lack = _KINDS.get(name, (str, False))
        value = _value(table, name, kind) if may_lack else _kept(table, name, kind)
        made[name] = value
    return made


def _value(table: Table, key: str, kind: type) -> Any:
    """A value that must be told, but may be null."""
    return table.as_written(key, type(None), "") if table.is_null(key) else _kept(table, key, kind)


def _kept(table: Table, key: str, kind: type) -> Any:
    if kind is datetime:
        said = table.as_written(key, str, 'a moment, such as "2026-10-17T08:00:00+00:00"')
        try:
            moment = datetime.fromisoformat(said)
            if moment.tzinfo is not None:
                return moment
        except ValueError:
            pass
        raise InputError(f'{table.where(key)}: "{said}" is not a moment with its time zone.')
    said = {int: "a whole number", str: "a text"}.get(kind, "a table")
    return table.as_written(key, kind, said)
