"""People as the solver sees them: those who keep the same hours and breaks are one crew."""

from collections.abc import Iterable

from stillroom.day.model import Day
from stillroom.day.problem import Crew
from stillroom.day.spans import Span, joined, on_steps, without
from stillroom.kitchen import Person

Spans = tuple[Span, ...]


def crews(day: Day) -> tuple[Crew, ...]:
    """People grouped by their hours, their breaks and the work they leave to others.

    On a break nobody works, but who is in the kitchen still minds what is on heat.
    """
    grouped: dict[tuple[Spans, Spans, tuple[str, ...]], list[str]] = {}
    for person in day.people:
        away, rests = hours_away(day, person), rests_of(day, person)
        grouped.setdefault((away, rests, tuple(sorted(person.leaves))), []).append(person.name)
    return tuple(
        Crew(tuple(names), away, leaves, tuple((a, b, len(names)) for a, b in rests))
        for (away, rests, leaves), names in grouped.items()
    )


def hours_away(day: Day, person: Person) -> Spans:
    """The spans of the day a person is not there, in whole steps of minutes from its start."""
    there = _within(day, person.hours)
    return on_steps(without([(0, day.finish_by - day.start)], there))


def rests_of(day: Day, person: Person) -> Spans:
    """A person's breaks while they are there, in whole steps of minutes from the day's start."""
    rests = _within(day, ((b.start, b.end) for b in day.breaks if person.name in b.who))
    return without(on_steps(rests), hours_away(day, person))


def _within(day: Day, spans: Iterable[Span]) -> Spans:
    """Spans in minutes after midnight as minutes from the day's start, cut to the day."""
    cut = ((max(a, day.start) - day.start, min(b, day.finish_by) - day.start) for a, b in spans)
    return joined(cut)
