"""Fields of a form for the keys of a document: what was typed to values, and values to text.

A field that cannot be read as its kind is passed on as it was typed, so that the readers of the
middle storey complain of it in their own words.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Typed = Mapping[str, str]
# A household has no more people, foods or timed runs in one table.
MOST_ROWS = 200


@dataclass(frozen=True, slots=True)
class Field:
    """One key of a table.

    ``name`` is the key, and what the browser calls it. ``label``, ``help`` and ``unit`` are words
    for the catalogue; ``such_as`` is shown in an empty field; ``must`` says that it cannot be left
    empty. ``kind`` tells the template how to draw it, ``keys`` the phone which keys to show.
    """

    name: str
    label: str
    help: str = ""
    such_as: str = ""
    must: bool = False
    unit: str = ""

    kind = "text"
    keys = "text"

    def read(self, typed: Typed, above: str = "") -> Any:
        """The value, None where nothing was typed."""
        return typed.get(above + self.name, "").strip() or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """What stands in the form for a value."""
        return {} if value is None else {above + self.name: str(value)}

    def place(self, rest: str, typed: Typed, above: str = "") -> str:
        """The browser's name of the field that ``rest``, below this key, is about."""
        return above + self.name

    def inner_label(self, beyond: str) -> str:
        """How a field within this one is told: "quart" of "holds.quart"."""
        return beyond


class Whole(Field):
    """A whole number."""

    kind = "whole"
    keys = "numeric"

    def read(self, typed: Typed, above: str = "") -> Any:
        """The number, or what was typed."""
        return _whole(typed.get(above + self.name, ""))


class Number(Field):
    """A number."""

    kind = "number"

    def read(self, typed: Typed, above: str = "") -> Any:
        """The number, or what was typed."""
        return _number(typed.get(above + self.name, ""))


class Day(Field):
    """A date."""

    kind = "date"


class Tick(Field):
    """True where it is ticked; nothing is written where it is not."""

    kind = "tick"

    def read(self, typed: Typed, above: str = "") -> Any:
        """True or None."""
        return True if typed.get(above + self.name) else None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Ticked or not."""
        return {above + self.name: "yes"} if value is True else {}


class UnTick(Tick):
    """False where it is ticked: "has none"."""

    def read(self, typed: Typed, above: str = "") -> Any:
        """False or None."""
        return False if typed.get(above + self.name) else None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Ticked where the value is false."""
        return {above + self.name: "yes"} if value is False else {}


class Spans(Field):
    """A list of texts, typed with commas between."""

    def read(self, typed: Typed, above: str = "") -> Any:
        """The texts."""
        said = re.split(r"[,;\n]", typed.get(above + self.name, ""))
        return [one.strip() for one in said if one.strip()] or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """The texts in one line."""
        told = ", ".join(map(str, value)) if isinstance(value, list) else str(value or "")
        return {above + self.name: told} if told else {}


@dataclass(frozen=True, slots=True)
class Choice(Field):
    """One of a few words; ``options`` are those words, each with how it is told."""

    options: tuple[tuple[str, str], ...] = ()
    kind = "choice"


class Liquid(Choice):
    """Yes, no or not told."""

    def read(self, typed: Typed, above: str = "") -> Any:
        """True, False or None."""
        return {"yes": True, "no": False}.get(typed.get(above + self.name, ""))

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """The word for it."""
        return {} if value is None else {above + self.name: "yes" if value else "no"}


class Ticks(Choice):
    """Any of a few words, each a box to tick."""

    kind = "ticks"

    def read(self, typed: Typed, above: str = "") -> Any:
        """The words that were ticked."""
        ticked = [word for word, _ in self.options if typed.get(f"{above}{self.name}.{word}")]
        return ticked or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Which are ticked."""
        said = value if isinstance(value, list) else []
        return {f"{above}{self.name}.{word}": "yes" for word, _ in self.options if word in said}

    def place(self, rest: str, typed: Typed, above: str = "") -> str:
        """The first box."""
        return f"{above}{self.name}.{self.options[0][0]}"


class Counts(Choice):
    """A table of numbers, one for each of a few known keys."""

    kind = "counts"
    keys = "numeric"
    whole = True

    def read(self, typed: Typed, above: str = "") -> Any:
        """The numbers that were typed, by key."""
        of = {word: typed.get(f"{above}{self.name}.{word}", "") for word, _ in self.options}
        made = {word: _whole(said) if self.whole else _number(said) for word, said in of.items()}
        return {word: value for word, value in made.items() if value is not None} or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Each number."""
        said = value if isinstance(value, dict) else {}
        return {f"{above}{self.name}.{word}": str(count) for word, count in said.items()}

    def place(self, rest: str, typed: Typed, above: str = "") -> str:
        """The key's own field, else the first."""
        word = rest if rest in dict(self.options) else self.options[0][0]
        return f"{above}{self.name}.{word}"


class Rates(Counts):
    """The same, with parts of a whole."""

    keys = "decimal"
    whole = False


