"""What a page with many rows shows of each, in one query: no whole document is read for it."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from stillroom.processes import library
from stillroom.store.plans import kitchen_unchanged_since
from stillroom.store.tables import DayRow, PlanRow, RecipeRow


@dataclass(frozen=True, slots=True)
class PlanLine:
    """The newest plan of a day in a line; ``finish`` is local ISO time, "" where there is none."""

    day_key: str
    finish: str
    optimal: bool
    made_at: datetime
    current: bool


@dataclass(frozen=True, slots=True)
class RecipeOffer:
    """A recipe that a day may choose, with the jars it is for as they were written.

    One that was kept before its ingredients were settled is not ``finished``: no day takes it.
    """

    slug: str
    title: str
    jars: tuple[str, ...]
    finished: bool = True


def plan_lines(session: Session) -> dict[str, PlanLine]:
    """The newest plans of all days, by the day's key.

    ``current`` is false once the day, the kitchen or the published tables changed after it;
    whether a recipe did is told on the plan's own page.
    """
    newest = select(func.max(PlanRow.id)).group_by(PlanRow.day_id)
    kitchen = kitchen_unchanged_since(session)
    asked = (
        select(
            DayRow.key,
            DayRow.version,
            PlanRow.day_version,
            PlanRow.kitchen_version,
            PlanRow.tables,
            PlanRow.made_at,
            PlanRow.answer["finish"].as_string(),
            PlanRow.answer["status"].as_string(),
        )
        .join(DayRow, DayRow.id == PlanRow.day_id)
        .where(PlanRow.id.in_(newest))
    )
    return {
        key: PlanLine(
            key,
            finish or "",
            status == "optimal",
            made_at,
            of == version and at >= kitchen and by == library.mark(),
        )
        for key, version, of, at, by, made_at, finish, status in session.execute(asked)
    }


def recipe_offers(session: Session) -> list[RecipeOffer]:
    """The household's own recipes by title, with their jars."""
    lines = RecipeRow.document["ingredients"]
    asked = select(RecipeRow.slug, RecipeRow.title, RecipeRow.document["jars"], lines).where(
        RecipeRow.removed_at.is_(None)
    )
    found = [
        RecipeOffer(
            slug, title, tuple(map(str, jars)) if isinstance(jars, list) else (), bool(written)
        )
        for slug, title, jars, written in session.execute(asked)
    ]
    return sorted(found, key=lambda one: (one.title.casefold(), one.slug))
