"""Where pages hand in what is to be solved: the worker and the store, joined."""

import threading
from collections.abc import Callable, Mapping
from contextlib import suppress
from datetime import datetime
from typing import Any

from fastapi import FastAPI, Request
from sqlalchemy.orm import Session

from stillroom.day.changes import changed
from stillroom.day.model import Day
from stillroom.day.replan.previous import previous_from
from stillroom.day.replan.read import status_from
from stillroom.day.replan.status import Previous
from stillroom.errors import InputError
from stillroom.store import tasks as written
from stillroom.store.days import StoredDay, StoredPlan, day, plan_of, save_plan
from stillroom.store.engine import Store
from stillroom.store.household import household
from stillroom.store.kitchens import kitchen
from stillroom.store.plans import recipes_version, save_why
from stillroom.toml_file import table_of
from stillroom.web.work.asked import SECONDS, Answer, Asked
from stillroom.web.work.tasks import MadeFor, Task
from stillroom.web.work.worker import Worker

# What a change would bring is told soon; proving it takes as long as a plan.
TRY_SECONDS = 8.0
PLANS = ("plan", "rest")


class Desk:
    """Solves of a household's days, and what became of them.

    Parameters
    ----------
    store : an open store; the caller closes it, after the desk
    now : the clock
    """

    def __init__(self, store: Store, now: Callable[[], datetime]) -> None:
        self._store, self._now = store, now
        self.worker = Worker(self._keep)
        with store.write() as session:
            written.lose_tasks(session, at=now())

    def plan(self, key: str, seconds: float = SECONDS) -> Task:
        """Begin to plan a day; a plan of it that is being made is dropped.

        Raises
        ------
        InputError
            The day or the kitchen is not finished; the message says where.
        """
        return self._ask(key, lambda d: Asked("plan", d, seconds=seconds))

    def rest(self, key: str, status: Mapping[str, Any]) -> Task:
        """Begin to plan the rest of a day from how it stands.

        Parameters
        ----------
        status : the keys of the status file, without ``plan``: the newest plan is meant

        Raises
        ------
        InputError
            The status contradicts itself, the plan or the day; or there is no plan.
        """
        plan = self._plan(key)

        def previous(said: str, where: str) -> Previous:
            return previous_from(plan.answer)

        def asked(of: Day) -> Asked:
            table = table_of({"plan": "the last plan", **status}, "status")
            return Asked("rest", of, status=status_from(table, of, previous))

        return self._ask(key, asked)

    def what_if(self, key: str, change: str) -> Task:
        """Begin to plan a day with one of its changes (``day.changes``).

        Raises
        ------
        InputError
            There is no plan to hold it against, or no such change of this day.
        """
        self._plan(key)

        def asked(of: Day) -> Asked:
            changed(of, change)
            return Asked("what-if", of, change=change, seconds=TRY_SECONDS)

        return self._ask(key, asked)

    def why(self, key: str) -> Task:
        """Begin to find why the newest plan is as it is.

        Raises
        ------
        InputError
            There is no plan; or it is of a day under way, and how that stood is forgotten.
        """
        plan = self._plan(key)
        made = self.made(key)
        if made is None and plan.answer.get("now"):
            raise InputError("How the day stood is not known any more. Plan the rest again first.")
        status = made.asked.status if made else None
        return self._ask(key, lambda d: Asked("why", d, status=status))

    def stop(self, key: str) -> None:
        """End what is being planned of a day with the best plan so far."""
        task = self.planning(key)
        if task:
            self.worker.stop(task.number)
            ended = self.worker.task(task.number)
            if ended and ended.state == "dropped":
                self._write(ended)

    def planning(self, key: str) -> Task | None:
        """The plan that is being made of a day, ``None`` where none is."""
        found = [t for t in self.worker.tasks(key) if t.asked.kind in PLANS and not t.over]
        return found[-1] if found else None

    def made(self, key: str) -> Task | None:
        """The task that the newest plan came from, where it is still remembered."""
        found = [t for t in self.worker.tasks(key) if t.asked.kind in PLANS and t.state == "done"]
        return found[-1] if found else None

    def asked(self, key: str, kind: str, made_for: MadeFor) -> tuple[Task, ...]:
        """Questions about the newest plan of a day that were asked of these versions."""
        return tuple(
            task
            for task in self.worker.tasks(key)
            if task.asked.kind == kind and task.state != "dropped" and task.made_for == made_for
        )

    def versions(self, key: str) -> MadeFor:
        """What a task that is asked for now would be made for."""
        with self._store.read() as session:
            return _made_for(session, _there(day(session, key), key))

    def day(self, key: str) -> Day:
        """The day as it stands now.

        Raises
        ------
        InputError
            It is not finished.
        """
        with self._store.read() as session:
            return household(session).day(_there(day(session, key), key))

    def waited(self, task: Task) -> float:
        """Seconds since a task was asked for."""
        return max(0.0, (self._now() - task.at).total_seconds())

    def last(self, key: str) -> written.StoredTask | None:
        """What became of the last plan that was asked for, even before a restart."""
        with self._store.read() as session:
            return written.last_task(session, key, PLANS)

    def close(self) -> None:
        """End the worker process; what it was at is lost, and told as lost at the next start."""
        self.worker.close()

    def _plan(self, key: str) -> StoredPlan:
        with self._store.read() as session:
            plan = plan_of(session, key)
        if plan is None:
            raise InputError("This day has no plan yet. Plan it first.")
        return plan

    def _ask(self, key: str, make: Callable[[Day], Asked]) -> Task:
        with self._store.write() as session:
            stored = _there(day(session, key), key)
            asked = make(household(session).day(stored))
            made_for = _made_for(session, stored)
            number = 0
            at = self._now()
            if asked.kind in PLANS:
                number = written.begin_task(
                    session, key, asked.kind, made_for=made_for.document(), at=at
                )
        return self.worker.ask(key, asked, made_for, number, at)

    def _keep(self, task: Task) -> None:
        """What came of a task, kept. Called from the worker's thread."""
        answer = task.answer
        with self._store.write() as session:
            if answer and task.asked.kind in PLANS and _worth(answer, plan_of(session, task.key)):
                save_plan(
                    session,
                    task.key,
                    dict(answer.document),
                    day_version=task.made_for.day,
                    kitchen_version=task.made_for.kitchen,
                    recipes_version=task.made_for.recipes,
                    at=task.at,
                    files=answer.files,
                )
            if answer and answer.planned and task.asked.kind == "why":
                plan = plan_of(session, task.key)
                # A plan that was asked for since, or is out of date, has other reasons.
                if plan and plan.current and plan.made_at <= task.at:
                    save_why(session, task.key, plan.made_at, dict(answer.document))
        self._write(task)

    def _write(self, task: Task) -> None:
        if not task.written:
            return
        answer = task.answer
        with self._store.write() as session:
            written.end_task(
                session,
                task.written,
                task.state,
                at=self._now(),
                answer=dict(answer.document) if answer and not answer.planned else None,
                error=task.wrong,
            )


def _made_for(session: Session, stored: StoredDay) -> MadeFor:
    kept = kitchen(session)
    recipes = recipes_version(session, stored.document)
    return MadeFor(stored.version, kept.version if kept else 0, recipes)


def _worth(answer: Answer, before: StoredPlan | None) -> bool:
    """Whether an answer is kept as the day's plan: why there is none never takes a plan's place."""
    return answer.planned or before is None or "infeasible" in before.answer


def _there(stored: StoredDay | None, key: str) -> StoredDay:
    if stored is None:
        raise InputError(f'There is no day "{key}".')
    return stored


_making = threading.Lock()


def desk_of(request: Request) -> Desk:
    """The application's desk, set up at the first call."""
    app: FastAPI = request.app
    with _making:
        desk = getattr(app.state, "desk", None)
        if desk is None:
            desk = app.state.desk = Desk(app.state.store, app.state.settings.now)
    assert isinstance(desk, Desk)
    return desk


def close_desk(app: FastAPI) -> None:
    """Close the application's desk, if one was set up."""
    with suppress(AttributeError):
        app.state.desk.close()
