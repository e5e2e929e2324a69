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
    """Readings one after another at target or above, none far from the next; s of the log."""

    start: float
    end: float

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
    - *gaps*: no stretch is as long as the published minutes, but one would be if nothing happened
      where readings lie too far apart;
    - *broken*: it fell below, and no stretch is as long as the published minutes;
    - *too short*: it never fell, and was at target for fewer minutes than published;
    - *unbroken*: ``longest`` lasts the published minutes or more.

    ``stretches`` end at a fall and at a gap: one of ``gaps``, from and to in s of the log, which
    went longer than ``LONGEST_GAP`` without a reading. ``vented`` is s, or ``None`` where the log
    does not tell it (or the canner is not vented).
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
    gaps: tuple[tuple[float, float], ...]
    vented: float | None

    @property
    def longest(self) -> Stretch | None:
        """The stretch that counts: the first that is long enough, else the longest."""
        whole = (s for s in self.stretches if s.minutes >= self.minutes - _EXACT)
        return next(whole, max(self.stretches, key=lambda s: s.end - s.start, default=None))


@lru_cache(maxsize=1)
def rules() -> tuple[Rule, ...]:
    """The published rules of a run, in file order.

    Source
    ------
    ``data/run_rules.csv``, a source and how well it was read beside each.
    """
    with (DATA / "run_rules.csv").open(encoding="utf-8", newline="") as f:
        return tuple(Rule(**row) for row in csv.DictReader(f))


@lru_cache(maxsize=1)
def _publications() -> dict[str, str]:
    with (DATA / "sources.csv").open(encoding="utf-8", newline="") as f:
        return {
            row["source"]: ", ".join(p for p in (row["author"], row["title"], row["year"]) if p)
            for row in csv.DictReader(f)
        }


def cited(found: Rule) -> str:
    """Publication and place of a rule in one line."""
    return f"{_publications()[found.source]}, {found.place}"


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
    held = list(_held(timed, at_target, begin, end))
    points = (begin, *(line.at for line in timed), end)
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
        stretches=tuple(part for run in held for part in _close(run)),
        gaps=tuple(g for g in pairwise(points) if g[1] - g[0] > LONGEST_GAP),
        vented=_vented(log),
    )
    return replace(made, shows=_shows(made, max((run[-1] - run[0] for run in held), default=0.0)))


def _shows(made: Deviation, with_gaps: float) -> Shows:
    longest, published = made.longest, 60 * (made.minutes - _EXACT)
    if longest is None:
        return "never reached"
    if longest.end - longest.start >= published:
        return "unbroken"
    if with_gaps >= published:
        return "gaps"
    return "broken" if made.below else "too short"


def _boils(line: Reading) -> bool:
    return bool(line.boils)


def _at_least(target: float) -> Callable[[Reading], bool]:
    return lambda line: line.psi is not None and line.psi >= target - _EXACT


def _held(
    timed: list[Reading], at_target: Callable[[Reading], bool], begin: float, end: float
) -> Iterator[list[float]]:
    """Times of readings at target, run by run; the first begins with timing, the last ends with the
    heat: from a told start to the first reading, and from the last to heat off, nothing was read,
    which counts like any other gap."""
    run: list[float] = []
    for line in [*timed, None]:
        if line is not None and at_target(line):
            run.append(line.at)
            continue
        if run:
            run = [*([begin] if run[0] == timed[0].at else []), *run]
            yield [*run, end] if line is None else run
        run = []


def _close(run: list[float]) -> Iterator[Stretch]:
    """The parts of a run in which no two readings lie too far apart."""
    start = run[0]
    for before, after in pairwise(run):
        if after - before > LONGEST_GAP:
            yield Stretch(start, before)
            start = after
    yield Stretch(start, run[-1])


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
