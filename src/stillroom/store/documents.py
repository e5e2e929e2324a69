"""Documents as they come in: plain JSON, within bounds, nothing that cannot be given back."""

import json
import math
import re
from collections.abc import Callable
from datetime import date
from typing import Any

from anyascii import anyascii

from stillroom.errors import InputError
from stillroom.store.tables import Document
from stillroom.toml_file import LARGEST_BYTES

# Tables in tables, lists in lists: a day file has four of them.
DEEPEST = 20
# A plan of a day of thousands of jars, and a household's records of many years.
LARGEST_ANSWER = 50_000_000
LARGEST_EXPORT = 2_000_000_000
# Half of a pair of UTF-16, which JSON can spell, is no sign of any writing.
_NO_TEXT = re.compile("[\ud800-\udfff]")
# What a database and every program that reads the export take as a whole number.
_LARGEST = 2**53
_SLUG_LETTERS = 60


def checked(
    document: Document, what: str, *, largest: int = LARGEST_BYTES, deepest: int = DEEPEST
) -> Document:
    """A copy of a document that JSON gives back unchanged; dates become ISO texts.

    Whether it makes a kitchen, a recipe or a day is the readers' to say; an unfinished one is
    kept, too.

    Raises
    ------
    InputError
        Something in it is no JSON, or it is too large; its ``place`` is the key.

    Examples
    --------
    >>> checked({"date": date(2026, 10, 17), "order": [{"jars": 14}]}, "day")
    {'date': '2026-10-17', 'order': [{'jars': 14}]}
    """
    plain = _table(document, what, "", deepest)
    size = len(json.dumps(plain))
    if size > largest:
        raise InputError(f"{what}: {size:,} bytes is too large for one that a person writes.")
    return plain


def _table(values: Document, what: str, path: str, depth: int) -> Document:
    made = {}
    for key, value in values.items():
        if not isinstance(key, str):
            raise _wrong(what, path, f"{key!r} is no key")
        _text(key, what, path)
        made[key] = _plain(value, what, f"{path}.{key}" if path else key, depth - 1)
    return made


def _plain(value: Any, what: str, path: str, depth: int) -> Any:
    if depth < 0:
        raise _wrong(what, path, "this is nested too deep")
    match value:
        case str():
            return _text(value, what, path)
        case bool() | None:
            return value
        case int() if abs(value) <= _LARGEST:
            return value
        case float() if math.isfinite(value):
            return value
        case date():
            return value.isoformat()
        case dict():
            return _table(value, what, path, depth)
        case list() | tuple():
            return [_plain(v, what, f"{path}[{n}]", depth - 1) for n, v in enumerate(value, 1)]
        case int() | float():
            raise _wrong(what, path, "this number cannot be kept")
        case _:
            raise _wrong(what, path, f"a value of the kind {type(value).__name__} cannot be kept")


def _text(said: str, what: str, path: str) -> str:
    if _NO_TEXT.search(said):
        raise _wrong(what, path, "this holds a sign that is no text")
    return said


def _wrong(what: str, path: str, said: str) -> InputError:
    wrong = InputError(f"{what}, {path}: {said}." if path else f"{what}: {said}.")
    wrong.place = path
    return wrong


def first_line(document: Document, key: str) -> str:
    """A text of a document for lists and search, "" where it is none."""
    said = document.get(key)
    return " ".join(said.split()) if isinstance(said, str) else ""


def slug(title: str, taken: Callable[[str], bool]) -> str:
    """A name for the address of a page, from a title, unlike any that is taken.

    Examples
    --------
    >>> slug("Grandmother's crème brûlée", lambda name: False)
    'grandmother-s-creme-brulee'
    >>> slug("Beets", {"beets", "beets-2"}.__contains__)
    'beets-3'
    """
    words = re.sub(r"[^a-z0-9]+", "-", anyascii(title).lower())[:_SLUG_LETTERS].strip("-")
    name = words or "recipe"
    number = 1
    while taken(name):
        number += 1
        name = f"{words or 'recipe'}-{number}"
    return name
