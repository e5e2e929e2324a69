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
from stillroom.day.plan import Load, Spread, Task, Threat
from stillroom.processes.model import PRESSURE
from stillroom.units.jars import SIZES

RUNS = 500
SEED = 1
# Hand work takes from a fifth less to half as long again (common practice).
QUICKEST, SLOWEST = 0.8, 1.5
# Heat-up and come-up are one step to a cook: the canner warms.
_VARIES = {"heat": "Warming", "come-up": "Warming", "cool": "Cooling"}


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
    played = [_play(loads, tasks, pots, dice, now) for _ in range(runs)]
    ends = sorted(end for end, _ in played)
    return Spread(
        round(ends[runs // 2]), round(ends[runs * 9 // 10]), _threat([late for _, late in played])
    )


def _threat(played: list[dict[str, float]]) -> Threat | None:
    """The step that adds most minutes beyond the plan, over all runs that hang on it."""
    over: dict[str, list[float]] = {}
    for late in played:
        for step, minutes in late.items():
            over.setdefault(step, []).append(minutes)
    adds = {step: sum(m for m in of if m > 0) for step, of in over.items()}
    worst = max(adds, key=lambda step: (adds[step], step), default="")
    if not worst or adds[worst] < len(played) / 2:  # half a minute a run is no threat
        return None
    beyond = [minutes for minutes in over[worst] if minutes > 0]
    return Threat(worst, len(over[worst]) / len(played), round(sum(beyond) / len(beyond)))


@dataclass(frozen=True, slots=True)
class _Over:
    """Something that has ended: when, what it waited for, and its steps with minutes over plan."""

    end: float
    after: "_Over | None" = None
    late: tuple[tuple[str, float], ...] = ()


def _play(
    loads: tuple[Load, ...],
    tasks: tuple[Task, ...],
    pots: tuple[Pot, ...],
    dice: random.Random,
    now: int,
) -> tuple[float, dict[str, float]]:
    """One run of the day: every piece of work starts when it may, never before its time.

    Returns the end, and the steps of the chain that led to it with their minutes over plan.
    """
    household = dice.random()
    by_number = {load.number: load for load in loads}
    making = {pot.recipe: pot.minutes for pot in pots}
    free: dict[str, _Over] = {}  # people, canners
    cut: dict[int, _Over] = {}  # load: its food is prepared
    ready: dict[str, _Over] = {}  # recipe: its pot is ready
    opened: dict[int, _Over] = {}  # load: its canner may be opened
    last = _Over(0.0)
    for task in sorted((t for t in tasks if t.who), key=lambda t: (t.start, t.end)):
        waits = [_Over(float(task.start)), *(free[who] for who in task.who if who in free)]
        drawn = dice.triangular(QUICKEST, SLOWEST, 1.0)
        planned = task.end - task.start
        length = planned * (drawn if task.end > now else 1.0)
        load = by_number.get(task.load)
        if load is not None and task.name == "Unload":
            waits.append(opened[load.number])
        elif load is not None and task.name != "Prepare":
            pot_time = _pot_time(tasks, task)
            if load.number in cut:
                prepared = cut[load.number]
                waits.append(_Over(prepared.end + pot_time, prepared))
            waits += [free[load.canner]] if load.canner in free else []
            waits += [ready[jars.title] for jars in load.jars if jars.title in ready]
        after = max(waits, key=lambda over: over.end)
        done = _Over(after.end + length, after, ((_named(task), length - planned),))
        if load is None:
            ready[task.recipe] = _Over(done.end + making.get(task.recipe, 0), done)
        elif task.name == "Prepare":
            cut[load.number] = done
        elif task.name == "Unload":
            free[load.canner] = done
            last = max(last, done, key=lambda over: over.end)
        else:
            run = _run(load, dice, household, now)
            opened[load.number] = _Over(
                done.end + sum(minutes for _, minutes, _ in run),
                done,
                tuple((step, minutes - meant) for step, minutes, meant in run if step),
            )
        for person in task.who:
            free[person] = done
    return last.end, _chain(last)


def _chain(last: _Over) -> dict[str, float]:
    steps: dict[str, float] = {}
    at: _Over | None = last
    while at is not None:
        for step, minutes in at.late:
            steps[step] = steps.get(step, 0.0) + minutes
        at = at.after
    return steps


def _named(task: Task) -> str:
    number = f" (load {task.load})" if task.load else ""
    return f"{task.name}: {task.recipe}{number}"


def _pot_time(tasks: tuple[Task, ...], fill: Task) -> int:
    """Planned minutes between a load's pot going on and the start of its filling."""
    return next(
        (fill.start - t.start for t in tasks if t.load == fill.load and t.name.startswith("Heat")),
        0,
    )


def _run(
    load: Load, dice: random.Random, household: float, now: int
) -> list[tuple[str, float, int]]:
    """Phases from the lid going on to opening: what varies by name, as drawn, and as planned.

    ``household``, 0 to 1, is the day's.
    """
    largest = max((jars.jar for jars in load.jars), key=SIZES.index)
    drawn = dict(_modeled(load, household))
    lengths: list[tuple[str, float, int]] = []
    for phase in load.phases[1:-1]:
        planned = phase.end - phase.start
        row = duration(phase.name, load.method, largest)
        step = f"{_VARIES.get(phase.name, phase.name)}, {load.canner} (load {load.number})"
        if phase.end <= now:
            lengths.append(("", planned, planned))
        elif phase.name in drawn:
            lengths.append((step, drawn[phase.name], planned))
        elif phase.name == "process" or row is None or row.low == row.high:
            lengths.append(("", planned, planned))
        else:
            lengths.append((step, dice.triangular(row.low, row.high, row.minutes), planned))
    return lengths


def _modeled(load: Load, household: float) -> Iterator[tuple[str, float]]:
    """Lengths of the phases that the heat model knows, in a kitchen drawn for the day."""
    if load.warming:
        heat, come_up, _ = load.warming.draws[int(household * len(load.warming.draws))]
        yield "heat", heat
        yield "come-up", come_up
    if load.cooling and load.method in PRESSURE:
        yield "cool", load.cooling.draws[int(household * len(load.cooling.draws))][2]
