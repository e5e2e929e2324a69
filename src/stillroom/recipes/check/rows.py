"""Rows of the checker's own tables, each with a source that is known."""

import csv
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TypeVar, get_args

from stillroom.errors import DataError, InputError

DATA = Path(__file__).parent / "data"
Row = dict[str, str]
_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True)
class Source:
    """Where rows of these tables come from."""

    source: str
    author: str
    title: str
    edition: str
    year: str
    address: str
    note: str

    @property
    def short(self) -> str:
        """As a finding names it: the bulletin by its guide, others by author and title."""
        bulletin, _, guide = self.source.partition("-g")
        if bulletin == "usda-aib539":
            return f"USDA AIB-539, Guide {guide}"
        return ", ".join(filter(None, (self.author, self.title)))


def read(name: str, make: Callable[[Row], _Made]) -> tuple[_Made, ...]:
    """The rows of one table, each made by ``make``.

    Raises
    ------
    DataError
        A row that cannot be read; the message names file, line and row.
    """
    with (DATA / name).open(encoding="utf-8", newline="") as f:
        made = []
        for number, row in enumerate(csv.DictReader(f), start=2):
            try:
                if None in row or None in row.values():
                    raise ValueError("it has too many or too few fields")
                made.append(make(row))
            except (ValueError, KeyError, InputError, TypeError) as wrong:
                first = next(iter(row.values()), "")
                raise DataError(f"{name}, line {number}, {first}: {wrong}") from wrong
    return tuple(made)


def names(text: str) -> tuple[str, ...]:
    """Names of a field that are parted by "|"."""
    return tuple(one for one in text.split("|") if one)


def one_of(kind: object, said: str) -> str:
    """What a field says, if it is one of the words of a ``Literal``; else ``ValueError``."""
    if said not in get_args(kind):
        raise ValueError(f'"{said}" is none of {", ".join(get_args(kind))}')
    return said


def source_of(row: Row) -> str:
    """The source key of a row, if ``sources.csv`` has it; else ``ValueError``."""
    if row["source"] not in sources():
        raise ValueError(f'sources.csv has no "{row["source"]}"')
    return row["source"]


@lru_cache(maxsize=1)
def sources() -> dict[str, Source]:
    """Every source by its key.

    Raises
    ------
    DataError
        A row that cannot be read, here as in every function of this module that reads a table.
    """
    return {one.source: one for one in read("sources.csv", lambda row: Source(**row))}
