"""A task as a page sees it: what was asked, how far it is, what came of it. A value."""

from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any, Literal

from stillroom.web.work.asked import Answer, Asked, News

State = Literal["waiting", "running", "done", "failed", "dropped"]
# Nothing more will come of a task in one of these.
OVER: tuple[State, ...] = ("done", "failed", "dropped")
CRASHED = (
    "The solver stopped in the middle of it (it was ended from outside, or the computer ran out "
    "of memory). It has been started anew; ask once more."
)
NOT_KEPT = "An answer came but could not be kept."
NOT_STARTED = "The solver could not be started."
LONG_AGO = datetime.min.replace(tzinfo=UTC)
STOPPED_EARLY = "Stopped before any plan was found."
TOO_LONG = "The solver did not come to an end in its time and was ended. Ask once more."


@dataclass(frozen=True, slots=True)
class MadeFor:
    """Versions of the day, the kitchen and the day's own recipes that a task was asked for."""

    day: int = 0
    kitchen: int = 0
    recipes: int = 0

    def document(self) -> dict[str, Any]:
        """As it is written down."""
        return {"day": self.day, "kitchen": self.kitchen, "recipes": self.recipes}


@dataclass(frozen=True, slots=True)
class Task:
    """One thing asked of the worker.

    ``key`` is the day it is about; tasks of a key and kind replace each other. ``news`` is all
    that was told so far, ``stopping`` that the person asked to end it with the best so far,
    ``wrong`` why there is no answer. ``at`` is when it was asked, ``written`` its number in the
    store, 0 where it has none.
    """

    number: int
    key: str
    asked: Asked
    made_for: MadeFor = MadeFor()
    written: int = 0
    at: datetime = LONG_AGO
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
