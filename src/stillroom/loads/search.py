"""What a search knows so far: the best plan, the best bound, when each was found, whether to stop.

Only this module asks the clock.
"""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from stillroom.loads.problem import Problem
from stillroom.loads.result import Found, Load, Result, Status
from stillroom.loads.timing import price


@dataclass(frozen=True, slots=True)
class Progress:
    """Told after each better plan or bound; ``objective`` is ``None`` before the first plan."""

    seconds: float
    objective: int | None
    bound: int
    by: str


@dataclass(slots=True)
class Search:
    """The state that all parts of a search share; safe to use from several threads."""

    problem: Problem
    limit: float
    tell: Callable[[Progress], None] | None = None
    cancelled: Callable[[], bool] | None = None
    loads: tuple[Load, ...] | None = None
    objective: int | None = None
    bound: int = 0
    found: list[Found] = field(default_factory=list)
    begun: float = field(default_factory=time.monotonic)
    lock: threading.RLock = field(default_factory=threading.RLock)

    def seconds(self) -> float:
        """Seconds since the search began."""
        return time.monotonic() - self.begun

    def left(self) -> float:
        """Seconds that are left, 0 when cancelled or proved."""
        return 0.0 if self.stopped() else max(0.0, self.limit - self.seconds())

    def proved(self) -> bool:
        """Whether the best plan's cost equals the bound."""
        return self.objective is not None and self.objective <= self.bound

    def stopped(self) -> bool:
        """Whether nothing more is to be looked for."""
        cancelled = self.cancelled is not None and self.cancelled()
        return cancelled or self.proved() or self.seconds() >= self.limit

    def offer(self, loads: list[Load] | None, by: str) -> bool:
        """Keep a whole plan if it is better than what there is; whether it was."""
        if loads is None:
            return False
        objective = price(self.problem, loads)
        with self.lock:
            if self.objective is not None and objective >= self.objective:
                return False
            ordered = sorted(loads, key=lambda load: (load.canner, load.start))
            self.loads, self.objective = tuple(ordered), objective
            self.found.append(Found(self.seconds(), objective, by))
            self._told(by)
        return True

    def raise_bound(self, bound: int, by: str) -> None:
        """No plan costs less than this."""
        with self.lock:
            if bound > self.bound:
                self.bound = bound if self.objective is None else min(bound, self.objective)
                self._told(by)

    def _told(self, by: str) -> None:
        if self.tell is not None:
            self.tell(Progress(self.seconds(), self.objective, self.bound, by))

    def result(self, infeasible: bool = False) -> Result:
        """What is known now."""
        if infeasible:
            status = Status.INFEASIBLE
        elif self.objective is None:
            status = Status.UNKNOWN
        else:
            status = Status.OPTIMAL if self.proved() else Status.FEASIBLE
        return Result(
            status,
            self.objective,
            self.bound,
            self.seconds(),
            self.loads or (),
            tuple(self.found),
        )
