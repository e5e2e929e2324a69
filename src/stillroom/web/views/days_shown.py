"""A day's own page: what was written, what it takes, and its plan in a line."""

from dataclasses import dataclass

from stillroom.day.model import Day
from stillroom.errors import InputError
from stillroom.store.days import StoredDay, StoredPlan
from stillroom.store.household import Household
from stillroom.web.views.days_at_once import AtOnce, at_once
from stillroom.web.views.days_timetable import clock_of


@dataclass(frozen=True, slots=True)
class PlanInShort:
    """A plan in a line: when it ends, and whether it still holds."""

    finish: str
    current: bool


@dataclass(frozen=True, slots=True)
class ShownDay:
    """A day as its page shows it; ``wrong`` says why it cannot be read, "" where it can."""

    stored: StoredDay
    day: Day | None
    wrong: str
    at_once: AtOnce | None
    plan: PlanInShort | None


def shown(stored: StoredDay, house: Household, plan: StoredPlan | None) -> ShownDay:
    """A day's page."""
    short = None
    if plan and "infeasible" not in plan.answer:
        short = PlanInShort(clock_of(plan.answer["finish"]), plan.current)
    try:
        day = house.day(stored)
    except InputError as wrong:
        return ShownDay(stored, None, str(wrong), None, short)
    return ShownDay(stored, day, "", at_once(day), short)
