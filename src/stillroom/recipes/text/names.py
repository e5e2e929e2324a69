"""The food list as a table of word rows, for finding foods in running text."""

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from stillroom.foods.vocabulary import DATA, foods
from stillroom.recipes.text.tokens import plain
from stillroom.recipes.text.units import UNITS
from stillroom.words import stems

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
# A name that the food list leaves out because it must tell the kind: a card that says no more is
# read so. A canner's syrup is sugar and water.
_FIRST = dict.fromkeys(
    ("syrup", "hot syrup", "sugar syrup", "simple syrup", "light syrup", "medium syrup",
     "heavy syrup", "very light syrup", "extra light syrup", "very heavy syrup"), "sugar",
)  # fmt: skip
_SHORT = {"lemon juice": "bottled lemon juice", "lime juice": "bottled lime juice",
          "dill": "fresh dill", "green chiles": "hot peppers", "pepper flakes": "red pepper flakes",
          "chili flakes": "red pepper flakes", "drumsticks": "chicken", "hens": "chicken",
          "chicken thighs": "chicken", "chicken breasts": "chicken"}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Names:
    """Names by their words.

    ``rows`` are by first word the names that begin with it, longest first; ``sets`` names by
    their words in any order; ``words`` every word of a name.
    """

    rows: dict[str, tuple[tuple[tuple[str, ...], str], ...]]
    sets: dict[frozenset[str], str]
    words: frozenset[str]
    by_word: dict[str, tuple[frozenset[str], ...]] = field(default_factory=dict)


# Words that cards shorten, in the form under which names are compared.
_SHORTENED = {"gr": "ground", "grd": "ground", "grnd": "ground", "tom": "tomato", "toms": "tomato",
              "potatos": "potato", "tomatos": "tomato", "choc": "chocolate"}  # fmt: skip


@lru_cache(maxsize=8192)
def stem(word: str) -> str:
    """One word in the form under which names are compared.

    Examples
    --------
    >>> stem("Tomatoes"), stem("gr")
    ('tomato', 'ground')
    """
    said = plain(word)
    return _SHORTENED.get(said) or stems(said).get(said, said)


def said_names() -> tuple[tuple[str, str], ...]:
    """Every (name, food) of the food list, main names first.

    A name with a figure ("vinegar 5 %") is left out: its words alone would say more than written.
    """
    listed = foods()
    main = [(food.food, food.food) for food in listed]
    other = [(name, food.food) for food in listed for name in food.other_names]
    known = {name for name, _ in (*main, *other)}
    loose = [(name, food) for food, names_, _ in _loose() for name in names_]
    short = [(name, food) for name, food in _SHORT.items() if name not in known]
    named = (*_FIRST.items(), *main, *other, *loose, *short)
    return tuple((name, food) for name, food in named if not re.search(r"[0-9%]", name))


@lru_cache(maxsize=1)
def _loose() -> tuple[tuple[str, tuple[str, ...], str], ...]:
    """For each food the names that only a pasted text uses, and what it is when said fresh."""
    with (DATA / "foods.csv").open(encoding="utf-8", newline="") as f:
        return tuple(
            (
                row["food"],
                tuple(name for name in row.get("loose_names", "").split("|") if name),
                row.get("when_fresh", ""),
            )
            for row in csv.DictReader(f)
        )


@lru_cache(maxsize=1)
def when_fresh() -> dict[str, str]:
    """The food that another one is when it is said to be fresh: thyme is dried unless so."""
    return {food: fresh for food, _, fresh in _loose() if fresh}


@lru_cache(maxsize=1)
def names() -> Names:
    """The table, made once."""
    rows: dict[str, dict[tuple[str, ...], str]] = {}
    sets: dict[frozenset[str], str] = {}
    by_word: dict[str, set[frozenset[str]]] = {}
    for name, food in said_names():
        words = tuple(stem(word) for word in _WORD.findall(name.replace("&", " and ")))
        if not words:
            continue
        rows.setdefault(words[0], {}).setdefault(words, food)
        sets.setdefault(frozenset(words), food)
        for word in words:
            by_word.setdefault(word, set()).add(frozenset(words))
        if "and" in words:
            # "bread & butter pickles": the sign is no word.
            short = tuple(word for word in words if word != "and")
            rows.setdefault(short[0], {}).setdefault(short, food)
        if len(words) == 2:
            # "tomatopaste", and with a hyphen or without: "corn starch" for "cornstarch".
            joined = "".join(words)
            rows.setdefault(joined, {}).setdefault((joined,), food)
    ordered = {
        first: tuple(sorted(found.items(), key=lambda row: -len(row[0])))
        for first, found in rows.items()
    }
    return Names(
        ordered,
        sets,
        frozenset(word for words in sets for word in words),
        {word: tuple(found) for word, found in by_word.items()},
    )


def food_at(words: Sequence[str], at: int) -> tuple[str, int]:
    """The food whose name begins at a place of a row of stems, and how many words it takes.

    Examples
    --------
    >>> food_at(["green", "bean", "corn"], 0), food_at(["corn", "starch"], 0)
    (('snap beans', 2), ('cornstarch', 2))
    >>> food_at(["hope"], 0)
    ('', 0)
    """
    table = names().rows
    best, length = "", 0
    for row, food in table.get(words[at], ()):
        if len(row) <= len(words) - at and all(
            word == words[at + place] for place, word in enumerate(row)
        ):
            best, length = food, len(row)
            break
    if length < 2 and at + 1 < len(words):
        pair = words[at] + words[at + 1]
        for row, food in table.get(pair, ()):
            if row == (pair,):
                return food, 2
    return best, length


@lru_cache(maxsize=1024)
def mended(word: str) -> str:
    """The one word of a food name that a misspelled word is near to, or "".

    Parameters
    ----------
    word : a stem; under five letters, or near to several words, nothing is guessed

    Source
    ------
    Edits allowed: one from five letters on, two from eight; common practice.

    Examples
    --------
    >>> mended("brocolli"), mended("vineger"), mended("hope")
    ('broccoli', 'vinegar', '')
    """
    if len(word) < 5 or not word.isalpha() or word in UNITS:
        return ""
    # Loaded here because most lines never misspell anything.
    from rapidfuzz.distance import OSA

    most = 2 if len(word) >= 8 else 1
    near: dict[int, list[str]] = {}
    for known in names().words:
        if known[0] == word[0] and abs(len(known) - len(word)) <= most and len(known) >= 5:
            edits = OSA.distance(word, known, score_cutoff=most)
            if edits <= most:
                near.setdefault(edits, []).append(known)
    found = near[min(near)] if near else []
    return found[0] if len(found) == 1 else ""
