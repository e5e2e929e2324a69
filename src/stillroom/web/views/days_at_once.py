"""What is told of a day before it is planned: jars, lids, shopping, and whether it can fit."""

from collections.abc import Iterator
from dataclasses import dataclass

from stillroom.day.fits import Fits, Fitting, fits
from stillroom.day.model import Day
from stillroom.day.needs import day_lists
from stillroom.recipes.scale import Lists
from stillroom.recipes.wording import titled


@dataclass(frozen=True, slots=True)
class Way:
    """A canner for an order: minutes and pounds as published, and jars a load."""

    canners: str
    minutes: int
    psi: int | None
    capacity: int


@dataclass(frozen=True, slots=True)
class OrderLine:
    """An order with its ways, or why it has none."""

    title: str
    count: int
    jar: str
    loads: int
    ways: tuple[Way, ...]
    refused: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AtOnce:
    """All that is known of a day at once."""

    jars: int
    loads: int
    orders: tuple[OrderLine, ...]
    lists: Lists
    fits: Fits
    titles: dict[str, str]

    def say(self, told: str) -> str:
        """A line of the lists, with its recipes' titles."""
        return titled(told, self.titles)

    @property
    def refused(self) -> bool:
        """Whether an order has no process or no room here."""
        return bool(self.fits.refused)


def at_once(day: Day) -> AtOnce:
    """What one sees of a day while writing it down."""
    told = fits(day)
    return AtOnce(
        sum(order.count for order in day.orders),
        told.loads,
        tuple(_line(one) for one in told.orders),
        day_lists(day),
        told,
        {order.recipe.name: order.recipe.title for order in day.orders},
    )


def _line(one: Fitting) -> OrderLine:
    order = one.order
    return OrderLine(
        order.recipe.title, order.count, order.jar, one.loads, tuple(_ways(one)), one.refused
    )


def _ways(one: Fitting) -> Iterator[Way]:
    """Canners with the same row and room told together."""
    alike: dict[tuple[int, int | None, int], list[str]] = {}
    for place in one.places:
        key = (place.process.minutes, place.process.psi, place.capacity)
        alike.setdefault(key, []).append(place.canner)
    for (minutes, psi, capacity), names in alike.items():
        yield Way(", ".join(dict.fromkeys(names)), minutes, psi, capacity)
