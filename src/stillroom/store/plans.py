"""Plans of days: the answer as it was given, why, and the files made from it."""

from collections.abc import Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete, func, select
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.processes import library
from stillroom.store.documents import LARGEST_ANSWER, checked
from stillroom.store.tables import (
    ChangeRow,
    DayRow,
    Document,
    KitchenRow,
    PlanFileRow,
    PlanRow,
    RecipeRow,
)


@dataclass(frozen=True, slots=True)
class StoredPlan:
    """A plan that was made, or the answer why there is none: ``{"infeasible": ...}``.

    ``current`` is false once the day, the kitchen (but for when a canner was looked at), a recipe
    of the day or the published tables were changed after it was made: its times and pressures may
    be for other jars, or for another elevation.
    """

    day_key: str
    made_at: datetime
    day_version: int
    answer: Document
    why: Document | None
    files: tuple[str, ...]
    current: bool


def plan_of(session: Session, key: str) -> StoredPlan | None:
    """The newest plan of a day, ``None`` where none was made."""
    day = session.scalars(select(DayRow).where(DayRow.key == key)).one_or_none()
    row = _newest(session, key)
    if day is None or row is None:
        return None
    names = session.scalars(select(PlanFileRow.name).where(PlanFileRow.plan_id == row.id))
    return StoredPlan(
        key,
        row.made_at,
        row.day_version,
        row.answer,
        row.why,
        tuple(sorted(names)),
        _current(session, day, row),
    )


def save_plan(
    session: Session,
    key: str,
    answer: Document,
    *,
    day_version: int,
    kitchen_version: int,
    recipes_version: int,
    at: datetime,
    why: Document | None = None,
    files: Mapping[str, bytes] | None = None,
) -> StoredPlan:
    """Keep a plan; an older one of the day stays, its files do not.

    Parameters
    ----------
    answer : the document of ``stillroom plan --json``, or ``{"infeasible": ...}``
    day_version, kitchen_version, recipes_version : of what the plan was made from
    at : when that was read
    files : content by name: pdf, people, calendar, chart

    Raises
    ------
    InputError
        There is no such day.
    """
    day = session.scalars(select(DayRow).where(DayRow.key == key)).one_or_none()
    if day is None:
        raise InputError(f'There is no day "{key}".')
    older = select(PlanRow.id).where(PlanRow.day_id == day.id)
    session.execute(delete(PlanFileRow).where(PlanFileRow.plan_id.in_(older)))
    answer = checked(answer, "plan", largest=LARGEST_ANSWER)
    row = PlanRow(
        day_id=day.id,
        made_at=at,
        day_version=day_version,
        kitchen_version=kitchen_version,
        recipes_version=recipes_version,
        tables=library.mark(),
        answer=answer,
        why=why and checked(why, "why", largest=LARGEST_ANSWER),
    )
    session.add(row)
    session.flush()
    for name, content in (files or {}).items():
        session.add(PlanFileRow(plan_id=row.id, name=name, content=content))
    session.flush()
    return StoredPlan(
        key, at, day_version, answer, why, tuple(sorted(files or {})), _current(session, day, row)
    )


def save_why(session: Session, key: str, made_at: datetime, why: Document) -> None:
    """Keep why a plan is as it is; a plan that is no longer the newest is left alone."""
    row = _newest(session, key)
    if row is not None and row.made_at == made_at:
        row.why = why
        session.flush()


def plan_file(session: Session, key: str, name: str) -> bytes | None:
    """A file of a day's newest plan, ``None`` where it was not made."""
    row = _newest(session, key)
    if row is None:
        return None
    found = session.get(PlanFileRow, (row.id, name))
    return found.content if found else None


def _newest(session: Session, key: str) -> PlanRow | None:
    newest = (
        select(func.max(PlanRow.id))
        .join(DayRow, DayRow.id == PlanRow.day_id)
        .where(DayRow.key == key)
        .scalar_subquery()
    )
    return session.scalars(select(PlanRow).where(PlanRow.id == newest)).one_or_none()


def recipes_version(session: Session, document: Document) -> int:
    """The versions of the household's own recipes in a day, added up: it grows with each change.

    No clock tells it, so that one that was set back hides no change.
    """
    orders = document.get("order")
    tables = [o for o in orders if isinstance(o, dict)] if isinstance(orders, list) else []
    named = [order.get("recipe") for order in tables]
    added = select(func.coalesce(func.sum(RecipeRow.version), 0)).where(
        RecipeRow.slug.in_([name for name in named if isinstance(name, str)])
    )
    return int(session.scalar(added) or 0)


def kitchen_unchanged_since(session: Session) -> int:
    """The oldest version of the kitchen from which plans still hold; 0 where none is written.

    That a canner's parts were looked at changes no plan, so it makes none old.
    """
    row = session.scalars(select(KitchenRow)).one_or_none()
    if row is None:
        return 0
    stands = _for_plans({"document": row.document, "removed": row.removed_at is not None})
    changes = select(ChangeRow.before).where(ChangeRow.kind == "kitchen")
    version = row.version
    # The newest nearly always settles it: the many older ones are not read.
    newest_first = changes.order_by(ChangeRow.id.desc()).execution_options(yield_per=4)
    with closing(session.scalars(newest_first)) as rows:
        for before in rows:
            if version == 1 or before is None or _for_plans(before) != stands:
                break
            version -= 1
    return version


def _for_plans(state: Document) -> Document:
    """A state of the kitchen without what no plan rests on."""
    document = state["document"]
    canners = document.get("canner") if isinstance(document, dict) else None
    if not isinstance(canners, list):
        return state
    plain = [
        {key: value for key, value in one.items() if key != "care"}
        if isinstance(one, dict)
        else one
        for one in canners
    ]
    return {**state, "document": {**document, "canner": plain}}


def _current(session: Session, day: DayRow, plan: PlanRow) -> bool:
    kitchen = kitchen_unchanged_since(session)
    return (
        plan.day_version == day.version
        and plan.kitchen_version >= kitchen
        and plan.recipes_version == recipes_version(session, day.document)
        and plan.tables == library.mark()
    )
