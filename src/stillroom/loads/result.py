"""What the engine answers: loads with times, what they cost, and how good that is known to be."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Load:
    """Jars of one family, together in one canner from ``start`` to ``end``.

    ``jars`` are (job, count), jobs in ascending order.
    """

    canner: int
    start: int
    end: int
    jars: tuple[tuple[int, int], ...]

    @property
    def minutes(self) -> int:
        """How long it runs, in the problem's unit of time."""
        return self.end - self.start


class Status(StrEnum):
    """How much is known."""

    OPTIMAL = "optimal"
    FEASIBLE = "feasible"
    INFEASIBLE = "infeasible"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Found:
    """A solution's moment in the search: seconds since its begin, objective, who found it."""

    seconds: float
    objective: int
    by: str


@dataclass(frozen=True, slots=True)
class Result:
    """Loads and what is known of them.

    ``objective`` is ``None`` where there is no plan. No plan costs less than ``bound``; the two
    are equal when ``status`` is optimal. ``found`` logs each better plan in order.
    """

    status: Status
    objective: int | None
    bound: int
    seconds: float
    loads: tuple[Load, ...]
    found: tuple[Found, ...]

    @property
    def gap(self) -> float:
        """(objective - bound) / objective; 0 when optimal, 1 when nothing is known."""
        if self.objective is None:
            return 1.0
        return (self.objective - self.bound) / self.objective if self.objective else 0.0
