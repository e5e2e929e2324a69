"""What of a canner is to be looked at, how often and why, and what of it is due."""

import csv
from calendar import monthrange
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from stillroom.kitchen.model import Canner
from stillroom.processes.model import PRESSURE

DATA = Path(__file__).parent / "data"
# How long before it is due a check is told of; a choice of this project.
_SOON = timedelta(days=30)
# "Guide 1 (1994 edition)"; some offices say 2 lb. The stricter of the two is kept to.
MOST_OFF_LB = 1.0


class State(StrEnum):
    """How a check stands."""

    REPLACE = "replace"
    AHEAD = "ahead"
    NEVER = "never"
    DUE = "due"
    SOON = "soon"
    DONE = "done"


class Check(NamedTuple):
    """One thing to look at. ``check`` is its key in [canner.care]."""

    check: str
    name: str
    kind: str
    every_months: int
    why: str
    how: str
    source: str
    place: str
    status: str

    @property
    def citation(self) -> str:
        """Publication and place in one line, or that it is common practice."""
        said = _sources()[self.source]
        return f"{said}, {self.place}" if self.place else said


@dataclass(frozen=True, slots=True)
class Standing:
    """A check of one canner: when it was last done, and when it is due; None where never done."""

    canner: Canner
    check: Check
    state: State
    last: date | None = None
    due: date | None = None

    @property
    def is_open(self) -> bool:
        """Whether somebody has to do something."""
        return self.state not in (State.DONE, State.SOON)


@lru_cache(maxsize=1)
def checks() -> tuple[Check, ...]:
    """Every check, in the order they are told."""
    with (DATA / "care.csv").open(encoding="utf-8", newline="") as file:
        return tuple(
            Check(**{**row, "every_months": int(row["every_months"])})  # type: ignore[arg-type]
            for row in csv.DictReader(file)
        )


@lru_cache(maxsize=1)
def _sources() -> dict[str, str]:
    with (DATA / "sources.csv").open(encoding="utf-8", newline="") as file:
        return {row["source"]: row["cited"] for row in csv.DictReader(file)}


def standings(canner: Canner, today: date) -> tuple[Standing, ...]:
    """The checks of one canner, each with how it stands today.

    A part that the canner has not is passed over.

    Source
    ------
    ``data/care.csv``: USDA AIB-539 Guide 1, PNW 421, and common practice where a row says so.

    Examples
    --------
    >>> kettle = Canner("kettle", "boiling-water", {"quart": 7})
    >>> [(s.check.check, s.state.value) for s in standings(kettle, date(2026, 8, 1))]
    [('rack_checked', 'never')]
    """
    return tuple(_standing(canner, check, today) for check in checks() if _has(canner, check))


def open_checks(canners: Iterable[Canner], today: date) -> tuple[Standing, ...]:
    """What of several canners is due, gravest first."""
    order = list(State)
    found = [s for canner in canners for s in standings(canner, today) if s.is_open]
    return tuple(sorted(found, key=lambda s: order.index(s.state)))


def _has(canner: Canner, check: Check) -> bool:
    if check.check == "gasket_checked" and not canner.care.has_gasket:
        return False
    if check.kind == "pressure":
        return canner.method in PRESSURE
    return check.kind in ("any", canner.method)


def _standing(canner: Canner, check: Check, today: date) -> Standing:
    last: date | None = getattr(canner.care, check.check)
    if last is None:
        return Standing(canner, check, State.NEVER)
    due = _later(last, check.every_months)
    if check.check == "gauge_tested" and abs(canner.care.gauge_reads_high) > MOST_OFF_LB:
        state = State.REPLACE
    elif last > today:
        state = State.AHEAD
    elif due <= today:
        state = State.DUE
    else:
        state = State.SOON if due - today <= _SOON else State.DONE
    return Standing(canner, check, state, last, due)


def _later(day: date, months: int) -> date:
    """The same day so many months on, or that month's last."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    if year > date.max.year:
        return date.max
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))
