"""What may be asked of the worker, what it says meanwhile, and what it answers. Plain data."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from stillroom.day.model import Day
from stillroom.day.replan.status import Status

Kind = Literal["plan", "rest", "what-if", "why"]
SECONDS = 20.0


@dataclass(frozen=True, slots=True)
class Asked:
    """One solve.

    ``kind`` is a "plan" of a day, the "rest" of one under way (with its ``status``), a "what-if"
    (with the ``change``, a code of ``day.changes``), or the "why" of the plan that was made of
    the same ``day`` and ``status``. ``seconds`` is the solver's limit for a plan.
    """

    kind: Kind
    day: Day
    status: Status | None = None
    change: str = ""
    seconds: float = SECONDS
    seed: int = 1


@dataclass(frozen=True, slots=True)
class News:
    """How far a search is: the best finish and a finish no plan can beat, minutes after midnight.

    ``bound`` is 0 where none is known yet; ``aim`` is what is being improved ("first plan" and
    "finish" first), or "printing" once the plan is there and its sheets are set.
    """

    aim: str
    finish: int
    bound: int
    seconds: float


@dataclass(frozen=True, slots=True)
class Answer:
    """What came of it.

    ``document`` is a plan as ``day.told.plan_json`` has it with ``said`` beside it, or
    ``{"infeasible": …}``; of a why it is ``day.told.why_json``. ``files`` are sheets and calendar
    by name ("pdf", "people", "calendar", "chart").
    """

    document: Mapping[str, Any]
    files: Mapping[str, bytes] = field(default_factory=dict)

    @property
    def planned(self) -> bool:
        """Whether there is a plan."""
        return "infeasible" not in self.document
