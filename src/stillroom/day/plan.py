"""A plan: loads, timetable, lists and warnings for a day. A value, to show, print or compare."""

from dataclasses import dataclass

from stillroom.day.aims import Reached
from stillroom.day.lengths import Length
from stillroom.day.model import Day
from stillroom.day.replan.status import PlannedJars
from stillroom.heat.durations import Times
from stillroom.processes.model import Process
from stillroom.recipes.scale import Lists


@dataclass(frozen=True, slots=True)
class Jars:
    """The jars of one order in a load, packed raw or hot, with the published row they rest on.

    ``order`` is the order's place in the day file, from one; 0 where that is not told.
    """

    recipe: str
    title: str
    jar: str
    count: int
    pack: str
    process: Process
    order: int = 0


@dataclass(frozen=True, slots=True)
class Phase:
    """A stretch of a canner's run, in minutes after midnight."""

    name: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Load:
    """One run of a canner: what goes in, at what pressure, for how long, and when.

    ``lengths`` tells what stands behind each phase; ``warming`` and ``cooling`` what the heat model
    says of the slowest jars, ``None`` where published figures stand in.
    """

    number: int
    canner: str
    method: str
    psi: int | None
    minutes: int
    burner: str
    jars: tuple[Jars, ...]
    phases: tuple[Phase, ...]
    lengths: tuple[Length, ...] = ()
    warming: Times | None = None
    cooling: Times | None = None

    @property
    def start(self) -> int:
        """When the first jars are lowered, in minutes after midnight."""
        return self.phases[0].start

    @property
    def end(self) -> int:
        """When the last jar is out."""
        return self.phases[-1].end

    @property
    def held(self) -> int:
        """Minutes that the jars stand ready in the canner before hands are free to lift them."""
        return max(0, self.phases[-1].start - self.phases[-2].end)

    @property
    def name(self) -> str:
        """The load's recipes in one line."""
        return " + ".join(dict.fromkeys(j.title for j in self.jars))

    @property
    def rules(self) -> Process:
        """The row whose time the whole load takes: the longest."""
        return max((j.process for j in self.jars), key=lambda p: p.minutes)

    def phase(self, name: str) -> Phase:
        """A phase by its name."""
        return next(p for p in self.phases if p.name == name)


@dataclass(frozen=True, slots=True)
class Task:
    """A piece of work: who does it, where, and when. A pot that simmers by itself has nobody.

    ``order`` is told of a pot made once for a whole order: its place in the day file, from one.
    """

    name: str
    recipe: str
    who: tuple[str, ...]
    where: str
    start: int
    end: int
    load: int
    order: int = 0


@dataclass(frozen=True, slots=True)
class Threat:
    """The step that adds most to a late finish.

    ``share`` of the runs hang on it, 0 to 1; in those it takes ``over`` minutes longer than
    planned on average, where it is late at all.
    """

    step: str
    share: float
    over: int


@dataclass(frozen=True, slots=True)
class Spread:
    """Finish times, minutes after midnight, that half and nine tenths of the runs keep.

    ``threat`` is what most threatens them, ``None`` where nothing runs late.
    """

    p50: int
    p90: int
    threat: Threat | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """A day, planned. Times are minutes after midnight.

    ``bound`` is a finish no plan can beat; ``likely`` is when the day ends if durations vary;
    ``stand_ins`` tells what was taken for what the kitchen file does not tell of its canners;
    ``reached`` what the plan reaches of each aim; ``stopped`` that the person ended the search.
    Of a plan made during the day, ``now`` is when, and ``done`` the loads that are out by then.
    """

    day: Day
    optimal: bool
    start: int
    finish: int
    bound: int
    likely: Spread
    seconds: float
    loads: tuple[Load, ...]
    tasks: tuple[Task, ...]
    lists: Lists
    warnings: tuple[str, ...]
    stand_ins: tuple[str, ...] = ()
    reached: tuple[Reached, ...] = ()
    stopped: bool = False
    now: int | None = None
    done: tuple[tuple[int, tuple[PlannedJars, ...]], ...] = ()
