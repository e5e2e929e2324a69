"""How long each phase of a canner run takes, until a kitchen has learned its own times."""

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from stillroom.processes.model import PRESSURE
from stillroom.units.jars import SIZES

DATA = Path(__file__).parent / "data"


@dataclass(frozen=True, slots=True)
class Duration:
    """One phase's minutes for a kind of canner, and where they were printed.

    ``minutes`` is what a plan uses; ``low`` and ``high`` are the range a run may take.
    """

    phase: str
    canner: str
    jar_up_to: str
    minutes: int
    low: int
    high: int
    source: str
    place: str
    status: str


@lru_cache(maxsize=1)
def durations() -> tuple[Duration, ...]:
    """The table of fixed durations, in file order."""
    with (DATA / "durations.csv").open(encoding="utf-8", newline="") as f:
        return tuple(
            Duration(
                phase=line["phase"],
                canner=line["canner"],
                jar_up_to=line["jar_up_to"],
                minutes=int(line["minutes"]),
                low=int(line["low"]),
                high=int(line["high"]),
                source=line["source"],
                place=line["place"],
                status=line["status"],
            )
            for line in csv.DictReader(f)
        )


def minutes(phase: str, method: str, jar: str = "pint") -> int:
    """Planned minutes of a phase; zero where the method has no such phase.

    Parameters
    ----------
    phase : heat, vent, come-up, cool, wait, load or unload
    method : boiling-water, dial-gauge or weighted-gauge
    jar : the largest jar of the load, which sets the cool-down

    Source
    ------
    ``data/durations.csv``, a source beside each figure. They plan a day; they are no part of a
    process, whose own minutes come from the tables alone.

    Examples
    --------
    >>> minutes("cool", "dial-gauge", "quart"), minutes("vent", "boiling-water")
    (45, 0)
    """
    row = duration(phase, method, jar)
    return row.minutes if row else 0


def duration(phase: str, method: str, jar: str = "pint") -> Duration | None:
    """The row of the table for a phase, or ``None`` where the method has no such phase."""
    kind = "pressure" if method in PRESSURE else method
    for row in durations():
        fits = not row.jar_up_to or SIZES.index(jar) <= SIZES.index(row.jar_up_to)
        if fits and row.phase == phase and row.canner in (kind, "any"):
            return row
    return None
