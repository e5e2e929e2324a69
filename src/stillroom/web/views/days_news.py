"""How far a plan is that is being made, or what became of the last that was asked for."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from stillroom.store.days import StoredPlan
from stillroom.units.clock import clock
from stillroom.web.work.desk import Desk
from stillroom.web.work.tasks import Task


@dataclass(frozen=True, slots=True)
class News:
    """What is told of a search.

    ``planning`` is whether one goes on; ``finish`` and ``bound`` are clock times or "";
    ``state`` is "waiting", "starting", "searching", "printing" or "stopping". Where none goes on,
    ``because`` and ``mend`` tell why the last day asked for has no plan, ``wrong`` why there is no
    answer, and ``lost`` that Stillroom ended in the middle.
    """

    planning: bool = False
    state: str = ""
    finish: str = ""
    bound: str = ""
    seconds: int = 0
    limit: int = 0
    better: int = 0
    rest: bool = False
    because: tuple[str, ...] = ()
    mend: tuple[str, ...] = ()
    wrong: str = ""
    lost: bool = False

    def json(self) -> dict[str, Any]:
        """For the page's script."""
        return asdict(self)


def news_of(desk: Desk, key: str, plan: StoredPlan | None) -> News:
    """What is to be told of a day's plan."""
    task = desk.planning(key)
    if task:
        return _going_on(desk, task)
    last = desk.last(key)
    # What was said of a day as it stood before is not said of it as it stands now.
    if last and last.made_for == desk.versions(key).document():
        if last.answer and "infeasible" in last.answer:
            return _none(last.answer, last.kind == "rest")
        if last.state in ("failed", "lost"):
            return News(wrong=last.error, lost=last.state == "lost", rest=last.kind == "rest")
    if plan and plan.current and "infeasible" in plan.answer:
        return _none(plan.answer, False)
    return News()


def _none(answer: Mapping[str, Any], rest: bool) -> News:
    told = answer["infeasible"]
    return News(because=tuple(told["because"]), mend=tuple(told["try"]), rest=rest)


def _going_on(desk: Desk, task: Task) -> News:
    latest = task.latest
    bounds = [news.bound for news in task.news if news.bound]
    state = "waiting" if task.state == "waiting" else "starting"
    if latest:
        state = "printing" if latest.aim == "printing" else "searching"
    if task.stopping:
        state = "stopping"
    return News(
        planning=True,
        state=state,
        finish=clock(min(news.finish for news in task.news)) if latest else "",
        bound=clock(max(bounds)) if bounds else "",
        seconds=round(desk.waited(task)),
        limit=round(task.asked.seconds),
        better=len({news.finish for news in task.news}),
        rest=task.asked.kind == "rest",
    )
