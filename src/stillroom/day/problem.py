"""The day as the solver sees it: jobs, canners, hands and hours in whole minutes from the start.

Plain data that checks nothing but itself; ``orders.py`` makes it from a day, ``solver`` solves it.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from stillroom.day.aims import AIMS
from stillroom.heat.durations import Times, TooWeak
from stillroom.processes.model import PRESSURE, Process

# A day is planned in steps of five minutes: nobody at a stove lives by the minute. A published
# time is never rounded; what follows it starts at the next step.
STEP = 5


def steps(minutes: int) -> int:
    """Whole five-minute steps that cover so many minutes.

    Examples
    --------
    >>> steps(75), steps(8), steps(0)
    (15, 2, 0)
    """
    return -(-minutes // STEP)


@dataclass(frozen=True, slots=True)
class Way:
    """One published process by which a job's jars may go through one canner.

    ``heat``, ``come_up`` and ``cool`` are planned for a canner full of these jars. ``times`` is
    what the heat model says of them; where it has no answer, published figures stand in.
    """

    canner: int
    capacity: int
    process: Process
    heat: int
    come_up: int
    cool: int
    times: Times | TooWeak | None = None

    @property
    def warming(self) -> int:
        """Heat-up and come-up together; venting stands between them."""
        return self.heat + self.come_up


@dataclass(frozen=True, slots=True)
class Done:
    """Hand work that is over or under way: who, from when to when."""

    who: tuple[str, ...]
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Job:
    """An order ready to plan: so many jars of one recipe, and every way to process them.

    Rates are tenths of minutes per jar; ``heat`` is minutes of a pot on a burner right before
    filling; ``make`` is minutes one pot for the whole order stands on a burner first, with its
    preparation done once for all loads.

    ``order`` is its place among the day's orders, from one; 0 where there is none.

    The person's pins: no work on it before ``not_before``, its last jar out by ``done_by``, and
    ``first`` into the canners.

    Of a day that is under way: food that was ``cut`` already meets heat by ``heat_by``, and a pot
    made once that is begun is ready at ``ready``, on ``burner``, and
    hot until ``kept_hot`` at least.
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
    not_before: int = 0
    done_by: int | None = None
    first: bool = False
    heat_by: int | None = None
    ready: int | None = None
    burner: int = 0
    cut: tuple[Done, ...] = ()
    kept_hot: int = 0
    order: int = 0

    def family(self, way: Way) -> tuple[int, bool]:
        """What all jars of a load share: gauge pressure (0 boiling) and whether they go in hot."""
        return (way.process.psi or 0, self.hot)


@dataclass(frozen=True, slots=True)
class Oven:
    """A canner as a machine: what it takes whatever is in it, venting and the wait to open.

    ``out`` are the spans in which no load may be in it.
    """

    name: str
    method: str
    own_plug: bool
    vent: int
    wait: int
    out: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Crew:
    """People who keep the same hours, and the hours they are away, in minutes from the start.

    ``leaves`` is work they leave to others. ``taken`` are spans, with how many of them are at
    work that is settled already.
    """

    names: tuple[str, ...]
    away: tuple[tuple[int, int], ...]
    leaves: tuple[str, ...] = ()
    taken: tuple[tuple[int, int, int], ...] = ()

    def handles(self, oven: Oven) -> bool:
        """Whether they load, unload and watch this canner."""
        return "lifting" not in self.leaves and self.watches(oven.method in PRESSURE)

    def watches(self, pressure: bool) -> bool:
        """Whether they answer for what is on heat: a pressure canner, or anything else."""
        return not (pressure and "pressure canner" in self.leaves)


@dataclass(frozen=True, slots=True)
class Running:
    """A load that is under way and stays as it is; all that is open is when it is unloaded.

    ``jars`` are (job, way, count); ``unload`` is told where that is under way too; ``burner`` and
    ``pot_burner`` are those it stands on, 0 for none.
    """

    number: int
    canner: int
    jars: tuple[tuple[int, int, int], ...]
    prep: Done
    heat_start: int
    fill: Done
    heat_off: int
    cool: int
    open: int
    unload: Done | None = None
    burner: int = 0
    pot_burner: int = 0


