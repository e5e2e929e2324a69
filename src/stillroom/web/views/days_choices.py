"""What a day's form offers to choose from: recipes, jar sizes, people, canners, aims."""

from dataclasses import dataclass
from functools import cache

from sqlalchemy.orm import Session

from stillroom.day.aims import AIMS, MEANT
from stillroom.kitchen import LEAVES
from stillroom.recipes.read import starter, starters
from stillroom.store.household import Household
from stillroom.store.lines import recipe_offers
from stillroom.units.jars import SIZES
from stillroom.web.views.days_form import Form


@dataclass(frozen=True, slots=True)
class Offered:
    """A recipe to choose: its name, its title, and the jars it is for."""

    name: str
    title: str
    jars: tuple[str, ...]
    finished: bool = True


@dataclass(frozen=True, slots=True)
class Choices:
    """Everything a form lets one choose."""

    own: tuple[Offered, ...]
    starters: tuple[Offered, ...]
    sizes: tuple[str, ...]
    canners: tuple[str, ...]
    people: tuple[str, ...]
    aims: tuple[tuple[str, str], ...]
    leaves: tuple[str, ...]
    titles: dict[str, str]

    usual_size: str = "pint"

    @property
    def canner_pairs(self) -> list[tuple[str, str]]:
        """Each canner with what it is called."""
        return [(name, name) for name in self.canners]

    @property
    def people_pairs(self) -> list[tuple[str, str]]:
        """Each person with their name."""
        return [(name, name) for name in self.people]

    @property
    def size_pairs(self) -> list[tuple[str, str]]:
        """Each jar size with its name."""
        return [(size, size) for size in self.sizes]

    @property
    def leave_pairs(self) -> list[tuple[str, str]]:
        """Each kind of work that may be left to others."""
        return [(work, work) for work in self.leaves]


def choices(session: Session, house: Household, form: Form) -> Choices:
    """What may be chosen in this form: its own helpers are among the people."""
    own = tuple(
        Offered(one.slug, one.title, one.jars, one.finished) for one in recipe_offers(session)
    )
    kitchen = house.kitchen
    helpers = [form.one(f"helper[{n}].name").strip() for n in range(1, form.rows["helper"] + 1)]
    people = [*(p.name for p in kitchen.people), *helpers] if kitchen else helpers
    offered = {one.name: one.title for one in (*own, *_starters())}
    return Choices(
        own,
        _starters(),
        SIZES,
        tuple(canner.name for canner in kitchen.canners) if kitchen else (),
        tuple(dict.fromkeys(name for name in people if name)),
        tuple((aim, MEANT[aim]) for aim in AIMS),
        LEAVES,
        {name: offered.get(name, name) for name in _named(form)},
    )


def _named(form: Form) -> list[str]:
    """The recipes that the form's orders name, each once."""
    said = [form.one(f"order[{n}].recipe") for n in range(1, form.rows["order"] + 1)]
    return list(dict.fromkeys(name for name in said if name))


@cache
def _starters() -> tuple[Offered, ...]:
    found = [(name, starter(name)) for name in starters()]
    return tuple(Offered(name, one.title, one.jars) for name, one in found)
