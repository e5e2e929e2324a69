"""Canning days as the household wrote them."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.store.changes import expect_version, take_off, write_change
from stillroom.store.documents import checked, first_line, slug
from stillroom.store.plans import StoredPlan, plan_file, plan_of, save_plan
from stillroom.store.tables import DayRow, Document, PlanRow

__all__ = [
    "DayLine",
    "StoredDay",
    "StoredPlan",
    "add_day",
    "change_day",
    "day",
    "days",
    "plan_file",
    "plan_of",
    "remove_day",
    "save_plan",
]


@dataclass(frozen=True, slots=True)
class DayLine:
    """A day as a list shows it; ``planned_at`` is when its newest plan was made."""

    key: str
    date: date | None
    title: str
    document: Document
    changed_at: datetime
    planned_at: datetime | None


@dataclass(frozen=True, slots=True)
class StoredDay:
    """A day as it was written; ``date`` is ``None`` where it has none yet.

    ``change`` is the number of its last change.
    """

    key: str
    date: date | None
    title: str
    document: Document
    version: int
    created_at: datetime
    changed_at: datetime
    removed_at: datetime | None
    change: int


def days(session: Session) -> list[DayLine]:
    """All days, the latest date first; a day without a date stands before them."""
    planned = (
        select(PlanRow.day_id, func.max(PlanRow.made_at).label("at"))
        .group_by(PlanRow.day_id)
        .subquery()
    )
    asked = (
        select(
            DayRow.key, DayRow.date, DayRow.title, DayRow.document, DayRow.changed_at, planned.c.at
        )
        .outerjoin(planned, planned.c.day_id == DayRow.id)
        .where(DayRow.removed_at.is_(None))
        .order_by((DayRow.date == "").desc(), DayRow.date.desc(), DayRow.id.desc())
    )
    return [
        DayLine(key, _date(said), title, document, changed_at, planned_at)
        for key, said, title, document, changed_at, planned_at in session.execute(asked)
    ]


def day(session: Session, key: str, *, removed: bool = False) -> StoredDay | None:
    """One day, ``None`` where there is none; with ``removed`` one that was removed, too."""
    row = _row(session, key)
    return None if row is None or (row.removed_at and not removed) else _stored(row)


def add_day(
    session: Session, document: Document, *, at: datetime, who: str, title: str = ""
) -> StoredDay:
    """Keep a new day, under a key made from its date.

    Raises
    ------
    InputError
        The document cannot be kept.
    """
    values = _values(document, title) | {"removed": False}
    taken = {"new", *session.scalars(select(DayRow.key))}
    key = slug(values["date"] or "day", taken.__contains__)
    row = DayRow(key=key, version=0, created_at=at)
    write_change(session, row, "add", values, at=at, who=who)
    return _stored(row)


def change_day(
    session: Session,
    key: str,
    document: Document,
    *,
    version: int,
    at: datetime,
    who: str,
    title: str | None = None,
) -> StoredDay:
    """Write a day anew; its key stays, and so does its title where none is given.

    Raises
    ------
    InputError
        There is no such day, or the document cannot be kept.
    Conflict
        Somebody changed or removed it meanwhile.
    """
    row = _there(session, key)
    expect_version(row, version, "this day")
    values = _values(document, row.title if title is None else title) | {"removed": False}
    write_change(session, row, "change", values, at=at, who=who)
    return _stored(row)


def remove_day(session: Session, key: str, *, at: datetime, who: str) -> int:
    """Take a day off the list. Returns the number of the change, to undo it by.

    Raises
    ------
    InputError
        There is no such day.
    """
    return take_off(session, _there(session, key), at=at, who=who)


def _row(session: Session, key: str) -> DayRow | None:
    return session.scalars(select(DayRow).where(DayRow.key == key)).one_or_none()


def _there(session: Session, key: str) -> DayRow:
    row = _row(session, key)
    if row is None:
        raise InputError(f'There is no day "{key}".')
    return row


def _values(document: Document, title: str) -> Document:
    plain = checked(document, "day")
    named = checked({"title": title[:1000]}, "day")
    said = _date(first_line(plain, "date"))
    return {
        "document": plain,
        "title": first_line(named, "title"),
        "date": said.isoformat() if said else "",
    }


def _date(said: str) -> date | None:
    """A date, ``None`` where the text is none: the reader tells the person."""
    try:
        return date.fromisoformat(said)
    except ValueError:
        return None


def _stored(row: DayRow) -> StoredDay:
    return StoredDay(
        row.key, _date(row.date), row.title, row.document, row.version,
        row.created_at, row.changed_at, row.removed_at, row.change_id,
    )  # fmt: skip
