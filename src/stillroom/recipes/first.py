"""What to make first: the broth, brine, syrup or boiling water that is poured over the food.

It is on the stove before the first jar is filled, so it must be enough. How much a jar takes is an
estimate from low to high (``build``); what the recipe writes is exact. A mixture is made larger as
a whole: the proportion of vinegar, water and salt never changes.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from stillroom.foods.vocabulary import find_food
from stillroom.recipes.build import filled
from stillroom.recipes.measures import Measured, between, measured, volume
from stillroom.recipes.packing import Range, measured_volume
from stillroom.recipes.totals import Order
from stillroom.units.amounts import Amount

MARGIN: Final = Fraction(1, 10)
"""A tenth over what the recipes write, at the least: common practice."""

DISSOLVED: Final = 0.62e-6
"""m3 that a gram of sugar adds to water: from memory; figures for sucrose run from 0.61 to 0.63."""


@dataclass(frozen=True, slots=True)
class First:
    """Something to make before any jar is filled.

    ``written`` is what the recipes write, ``taken`` what the jars may take by estimate, ``make``
    what to make, all m3; ``parts`` what goes into it, ``recipes`` who takes it; ``maker`` is the
    recipe of the day that makes it, "" where none does.
    """

    name: str
    recipes: tuple[str, ...]
    written: float
    taken: Range
    make: float
    parts: tuple[Measured, ...]
    maker: str = ""

    @property
    def short(self) -> str:
        """What to make, for a sheet where room is dear."""
        names = ", ".join(self.recipes)
        return f"{self._told} ({names})"

    @property
    def text(self) -> str:
        """One line for a list, with what stands behind the amount."""
        water = [part.food for part in self.parts] == ["water"]
        told = self._told
        if len(self.parts) > 1:
            told += ", of " + ", ".join(_part(part) for part in self.parts)
        told += (
            f"; the recipe writes {volume(self.written)}, and by estimate the jars take "
            f"{between(self.taken)}"
        )
        told += "" if water else "; the shopping list holds what the recipe writes"
        if self.maker:
            told += f"; {self.maker} makes it that day, this much more than its jars take"
        return f"{told} ({', '.join(self.recipes)})"

    @property
    def _told(self) -> str:
        if [part.food for part in self.parts] == ["water"]:
            return f"boiling water: have {volume(self.make, up=True)} ready"
        return f"{self.name}: make {volume(self.make, up=True)}"


def make_first(
    orders: Sequence[Order], makers: Mapping[str, str] | None = None
) -> tuple[First, ...]:
    """What to make first for some jars of some recipes.

    Parameters
    ----------
    orders : (recipe, jar size, number of jars)
    makers : recipes of the day that make a food of the list

    Returns
    -------
    tuple of First : a liquid of one food is added up over recipes; a mixture stays with its recipe

    Source
    ------
    The recipes; the estimate of ``build``; ``MARGIN``.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> [made.name for made in make_first([(starter("dilled-beans"), "pint", 8)])]
    ['brine']
    """
    groups: dict[str, list[_Poured]] = {}
    for recipe, jar, count in orders:
        made = filled(recipe, jar)
        if made.liquid is None:
            continue
        layer = next(layer for layer in made.layers if layer.name == made.poured)
        alone = len(layer.items) == 1
        name = layer.items[0].food if alone else layer.name
        group = name if alone else f"{recipe.name}: {name}"
        poured = _Poured(name, recipe.name, made.liquid, layer.items, count)
        groups.setdefault(group, []).append(poured)
    return tuple(_first(group, makers or {}) for group in groups.values())


@dataclass(frozen=True, slots=True)
class _Poured:
    """What one order pours: into each of ``count`` jars ``taken`` by estimate, m3."""

    name: str
    recipe: str
    taken: Range
    items: tuple[Measured, ...]
    count: int


def _first(group: list[_Poured], makers: Mapping[str, str]) -> First:
    taken = Range(
        sum(poured.taken.low * poured.count for poured in group),
        sum(poured.taken.high * poured.count for poured in group),
    )
    written = sum(_adds(item) * poured.count for poured in group for item in poured.items)
    # Of one liquid there is enough for the most the jars may take. A published mixture was tried
    # with its batch, so it grows only where the recipe is below the least.
    mixed = any(len(poured.items) > 1 for poured in group)
    make = max(written * (1 + float(MARGIN)), taken.low if mixed else taken.high)
    times = Fraction(make / written) if written else Fraction(1)
    name = group[0].name
    return First(
        name,
        tuple(dict.fromkeys(poured.recipe for poured in group)),
        written,
        taken,
        make,
        tuple(_parts(group, times)),
        makers.get(name, ""),
    )


def _adds(item: Measured) -> float:
    """What a part adds to what is poured: a liquid its volume, sugar what it swells it by."""
    if item.poured and item.cups:
        return measured_volume(item.cups)
    if find_food(item.food).kind == "sugar" and item.grams is not None:
        return float(item.grams) * DISSOLVED
    return 0.0


def _parts(group: list[_Poured], times: Fraction) -> Iterator[Measured]:
    """The parts of all jars together, each as much larger as the whole is made."""
    sums: dict[tuple[str, str, str], tuple[Measured, Fraction]] = {}
    for poured in group:
        for item in poured.items:
            alike = (item.food, item.prep, item.amount.unit)
            held = sums[alike][1] if alike in sums else Fraction(0)
            sums[alike] = (item, held + item.amount.value * poured.count)
    for item, value in sums.values():
        # Whole numbers of a 64th teaspoon: the estimate is no exact fraction.
        grown = Fraction(-(-(value * times * 64) // 1), 64)
        yield measured(
            find_food(item.food),
            item.prep,
            Amount(grown, item.amount.unit),
            bought=item.as_bought,
            optional=item.optional,
        )


def _part(part: Measured) -> str:
    grams = f" ({part.by_weight.partition(' (')[0]})" if part.by_weight else ""
    return f"{part.food} {part.by_cup}{grams}" + (" if wanted" if part.optional else "")
