"""When the day is likely to end: the plan played many times with durations as they vary.

The published process minutes never vary, nor do venting and waiting. Heat-up, come-up and cool-down
are those of one burner and kitchen, drawn for the whole day from the heat model's spread; where it
has no answer, each is drawn between the ends of its published range. Hand work varies as written
below.
Nobody starts before the sheet says, and the order of the plan is kept.
"""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from stillroom.day.durations import duration
from stillroom.day.plan import Load, Spread, Task
from stillroom.processes.model import PRESSURE
from stillroom.units.jars import SIZES

RUNS = 500
SEED = 1
# Hand work takes from a fifth less to half as long again (common practice).
QUICKEST, SLOWEST = 0.8, 1.5


@dataclass(frozen=True, slots=True)
class Pot:
    """A pot made once: its recipe's title and the planned minutes from going on to ready."""

    recipe: str
    minutes: int


def spread(
    loads: tuple[Load, ...],
    tasks: tuple[Task, ...],
    pots: tuple[Pot, ...],
    *,
    runs: int = RUNS,
    seed: int = SEED,
    now: int = 0,
) -> Spread:
    """Play the plan and read off when it ends.

    Parameters
    ----------
    loads, tasks : the timetable, minutes after midnight
    pots : the pots made once, which their loads wait for
    runs, seed : how often to play, and the seed of the dice
    now : what ended by then is as it was

    Source
    ------
    The heat model (``heat/durations.py``), or ``data/durations.csv`` with a triangular spread, mode
    at the planned figure: this project's choice.
    """
    dice = random.Random(seed)
    ends = sorted(_play(loads, tasks, pots, dice, now) for _ in range(runs))
    return Spread(round(ends[runs // 2]), round(ends[runs * 9 // 10]))


def _play(
    loads: tuple[Load, ...],
    tasks: tuple[Task, ...],
    pots: tuple[Pot, ...],
    dice: random.Random,
    now: int,
) -> float:
    """One run of the day: every piece of work starts when it may, never before its time."""
    household = dice.random()
    by_number = {load.number: load for load in loads}
    making = {pot.recipe: pot.minutes for pot in pots}
    free: dict[str, float] = {}  # people, canners
    cut: dict[int, float] = {}  # load: its food is prepared
    ready: dict[str, float] = {}  # recipe: its pot is ready
    opened: dict[int, float] = {}  # load: its canner may be opened
    end = 0.0
    for task in sorted((t for t in tasks if t.who), key=lambda t: (t.start, t.end)):
        start = max([float(task.start), *(free.get(person, 0.0) for person in task.who)])
        drawn = dice.triangular(QUICKEST, SLOWEST, 1.0)
        length = (task.end - task.start) * (drawn if task.end > now else 1.0)
        load = by_number.get(task.load)
        if load is None:
            ready[task.recipe] = start + length + making.get(task.recipe, 0)
        elif task.name == "Prepare":
            cut[load.number] = start + length
        elif task.name == "Unload":
            start = max(start, opened[load.number])
            free[load.canner] = start + length
            end = max(end, start + length)
        else:
            pot_time = _pot_time(tasks, task)
            start = max(
                start,
                cut.get(load.number, 0.0) + pot_time,
                free.get(load.canner, 0.0),
                *(ready.get(jars.title, 0.0) for jars in load.jars),
            )
            opened[load.number] = start + length + _run(load, dice, household, now)
        for person in task.who:
            free[person] = start + length
    return end


def _pot_time(tasks: tuple[Task, ...], fill: Task) -> int:
    """Planned minutes between a load's pot going on and the start of its filling."""
    return next(
        (fill.start - t.start for t in tasks if t.load == fill.load and t.name.startswith("Heat")),
        0,
    )


def _run(load: Load, dice: random.Random, household: float, now: int) -> float:
    """Minutes from the lid going on to opening, as drawn; ``household``, 0 to 1, is the day's."""
    largest = max((jars.jar for jars in load.jars), key=SIZES.index)
    drawn = dict(_modeled(load, household))
    total = 0.0
    for phase in load.phases[1:-1]:
        if phase.end <= now:
            total += phase.end - phase.start
            continue
        if phase.name in drawn:
            total += drawn[phase.name]
            continue
        row = duration(phase.name, load.method, largest)
        if phase.name == "process" or row is None or row.low == row.high:
            total += phase.end - phase.start
        else:
            total += dice.triangular(row.low, row.high, row.minutes)
    return total


def _modeled(load: Load, household: float) -> Iterator[tuple[str, float]]:
    """Lengths of the phases that the heat model knows, in a kitchen drawn for the day."""
    if load.warming:
        heat, come_up, _ = load.warming.draws[int(household * len(load.warming.draws))]
        yield "heat", heat
        yield "come-up", come_up
    if load.cooling and load.method in PRESSURE:
        yield "cool", load.cooling.draws[int(household * len(load.cooling.draws))][2]
