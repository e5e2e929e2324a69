"""Reading what a person wrote so that every complaint names file, line, key and remedy."""

import re
import tomllib
from collections.abc import Callable, Sequence
from functools import wraps
from pathlib import Path
from typing import Any, Concatenate, ParamSpec, TypeVar

from stillroom.errors import InputError
from stillroom.words import did_you_mean, nearest

_HEADER = re.compile(r"\s*(\[\[?)\s*([^\]]+?)\s*\]\]?\s*(#.*)?$")
_KEY = re.compile(r"""\s*("[^"]*"|'[^']*'|[\w-]+)\s*=""")
# A file written by hand is a few pages; more is a slip (a picture, a log) and would only be slow.
LARGEST_BYTES = 1_000_000


P = ParamSpec("P")
R = TypeVar("R")


class Table:
    """One table of a file: values by key, and where each stands.

    Readers take what they need by kind and end with ``no_more()``, so that a misspelled key is
    told instead of dropped.
    """

    def __init__(
        self,
        values: dict[str, Any],
        file: str,
        path: str,
        lines: dict[str, int],
        *,
        dates_quoted: bool = False,
        said: dict[str, str] | None = None,
    ) -> None:
        self._values = values
        self._file = file
        self._path = path
        self._lines = lines
        self._dates_quoted = dates_quoted
        # Full keys by what ``where`` said of them, shared by all tables of a file.
        self._said: dict[str, str] = {} if said is None else said
        self._read: set[str] = set()

    @property
    def file(self) -> str:
        """What errors call the file."""
        return self._file

    def _below(self, values: dict[str, Any], path: str) -> "Table":
        return Table(
            values,
            self._file,
            path,
            self._lines,
            dates_quoted=self._dates_quoted,
            said=self._said,
        )

    def where(self, key: str = "") -> str:
        """File, line and full key, as errors name it."""
        full = f"{self._path}.{key}" if self._path and key else self._path or key
        line = self._lines.get(full) or self._lines.get(self._path)
        place = f", line {line}" if line else ""
        where = f"{self._file}{place}, {full}" if full else self._file
        self._said[where] = full
        return where

    def place(self, message: str) -> str:
        """The full key that a message of this file's readers begins with, "" where it names none.

        Examples
        --------
        >>> top = table_of({"lids": "some"}, "kitchen")
        >>> top.place(f"{top.where('lids')}: write a number.")
        'lids'
        >>> top.place(f"{top.where('ingredients')}, item 3: nothing is known of it.")
        'ingredients[3]'
        """
        named = [w for w in self._said if message.startswith((f"{w}:", f"{w}, item "))]
        where = max(named, key=len, default="")
        item = re.match(r", item (\d+)", message[len(where) :])
        return self._said.get(where, "") + (f"[{item.group(1)}]" if where and item else "")

    def has(self, key: str) -> bool:
        """Whether the key is written."""
        return key in self._values

    def is_null(self, key: str) -> bool:
        """Whether the key is written without a value, as JSON can."""
        return key in self._values and self._values[key] is None

    def _take(self, key: str, kind: type | tuple[type, ...], said: str, default: Any) -> Any:
        self._read.add(key)
        if key not in self._values:
            if default is not None:
                return default
            instead = nearest(key, [name for name in self._values if name not in self._read])
            slip = f' Is it meant by "{instead[0]}"?' if instead else ""
            raise InputError(f"{self.where(key)}: missing.{slip} Write {said}.")
        value = self._values[key]
        if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
            raise InputError(f"{self.where(key)}: {value!r} does not fit. Write {said}.")
        return value

    def text(self, key: str, default: str | None = None, *, such_as: str) -> str:
        """A line of text; ``such_as`` is the example an error shows."""
        value: str = self._take(key, str, f'text, such as {key} = "{such_as}"', default)
        if not value.strip() and default is None:
            raise InputError(f'{self.where(key)}: empty. Write text, such as {key} = "{such_as}".')
        return value.strip()

    def whole(self, key: str, default: int | None = None, *, least: int, most: int) -> int:
        """A whole number within bounds."""
        value: int = self._take(key, int, f"a whole number from {least} to {most}", default)
        if not least <= value <= most:
            raise InputError(
                f"{self.where(key)}: {value} does not fit. "
                f"Write a whole number from {least} to {most}."
            )
        return value

    def number(self, key: str, default: float | None = None, *, least: float, most: float) -> float:
        """A number within bounds."""
        value: float = self._take(
            key, (int, float), f"a number from {least:g} to {most:g}", default
        )
        if not least <= value <= most:
            # A whole number of 400 digits is read, but is too large for a float.
            said = f"{value:g}" if abs(value) < 1e18 else f"{str(value)[:12]}…"
            raise InputError(
                f"{self.where(key)}: {said} does not fit. "
                f"Write a number from {least:g} to {most:g}."
            )
        return float(value)

    def flag(self, key: str, default: bool) -> bool:
        """True or false."""
        value: bool = self._take(key, bool, "true or false", default)
        return value

    def choice(self, key: str, options: Sequence[str], default: str | None = None) -> str:
        """One of a few words."""
        value = self.text(key, default, such_as=options[0])
        if value not in options:
            raise InputError(
                f'{self.where(key)}: "{value}" is not one of {", ".join(options)}.'
                f"{did_you_mean(value, options)}"
            )
        return value

    def strings(
        self, key: str, default: Sequence[str] | None = None, *, such_as: str
    ) -> tuple[str, ...]:
        """A list of texts."""
        value = self._take(key, list, f"a list of texts, such as {key} = [{such_as}]", default)
        for item in value:
            if not isinstance(item, str) or not item.strip():
                raise InputError(
                    f"{self.where(key)}: {item!r} does not fit. "
                    f"Write a list of texts, such as {key} = [{such_as}]."
                )
        return tuple(item.strip() for item in value)

    def date(self, key: str) -> Any:
        """A calendar date, written without quotes: 2026-10-17; a document holds it as a text."""
        from datetime import date

        if self._dates_quoted and isinstance(self._values.get(key), str):
            said = self.text(key, such_as="2026-10-17")
            try:
                return date.fromisoformat(said)
            except ValueError:
                raise InputError(
                    f'{self.where(key)}: "{said}" is not a date. '
                    "Write year, month and day, such as 2026-10-17."
                ) from None
        return self._take(key, date, f"a date without quotes, such as {key} = 2026-10-17", None)

    def table(self, key: str) -> "Table":
        """A table below this one, empty where it is not written."""
        value = self._take(key, dict, f"a table headed [{self._head(key)}]", {})
        full = f"{self._path}.{key}" if self._path else key
        return self._below(value, full)

    def tables(self, key: str, *, most: int | None = None) -> tuple["Table", ...]:
        """Every table of a list written as [[key]], in order; no more than ``most``."""
        value = self._take(key, list, f"tables headed [[{self._head(key)}]]", [])
        if most is not None and len(value) > most:
            raise InputError(f"{self.where(key)}: {len(value)} are too many. Write at most {most}.")
        full = f"{self._path}.{key}" if self._path else key
        made = []
        for place, item in enumerate(value, 1):
            if not isinstance(item, dict):
                raise InputError(
                    f"{self.where(key)}: {item!r} does not fit. Head it [[{self._head(key)}]]."
                )
            made.append(self._below(item, f"{full}[{place}]"))
        return tuple(made)

    def _head(self, key: str) -> str:
        """What stands between the brackets that head a table below this one."""
        return re.sub(r"\[\d+\]", "", f"{self._path}.{key}" if self._path else key)

    def as_written(self, key: str, kind: type[R], said: str) -> R:
        """A value of a kind just as it stands; ``said`` is what an error asks for."""
        value: R = self._take(key, kind, said, None)
        return value

    def names(self) -> tuple[str, ...]:
        """The keys written in this table, for tables whose keys are the person's own words."""
        return tuple(self._values)

    def no_more(self) -> None:
        """Complain of the first key nobody asked for.

        Raises
        ------
        InputError
            Naming the key and the nearest one that is known.
        """
        for key in self._values:
            if key not in self._read:
                known = sorted(self._read)
                raise InputError(
                    f'{self.where(key)}: "{key}" is not a key that belongs here.'
                    f"{did_you_mean(key, known)} Keys: {', '.join(known)}."
                )


