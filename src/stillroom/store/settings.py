"""Choices of the household, such as units and language."""

from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from stillroom.store.documents import checked
from stillroom.store.tables import SettingRow


def setting(session: Session, key: str, default: Any) -> Any:
    """A choice, or the default where none was made."""
    row = session.get(SettingRow, key)
    return default if row is None else row.choice["value"]


def settings(session: Session) -> dict[str, Any]:
    """Every choice that was made, by key."""
    rows = session.scalars(select(SettingRow).order_by(SettingRow.key))
    return {row.key: row.choice["value"] for row in rows}


def set_setting(session: Session, key: str, value: Any) -> None:
    """Make a choice; any JSON will do."""
    choice = {"value": checked({key: value}, "setting")[key]}
    session.merge(SettingRow(key=key, choice=choice))
    session.flush()
