"""What a plan takes for each phase of a load, and what stands behind it.

Heat-up, come-up and cool-down come from the heat model (``heat/durations.py``), or from the table
of published figures where the model has no answer. Venting and waiting are published, never less.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from stillroom.day.durations import duration, minutes
from stillroom.day.problem import STEP, Way, steps
from stillroom.heat.durations import Span, Times, TooWeak
from stillroom.processes.model import PRESSURE

MODELED = "heat model"


@dataclass(frozen=True, slots=True)
class Length:
    """A phase's planned minutes, the minutes it may take, and where they come from.

    ``basis`` is "heat model", "published" or "common practice"; ``source`` tells more.
    """

    phase: str
    minutes: int
    low: int
    high: int
    basis: str
    source: str


def planned(method: str, jar: str, times: Times | TooWeak) -> tuple[int, int, int]:
    """Minutes to plan for heat-up, come-up and cool-down, in whole five-minute steps.

    Heat-up and come-up are rounded up together, so that two roundings do not make ten minutes.

    Parameters
    ----------
    method : boiling-water, dial-gauge or weighted-gauge
    jar : the jar size, for the published figure where it stands in
    times : what the heat model says

    Returns
    -------
    three whole numbers of minutes; the second is 0 for boiling water

    Source
    ------
    The heat model's planned length (three runs in four keep it), or ``data/durations.csv``. A
    boiling-water canner's cool-down is the published wait.
    """
    if isinstance(times, TooWeak):
        return minutes("heat", method), minutes("come-up", method), minutes("cool", method, jar)
    if method not in PRESSURE:
        return max(STEP, _up(times.heat.planned)), 0, minutes("cool", method, jar)
    warming = max(2 * STEP, _up(times.before.planned))
    come_up = max(STEP, STEP * round(times.come_up.planned / STEP))
    come_up = min(come_up, warming - STEP)
    return warming - come_up, come_up, max(STEP, _up(times.cool.planned))


def of_load(method: str, jar: str, slowest: Way, last: Way) -> tuple[Length, ...]:
    """Every phase of a load but the process itself, with what stands behind its minutes.

    Parameters
    ----------
    method : of the canner
    jar : the largest of the load
    slowest, last : the ways of the jars that warm and that cool longest

    Returns
    -------
    the phases the method has, in their order
    """
    warm = slowest.times if isinstance(slowest.times, Times) else None
    cold = last.times if isinstance(last.times, Times) and method in PRESSURE else None
    modeled = {
        "heat": (slowest.heat, warm and warm.heat, warm),
        "come-up": (slowest.come_up, warm and warm.come_up, warm),
        "cool": (last.cool, cold and cold.cool, cold),
    }
    told = []
    for phase in ("load", "heat", "vent", "come-up", "cool", "wait", "unload"):
        row = duration(phase, method, jar)
        if row is None:
            continue
        length, span, times = modeled.get(phase, (row.minutes, None, None))
        if isinstance(span, Span) and isinstance(times, Times):
            source = f"timed runs: {times.timed}" if times.timed else "not yet timed here"
            told.append(Length(phase, length, span.low, span.high, MODELED, source))
        else:
            told.append(Length(phase, length, row.low, row.high, row.status, row.place))
    return tuple(told)


def stand_ins(told: Iterable[tuple[str, tuple[str, ...]]]) -> tuple[str, ...]:
    """A line for all canners with the same stand-ins.

    Parameters
    ----------
    told : canners, each with what was taken for what the kitchen file does not tell of it

    Examples
    --------
    >>> stand_ins([("dial", ("water 3 quarts",)), ("weight", ("water 3 quarts",))])
    ('dial, weight: water 3 quarts',)
    """
    canners: dict[tuple[str, ...], dict[str, None]] = {}
    for canner, lines in told:
        canners.setdefault(lines, {})[canner] = None
    return tuple(f"{', '.join(names)}: {'; '.join(lines)}" for lines, names in canners.items())


def _up(length: int) -> int:
    return STEP * steps(length)