def table_of(values: dict[str, Any], file: str) -> Table:
    """The top table of a document that is no file: the same keys, dates as ISO texts, no lines.

    Parameters
    ----------
    values : what a form sent or the store holds
    file : what errors call it, such as "kitchen"

    Examples
    --------
    >>> table_of({"name": " Ridge "}, "kitchen").text("name", such_as="Our kitchen")
    'Ridge'
    """
    return Table(values, file, "", {}, dates_quoted=True)


def placed(
    read: Callable[Concatenate[Table, P], R],
) -> Callable[Concatenate[Table, P], R]:
    """A reader of a top table whose errors know their place."""

    @wraps(read)
    def reading(table: Table, /, *args: P.args, **kwargs: P.kwargs) -> R:
        try:
            return read(table, *args, **kwargs)
        except InputError as wrong:
            wrong.place = wrong.place or table.place(str(wrong))
            raise

    return reading


def _lines(text: str) -> dict[str, int]:
    """Line numbers by full key. List tables count from 1, as people do."""
    found: dict[str, int] = {}
    counts: dict[str, int] = {}
    path = ""
    for number, line in enumerate(text.splitlines(), 1):
        header = _HEADER.match(line)
        if header:
            path = _numbered(header.group(2).strip().strip("\"'"), counts, header.group(1) == "[[")
            found[path] = number
            continue
        key = _KEY.match(line)
        if key:
            name = key.group(1).strip("\"'")
            found.setdefault(f"{path}.{name}" if path else name, number)
    return found


