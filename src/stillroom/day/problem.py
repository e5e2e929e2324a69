"""The day as the solver sees it: jobs, canners, hands and hours in whole minutes from the start.

Plain data that checks nothing but itself; ``orders.py`` makes it from a day, ``solver`` solves it.
"""

from dataclasses import dataclass
from itertools import pairwise

from stillroom.processes.model import Process

# People plan hand work in five-minute steps; a canner's own minutes stay exact.
STEP = 5


@dataclass(frozen=True, slots=True)
class Way:
    """One published process by which a job's jars may go through one canner.

    ``cool`` is the planned natural cool-down of a load with jars of this size.
    """

    canner: int
    capacity: int
    process: Process
    cool: int


@dataclass(frozen=True, slots=True)
class Job:
    """An order ready to plan: so many jars of one recipe, and every way to process them.

    Rates are tenths of minutes per jar; ``heat`` is minutes of a pot on a burner right before
    filling; ``make`` is minutes one pot for the whole order stands on a burner first, with its
    preparation done once for all loads.
    """

    name: str
    title: str
    jar: str
    count: int
    hot: bool
    perishable: bool
    prep_tenths: int
    fill_tenths: int
    heat: int
    make: int
    ways: tuple[Way, ...]

    def family(self, way: Way) -> tuple[int, bool]:
        """What all jars of a load share: gauge pressure (0 boiling) and whether they go in hot."""
        return (way.process.psi or 0, self.hot)


@dataclass(frozen=True, slots=True)
class Oven:
    """A canner as a machine: minutes from the last jar in to heat off less the process itself."""

    name: str
    method: str
    own_plug: bool
    heat: int
    vent: int
    come_up: int
    wait: int

    @property
    def before_process(self) -> int:
        """Minutes from the lid going on to the start of the process time."""
        return self.heat + self.vent + self.come_up


@dataclass(frozen=True, slots=True)
class Crew:
    """People who keep the same hours, and the hours they are away, in minutes from the start."""

    names: tuple[str, ...]
    away: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """Everything a plan must obey. Times are whole minutes from the day's earliest start."""

    jobs: tuple[Job, ...]
    ovens: tuple[Oven, ...]
    crews: tuple[Crew, ...]
    burners: int
    canner_burners: int
    horizon: int
    load: int
    unload: int
    most_extra: int
    room_temperature_limit: int = 120
    most_hands: int = 2

    @property
    def nobody(self) -> tuple[tuple[int, int], ...]:
        """Spans within the day when no crew is there, so that nothing may be on heat."""
        edges = sorted({0, self.horizon, *(e for c in self.crews for span in c.away for e in span)})
        empty: list[tuple[int, int]] = []
        for start, end in pairwise(edges):
            gone = all(any(a <= start and end <= b for a, b in crew.away) for crew in self.crews)
            if gone and end > start:
                if empty and empty[-1][1] == start:
                    empty[-1] = (empty[-1][0], end)
                else:
                    empty.append((start, end))
        return tuple(empty)
