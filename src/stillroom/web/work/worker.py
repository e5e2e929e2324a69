"""The worker as the web process holds it: its queue, its process, and what became of each task."""

import itertools
import logging
import multiprocessing
import threading
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess
from typing import Any

from stillroom.errors import StoreFault
from stillroom.web.work.asked import Asked
from stillroom.web.work.process import serve
from stillroom.web.work.tasks import (
    CRASHED,
    LONG_AGO,
    NOT_KEPT,
    NOT_STARTED,
    STOPPED_EARLY,
    TOO_LONG,
    MadeFor,
    Task,
)

_log = logging.getLogger(__name__)
# Tasks that are over and are still told of, over all days.
REMEMBERED = 60
# News of one task that are kept; the finish falls in steps of five minutes, so few are more.
MOST_NEWS = 500
NOTHING_KEPT = MadeFor()


def _nothing(task: Task) -> None:
    """For a caller that asks for the tasks instead of being called."""


class Worker:
    """One spawned process that solves one task after another.

    Parameters
    ----------
    changed : called from the worker's own thread when a task is over, before any page can see it
    patience : seconds until a process that was told to stop is ended
    spare : seconds a task may take beyond the solver's limit, for building and proving
    """

    def __init__(
        self,
        changed: Callable[[Task], None] = _nothing,
        *,
        patience: float = 8.0,
        spare: float = 240.0,
    ) -> None:
        self._changed, self._patience, self._spare = changed, patience, spare
        self._numbers = itertools.count(1)
        self._tasks: dict[int, Task] = {}
        self._news = threading.Condition()
        self._wanted = self._closed = False
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self._thread: threading.Thread | None = None

    def warm(self) -> None:
        """Have the process ready soon: a page from which a plan is likely to be asked is open."""
        self._want()

    def ask(
        self,
        key: str,
        asked: Asked,
        made_for: MadeFor = NOTHING_KEPT,
        written: int = 0,
        at: datetime = LONG_AGO,
    ) -> Task:
        """A new task; of the same key and kind (and change) an older one that goes on is dropped.

        Returns at once.
        """
        with self._news:
            for task in self._tasks.values():
                same = (task.key, task.asked.kind, task.asked.change)
                if same == (key, asked.kind, asked.change) and not task.over:
                    self._set(replace(task, state="dropped"))
            made = Task(next(self._numbers), key, asked, made_for, written, at)
            self._set(made)
            over = [number for number, task in self._tasks.items() if task.over]
            for number in over[: max(0, len(over) - REMEMBERED)]:
                del self._tasks[number]
        self._want()
        return made

    def stop(self, number: int) -> None:
        """End a task with the best so far; one that has not begun is dropped."""
        with self._news:
            task = self._tasks.get(number)
            if task is None or task.over:
                return
            waiting = task.state == "waiting"
            self._set(replace(task, state="dropped") if waiting else replace(task, stopping=True))

    def task(self, number: int) -> Task | None:
        """A task as it stands, ``None`` where it is not known (any more)."""
        with self._news:
            return self._tasks.get(number)

    def tasks(self, key: str) -> tuple[Task, ...]:
        """The tasks of one day, in the order they were asked."""
        with self._news:
            return tuple(task for task in self._tasks.values() if task.key == key)

    def drop(self, key: str) -> None:
        """Forget all tasks of a day: it was removed."""
        with self._news:
            for task in tuple(self._tasks.values()):
                if task.key == key and not task.over:
                    self._set(replace(task, state="dropped"))

    def wait(self, number: int, seconds: float) -> Task:
        """The task when it is over, or as it stands after so many seconds."""
        until = time.monotonic() + seconds
        with self._news:
            while not self._tasks[number].over and (left := until - time.monotonic()) > 0:
                self._news.wait(left)
            return self._tasks[number]

    @property
    def process_id(self) -> int | None:
        """The number of the process, ``None`` where none runs."""
        return self._process.pid if self._process and self._process.is_alive() else None

    def close(self) -> None:
        """End the process and the thread; tasks that go on are dropped."""
        with self._news:
            self._closed = True
            self._news.notify_all()
        if self._thread:
            self._thread.join(5)
        self._end_process()

    def _want(self) -> None:
        with self._news:
            if self._closed:
                return
            self._wanted = True
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, name="solver", daemon=True)
                self._thread.start()
            self._news.notify_all()

    def _set(self, task: Task) -> None:
        """Keep a task's new state; the lock is held."""
        self._tasks[task.number] = task
        self._news.notify_all()

    def _run(self) -> None:
        while True:
            with self._news:
                self._news.wait_for(lambda: self._closed or self._wanted or self._next())
                if self._closed:
                    return
                self._wanted = False
                task = self._next()
                if task:
                    self._set(replace(task, state="running"))
            try:
                pipe = self._ready()
            except (OSError, RuntimeError) as wrong:
                # No room for another process, or a program that may not start one.
                if task:
                    self._over(task.number, f"{NOT_STARTED} {wrong}")
                continue
            if task:
                self._solve(task, pipe)

    def _next(self) -> Task | None:
        """The first task that waits. A plan goes before questions about plans."""
        waiting = [task for task in self._tasks.values() if task.state == "waiting"]
        return min(waiting, key=lambda t: t.asked.kind in ("what-if", "why"), default=None)

    def _ready(self) -> Connection:
        """The pipe to a process that lives; one that ended is started anew."""
        if self._process is None or self._pipe is None or not self._process.is_alive():
            self._end_process()
            context = multiprocessing.get_context("spawn")
            here, there = context.Pipe()
            self._process = context.Process(
                target=serve, args=(there,), name="stillroom-solver", daemon=True
            )
            self._process.start()
            there.close()
            self._pipe = here
        return self._pipe

    def _solve(self, task: Task, pipe: Connection) -> None:
        """Ask, and listen until the answer, the end of the process, or the end of patience."""
        number = task.number
        begun, told, sent = time.monotonic(), 0.0, 0.0
        try:
            pipe.send(("ask", number, task.asked))
            while True:
                if pipe.poll(0.05) and self._hear(number, pipe.recv()):
                    return
                now, at = time.monotonic(), self.task(number)
                ending = at is None or at.stopping or at.over
                # Said again and again: one that comes before the task has begun goes unheard.
                if ending and now - sent > 0.5:
                    told, sent = told or now, now
                    pipe.send(("stop", number))
                if self._closed or (told and now - told > self._patience):
                    self._end_process()
                    self._over(number, STOPPED_EARLY)
                    return
                if now - begun > task.asked.seconds + self._spare:
                    self._end_process()
                    self._over(number, TOO_LONG)
                    return
        except (EOFError, OSError):
            self._end_process()
            self._over(number, CRASHED)
            self._want()

    def _hear(self, number: int, message: tuple[Any, ...]) -> bool:
        """Take a message in; whether it was the last of this task."""
        kind = message[0]
        if kind == "ready" or message[1] != number:
            return False
        if kind == "news":
            with self._news:
                # One that was dropped may be forgotten before the process has come to its end.
                task = self._tasks.get(number)
                if task and len(task.news) < MOST_NEWS:
                    self._set(replace(task, news=(*task.news, message[2])))
            return False
        if kind == "answer":
            self._over(number, "", message[2])
        else:
            self._over(number, message[2])
        return True

    def _over(self, number: int, wrong: str, answer: Any = None) -> None:
        """A task's end: first the caller keeps it, then the pages see it."""
        task = self.task(number)
        if task is None or task.over:
            return
        ended = replace(task, state="failed" if wrong else "done", wrong=wrong, answer=answer)
        try:
            self._changed(ended)
        except Exception as unkept:
            # Whatever it was, the worker goes on, and the person is told.
            _log.error("an answer was not kept", exc_info=unkept)
            told = unkept.said if isinstance(unkept, StoreFault) else ""
            ended = replace(ended, state="failed", answer=None, wrong=f"{NOT_KEPT} {told}".rstrip())
        with self._news:
            at = self._tasks.get(number)
            if at and not at.over:
                self._set(ended)

    def _end_process(self) -> None:
        if self._pipe:
            self._pipe.close()
        if self._process:
            if self._process.is_alive():
                self._process.kill()
            self._process.join(5)
        self._process = self._pipe = None
