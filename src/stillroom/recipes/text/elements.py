"""An ingredient line as a row of elements: amounts, foods, phrases, parentheses, words."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

from stillroom.recipes.text.jars import jar_of, jar_pattern
from stillroom.recipes.text.kitchen_words import filler_words, prep_words
from stillroom.recipes.text.measures import Measured, measured_at
from stillroom.recipes.text.names import food_at, stem
from stillroom.recipes.text.tokens import Token
from stillroom.recipes.text.units import skip

Sort = Literal["amount", "food", "word", "group", "join", "phrase", "sign"]
JOINS = frozenset("and plus or nor & + , ;".split())
_OPEN, _CLOSE = "([{", ")]}"


@dataclass(frozen=True, slots=True)
class Element:
    """Tokens ``start`` up to ``end`` that belong together.

    ``food`` is the name of a food, ``flag`` what a phrase tells ("optional", "per:quart"),
    ``stems`` the compared forms of its words.
    """

    sort: Sort
    start: int
    end: int
    stems: tuple[str, ...] = ()
    food: str = ""
    flag: str = ""
    measured: Measured | None = field(default=None)


_PHRASES = {
    "to_taste": (
        "to taste", "to your taste", "as desired", "as liked", "as you like", "as preferred",
        "to suit", "for flavor", "for taste", "at will",
    ),
    "optional": (
        "optional", "opt", "if desired", "if you like", "if liked", "if wanted", "if you want",
        "if you wish", "if preferred", "if using", "may be left out", "may be omitted",
        "can be left out", "can be omitted", "not required",
    ),
    "to_cover": (
        "to cover", "enough to cover", "as needed", "as required", "if needed", "when needed",
        "to fill", "enough to fill", "to fill jars", "to fill the jars", "to cover by one inch",
        "for covering", "for packing",
    ),
    "serving": (
        "for serving", "when serving", "before serving", "at serving", "at serving time",
        "to serve", "for the table", "at the table", "when you serve", "just before serving",
        "when served", "on serving day", "for serving day", "when reheating", "when you open",
        "after opening", "when opened", "for garnish", "to garnish",
    ),
}  # fmt: skip
_PER = ("per", "a", "an", "each", "every", "ea", "to ea", "in ea", "for ea",
        "in each", "to each", "for each", "in every",
        "to every", "for every", "to a", "to the", "in a", "for a", "with each", "into each",
        "added to each", "to one", "in one", "of each")  # fmt: skip


@lru_cache(maxsize=1)
def _phrases() -> dict[str, tuple[tuple[tuple[str, ...], str], ...]]:
    made: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for flag, said in _PHRASES.items():
        for phrase in said:
            words = tuple(phrase.split())
            made.setdefault(words[0], []).append((words, flag))
    for phrase in _PER:
        words = tuple(phrase.split())
        made.setdefault(words[0], []).append((words, "per"))
    return {first: tuple(sorted(rows, key=lambda r: -len(r[0]))) for first, rows in made.items()}


@lru_cache(maxsize=1)
def _length() -> re.Pattern[str]:
    number = r"(?:[0-9]+[ -]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+|[½¼¾⅛⅓⅔])"
    unit = r"(?:inch(?:es)?\b|in\b\.?|[\"”″]|cm\b|mm\b)"
    percent = r"(?:%|per[ -]?cent\b)(?:\s*(?:acidity|acetic(?:\s+acid)?|acid|strength)\b)?"
    range_ = rf"{number}(?:\s*(?:-|–|to|or|x|×|by)\s*{number})?"
    time = r"(?:min(?:ute)?s?|h|hrs?|hours?|days?|weeks?|wks?|months?)\b\.?"
    heat = r"(?:°\s*[FC]?\b|degrees?(?:\s*[FC])?\b|F\b)"
    return re.compile(
        rf"{range_}[\s-]*(?:{unit}|{percent}|{time}|{heat})"
        rf"(?:[\s-]*(?:x|×|by)[\s-]*{number}[\s-]*{unit})?",
        re.IGNORECASE,
    )


def elements(text: str, row: Sequence[Token], start: int, end: int) -> list[Element]:
    """The elements of some tokens of a line, spaces left out.

    Parameters
    ----------
    text : the whole line
    row : its tokens
    start, end : places in the row
    """
    made: list[Element] = []
    row = row[:end]
    at = start
    while (at := skip(row, at)) < end:
        one = _element(text, row, at, made)
        made.append(one)
        at = one.end
    return made


def _element(text: str, row: Sequence[Token], at: int, before: list[Element]) -> Element:
    token = row[at]
    if token.text in _OPEN:
        return Element("group", at, _closed(row, at))
    fresh = not before or before[-1].sort in ("join", "group") or before[-1].flag == "turn"
    phrase = _phrase(text, row, at, fresh)
    if phrase:
        return phrase
    if token.sort == "number" or token.text == "~" or (token.sort == "word" and fresh):
        length = _length().match(text, token.start) if token.sort == "number" else None
        if length:
            return Element("phrase", at, _behind(row, at, length.end()), flag="size")
        measured = measured_at(row, at)
        if measured:
            return Element("amount", at, measured.end, measured=measured)
    if token.text in JOINS or token.plain in JOINS:
        return Element("join", at, at + 1, flag=token.plain)
    if token.text == "/":
        return Element("join", at, at + 1, flag="/")
    if token.sort == "word":
        # "in pints": a jar, since no amount stands before it.
        found = jar_pattern().match(text[token.start : token.start + 40].lower())
        if found:
            return Element("phrase", at, _behind(row, at, token.start + found.end()), flag="jar")
        return _worded(row, at)
    return Element("sign", at, at + 1)


def _closed(row: Sequence[Token], at: int) -> int:
    """Behind the sign that closes a parenthesis, or the end where none does."""
    depth = 0
    for place in range(at, len(row)):
        if row[place].text in _OPEN:
            depth += 1
        elif row[place].text in _CLOSE:
            depth -= 1
            if not depth:
                return place + 1
    return len(row)


def _behind(row: Sequence[Token], at: int, place: int) -> int:
    """The first token at or after a place of the text."""
    while at < len(row) and row[at].start < place:
        at += 1
    return at


def words_at(row: Sequence[Token], at: int, most: int) -> list[int]:
    """Places of up to so many words that only spaces and hyphens part."""
    found: list[int] = []
    while at < len(row) and len(found) < most:
        if row[at].sort == "word":
            found.append(at)
        elif row[at].sort != "space" and row[at].text not in "-‐&.’":
            break
        at += 1
    return found


def named_at(row: Sequence[Token], at: int) -> tuple[str, tuple[str, ...], int]:
    """The food whose name begins at a word, the stems of the name, and the place behind it.

    "green" is a color and "minced" a cut, though "greens" and "mince" are foods.
    """
    places = words_at(row, at, 6)
    stems = [stem(row[place].text) for place in places]
    food, length = food_at(stems, 0)
    said = row[at].plain
    if not food or (
        length == 1 and (said == "green" or (said.endswith("ed") and not said.endswith("eed")))
    ):
        return "", (), at
    return food, tuple(stems[:length]), places[length - 1] + 1


def _worded(row: Sequence[Token], at: int) -> Element:
    """The longest food name from here, else one word."""
    food, stems, end = named_at(row, at)
    if food:
        return Element("food", at, end, stems, food)
    if row[at].plain == "w" and at + 1 < len(row) and row[at + 1].text == "/":
        # "w/ onion", "w/o tops"
        out = at + 2 < len(row) and row[at + 2].plain in ("o", "out")
        return Element("word", at, at + (3 if out else 2), ("without" if out else "with",))
    return Element("word", at, at + 1, (stem(row[at].text),))


def _phrase(text: str, row: Sequence[Token], at: int, fresh: bool) -> Element | None:
    token = row[at]
    if token.text == "/" or (token.sort == "word" and token.plain in _phrases()):
        if token.text == "/":
            return _per(text, row, at, at + 1, True)
        places = words_at(row, at, 5)
        said = [row[place].plain for place in places]
        for words, flag in _phrases()[token.plain]:
            if said[: len(words)] == list(words):
                last = places[len(words) - 1] + 1
                if flag != "per":
                    return Element("phrase", at, last, flag=flag)
                # "a pint tomatoes" is an amount, "salt a pint" is not.
                per = (
                    None
                    if fresh and words in (("a",), ("an",))
                    else _per(text, row, at, last, words[-1] in ("each", "every"))
                )
                if per:
                    return per
    return None


def _per(text: str, row: Sequence[Token], at: int, last: int, alone: bool) -> Element | None:
    """ "per quart", "in each jar", "each"."""
    place = skip(row, last)
    if place < len(row):
        begin = row[place].start
        found = jar_pattern().match(text[begin : begin + 40].lower())
        if found and jar_of(found) != "gallon":
            last = _behind(row, place, begin + found.end())
            return Element("phrase", at, last, flag=f"per:{jar_of(found)}")
        if row[place].plain in ("jar", "jars"):
            return Element("phrase", at, place + 1, flag="per:jar")
    if alone and row[at].text != "/":
        return Element("phrase", at, last, flag="each")
    return None


def is_plain(word: str) -> bool:
    """Whether a stem only tells how a food goes in, or nothing."""
    return word in prep_words() or word in filler_words()
