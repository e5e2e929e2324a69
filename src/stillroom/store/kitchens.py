"""The household's kitchen."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from stillroom.errors import Conflict
from stillroom.store.changes import expect_version, write_change
from stillroom.store.documents import checked
from stillroom.store.tables import Document, KitchenRow


@dataclass(frozen=True, slots=True)
class StoredKitchen:
    """The kitchen as it was written; ``change`` is the number of its last change."""

    document: Document
    version: int
    changed_at: datetime
    change: int


def kitchen(session: Session) -> StoredKitchen | None:
    """The kitchen, ``None`` where none was written yet."""
    row = session.scalars(select(KitchenRow)).one_or_none()
    return None if row is None or row.removed_at else _stored(row)


def save_kitchen(
    session: Session, document: Document, *, version: int, at: datetime, who: str
) -> StoredKitchen:
    """Write the kitchen; ``version`` is that of the one it was made from, 0 for the first.

    Raises
    ------
    InputError
        The document cannot be kept.
    Conflict
        Somebody changed it meanwhile.
    """
    row = session.scalars(select(KitchenRow)).one_or_none()
    values = {"document": checked(document, "kitchen"), "removed": False}
    if row is None:
        if version:
            raise Conflict("The kitchen is not there.")
        row = KitchenRow(id=1, version=0, created_at=at)
        write_change(session, row, "add", values, at=at, who=who)
    elif row.removed_at and not version:
        write_change(session, row, "add", values, at=at, who=who)
    else:
        expect_version(row, version, "the kitchen")
        write_change(session, row, "change", values, at=at, who=who)
    return _stored(row)


def _stored(row: KitchenRow) -> StoredKitchen:
    return StoredKitchen(row.document, row.version, row.changed_at, row.change_id)
