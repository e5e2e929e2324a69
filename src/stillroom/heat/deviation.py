"""A run's log held against its published process: did it fall short, where, and what is the rule.

The log is all there is to go by. Between two readings nothing is known: a span below target is
told from the last reading that was at target to the next one that is, and readings that lie more
than five minutes apart cannot show that the pressure (or the boil) held. No answer of this module
approves a jar.
"""

import csv
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import Final, Literal

from stillroom.errors import InputError
from stillroom.heat.log import Log, Reading

DATA: Final = Path(__file__).parent / "data"

LONGEST_GAP: Final = 300.0
"""Seconds between readings beyond which a log shows nothing: this project's own choice."""

VENT: Final = 600.0
"""Seconds of venting that are published (AIB-539 Guide 1)."""

_EXACT: Final = 1e-6

Shows = Literal["never reached", "broken", "too short", "gaps", "unbroken"]
"""What a log shows of the time at target: see ``Deviation``."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A published rule in our words; ``read`` tells how well it was read."""

    rule: str
    canner: str
    text: str
    read: str
    source: str
    place: str
    status: str


@dataclass(frozen=True, slots=True)
class Below:
    """A stretch below target, s of the log: from the last reading at target to the next one.

    ``back`` is false where the log does not show that it came back. ``lowest`` is the line of the
    lowest reading, ``short`` how far it was below, psi; 0 for a boil.
    """

    start: float
    end: float
    back: bool
    lowest: Reading
    short: float


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of readings that were all at target or above, s of the log; its widest gap, s."""

    start: float
    end: float
    gap: float

    @property
    def minutes(self) -> float:
        """How long it lasted."""
        return (self.end - self.start) / 60


@dataclass(frozen=True, slots=True)
class Deviation:
    """What a log shows of a run with a target (psi, or the boil) and published minutes.

    ``reached`` is the first line at target. Timing is counted from ``begin`` to ``end``, s of the
    log, which the log tells (``begin_told``, ``end_told``) or which are its first and last reading
    at target. ``shows``:

    - *never reached*: no reading is at target;
    - *broken*: it fell below, and no stretch is as long as the published minutes;
    - *too short*: it never fell, and was at target for fewer minutes than published;
    - *gaps*: long enough, but readings lie so far apart that it cannot be shown;
    - *unbroken*: ``longest`` lasts the published minutes or more, with no such gap.

    ``vented`` is s, or ``None`` where the log does not tell it (or the canner is not vented).
    """

    shows: Shows
    target: float | None
    minutes: float
    reached: Reading | None
    begin: float
    begin_told: bool
    end: float
    end_told: bool
    below: tuple[Below, ...]
    stretches: tuple[Stretch, ...]
    vented: float | None

    @property
    def longest(self) -> Stretch | None:
        """The stretch that counts: the first that is long enough, else the longest."""
        whole = [s for s in self.stretches if s.minutes >= self.minutes - _EXACT]
        shown = [s for s in whole if s.gap <= LONGEST_GAP]
        ranked = sorted(self.stretches, key=lambda s: s.start - s.end)
        return next(iter([*shown, *whole, *ranked]), None)


@lru_cache(maxsize=1)
def rules() -> tuple[Rule, ...]:
    """The published rules of a run, in file order.

    Source
    ------
    ``data/run_rules.csv``, a source and how well it was read beside each.
    """
    with (DATA / "run_rules.csv").open(encoding="utf-8", newline="") as f:
        return tuple(Rule(**row) for row in csv.DictReader(f))


def rule(name: str, canner: str) -> Rule:
    """One rule by its name, for "pressure" or "boiling-water" canners."""
    return next(r for r in rules() if r.rule == name and r.canner in (canner, "any"))


def deviation(log: Log, target: float | None, minutes: float) -> Deviation:
    """What the log shows, held against a target and published minutes.

    Parameters
    ----------
    log : of pressure or of the boil
    target : psi on the gauge; ``None`` for a log of the boil
    minutes : the published process time, as given

    Returns
    -------
    Deviation, s of the log and psi

    Raises
    ------
    InputError
        The log tells heat off before timing starts.

    Source
    ------
    The log alone; ``rules()`` for what is published. The longest gap is this project's choice.
    """
    at_target = _boils if target is None else _at_least(target)
    start, off = log.event("timing starts"), log.event("heat off")
    if start and off and off.at < start.at:
        raise InputError(
            f"{log.file}, line {off.line}: heat off at {off.time} comes before timing starts at "
            f"{start.time} (line {start.line}). Correct one of them."
        )
    good = [line.at for line in log.read_off if at_target(line) and (not off or line.at <= off.at)]
    reached = next((line for line in log.read_off if good and line.at == good[0]), None)
    begin = start.at if start else good[0] if good else 0.0
    end = off.at if off else max([*good, begin])
    timed = [line for line in log.read_off if begin <= line.at <= end]
    below = tuple(_below(timed, at_target, target, begin, end)) if start or good else ()
    stretches = tuple(_stretches(timed, at_target, begin, end))
    made = Deviation(
        shows="unbroken",
        target=target,
        minutes=minutes,
        reached=reached,
        begin=begin,
        begin_told=start is not None,
        end=end,
        end_told=off is not None,
        below=below,
        stretches=stretches,
        vented=_vented(log),
    )
    return replace(made, shows=_shows(made))


def _shows(made: Deviation) -> Shows:
    longest = made.longest
    if longest is None:
        return "never reached"
    if longest.minutes < made.minutes - _EXACT:
        return "broken" if made.below else "too short"
    return "gaps" if longest.gap > LONGEST_GAP else "unbroken"


def _boils(line: Reading) -> bool:
    return bool(line.boils)


def _at_least(target: float) -> Callable[[Reading], bool]:
    return lambda line: line.psi is not None and line.psi >= target - _EXACT


def _stretches(
    timed: list[Reading], at_target: Callable[[Reading], bool], begin: float, end: float
) -> Iterator[Stretch]:
    """Runs of readings at target; the first begins with timing, the last ends with the heat."""
    run: list[float] = []
    for line in [*timed, None]:
        if line is not None and at_target(line):
            run.append(line.at)
            continue
        if run:
            # From a told start to the first reading, and from the last one to a told heat off,
            # nothing was read either: they count as gaps like any other.
            run = [*([begin] if run[0] == timed[0].at else []), *run]
            run += [end] if line is None else []
            gaps = [after - before for before, after in pairwise(run)]
            yield Stretch(run[0], run[-1], max(gaps, default=0.0))
        run = []


def _below(
    timed: list[Reading],
    at_target: Callable[[Reading], bool],
    target: float | None,
    begin: float,
    end: float,
) -> Iterator[Below]:
    """Runs of readings below target, each as wide as it may have been."""
    last_at, low = begin, list[Reading]()
    for line in timed:
        if not at_target(line):
            low.append(line)
            continue
        if low:
            yield _span(low, target, last_at, line.at, back=True)
        last_at, low = line.at, []
    if low:
        yield _span(low, target, last_at, end, back=False)


def _span(
    low: list[Reading], target: float | None, start: float, end: float, *, back: bool
) -> Below:
    lowest = min(low, key=lambda line: line.psi or 0.0)
    short = 0.0 if target is None or lowest.psi is None else target - lowest.psi
    return Below(start, end, back, lowest, short)


def _vented(log: Log) -> float | None:
    started, ended = log.event("vent start"), log.event("vent end")
    return ended.at - started.at if started and ended else None
