"""Questions about a plan: what may be tried, what came of it, and whether a why is on its way."""

from dataclasses import dataclass

from stillroom.day.changes import Change, changes
from stillroom.store.days import StoredDay, StoredPlan
from stillroom.web.views.days_plan import Tried, difference
from stillroom.web.work.desk import Desk
from stillroom.web.work.tasks import Task


@dataclass(frozen=True, slots=True)
class AskedOf:
    """``open`` may be tried still; ``why`` is "", "waiting" or what went wrong with it."""

    open: tuple[Change, ...]
    tried: tuple[Tried, ...]
    why: str
    why_wrong: str
    waiting: bool


def asked_of(desk: Desk, stored: StoredDay, plan: StoredPlan) -> AskedOf | None:
    """What was asked and may be asked of a plan that still holds, ``None`` of another."""
    task = desk.made(stored.key)
    if not plan.current:
        return None
    made_for = desk.versions(stored.key)
    tried = desk.asked(stored.key, "what-if", made_for)
    whys = desk.asked(stored.key, "why", made_for)
    day = task.asked.day if task and task.made_for == made_for else desk.day(stored.key)
    known = tuple(changes(day))
    words = {change.code: change.told for change in known}
    return AskedOf(
        () if plan.answer.get("now") else _left(known, tried),
        tuple(_told(words, one, plan) for one in tried),
        "waiting" if whys and not whys[-1].over else "",
        whys[-1].wrong if whys else "",
        any(not one.over for one in (*tried, *whys)),
    )


def _left(known: tuple[Change, ...], tried: tuple[Task, ...]) -> tuple[Change, ...]:
    asked = {task.asked.change for task in tried if task.state != "failed"}
    return tuple(change for change in known if change.code not in asked)


def _told(words: dict[str, str], task: Task, plan: StoredPlan) -> Tried:
    after = task.answer.document if task.answer else None
    state = "done" if task.over else "waiting"
    told = words.get(task.asked.change, task.asked.change)
    return difference(told, state, task.wrong, plan.answer, after)