def _numbered(name: str, counts: dict[str, int], another: bool) -> str:
    """A header's full key: a table below a list table belongs to the last of that list."""
    *above, last = name.split(".")
    path = ""
    for part in above:
        path = f"{path}.{part}" if path else part
        path += f"[{counts[path]}]" if path in counts else ""
    path = f"{path}.{last}" if path else last
    if another:
        counts[path] = counts.get(path, 0) + 1
        path += f"[{counts[path]}]"
    return path


def read_toml(path: Path) -> Table:
    """The top table of a TOML file.

    Raises
    ------
    InputError
        No such file, not text, too large, or not TOML; the message says what to do.
    """
    name = path.name
    try:
        raw = path.read_bytes()
    except FileNotFoundError:
        raise InputError(f"{path}: there is no such file. Check the name and folder.") from None
    except IsADirectoryError:
        raise InputError(f"{path}: this is a folder. Name the file in it.") from None
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
    except ValueError:
        # No file system takes a name with a NUL character in it.
        raise InputError(f"{str(path)!r}: this cannot be a file name. Write another.") from None
    if len(raw) > LARGEST_BYTES:
        raise InputError(f"{name}: {len(raw):,} bytes is too large for a file written by hand.")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise InputError(
            f"{name}: byte {wrong.start} is not text. Save the file as plain text (UTF-8)."
        ) from None
    try:
        values = tomllib.loads(text)
    except (ValueError, RecursionError) as wrong:
        # Not only TOMLDecodeError: a number of 5,000 digits and brackets 1,000 deep end otherwise.
        raise InputError(
            f"{name}: {wrong}. A value in TOML is a number, true, false, a date, or text in "
            'double quotes: title = "Beans".'
        ) from None
    return Table(values, name, "", _lines(text))
