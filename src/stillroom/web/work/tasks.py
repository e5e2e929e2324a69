"""A task as a page sees it: what was asked, how far it is, what came of it. A value."""

from dataclasses import dataclass
from typing import Literal

from stillroom.web.work.asked import Answer, Asked, News

State = Literal["waiting", "running", "done", "failed", "dropped"]
# Nothing more will come of a task in one of these.
OVER: tuple[State, ...] = ("done", "failed", "dropped")
CRASHED = (
    "The solver stopped in the middle of it (it was ended from outside, or the computer ran out "
    "of memory). It has been started anew; ask once more."
)
STOPPED_EARLY = "Stopped before any plan was found."
TOO_LONG = "The solver did not come to an end in its time and was ended. Ask once more."


@dataclass(frozen=True, slots=True)
class Task:
    """One thing asked of the worker.

    ``key`` is the day it is about; tasks of a key and kind replace each other. ``news`` is all
    that was told so far, ``stopping`` that the person asked to end it with the best so far,
    ``wrong`` why there is no answer. ``mark`` is the caller's own: the version of the day.
    """

    number: int
    key: str
    asked: Asked
    mark: str = ""
    state: State = "waiting"
    news: tuple[News, ...] = ()
    stopping: bool = False
    answer: Answer | None = None
    wrong: str = ""

    @property
    def over(self) -> bool:
        """Whether nothing more will come of it."""
        return self.state in OVER

    @property
    def latest(self) -> News | None:
        """The last news, ``None`` before a first plan is found."""
        return self.news[-1] if self.news else None
