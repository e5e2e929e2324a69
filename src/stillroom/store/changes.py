"""Every change of a document is recorded with what stood before, and can be undone."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from sqlalchemy import select
from sqlalchemy.orm import Session

from stillroom.errors import Conflict, InputError
from stillroom.store.tables import (
    DAY,
    KITCHEN,
    RECIPE,
    ChangeRow,
    DayRow,
    Document,
    KitchenRow,
    RecipeRow,
)

Row = KitchenRow | RecipeRow | DayRow
What = Literal["add", "change", "remove", "undo"]
Kind = Literal["kitchen", "recipe", "day"]
# What makes up each kind of row; beside these a row is there or removed.
_HELD = {
    KITCHEN: ("document",),
    RECIPE: ("title", "food", "document", "source_text"),
    DAY: ("title", "date", "document"),
}


@dataclass(frozen=True, slots=True)
class StoredChange:
    """A change as it was recorded.

    ``row`` is the slug of the recipe or the key of the day, "" for the kitchen; ``title`` what it
    was called after the change. ``before`` is ``None`` for what was new; both hold ``document``,
    ``removed`` and the other columns of their kind.
    """

    id: int
    at: datetime
    who: str
    what: What
    kind: Kind
    row: str
    title: str
    before: Document | None
    after: Document
    undone_at: datetime | None


def changes(session: Session, limit: int = 50, *, before: int | None = None) -> list[StoredChange]:
    """The newest changes, newest first; ``before`` an id, those older than it."""
    asked = select(ChangeRow).order_by(ChangeRow.id.desc()).limit(limit)
    if before is not None:
        asked = asked.where(ChangeRow.id < before)
    return [_stored(row) for row in session.scalars(asked)]


def change(session: Session, change_id: int) -> StoredChange | None:
    """One change, ``None`` where there is none of that number."""
    row = session.get(ChangeRow, change_id)
    return _stored(row) if row else None


def undo(session: Session, change_id: int, *, at: datetime, who: str) -> StoredChange:
    """Put back what stood before a change; that is a change itself, and can be undone.

    Returns
    -------
    StoredChange : the undoing

    Raises
    ------
    InputError
        There is no change of that number.
    Conflict
        It was undone already, or what it changed has been changed since.
    """
    made = session.get(ChangeRow, change_id)
    if made is None:
        raise InputError(f"There is no change number {change_id}.")
    row = _row(session, made.kind, made.row)
    now = _state(row)
    if made.undone_at is not None:
        raise _conflict("This change was undone already.", row)
    if now != made.after:
        raise _conflict(
            "It has been changed again since. Undo the later change first, or edit it.", row
        )
    made.undone_at = at
    state = made.before or now | {"removed": True}
    return write_state(session, row, "undo", state, at=at, who=who)


def write_change(
    session: Session, row: Row, what: What, values: Mapping[str, Any], *, at: datetime, who: str
) -> StoredChange:
    """Change columns of a row, new or stored, and record it."""
    now: Document = _state(row) if row.version else {"removed": False}
    return write_state(session, row, what, {**now, **values}, at=at, who=who)


def take_off(session: Session, row: Row, *, at: datetime, who: str) -> int:
    """Take a row off its list. Returns the number of the change, to undo it by.

    What is off already stays so, and the change that took it off is named again.
    """
    if row.removed_at:
        return row.change_id
    return write_change(session, row, "remove", {"removed": True}, at=at, who=who).id


def write_state(
    session: Session, row: Row, what: What, state: Document, *, at: datetime, who: str
) -> StoredChange:
    """Make a row what a state says it is, and record the change."""
    kind, key = name_of(row)
    made = ChangeRow(
        at=at,
        who=who[:100],
        what=what,
        kind=kind,
        row=key,
        before=_state(row) if row.version else None,
        after=state,
        undone_at=None,
    )
    session.add(made)
    session.flush()
    for name in _HELD[kind]:
        setattr(row, name, state[name])
    if not state["removed"]:
        row.removed_at = None
    elif row.removed_at is None:
        row.removed_at = at
    row.version += 1
    row.changed_at = at
    row.change_id = made.id
    session.add(row)
    session.flush()
    return _stored(made)


def expect_version(row: Row, version: int, what: str) -> None:
    """Refuse a change that rests on an older state.

    Raises
    ------
    Conflict
        With the document as it stands.
    """
    if row.version == version:
        return
    if row.removed_at:
        raise _conflict(f"Somebody removed {what} meanwhile. Keep it again to have it back.", row)
    raise _conflict(f"Somebody changed {what} meanwhile. Here is what they wrote.", row)


def name_of(row: Row) -> tuple[Kind, str]:
    """A row's kind and its name in the record of changes."""
    match row:
        case KitchenRow():
            return "kitchen", ""
        case RecipeRow():
            return "recipe", row.slug
        case DayRow():
            return "day", row.key


def _row(session: Session, kind: str, key: str) -> Row:
    match kind:
        case "kitchen":
            return session.scalars(select(KitchenRow)).one()
        case "recipe":
            return session.scalars(select(RecipeRow).where(RecipeRow.slug == key)).one()
        case _:
            return session.scalars(select(DayRow).where(DayRow.key == key)).one()


def _state(row: Row) -> Document:
    held = {name: getattr(row, name) for name in _HELD[name_of(row)[0]]}
    return held | {"removed": row.removed_at is not None}


def _conflict(message: str, row: Row) -> Conflict:
    stands = None if row.removed_at else row.document
    return Conflict(message, stands=stands, version=row.version)


def _stored(row: ChangeRow) -> StoredChange:
    title = row.after.get("title") or row.after["document"].get("name") or row.row
    return StoredChange(
        row.id, row.at, row.who, row.what, row.kind, row.row, str(title),  # type: ignore[arg-type]
        row.before, row.after, row.undone_at,
    )  # fmt: skip