@dataclass(frozen=True, slots=True)
class Rows(Field):
    """A list of tables, each a row of fields; a row that was emptied is taken out."""

    fields: tuple[Field, ...] = ()
    spare: int = 1
    kind = "rows"

    def read(self, typed: Typed, above: str = "") -> Any:
        """The rows that hold something."""
        return [row for _, row in self._rows(typed, above)] or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Each row's fields, numbered from 1."""
        shown: dict[str, str] = {}
        for number, row in enumerate(value if isinstance(value, list) else [], 1):
            for field in self.fields:
                held = row.get(field.name) if isinstance(row, dict) else None
                shown |= field.show(held, f"{above}{self.name}.{number}.")
        return shown

    def place(self, rest: str, typed: Typed, above: str = "") -> str:
        """The field of the row that "[2].hours" is about; rows left empty do not count there."""
        found = re.match(r"\[(\d+)\]\.?([^.\[]*)(.*)", rest)
        numbers = [number for number, _ in self._rows(typed, above)] or [1]
        at = min(int(found.group(1)), len(numbers)) - 1 if found else 0
        key, beyond = (found.group(2), found.group(3).lstrip(".")) if found else ("", "")
        field = next((one for one in self.fields if one.name == key), self.fields[0])
        return field.place(beyond, typed, f"{above}{self.name}.{numbers[max(at, 0)]}.")

    def numbers(self, values: Typed, above: str = "") -> range:
        """The rows that a form shows: those that are filled, and spare ones."""
        last = max(_numbered(self.name, values, above), default=0)
        return range(1, min(last + self.spare, MOST_ROWS) + 1)

    def inner_label(self, beyond: str) -> str:
        """The label of the column."""
        column = beyond.split(".")[1:2]
        return next((f.label for f in self.fields if [f.name] == column), self.label)

    def _rows(self, typed: Typed, above: str) -> list[tuple[int, dict[str, Any]]]:
        made = []
        for number in _numbered(self.name, typed, above):
            read = {f.name: f.read(typed, f"{above}{self.name}.{number}.") for f in self.fields}
            row = {key: value for key, value in read.items() if value is not None}
            if row:
                made.append((number, row))
        return made


class Pairs(Rows):
    """A table whose keys are the person's own words: a food and what is told of it."""

    def read(self, typed: Typed, above: str = "") -> Any:
        """What is told, by food; of one typed twice, the last."""
        return {food: told for _, food, told in self._pairs(typed, above)} or None

    def show(self, value: Any, above: str = "") -> dict[str, str]:
        """Each food and what is told of it, numbered from 1."""
        first, second = self.fields
        shown: dict[str, str] = {}
        for number, (food, told) in enumerate(value.items() if isinstance(value, dict) else (), 1):
            at = f"{above}{self.name}.{number}."
            shown |= {at + first.name: food, at + second.name: str(told)}
        return shown

    def place(self, rest: str, typed: Typed, above: str = "") -> str:
        """The row of that food: its name where the food is not known, else what is told of it."""
        for number, food, told in self._pairs(typed, above):
            if food == rest:
                field = self.fields[1] if told else self.fields[0]
                return f"{above}{self.name}.{number}.{field.name}"
        return f"{above}{self.name}.1.{self.fields[0].name}"

    def doubled(self, typed: Typed, above: str = "") -> str:
        """The browser's name of a food that was typed a second time, or "" ."""
        seen: set[str] = set()
        for number, food, _ in self._pairs(typed, above):
            if food in seen:
                return f"{above}{self.name}.{number}.{self.fields[0].name}"
            seen.add(food)
        return ""

    def halved(self, typed: Typed, above: str = "") -> str:
        """The browser's name of the empty field in a row of which half was typed, or "" ."""
        for number, food, told in self._pairs(typed, above):
            for field, said in zip(self.fields, (food, told), strict=True):
                if not said:
                    return f"{above}{self.name}.{number}.{field.name}"
        return ""

    def _pairs(self, typed: Typed, above: str) -> list[tuple[int, str, str]]:
        first, second = self.fields
        made = []
        for number in _numbered(self.name, typed, above):
            at = f"{above}{self.name}.{number}."
            food, told = typed.get(at + first.name, ""), typed.get(at + second.name, "")
            if food.strip() or told.strip():
                made.append((number, " ".join(food.split()), told.strip()))
        return made


def _numbered(name: str, typed: Typed, above: str) -> list[int]:
    """The numbers of the rows that hold something, in order."""
    row = re.compile(re.escape(f"{above}{name}.") + r"([1-9]\d{0,2})\.")
    found = {int(m.group(1)) for key, said in typed.items() if said and (m := row.match(key))}
    return sorted(number for number in found if number <= MOST_ROWS)


def _whole(said: str) -> int | str | None:
    plain = said.strip().replace(",", "")
    if re.fullmatch(r"-?[0-9]{1,9}", plain):
        return int(plain)
    return said.strip() or None


def _number(said: str) -> float | str | None:
    plain = said.strip().replace(",", ".")
    if re.fullmatch(r"-?[0-9]{1,9}(\.[0-9]{1,9})?", plain):
        value = float(plain)
        return int(value) if value == int(value) else value
    return said.strip() or None
