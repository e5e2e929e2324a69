"""What can be said of a day at once, before any plan: rows, loads at the least, hours at the least.

Only the published minutes count here, so that what is told is a least: heating up, coming up and
cooling down are the plan's to foretell. A day that does not fit by these does not fit at all; one
that does may still have no plan.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from stillroom.day.durations import minutes
from stillroom.day.model import Day, Order
from stillroom.day.rows import mend_refused, rows, too_small
from stillroom.kitchen import Canner
from stillroom.processes.model import Process
from stillroom.units.clock import lasting


@dataclass(frozen=True, slots=True)
class Place:
    """A canner that an order may go into, its published row there, and jars a load."""

    canner: str
    process: Process
    capacity: int
    least: int
    """Minutes that a load keeps the canner at the least, from its first jar in to its last out."""


@dataclass(frozen=True, slots=True)
class Fitting:
    """One order: where it may go, fewest loads if alone, or why it may go nowhere."""

    order: Order
    places: tuple[Place, ...]
    refused: tuple[str, ...]

    @property
    def loads(self) -> int:
        """Fewest loads that take its jars, each in the largest canner for them."""
        most = max((place.capacity for place in self.places), default=0)
        return ceil(self.order.count / most) if most else 0


@dataclass(frozen=True, slots=True)
class Fits:
    """A day at once.

    ``busy`` tells how long the canners that are kept longest are kept at the least, "" where
    nothing can be canned; ``too_long`` whether that is longer than the day lasts; ``mend`` what
    would give a refused order a process.
    """

    orders: tuple[Fitting, ...]
    busy: str
    too_long: bool
    mend: tuple[str, ...]

    @property
    def refused(self) -> tuple[str, ...]:
        """Why orders have no process or no room here; the day cannot be planned with them."""
        return tuple(dict.fromkeys(told for one in self.orders for told in one.refused))

    @property
    def loads(self) -> int:
        """Fewest loads of the day, each order alone; orders that share loads may need fewer."""
        return sum(one.loads for one in self.orders)


def fits(day: Day) -> Fits:
    """What is known of a day before it is planned.

    Source
    ------
    The published rows (``processes.lookup``); venting, waiting, filling and lifting as in
    ``data/durations.csv``.
    """
    orders = tuple(_fitting(day, order) for order in day.orders)
    refused = any(one.refused for one in orders)
    kept, busy = max(_busy(day, orders), default=(0, ""))
    too_long = kept > day.finish_by - day.start
    return Fits(orders, busy, too_long, mend_refused(day) if refused else ())


def _fitting(day: Day, order: Order) -> Fitting:
    told = rows(day, order)
    canners = day.kitchen.canners
    places = tuple(_place(canners[place], order, row) for place, row in told.found)
    reasons = told.reasons
    if not places and told.small:
        reasons = (too_small(order, told.small),)
    return Fitting(order, places, () if places else tuple(dict.fromkeys(reasons)))


def _place(canner: Canner, order: Order, process: Process) -> Place:
    published = process.minutes + minutes("vent", canner.method) + minutes("wait", canner.method)
    hands = minutes("load", "any") + minutes("unload", "any")
    return Place(canner.name, process, canner.capacity(order.jar), published + hands)


def _busy(day: Day, orders: tuple[Fitting, ...]) -> Iterator[tuple[int, str]]:
    """For each set of canners that some orders cannot leave: how long they are kept together.

    A load that several orders share is a part of each; its length is no less than any of theirs,
    so that parts of loads times lengths are never more than what the canners do.
    """
    sets = {frozenset(place.canner for place in one.places) for one in orders if one.places}
    for names in sorted(sets, key=sorted):
        within = [one for one in orders if one.places and _canners(one) <= names]
        kept = sum((_share(one) for one in within), Fraction(0))
        there = day.finish_by - day.start
        # Nor is any canner done before the longest of these orders has had one load in it.
        longest = max(min(place.least for place in one.places) for one in within)
        each = max(ceil(kept / len(names)), longest)
        who = " and ".join(c.name for c in day.kitchen.canners if c.name in names)
        told = (
            f"The {who} need{'s' * (len(names) == 1)} at least {lasting(each)} of the day's "
            f"{lasting(there)}; heating up and cooling down come on top."
        )
        yield each, told


def _canners(one: Fitting) -> frozenset[str]:
    return frozenset(place.canner for place in one.places)


def _share(one: Fitting) -> Fraction:
    return min(Fraction(one.order.count * place.least, place.capacity) for place in one.places)
