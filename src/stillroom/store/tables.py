"""The tables of the store, one class each. ``migrations/`` holds the steps that make them.

A document is what a person wrote, with the keys of our files (docs/reference/files.md), as JSON.
A moment is kept as text in UTC, so that it sorts and reads back to the microsecond.
"""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    CheckConstraint,
    Dialect,
    ForeignKey,
    Index,
    LargeBinary,
    MetaData,
    String,
    Text,
    TypeDecorator,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

KITCHEN, RECIPE, DAY = "kitchen", "recipe", "day"
Document = dict[str, Any]


class Moment(TypeDecorator[datetime]):
    """A moment, as ISO 8601 text in UTC."""

    impl = String(32)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """To text. A moment without a zone is a slip of ours."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value!r} has no time zone")
        return value.astimezone(UTC).isoformat(timespec="microseconds")

    def process_result_value(self, value: str | None, dialect: Dialect) -> datetime | None:
        """From text."""
        return None if value is None else datetime.fromisoformat(value)


class Base(DeclarativeBase):
    """All tables; constraints have names from the first day, so that a later step can find them."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "ck": "ck_%(table_name)s_%(constraint_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map = {  # noqa: RUF012
        datetime: Moment,
        Document: JSON(none_as_null=True),
    }


class ChangeRow(Base):
    """One change of a document: what stood before and after. Never deleted."""

    __tablename__ = "change"
    __table_args__ = (
        CheckConstraint("kind in ('kitchen', 'recipe', 'day')", name="kind"),
        CheckConstraint("what in ('add', 'change', 'remove', 'undo')", name="what"),
        Index(None, "kind", "row"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime]
    who: Mapped[str] = mapped_column(String(100))
    what: Mapped[str] = mapped_column(String(10))
    kind: Mapped[str] = mapped_column(String(10))
    row: Mapped[str] = mapped_column(String(100))
    before: Mapped[Document | None]
    after: Mapped[Document]
    undone_at: Mapped[datetime | None]


class Written:
    """What every document has. ``version`` counts its changes, removal and undoing among them."""

    document: Mapped[Document]
    version: Mapped[int]
    created_at: Mapped[datetime]
    changed_at: Mapped[datetime]
    removed_at: Mapped[datetime | None]
    change_id: Mapped[int] = mapped_column(ForeignKey("change.id"))


class KitchenRow(Written, Base):
    """The household's kitchen: one row at most."""

    __tablename__ = KITCHEN
    __table_args__ = (
        CheckConstraint("id = 1", name="one"),
        CheckConstraint("version >= 1", name="version"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)


class RecipeRow(Written, Base):
    """A recipe of the household's own; ``source_text`` is the paste it was made from, or ""."""

    __tablename__ = RECIPE
    __table_args__ = (CheckConstraint("version >= 1", name="version"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    slug: Mapped[str] = mapped_column(String(100), unique=True)
    title: Mapped[str] = mapped_column(Text)
    food: Mapped[str] = mapped_column(Text)
    source_text: Mapped[str] = mapped_column(Text)


class DayRow(Written, Base):
    """A canning day; ``date`` is ISO 8601 and the document's own, "" where that has none yet."""

    __tablename__ = DAY
    __table_args__ = (CheckConstraint("version >= 1", name="version"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(String(100), unique=True)
    date: Mapped[str] = mapped_column(String(10), index=True)
    title: Mapped[str] = mapped_column(Text)


class PlanRow(Base):
    """A day's plan as it was answered; the newest counts, older ones are kept.

    ``recipes_version`` is the sum of its own recipes' versions, which grows with each change of
    one; ``tables`` the mark of the published tables.
    """

    __tablename__ = "plan"

    id: Mapped[int] = mapped_column(primary_key=True)
    day_id: Mapped[int] = mapped_column(ForeignKey("day.id"), index=True)
    made_at: Mapped[datetime]
    day_version: Mapped[int]
    kitchen_version: Mapped[int]
    recipes_version: Mapped[int]
    tables: Mapped[str] = mapped_column(String(100))
    answer: Mapped[Document]
    why: Mapped[Document | None]


class PlanFileRow(Base):
    """A file made from a plan: pdf, people, calendar, chart. Only the newest plan's are kept."""

    __tablename__ = "plan_file"

    plan_id: Mapped[int] = mapped_column(ForeignKey("plan.id"), primary_key=True)
    name: Mapped[str] = mapped_column(String(20), primary_key=True)
    content: Mapped[bytes] = mapped_column(LargeBinary)


class SettingRow(Base):
    """One choice of the household, such as its units.

    ``choice`` holds it under "value": in a column of JSON, SQLite would take a bare 1.0 for a 1.
    """

    __tablename__ = "setting"

    key: Mapped[str] = mapped_column(String(100), primary_key=True)
    choice: Mapped[Document]


class TaskRow(Base):
    """A plan being made in the background, and what came of it."""

    __tablename__ = "task"

    id: Mapped[int] = mapped_column(primary_key=True)
    day_key: Mapped[str] = mapped_column(String(100), index=True)
    kind: Mapped[str] = mapped_column(String(20))
    state: Mapped[str] = mapped_column(String(20))
    progress: Mapped[Document | None]
    answer: Mapped[Document | None]
    error: Mapped[str | None] = mapped_column(Text)
    created_at: Mapped[datetime]
    changed_at: Mapped[datetime]


class PassphraseRow(Base):
    """The household's passphrase, hashed; one row at most."""

    __tablename__ = "passphrase"
    __table_args__ = (CheckConstraint("id = 1", name="one"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    hash: Mapped[str] = mapped_column(Text)
    changed_at: Mapped[datetime]


class DeviceRow(Base):
    """A phone or tablet that was let in; of its token only the hash is kept."""

    __tablename__ = "device"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(100))
    token_hash: Mapped[str] = mapped_column(String(128), unique=True)
    created_at: Mapped[datetime]
    seen_at: Mapped[datetime]
    revoked_at: Mapped[datetime | None]


class PairingRow(Base):
    """A code shown on the serving machine, good once and for a short time."""

    __tablename__ = "pairing"

    code_hash: Mapped[str] = mapped_column(String(128), primary_key=True)
    created_at: Mapped[datetime]
    expires_at: Mapped[datetime]
    used_at: Mapped[datetime | None]


class AttemptRow(Base):
    """A try at a code or passphrase, counted so that guessing is slow."""

    __tablename__ = "attempt"
    __table_args__ = (Index(None, "where", "at"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    where: Mapped[str] = mapped_column(String(200))
    at: Mapped[datetime]
