"""A day with something more in it, for asking what that would buy or open."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from stillroom.day.model import Day
from stillroom.errors import InputError
from stillroom.kitchen import Canner, Person
from stillroom.units.clock import lasting

# How much earlier a day is tried to start, in minutes.
EARLIER = 60


def with_burner(day: Day) -> Day:
    """The same day with one burner more, that carries a canner."""
    kitchen = day.kitchen
    more = replace(kitchen, burners=kitchen.burners + 1, canner_burners=kitchen.canner_burners + 1)
    return replace(day, kitchen=more)


def with_canner(day: Day, canner: Canner) -> Day:
    """The same day with a second canner like this one, and a burner for it.

    Orders that name the canner may use its twin too, and what keeps the one for some jars keeps
    the other.
    """
    more = with_burner(day)
    another = replace(canner, name=f"another {canner.name}")
    orders = tuple(
        replace(o, canners=(*o.canners, another.name)) if canner.name in o.canners else o
        for o in day.orders
    )
    keeps = tuple(replace(k, canner=another.name) for k in day.keeps if k.canner == canner.name)
    kitchen = replace(more.kitchen, canners=(*day.kitchen.canners, another))
    return replace(more, kitchen=kitchen, orders=orders, keeps=(*day.keeps, *keeps))


def with_helper(day: Day) -> Day:
    """The same day with one pair of hands more, all day."""
    helper = Person("another helper", ((day.start, day.finish_by),))
    return replace(day, helpers=(*day.helpers, helper))


def from_hour(day: Day, start: int) -> Day:
    """The same day from another hour, with everybody who opens it coming then.

    Parameters
    ----------
    start : minutes after midnight
    """

    def come(person: Person) -> Person:
        spans = [(start if a <= day.start else a, b) for a, b in person.hours]
        return replace(person, hours=tuple(spans))

    kitchen = replace(day.kitchen, people=tuple(come(p) for p in day.kitchen.people))
    return replace(day, start=start, kitchen=kitchen, helpers=tuple(come(p) for p in day.helpers))


class Change(NamedTuple):
    """A change that may be tried: its code, and what it is in words."""

    code: str
    told: str


def changes(day: Day) -> Iterator[Change]:
    """What may be tried of a day: a canner of each kind it has, a helper, a burner, an hour."""
    for method in dict.fromkeys(canner.method for canner in day.kitchen.canners):
        yield Change(f"canner {method}", f"another {method} canner, with a burner for it")
    yield Change("helper", "another helper, all day")
    yield Change("burner", "another burner")
    if day.start >= EARLIER:
        told = f"a start {lasting(EARLIER)} earlier, with whoever opens the day"
        yield Change(f"earlier {EARLIER}", told)


def changed(day: Day, code: str) -> Day:
    """The day with one of its ``changes``.

    Raises
    ------
    InputError
        A code that ``changes`` does not give for this day.
    """
    if code not in [change.code for change in changes(day)]:
        raise InputError(f'change: "{code}" cannot be tried of this day.')
    what, _, more = code.partition(" ")
    match what:
        case "canner":
            canner = {c.method: c for c in day.kitchen.canners}[more]
            return with_canner(day, canner)
        case "helper":
            return with_helper(day)
        case "burner":
            return with_burner(day)
        case _:
            return from_hour(day, day.start - int(more))
