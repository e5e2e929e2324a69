"""What the worker process does with what it is asked. Only this module loads the solver."""

import threading
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from stillroom.day.changes import changed
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day, plan_from
from stillroom.day.solver import Control, Progress
from stillroom.day.steps import CAUTIONS, TAKEN_FOR, jars_in_loads, likely, proof, steps, threat
from stillroom.day.told import iso, plan_json, unplannable_json, why_json
from stillroom.day.why import why
from stillroom.paper.day_calendar import day_calendar
from stillroom.paper.day_chart import day_chart
from stillroom.paper.day_sheet import day_sheet
from stillroom.paper.people_lists import people_lists
from stillroom.web.work.asked import Answer, Asked, News

# The plan a household looks at, and the few before it, are kept for a question about them.
KEPT = 4


class Solver:
    """Answers one thing after another and remembers its last plans."""

    def __init__(self) -> None:
        self._plans: list[tuple[Asked, Plan]] = []

    def answer(self, asked: Asked, tell: Callable[[News], None], stop: threading.Event) -> Answer:
        """The answer, with news on the way.

        Parameters
        ----------
        asked : what to solve
        tell : called with each better plan, from the solver's own threads
        stop : set from outside to end with the best plan so far

        Raises
        ------
        InputError, TimeoutError
            As ``plan_day`` and ``plan_from``.
        """
        control = Control(tell=_teller(asked, tell), stop=stop, seed=asked.seed)
        if asked.kind == "why":
            return self._why(asked, control)
        plan = _plan(asked, control)
        if isinstance(plan, Unplannable):
            return Answer(unplannable_json(plan))
        document = plan_json(plan) | {"said": said_json(plan)}
        if asked.kind == "what-if":
            return Answer(document)
        self._plans = [*self._plans, (asked, plan)][-KEPT:]
        tell(News("printing", plan.finish, plan.bound, plan.seconds))
        return Answer(document, _files(plan))

    def _why(self, asked: Asked, control: Control) -> Answer:
        plan = self._known(asked) or _plan(asked, control)
        if isinstance(plan, Unplannable):
            return Answer(unplannable_json(plan))
        return Answer(why_json(plan.day, why(plan, control=control)))

    def _known(self, asked: Asked) -> Plan | None:
        for other, plan in reversed(self._plans):
            if (other.day, other.status) == (asked.day, asked.status):
                return plan
        return None


def _plan(asked: Asked, control: Control) -> Plan | Unplannable:
    if asked.status:
        return plan_from(asked.day, asked.status, time_limit=asked.seconds, control=control)
    day = changed(asked.day, asked.change) if asked.change else asked.day
    return plan_day(day, time_limit=asked.seconds, control=control)


def _teller(asked: Asked, tell: Callable[[News], None]) -> Callable[[Progress], None]:
    # A day that starts earlier counts its minutes from there.
    start = changed(asked.day, asked.change).start if asked.change else asked.day.start

    def hear(news: Progress) -> None:
        bound = start + news.bound if news.bound else 0
        tell(News(news.aim, start + news.finish, bound, news.seconds))

    return hear


def said_json(plan: Plan) -> dict[str, Any]:
    """A plan's sentences and steps as every face says them, for a page that has no plan value."""
    day = plan.day
    return {
        "counts": jars_in_loads(plan),
        "proof": proof(plan),
        "likely": likely(plan),
        "threat": threat(plan),
        "aims": [aim.told for aim in plan.reached],
        "taken_for": TAKEN_FOR,
        "cautions": list(CAUTIONS),
        "steps": [
            {
                "start": iso(day, step.start),
                "end": iso(day, step.end),
                "who": step.who,
                "what": step.what,
                "load": step.load,
                "phase": step.phase,
            }
            for step in steps(plan)
        ],
        "titles": {order.recipe.name: order.recipe.title for order in day.orders},
        "people": [
            {
                "name": person.name,
                "hours": [[iso(day, a), iso(day, b)] for a, b in person.hours],
                "breaks": [
                    [iso(day, rest.start), iso(day, rest.end)]
                    for rest in day.breaks
                    if person.name in rest.who
                ],
            }
            for person in day.people
        ],
        "canners": [canner.name for canner in day.kitchen.canners],
        "burners": day.kitchen.burners,
    }


def _files(plan: Plan) -> dict[str, bytes]:
    return {
        "pdf": day_sheet(plan),
        "people": people_lists(plan),
        "calendar": day_calendar(plan, datetime.now(UTC)),
        "chart": day_chart(plan, "svg"),
    }
