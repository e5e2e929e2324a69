"""The list of days, coming and past, and a new day to begin with."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from sqlalchemy.orm import Session

from stillroom.store.days import DayLine, day, days
from stillroom.store.lines import PlanLine, plan_lines
from stillroom.store.recipes import recipe_titles
from stillroom.web.views.days_form import Form, from_document
from stillroom.web.views.days_rows import at_least
from stillroom.web.views.recipes_called import called

# A usual day of the household's, where no other was written yet.
_USUAL = {"start": "8:00", "finish_by": "18:00"}
_SATURDAY = 5


@dataclass(frozen=True, slots=True)
class Line:
    """A day in the list. ``state`` is "open", "planned", "stale" or "impossible"."""

    key: str
    title: str
    date: date | None
    jars: int
    what: str
    state: str
    finish: str


@dataclass(frozen=True, slots=True)
class Listed:
    """Coming days, the next first; then past ones, the last first."""

    coming: tuple[Line, ...]
    past: tuple[Line, ...]


def listed(session: Session, today: date) -> Listed:
    """All days of the household."""
    plans = plan_lines(session)
    titles = recipe_titles(session)
    lines = [_line(one, plans.get(one.key), titles) for one in days(session)]
    past = [line for line in lines if line.date and line.date < today]
    coming = [line for line in lines if line not in past]
    # A day without a date is still to be thought about: it stands last of those to come.
    return Listed(tuple(sorted(coming, key=lambda one: one.date or date.max)), tuple(past))


def started(session: Session, like: str, today: date) -> Form:
    """A new day's form: the hours of the last one, or all of one that was, on the next Saturday."""
    ahead = (_SATURDAY - today.weekday()) % 7 or 7
    when = (today + timedelta(days=ahead)).isoformat()
    model = day(session, like) if like else None
    if model:
        form = from_document({**model.document, "date": when}, model.title)
    else:
        form = from_document({**_USUAL, **_hours(session), "date": when})
    return at_least(replace(form, wrong=()), "order", 2 if not model else 1)


def _hours(session: Session) -> dict[str, Any]:
    last = next(iter(days(session)), None)
    said: Mapping[str, Any] = last.document if last else {}
    return {key: said[key] for key in _USUAL if isinstance(said.get(key), str)}


def _line(one: DayLine, plan: PlanLine | None, titles: Mapping[str, str]) -> Line:
    orders = [row for row in _rows(one.document.get("order")) if isinstance(row, dict)]
    counts = [row.get("jars") for row in orders]
    state = "open"
    if plan and plan.finish:
        state = "planned" if plan.current else "stale"
    elif plan and plan.current:
        state = "impossible"
    return Line(
        one.key,
        one.title,
        one.date,
        sum(count for count in counts if isinstance(count, int)),
        ", ".join(dict.fromkeys(called(row.get("recipe"), titles) for row in orders)),
        state,
        plan.finish[11:16].lstrip("0") if plan and plan.finish else "",
    )


def _rows(value: Any) -> list[Any]:
    return value if isinstance(value, list) else []