@dataclass(frozen=True, slots=True)
class Problem:
    """Everything a plan must obey. Times are whole minutes from the day's earliest start.

    ``counters`` are places to cut at, one for each pair of hands, ``None`` where they are plenty.

    Of a day under way: nothing new begins before ``now``, ``running`` loads stay as they are, and
    new loads are numbered from ``last_number`` on. ``most_loads`` are loads of each canner at
    most, where only part of a day is asked for.
    """

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
    aims: tuple[str, ...] = AIMS
    heat_off_by: int | None = None
    jars_wait: int | None = None
    taken_burners: tuple[tuple[int, int, bool], ...] = ()
    counters: int | None = None
    taken_counters: tuple[tuple[int, int, int], ...] = ()
    now: int = 0
    running: tuple[Running, ...] = ()
    last_number: int = 0
    most_loads: tuple[int, ...] | None = None

    @property
    def to_unload(self) -> tuple[Running, ...]:
        """Loads under way that somebody still has to unload."""
        return tuple(load for load in self.running if load.unload is None)

    def nobody(self, pressure: bool = False) -> tuple[tuple[int, int], ...]:
        """Spans within the day when nobody is there to watch, so that nothing may be on heat.

        ``pressure`` asks for somebody who answers for a pressure canner.
        """
        crews = [crew for crew in self.crews if crew.watches(pressure)]
        edges = sorted({0, self.horizon, *(e for c in crews for span in c.away for e in span)})
        empty: list[tuple[int, int]] = []
        for start, end in pairwise(edges):
            gone = all(any(a <= start and end <= b for a, b in crew.away) for crew in crews)
            if gone and end > start:
                if empty and empty[-1][1] == start:
                    empty[-1] = (empty[-1][0], end)
                else:
                    empty.append((start, end))
        return tuple(empty)

    def closed(self, way: Way) -> int:
        """Steps from the lid going on to opening, for a load by this way (a problem in steps)."""
        oven = self.ovens[way.canner]
        return way.warming + oven.vent + steps(way.process.minutes) + way.cool + oven.wait

    def most_jars(self, job: Job, way: Way) -> int:
        """Jars of one order that one load can take (a problem in steps).

        Raw perishable food is limited to what one person can cut, and fill if packed raw, before
        it has stood out too long. Where filled jars may wait only so long, no more than are filled
        by then.
        """
        most = way.capacity
        if self.jars_wait is not None and job.fill_tenths:
            most = min(most, max(1, 10 * STEP * (self.jars_wait - self.load) // job.fill_tenths))
        by_hand = job.prep_tenths + (0 if job.hot else job.fill_tenths)
        if not job.perishable or job.make or not by_hand:
            return most
        time = self.room_temperature_limit - (0 if job.hot else self.load)
        return min(most, max(1, 10 * STEP * time // by_hand))

    @property
    def alike(self) -> tuple[tuple[int, ...], ...]:
        """Groups of canners that differ in nothing but their names.

        One with a load in it is like no other: they are empty at different times.
        """
        groups: dict[object, list[int]] = {}
        inside = {load.canner for load in self.to_unload}
        for canner, oven in enumerate(self.ovens):
            ways = tuple(
                (j, way.capacity, way.process, way.warming, way.cool)
                for j, job in enumerate(self.jobs)
                for way in job.ways
                if way.canner == canner
            )
            name = oven.name if canner in inside else ""
            groups.setdefault((replace(oven, name=name), ways), []).append(canner)
        return tuple(tuple(group) for group in groups.values())

    def in_steps(self) -> "Problem":
        """The same day with every length in five-minute steps, rounded so that no rule loosens.

        Published minutes and rates of work stay as they are; of a load under way only the step from
        which it may be opened is told in steps.
        """
        return replace(
            self,
            jobs=tuple(
                replace(
                    job,
                    heat=steps(job.heat),
                    make=steps(job.make),
                    not_before=steps(job.not_before),
                    done_by=_floor(job.done_by),
                    heat_by=_floor(job.heat_by),
                    ready=None if job.ready is None else steps(job.ready),
                    ways=tuple(
                        replace(
                            way,
                            heat=steps(way.heat),
                            come_up=steps(way.come_up),
                            cool=steps(way.cool),
                        )
                        for way in job.ways
                    ),
                )
                for job in self.jobs
            ),
            ovens=tuple(
                replace(o, vent=steps(o.vent), wait=steps(o.wait), out=_wider(o.out))
                for o in self.ovens
            ),
            crews=tuple(
                replace(
                    c,
                    away=_wider(c.away),
                    taken=tuple((a // STEP, steps(b), n) for a, b, n in c.taken),
                )
                for c in self.crews
            ),
            heat_off_by=_floor(self.heat_off_by),
            jars_wait=_floor(self.jars_wait),
            taken_counters=tuple((a // STEP, steps(b), n) for a, b, n in self.taken_counters),
            taken_burners=tuple((a // STEP, steps(b), c) for a, b, c in self.taken_burners),
            now=steps(self.now),
            running=tuple(replace(r, open=steps(r.open)) for r in self.running),
            horizon=self.horizon // STEP,
            load=steps(self.load),
            unload=steps(self.unload),
            room_temperature_limit=self.room_temperature_limit // STEP,
        )


def _floor(minutes: int | None) -> int | None:
    return None if minutes is None else minutes // STEP


def _wider(spans: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """Spans in minutes as the steps they touch."""
    return tuple((a // STEP, steps(b)) for a, b in spans)
