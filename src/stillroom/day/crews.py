"""People as the solver sees them: those who keep the same hours and breaks are one crew."""

from collections.abc import Iterable

from stillroom.day.model import Day
from stillroom.day.problem import Crew
from stillroom.kitchen import Person

Spans = tuple[tuple[int, int], ...]


def crews(day: Day) -> tuple[Crew, ...]:
    """People grouped by their hours, their breaks and the work they leave to others.

    On a break nobody works, but who is in the kitchen still minds what is on heat.
    """
    grouped: dict[tuple[Spans, Spans, tuple[str, ...]], list[str]] = {}
    for person in day.people:
        away, rests = _away(day, person), _rests(day, person)
        grouped.setdefault((away, rests, tuple(sorted(person.leaves))), []).append(person.name)
    return tuple(
        Crew(tuple(names), away, leaves, tuple((a, b, len(names)) for a, b in rests))
        for (away, rests, leaves), names in grouped.items()
    )


def _away(day: Day, person: Person) -> Spans:
    """The spans of the day a person is not there, in minutes from its start."""
    at = day.start
    spans: list[tuple[int, int]] = []
    for begin, end in (*person.hours, (day.finish_by, day.finish_by)):
        if begin > at:
            spans.append((at, begin))
        at = max(at, end)
    return _within(day, spans)


def _rests(day: Day, person: Person) -> Spans:
    """A person's breaks while they are there, in minutes from the day's start."""
    rests = _joined(tuple((b.start, b.end) for b in day.breaks if person.name in b.who))
    there = ((max(a, x), min(b, y)) for a, b in rests for x, y in _joined(person.hours))
    return _within(day, there)


def _joined(spans: Spans) -> Spans:
    """Spans that touch or overlap as one."""
    joined: list[tuple[int, int]] = []
    for begin, end in sorted(spans):
        if joined and begin <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((begin, end))
    return tuple(joined)


def _within(day: Day, spans: Iterable[tuple[int, int]]) -> Spans:
    """Spans in minutes after midnight as minutes from the day's start, cut to the day."""
    cut = ((max(a, day.start) - day.start, min(b, day.finish_by) - day.start) for a, b in spans)
    return tuple((a, b) for a, b in cut if b > a)
