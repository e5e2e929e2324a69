"""The data files of the process library, read once and only as far as asked."""

import csv
import os
from functools import lru_cache
from hashlib import sha256
from typing import NamedTuple

from stillroom.errors import DataError
from stillroom.processes.model import Process

DATA = os.path.join(os.path.dirname(__file__), "data")  # noqa: PTH118, PTH120 (start-up path)
GUIDES = ("2", "3", "4", "5", "6", "7")
COLUMNS = (
    "food form pack jar method option from_ft to_ft minutes psi headspace_in "
    "source place edition read_in status note remark"
).split()


class Withheld(NamedTuple):
    """A group of rows nobody could read in print. The food may well have a process."""

    food: str
    form: str
    pack: str
    jar: str
    method: str
    option: str
    why: str
    place: str


class Product(NamedTuple):
    """Facts of a product: pounds, yields, acid per jar, what is forbidden.

    Weights in pounds as bought; an empty string means the guide prints none.
    """

    product: str
    food: str
    form: str
    acidity: str
    lb_per_7qt: str
    lb_per_9pt: str
    bushel_lb: str
    qt_per_bushel_min: str
    qt_per_bushel_max: str
    lb_per_qt: str
    acid_required: str
    salt_per_qt_tsp: str
    prohibitions: str
    source: str
    place: str
    read_in: str

    @property
    def acid(self) -> str:
        """The acid the product asks for, in words; empty where it asks for none."""
        return "" if self.acid_required.startswith("none") else self.acid_required

    @property
    def limits(self) -> str:
        """What the product forbids, in words; empty where it forbids nothing of its own."""
        return "" if self.prohibitions.startswith("none") else self.prohibitions


class OtherName(NamedTuple):
    """A name people type for a food of the library, and where it stands for it."""

    said: str
    food: str
    form: str
    source: str


class NoProcess(NamedTuple):
    """A food, or a way with one, for which nothing is published."""

    said: str
    reason: str
    instead: str
    source: str
    place: str


def rows(name: str) -> list[list[str]]:
    """The lines of a data file below its heading."""
    with open(os.path.join(DATA, name), encoding="utf-8", newline="") as f:  # noqa: PTH118
        lines = list(csv.reader(f))
    return lines[1:]


def heading(name: str) -> list[str]:
    """The column names of a data file."""
    with open(os.path.join(DATA, name), encoding="utf-8", newline="") as f:  # noqa: PTH118
        return next(csv.reader(f))


@lru_cache(maxsize=len(GUIDES))
def _printed(guide: str) -> tuple[list[str], ...]:
    return tuple(rows(f"guide{guide}.csv"))


@lru_cache(maxsize=1)
def mark() -> str:
    """Tells these tables from those of another Stillroom: whether a figure may be another by now.

    Examples
    --------
    >>> len(mark())
    16
    """
    printed = [line for guide in GUIDES for line in _printed(guide)]
    return sha256(repr((printed, products())).encode()).hexdigest()[:16]


@lru_cache(maxsize=1)
def foods() -> dict[str, str]:
    """Every food of the library, withheld ones included, with the guide that prints it."""
    return {p.food: p.place.removeprefix("Guide ") for p in products() if p.food}


def _process(line: list[str]) -> Process:
    try:
        cell = dict(zip(COLUMNS, line, strict=True))
        return Process(
            food=cell["food"],
            form=cell["form"],
            pack=cell["pack"],
            jar=cell["jar"],
            method=cell["method"],
            option=cell["option"],
            from_ft=int(cell["from_ft"]),
            to_ft=int(cell["to_ft"]) if cell["to_ft"] else None,
            minutes=int(cell["minutes"]),
            psi=int(cell["psi"]) if cell["psi"] else None,
            headspace_in=float(cell["headspace_in"]),
            source=cell["source"],
            place=cell["place"],
            edition=cell["edition"],
            read_in=tuple(cell["read_in"].split()),
            status=cell["status"],
            note=cell["note"],
            remark=cell["remark"],
        )
    except ValueError as wrong:
        raise DataError(f"process table, line {line}: {wrong}") from wrong


@lru_cache(maxsize=256)
def processes(food: str | None = None) -> tuple[Process, ...]:
    """All printed rows, or those of one food by its library name.

    For one food only the file of its guide is read.
    """
    if food is None:
        return tuple(_process(line) for guide in GUIDES for line in _printed(guide))
    guide = foods().get(food)
    return tuple(_process(line) for line in _printed(guide) if line[0] == food) if guide else ()


@lru_cache(maxsize=1)
def forms() -> dict[str, tuple[str, ...]]:
    """Every food of the library, withheld ones included, with its forms in printed order."""
    found: dict[str, list[str]] = {}
    printed = ((line[0], line[1]) for guide in GUIDES for line in _printed(guide))
    for food, form in (*printed, *((w.food, w.form) for w in _withheld())):
        of_food = found.setdefault(food, [])
        if form not in of_food:
            of_food.append(form)
    return {food: tuple(of_food) for food, of_food in found.items()}


@lru_cache(maxsize=1)
def _withheld() -> tuple[Withheld, ...]:
    columns = heading("withheld.csv")
    wanted = [columns.index(name) for name in Withheld._fields]
    return tuple(Withheld(*(line[at] for at in wanted)) for line in rows("withheld.csv"))


def withheld(food: str | None = None) -> tuple[Withheld, ...]:
    """Groups whose printed rows could not be read, and why: all, or those of one food."""
    return tuple(w for w in _withheld() if food is None or w.food == food)


@lru_cache(maxsize=1)
def products() -> tuple[Product, ...]:
    """Product facts, one line a product."""
    return tuple(Product(*line) for line in rows("products.csv"))


@lru_cache(maxsize=1024)
def product(food: str, form: str) -> Product | None:
    """Facts of the product a row belongs to; a line without a form serves every form."""
    of_food = [p for p in products() if p.food == food]
    for fact in of_food:
        if fact.form == form:
            return fact
    return next((p for p in of_food if not p.form), of_food[0] if of_food else None)


@lru_cache(maxsize=1)
def no_process() -> tuple[NoProcess, ...]:
    """Foods for which nothing is published, with the rule that says so."""
    return tuple(NoProcess(*line) for line in rows("no_process.csv"))


@lru_cache(maxsize=1)
def other_names() -> tuple[OtherName, ...]:
    """Other names people type; one name may stand for several foods."""
    return tuple(OtherName(*line) for line in rows("names.csv"))


@lru_cache(maxsize=1)
def readings() -> dict[str, str]:
    """The reprints a row was read in: key to publication."""
    return {line[0]: line[1] for line in rows("readings.csv")}
