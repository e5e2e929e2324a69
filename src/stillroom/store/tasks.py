"""Plans being made in the background, so that a restart can tell which were lost."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from stillroom.store.tables import Document, TaskRow

# Still going on when it was written: after a restart, lost.
_UNDER_WAY = ("waiting", "running")
# Of one day so many are kept; they tell what happened last, not a history.
_KEPT = 10


@dataclass(frozen=True, slots=True)
class StoredTask:
    """A task as it was written.

    ``state`` is "waiting", "done", "failed", "dropped" or "lost" (Stillroom ended meanwhile).
    ``answer`` is kept where there is no plan: ``{"infeasible": ...}``. ``made_for`` holds the
    versions of day and kitchen it was asked for.
    """

    id: int
    day_key: str
    kind: str
    state: str
    made_for: Document
    answer: Document | None
    error: str
    changed_at: datetime


def begin_task(
    session: Session, day_key: str, kind: str, *, made_for: Document, at: datetime
) -> int:
    """Write down that a task was asked for. Returns its number."""
    row = TaskRow(
        day_key=day_key, kind=kind, state="waiting", progress=made_for, created_at=at, changed_at=at
    )
    session.add(row)
    session.flush()
    newest = select(TaskRow.id).where(TaskRow.day_key == day_key)
    kept = newest.order_by(TaskRow.id.desc()).limit(_KEPT)
    session.execute(
        delete(TaskRow).where(TaskRow.day_key == day_key, TaskRow.id.not_in(kept.scalar_subquery()))
    )
    return row.id


def end_task(
    session: Session,
    number: int,
    state: str,
    *,
    at: datetime,
    answer: Document | None = None,
    error: str = "",
) -> None:
    """Write down what became of a task."""
    session.execute(
        update(TaskRow)
        .where(TaskRow.id == number)
        .values(state=state, answer=answer, error=error or None, changed_at=at)
    )


def lose_tasks(session: Session, *, at: datetime) -> int:
    """At a start: what was under way is lost. Returns how many were."""
    found = session.execute(
        update(TaskRow)
        .where(TaskRow.state.in_(_UNDER_WAY))
        .values(state="lost", changed_at=at)
        .returning(TaskRow.id)
    )
    return len(found.all())


def last_task(session: Session, day_key: str, kinds: tuple[str, ...]) -> StoredTask | None:
    """The newest task of a day of some kinds, ``None`` where there was none."""
    row = session.scalars(
        select(TaskRow)
        .where(TaskRow.day_key == day_key, TaskRow.kind.in_(kinds))
        .order_by(TaskRow.id.desc())
        .limit(1)
    ).one_or_none()
    if row is None:
        return None
    return StoredTask(
        row.id, row.day_key, row.kind, row.state, row.progress or {}, row.answer,
        row.error or "", row.changed_at,
    )  # fmt: skip
