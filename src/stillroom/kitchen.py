"""A kitchen: where it stands, its canners and burners, its people, what is on hand."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.processes.model import METHODS
from stillroom.toml_file import Table, read_toml
from stillroom.units.amounts import Amount, parse_amount
from stillroom.units.clock import parse_clock
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar


@dataclass(frozen=True, slots=True)
class Canner:
    """One canner. ``holds`` counts jars of each size it takes at once, all layers together."""

    name: str
    method: str
    holds: Mapping[str, int]
    own_plug: bool = False

    def capacity(self, jar: str) -> int:
        """Jars of one size in a load; a size not listed takes the count of the next larger one.

        Zero where the jar is larger than any the canner is said to hold.
        """
        larger = [size for size in SIZES[SIZES.index(jar) :] if size in self.holds]
        return self.holds[larger[0]] if larger else 0


@dataclass(frozen=True, slots=True)
class Person:
    """A pair of hands and the hours it is there, in minutes after midnight."""

    name: str
    hours: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What a household owns and where it stands.

    ``canner_burners`` of the ``burners`` can carry a canner; the rest carry pots only.
    """

    name: str
    elevation_ft: int
    canners: tuple[Canner, ...]
    burners: int
    canner_burners: int
    people: tuple[Person, ...]
    jars: Mapping[str, int]
    lids: int
    bands: int
    pantry: Mapping[str, Amount]


def read_kitchen(path: Path) -> Kitchen:
    """A kitchen from its TOML file.

    Raises
    ------
    InputError
        Naming file, line and key, and what to write instead.

    Source
    ------
    The file's keys are this project's own; ``docs/reference/files.md`` lists them.
    """
    top = read_toml(path)
    burners = top.whole("burners", least=0, most=40)
    kitchen = Kitchen(
        name=top.text("name", such_as="Our kitchen"),
        elevation_ft=parse_elevation(
            top.text("elevation", such_as="5,430 ft"), top.where("elevation")
        ),
        canners=_canners(top),
        burners=burners,
        canner_burners=top.whole(
            "burners_for_canners", top._values.get("burners", 0), least=0, most=40
        ),
        people=tuple(read_person(t) for t in top.tables("person")),
        jars=_jar_counts(top.table("jars")),
        lids=top.whole("lids", 0, least=0, most=100_000),
        bands=top.whole("bands", 0, least=0, most=100_000),
        pantry=_pantry(top.table("pantry")),
    )
    top.no_more()
    if not kitchen.canners:
        raise InputError(f"{top.where('canner')}: missing. Head each canner [[canner]].")
    if kitchen.canner_burners > kitchen.burners:
        raise InputError(
            f"{top.where('burners_for_canners')}: {kitchen.canner_burners} is more than the "
            f"{kitchen.burners} burners there are."
        )
    return kitchen


def _canners(top: Table) -> tuple[Canner, ...]:
    canners = tuple(_canner(t) for t in top.tables("canner"))
    names = [c.name for c in canners]
    for name in names:
        if names.count(name) > 1:
            raise InputError(
                f'{top.where("canner")}: two canners are called "{name}". Give each its own name.'
            )
    return canners


def _canner(table: Table) -> Canner:
    name = table.text("name", such_as="big canner")
    method = table.choice("method", METHODS)
    layers = _jar_counts(table.table("layers"), least=1, most=4)
    holds = _jar_counts(table.table("holds"), least=1, most=500)
    if not holds:
        raise InputError(
            f"{table.where('holds')}: missing. Say how many jars stand in one layer, such as "
            "holds = { quart = 7, pint = 9 }."
        )
    for size in layers:
        if size not in holds:
            raise InputError(
                f'{table.where("layers")}: "{size}" has layers but is not in holds. '
                "Say in holds how many stand in one layer."
            )
    own_plug = table.flag("own_plug", False)
    table.no_more()
    return Canner(name, method, {s: n * layers.get(s, 1) for s, n in holds.items()}, own_plug)


def read_person(table: Table) -> Person:
    """A person from a [[person]] or [[helper]] table: name and the hours they are there."""
    name = table.text("name", such_as="Ada")
    spans = []
    for span in table.strings("hours", ["0:00 to 24:00"], such_as='"7:00 to 12:00"'):
        ends = span.replace("-", " to ").replace("–", " to ").split(" to ")
        if len(ends) != 2:
            raise InputError(
                f'{table.where("hours")}: "{span}" is not a span of hours. '
                'Write from and to, such as "7:00 to 12:00".'
            )
        start, end = (parse_clock(e, table.where("hours")) for e in ends)
        if end <= start:
            raise InputError(f'{table.where("hours")}: "{span}" ends before it begins.')
        spans.append((start, end))
    table.no_more()
    return Person(name, tuple(sorted(spans)))


def _jar_counts(table: Table, *, least: int = 0, most: int = 100_000) -> dict[str, int]:
    counts: dict[str, int] = {}
    for said in table.names():
        size = parse_jar(said, table.where(said))
        _not_twice(table, said, size, counts)
        counts[size] = table.whole(said, least=least, most=most)
    return counts


def _pantry(table: Table) -> dict[str, Amount]:
    amounts: dict[str, Amount] = {}
    for said in table.names():
        food = find_food(said, table.where(said)).food
        _not_twice(table, said, food, amounts)
        amounts[food] = parse_amount(table.text(said, such_as="3 lb"), table.where(said))
    return amounts


def _not_twice(table: Table, said: str, name: str, known: Mapping[str, object]) -> None:
    if name in known:
        raise InputError(
            f'{table.where(said)}: "{said}" is {name}, which is written already. '
            "Write it once, with all there is."
        )
