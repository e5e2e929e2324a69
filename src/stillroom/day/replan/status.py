"""What has become of a plan by now, in the cook's words. Times are minutes after midnight."""

from dataclasses import dataclass
from typing import Literal

State = Literal["done", "running", "cut", "waiting"]
STATES: tuple[State, ...] = ("done", "running", "cut", "waiting")


@dataclass(frozen=True, slots=True)
class PlannedWork:
    """A piece of work of the plan: who, where, from when to when."""

    who: tuple[str, ...]
    where: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class PlannedJars:
    """Jars of one order in a planned load, with the published minutes they were planned by.

    ``order`` is the order's place in the day file, from one; 0 where the plan does not tell.
    """

    recipe: str
    jar: str
    count: int
    minutes: int
    order: int = 0


@dataclass(frozen=True, slots=True)
class PlannedLoad:
    """A load as it was planned. ``pot`` is ``None`` where it needs none.

    ``cuts`` is one piece of work, none, or several, first to last, where some of its food was cut
    before it was this load's.
    """

    number: int
    canner: str
    psi: int | None
    burner: int
    jars: tuple[PlannedJars, ...]
    cuts: tuple[PlannedWork, ...]
    pot: PlannedWork | None
    fill: PlannedWork
    heat_off: int
    cool: int
    open: int
    unload: PlannedWork

    @property
    def heat_start(self) -> int:
        """When its pot went on, or its filling began where it has none."""
        return self.pot.start if self.pot else self.fill.start

    @property
    def begun(self) -> int:
        """When the first hand was laid on it."""
        return min(self.cuts[0].start if self.cuts else self.heat_start, self.heat_start)

    def by_the_clock(self, now: int, late: int) -> State:
        """What it is by now if it kept the plan but for ``late`` minutes."""
        if self.unload.end + late <= now:
            return "done"
        if self.heat_start + late <= now:
            return "running"
        return "cut" if self.begun + late <= now else "waiting"


@dataclass(frozen=True, slots=True)
class PlannedPot:
    """A pot made once as it was planned: its cutting and its cooking, by the recipe's title.

    ``order`` as for ``PlannedJars``: two orders of one recipe have a pot each.
    """

    title: str
    cut: PlannedWork | None
    cook: PlannedWork
    order: int = 0


@dataclass(frozen=True, slots=True)
class Previous:
    """The plan that the day began with, or the last one made during it.

    ``done`` are jars that were out when it was made; ``last_number`` is the highest load number.
    """

    date: str
    loads: tuple[PlannedLoad, ...]
    pots: tuple[PlannedPot, ...]
    done: tuple[PlannedJars, ...]
    last_number: int


@dataclass(frozen=True, slots=True)
class ToldLoad:
    """What the cook says of a load: its state, "" for what the clock says, and how late it is."""

    number: int
    state: State | Literal[""]
    late: int
    where: str


@dataclass(frozen=True, slots=True)
class Out:
    """A canner or a person that is not there from one time to another."""

    name: str
    start: int
    end: int
    where: str


@dataclass(frozen=True, slots=True)
class Status:
    """How the day stands: the time, the plan it began with, and where it differs from it.

    ``pots`` are minutes late by the recipe's name. What is not told went as planned.
    """

    now: int
    previous: Previous
    loads: tuple[ToldLoad, ...]
    canners: tuple[Out, ...]
    people: tuple[Out, ...]
    pots: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Stand:
    """A load with what it is by now and how late."""

    load: PlannedLoad
    state: State
    late: int
