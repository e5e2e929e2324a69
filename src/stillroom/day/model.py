"""A day as its file says it: when, where, who, and which orders."""

from dataclasses import dataclass
from datetime import date

from stillroom.day.aims import AIMS
from stillroom.kitchen import Kitchen, Person
from stillroom.recipes.model import Recipe


@dataclass(frozen=True, slots=True)
class Order:
    """So many jars of a recipe. ``canners`` names the only canners to use, or none for any.

    The person's pins, times in minutes after midnight: ``first`` into the canners, no work
    ``not_before``, the last jar out by ``done_by``. ``where`` is the place in the day file, for
    messages.
    """

    recipe: Recipe
    jar: str
    count: int
    canners: tuple[str, ...]
    where: str
    first: bool = False
    not_before: int | None = None
    done_by: int | None = None


@dataclass(frozen=True, slots=True)
class Break:
    """A meal or a rest: who does nothing from when to when, in minutes after midnight."""

    who: tuple[str, ...]
    start: int
    end: int
    where: str


@dataclass(frozen=True, slots=True)
class Keep:
    """A canner kept for some jar sizes, some recipes, or both; empty means any."""

    canner: str
    jars: tuple[str, ...]
    recipes: tuple[str, ...]
    where: str

    def takes(self, order: Order) -> bool:
        """Whether an order may go into the canner."""
        fits = not self.jars or order.jar in self.jars
        return fits and (not self.recipes or order.recipe.name in self.recipes)


@dataclass(frozen=True, slots=True)
class Day:
    """A canning day. Times are minutes after midnight.

    ``most_extra`` is how many minutes longer than its own published time a food may be processed
    in a shared load: a matter of taste, for the person to set. After ``heat_off_by`` nothing is
    on heat. ``aims`` are what a good day is, in order. No filled jar waits longer than
    ``jars_wait`` minutes for its canner to be closed.
    """

    date: date
    start: int
    finish_by: int
    kitchen: Kitchen
    helpers: tuple[Person, ...]
    orders: tuple[Order, ...]
    most_extra: int
    heat_off_by: int | None = None
    aims: tuple[str, ...] = AIMS
    breaks: tuple[Break, ...] = ()
    keeps: tuple[Keep, ...] = ()
    jars_wait: int | None = None

    @property
    def people(self) -> tuple[Person, ...]:
        """The household's people and the day's helpers."""
        return (*self.kitchen.people, *self.helpers)
