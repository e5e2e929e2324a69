"""A day as its file says it: when, where, who, and which orders."""

from dataclasses import dataclass
from datetime import date

from stillroom.kitchen import Kitchen, Person
from stillroom.recipes.model import Recipe


@dataclass(frozen=True, slots=True)
class Order:
    """So many jars of a recipe. ``canners`` names the only canners to use, or none for any.

    ``where`` is the place in the day file, for messages.
    """

    recipe: Recipe
    jar: str
    count: int
    canners: tuple[str, ...]
    where: str


@dataclass(frozen=True, slots=True)
class Day:
    """A canning day. Times are minutes after midnight.

    ``most_extra`` is how many minutes longer than its own published time a food may be processed
    in a shared load: a matter of taste, for the person to set.
    """

    date: date
    start: int
    finish_by: int
    kitchen: Kitchen
    helpers: tuple[Person, ...]
    orders: tuple[Order, ...]
    most_extra: int

    @property
    def people(self) -> tuple[Person, ...]:
        """The household's people and the day's helpers."""
        return (*self.kitchen.people, *self.helpers)
