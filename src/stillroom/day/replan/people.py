"""Who is at what while the day is under way, and who or what dropped out."""

from collections.abc import Iterator
from itertools import combinations

from stillroom.day.crews import hours_away, rests_of
from stillroom.day.model import Day
from stillroom.day.problem import STEP, Crew, steps
from stillroom.day.replan.status import Out, PlannedWork, Stand, Status
from stillroom.day.spans import Span, on_steps, without
from stillroom.kitchen import Person
from stillroom.units.clock import clock


def people_now(day: Day, loads: list[Stand], status: Status) -> tuple[Crew, ...]:
    """Nobody begins anything before now; who is at work stays at it; who left is gone.

    Everybody is a crew of their own: what they are at tells them apart.
    """
    return tuple(_crew(day, person, loads, status) for person in day.people)


def _crew(day: Day, person: Person, loads: list[Stand], status: Status) -> Crew:
    now = STEP * steps(status.now - day.start)
    gone = spans_out(day, status.people, person.name)
    away = on_steps([(0, now), *hours_away(day, person), *gone])
    busy = on_steps([*_at_work(day, person.name, loads, status), *rests_of(day, person)])
    taken = tuple((a, b, 1) for a, b in without(busy, away))
    return Crew((person.name,), away, tuple(sorted(person.leaves)), taken)


def _at_work(day: Day, name: str, loads: list[Stand], status: Status) -> Iterator[Span]:
    """Work of a person that is under way, in minutes from the day's start."""
    for work, late in _begun(loads, status):
        if work and name in work.who:
            yield work.start + late - day.start, work.end + late - day.start


def _begun(loads: list[Stand], status: Status) -> Iterator[tuple[PlannedWork | None, int]]:
    """Pieces of work that have begun or, for a pot that is on heat, that must follow."""
    for at in loads:
        if at.state == "running":
            yield from ((cut, at.late) for cut in at.load.cuts)
            yield at.load.fill, at.late
            if at.load.unload.start + at.late <= status.now:
                yield at.load.unload, at.late
        elif at.state == "cut":
            yield from ((cut, at.late) for cut in at.load.cuts)
    for pot in status.previous.pots:
        if pot.cut and pot.cut.start <= status.now:
            yield pot.cut, 0


def clashes(loads: list[Stand], status: Status) -> Iterator[str]:
    """Work that must go on as it began though its people cannot do it as told, for the cook."""
    begun = [
        (doing, at.load.number, work.start + at.late, work.end + at.late, work.who)
        for at in loads
        if at.state == "running"
        for doing, work in (
            *(("cut for", cut) for cut in at.load.cuts),
            ("fill", at.load.fill),
        )
        if work.end + at.late > status.now
    ]
    for doing, number, start, end, who in begun:
        for out in status.people:
            if out.name in who and out.start < end and start < out.end:
                yield (
                    f"{out.name} was to {doing} load {number} from {clock(start)} and is not there "
                    "then: somebody else must."
                )
    for one, other in combinations(sorted(begun, key=lambda piece: piece[2]), 2):
        for name in sorted(set(one[4]) & set(other[4])):
            if other[2] < one[3] and other[2:] != one[2:]:
                yield (
                    f"{name} cannot {one[0]} load {one[1]} until {clock(one[3])} and {other[0]} "
                    f"load {other[1]} from {clock(other[2])}: let somebody else do it, or say in "
                    f"[[load]] how late load {other[1]} is."
                )


def spans_out(day: Day, outs: tuple[Out, ...], name: str) -> tuple[Span, ...]:
    """When a canner or a person is out, in whole steps of minutes from the day's start."""
    return on_steps(
        (max(out.start - day.start, 0), min(out.end, day.finish_by) - day.start)
        for out in outs
        if out.name == name
    )


def cutting_now(day: Day, loads: list[Stand], status: Status) -> Iterator[Span]:
    """Each pair of hands that is at the counter now, in minutes from the day's start.

    Food that is cut in one go may be of several loads by now; its hands are there once.
    """
    works = [
        (cut, at.late) for at in loads if at.state in ("running", "cut") for cut in at.load.cuts
    ]
    works += [
        (pot.cut, 0) for pot in status.previous.pots if pot.cut and pot.cut.start <= status.now
    ]
    at_it = {
        (name, work.start + late, work.end + late) for work, late in works for name in work.who
    }
    for _, start, end in sorted(at_it):
        yield start - day.start, end - day.start
