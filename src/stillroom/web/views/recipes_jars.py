"""Some jars of a recipe: its process, one jar drawn, amounts, what to buy and to make first."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NamedTuple
from urllib.parse import urlencode

from markupsafe import Markup

from stillroom.errors import InputError
from stillroom.kitchen import Kitchen
from stillroom.paper.jar_figure import jar_figure
from stillroom.processes import Answer, Match
from stillroom.recipes.build import Build, build, reordered
from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import Measured, between, measured_line
from stillroom.recipes.model import Recipe
from stillroom.recipes.process import rows_of
from stillroom.recipes.scale import Lists, lists
from stillroom.units.amounts import Amount as AmountOf
from stillroom.units.jars import SIZES, quarts
from stillroom.units.prices import Price
from stillroom.web.views.foods import Choice
from stillroom.web.views.printed import Printed, printed
from stillroom.web.views.recipes_asked import Asked, asked_count, asked_feet, asked_jar, at, to


class Amount(NamedTuple):
    """One ingredient for all jars, and for each.

    ``main`` is said as the recipe writes it: by weight (``as_bought`` or prepared), by measure or
    by count; the other ways, where they are known, stand beside it.
    """

    name: str
    optional: bool
    main: str
    as_bought: bool
    cups: str
    weight: str
    bought: str
    each: str


class Step(NamedTuple):
    """One layer in filling order, and the address of the jar with it a place earlier."""

    name: str
    amount: str
    step: str
    earlier: str


@dataclass(frozen=True, slots=True)
class Jars:
    """So many jars of a recipe, for one kitchen.

    ``answer`` is ``None`` where the elevation is not known. ``printed`` are its rows, sorted by
    the household's canners.
    """

    recipe: Recipe
    path: str
    asked: Asked
    count: int
    made: Build
    sizes: tuple[Choice, ...]
    steps: tuple[Step, ...]
    amounts: tuple[Amount, ...]
    lists: Lists
    feet: int | None
    answer: Answer | None
    printed: Printed
    wrong: tuple[InputError, ...]

    @property
    def jar(self) -> str:
        """The size."""
        return self.made.jar

    @property
    def figure(self) -> Markup:
        """The jar drawn to scale; the drawing escapes its words itself."""
        return Markup(drawn(self.made))

    @property
    def requires(self) -> tuple[str, ...]:
        """What to do first, each once."""
        return _once(one for match in self._matches for one in match.requires)

    @property
    def care(self) -> tuple[str, ...]:
        """Notes of the rows, each once."""
        return _once(one for match in self._matches for one in match.notes)

    @property
    def sources(self) -> tuple[str, ...]:
        """Where recipe and process were printed."""
        return _once([self.recipe.source, *(m.process.citation for m in self._matches)])

    @property
    def strained(self) -> str:
        """What is cooked along and left out."""
        return ", ".join(item.food for item in self.made.strained)

    @property
    def first(self) -> tuple[str, ...]:
        """What to make before any jar is filled."""
        return self._alone(one.text for one in self.lists.first)

    @property
    def prep(self) -> tuple[str, ...]:
        """What to cut and peel."""
        return self._alone(one.text for one in self.lists.prep)

    @property
    def liquids(self) -> tuple[str, ...]:
        """What is poured, where nothing is made first of it."""
        made = {part.food for one in self.lists.first for part in one.parts}
        return self._alone(one.text for one in self.lists.liquids if one.food not in made)

    def _alone(self, told: Iterable[str]) -> tuple[str, ...]:
        """Lines without the name of the recipe: there is only one here."""
        return tuple(line.replace(f" ({self.recipe.name})", "") for line in told)

    @property
    def query(self) -> str:
        """This question as the end of an address, "" where nothing is asked."""
        said = {key: value for key, value in self.asked._asdict().items() if value}
        return f"?{urlencode(said)}" if said else ""

    @property
    def _matches(self) -> tuple[Match, ...]:
        return self.answer.matches if self.answer else ()


def jars(
    recipe: Recipe, path: str, asked: Asked, kitchen: Kitchen | None, feet: int | None
) -> Jars:
    """Some jars of a recipe.

    Parameters
    ----------
    recipe : Recipe
    path : address of the page, for its links
    asked : what the address asks; what cannot be read is told in ``wrong``, and the usual taken
    kitchen : the household's, ``None`` where it is not written
    feet : elevation of the kitchen; one typed into the address goes before it
    """
    wrong: list[InputError] = []
    jar = asked_jar(recipe, asked.jar, wrong)
    count = asked_count(asked.jars, jar, wrong)
    made = _ordered(build(recipe, jar), asked.order, wrong)
    feet = asked_feet(asked.elevation, feet, wrong)
    answer = None if feet is None else rows_of(recipe, jar, feet)
    return Jars(
        recipe=recipe,
        path=path,
        asked=asked,
        count=count,
        made=made,
        sizes=tuple(Choice(one, to(path, asked, jar=one, order=""), one == jar)
                    for one in sorted(recipe.jars, key=SIZES.index)),
        steps=_steps(made, path, asked),
        amounts=_amounts(recipe, jar, count),
        lists=_lists(recipe, jar, count, kitchen),
        feet=feet,
        answer=answer,
        printed=_printed(recipe, jar, answer, kitchen),
        wrong=tuple(wrong),
    )  # fmt: skip


@lru_cache(maxsize=256)
def drawn(made: Build) -> str:
    """The drawing of a jar, kept for the next who looks."""
    return jar_figure(made)


def _ordered(made: Build, order: str, wrong: list[InputError]) -> Build:
    try:
        return reordered(made, [name for name in order.split(",") if name.strip()])
    except InputError as told:
        wrong.append(at("order", str(told)))
        return made


def _printed(recipe: Recipe, jar: str, answer: Answer | None, kitchen: Kitchen | None) -> Printed:
    if answer is None:
        return Printed()
    canners = kitchen.canners if kitchen else ()
    return printed(
        answer.matches, canners, lambda method: rows_of(recipe, jar, answer.elevation_ft, method)
    )


def _steps(made: Build, path: str, asked: Asked) -> tuple[Step, ...]:
    names = [layer.name for layer in made.layers]
    return tuple(
        Step(
            layer.name,
            _amount(made, layer),
            "" if layer.ours else layer.step,
            to(path, asked, order=",".join(_earlier(names, place))) if place else "",
        )
        for place, layer in enumerate(made.layers)
    )


def _earlier(names: list[str], place: int) -> list[str]:
    """The names with one of them a place earlier; those behind it keep their order."""
    return [*names[: place - 1], names[place], names[place - 1]]


def _amount(made: Build, layer: Layer) -> str:
    told = layer.said
    if layer.name == made.poured:
        told = f"about {between(made.liquid or layer.volume)}"
    wanted = bool(layer.items) and all(item.optional for item in layer.items)
    return told + (", if wanted" if wanted else "")


@lru_cache(maxsize=256)
def _amounts(recipe: Recipe, jar: str, count: int) -> tuple[Amount, ...]:
    return tuple(_each_amount(recipe, jar, count))


def _each_amount(recipe: Recipe, jar: str, count: int) -> Iterator[Amount]:
    times = Fraction(quarts(jar)) / Fraction(recipe.makes_quarts)
    for line in recipe.lines:
        every, one = measured_line(line, times * count), measured_line(line, times)
        main = _main(every)
        beside = [
            said if said != main else ""
            for said in (every.by_cup, every.by_weight, every.as_purchased)
        ]
        cups, weight, bought = beside
        name = ", ".join(part for part in (every.food, every.prep) if part)
        as_bought = main == every.as_purchased
        yield Amount(name, every.optional, main, as_bought, cups, weight, bought, _main(one))


def _main(item: Measured) -> str:
    """An amount the way its recipe writes it."""
    if item.amount.kind == "weight":
        return (item.as_bought and item.as_purchased) or item.by_weight
    return item.by_cup or item.by_weight or item.as_purchased


def _lists(recipe: Recipe, jar: str, count: int, kitchen: Kitchen | None) -> Lists:
    if kitchen is None:
        return _listed(recipe, jar, count, (), (), (), 0, 0)
    return _listed(
        recipe, jar, count, tuple(kitchen.pantry.items()), tuple(kitchen.jars.items()),
        tuple(kitchen.prices.items()), kitchen.lids, kitchen.bands,
    )  # fmt: skip


@lru_cache(maxsize=256)
def _listed(
    recipe: Recipe,
    jar: str,
    count: int,
    pantry: tuple[tuple[str, AmountOf], ...],
    jars_there: tuple[tuple[str, int], ...],
    prices: tuple[tuple[str, Price], ...],
    lids: int,
    bands: int,
) -> Lists:
    """The lists, kept for the next who looks: they rest on nothing else."""
    return lists(
        [(recipe, jar, count)],
        pantry=dict(pantry),
        jars=dict(jars_there),
        lids=lids,
        bands=bands,
        prices=dict(prices),
    )


def _once(told: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(told))
