"""The food list: what a written ingredient means, what a cup of it weighs, what trimming takes."""

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Literal, cast

from stillroom.errors import DataError, InputError
from stillroom.words import did_you_mean, key

DATA = Path(__file__).parent / "data"
Acidity = Literal["acid", "borderline", "low-acid", "none"]
Canning = Literal["own process", "tested mixture only", "never", "flavoring"]
# Cuts that fill a cup alike; used where a measure does not name the very cut.
_ALIKE = (
    frozenset(["chop", "dice", "cube", "chunk", "piece", "cut"]),
    frozenset(["slice", "strip", "round", "ring"]),
    frozenset(["grate", "shred"]),
    frozenset(["crush", "mash", "puree"]),
    frozenset(["pitted", "without"]),
)
# Crushing fills the gaps of a cup: a plain cup says nothing of one crushed.
_DENSE = _ALIKE[3]


@dataclass(frozen=True, slots=True)
class Food:
    """One ingredient.

    ``refuse`` is the part of the weight as bought that trimming takes, 0 up to 1;
    ``cup_override`` grams in a cup where no measure of the composition tables serves;
    ``pieces`` how many recipe pieces one bought unit holds (cloves in a head), 1 for most;
    ``bought_as`` what the weight as bought is of ("in the pod"), "" where it is plain.

    ``acidity`` is "acid" (pH 4.6 or lower), "borderline", "low-acid", or "none" for what has no
    pH of its own to speak of. ``canning`` is "own process" (``process`` names it in the library),
    "tested mixture only", "never" (``canning_source`` names the rule), or "flavoring". ``roles``
    are what it does in a jar, such as "vegetable" or "thickener".
    """

    food: str
    other_names: tuple[str, ...]
    ndb: str
    kind: str
    perishable: bool
    pantry: bool
    buy_in: str
    pieces: int
    bought_as: str
    refuse: Fraction
    cup_override: Fraction | None
    source: str
    acidity: Acidity
    ph: tuple[float, float] | None
    canning: Canning
    process: str
    canning_source: str
    canning_place: str
    roles: frozenset[str]


@dataclass(frozen=True, slots=True)
class Measure:
    """A household measure of a food: so many grams of edible food in ``amount`` of ``measure``."""

    ndb: str
    name: str
    refuse_pct: str
    refuse_what: str
    amount: Fraction
    measure: str
    grams: Fraction
    source: str


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


@lru_cache(maxsize=1)
def measures() -> tuple[Measure, ...]:
    """Every household measure, in file order."""
    return tuple(
        Measure(
            row["ndb"],
            row["name"],
            row["refuse_pct"],
            row["refuse_what"],
            Fraction(row["amount"]),
            row["measure"],
            Fraction(row["grams"]),
            row["source"],
        )
        for row in _rows("measures.csv")
    )


@lru_cache(maxsize=1)
def foods() -> tuple[Food, ...]:
    """Every food, in file order.

    Raises
    ------
    DataError
        A row of our own file cannot be read.
    """
    refuse = {m.ndb: m.refuse_pct or "0" for m in measures()}
    made = []
    for row in _rows("foods.csv"):
        try:
            made.append(
                Food(
                    row["food"],
                    tuple(name for name in row["other_names"].split("|") if name),
                    row["ndb"],
                    row["kind"],
                    row["perishable"] == "yes",
                    row["pantry"] == "yes",
                    row["buy_in"],
                    int(row["pieces"] or 1),
                    row["bought_as"],
                    Fraction(row["refuse_pct"] or refuse.get(row["ndb"], "0")) / 100,
                    Fraction(row["grams_per_cup"]) if row["grams_per_cup"] else None,
                    row["source"],
                    cast(Acidity, row["acidity"]),
                    (float(row["ph_low"]), float(row["ph_high"])) if row["ph_low"] else None,
                    cast(Canning, row["canning"]),
                    row["process"],
                    row["canning_source"],
                    row["canning_place"],
                    frozenset(row["roles"].split("|")) - {""},
                )
            )
        except ValueError as wrong:
            raise DataError(f"foods.csv, {row['food']}: {wrong}") from wrong
    return tuple(made)


@lru_cache(maxsize=1)
def _by_words() -> dict[frozenset[str], Food]:
    known: dict[frozenset[str], Food] = {}
    for food in foods():
        known[key(food.food)] = food
    for food in foods():
        for name in food.other_names:
            known.setdefault(key(name), food)
    return known


def find_food(text: str, where: str = "food") -> Food:
    """The food a written ingredient means.

    Parameters
    ----------
    text : one food without its prep: "onions", "green beans", "vinegar, cider"
    where : what to name in an error: file, line and key

    Returns
    -------
    Food : word order, plural and case do not matter; spelling does

    Raises
    ------
    InputError
        Not in the food list; the message names the nearest one.

    Source
    ------
    ``data/foods.csv``; each row names its own.

    Examples
    --------
    >>> find_food("Green beans").food
    'snap beans'
    """
    found = _by_words().get(key(text))
    if found:
        return found
    names = [name for food in foods() for name in (food.food, *food.other_names)]
    raise InputError(
        f'{where}: "{text}" is not in the food list.{did_you_mean(text.lower(), names)} '
        "Write a food of the list, then its prep and amount, each after a comma."
    )


@lru_cache(maxsize=512)
def _measures_of(ndb: str) -> tuple[Measure, ...]:
    return tuple(m for m in measures() if ndb and m.ndb == ndb)


def cup_grams(food: Food, prep: str = "") -> Fraction | None:
    """Grams of prepared food in one US cup.

    Parameters
    ----------
    food : from the food list
    prep : how it is cut; the measure whose words fit best is taken, else the plain cup, else a
        plain spoon

    Returns
    -------
    Fraction, g per cup; ``None`` where no measure fits

    Source
    ------
    USDA SR28 household weights (``data/measures.csv``); a row of ``data/foods.csv`` with its own
    grams names its source.

    Examples
    --------
    >>> cup_grams(find_food("onions"), "thinly sliced"), cup_grams(find_food("onions"), "chopped")
    (Fraction(115, 1), Fraction(160, 1))
    """
    if food.cup_override is not None:
        return food.cup_override
    of_food = _measures_of(food.ndb)
    cups = [(key(m.measure) - {"cup"}, m) for m in of_food if m.measure.startswith("cup")]
    said = key(prep)
    near = said.union(*(alike for alike in _ALIKE if alike & said))
    for words in (said, near):
        best = max((len(w & words) for w, _ in cups), default=0)
        if best:
            return next(m.grams / m.amount for w, m in cups if len(w & words) == best)
    if near & _DENSE:
        return None
    for spoon, times in (("cup", 1), ("tbsp", 16), ("tsp", 48)):
        for m in of_food:
            if m.measure == spoon:
                return m.grams / m.amount * times
    return None


def as_bought(food: Food, grams: Fraction) -> Fraction:
    """The weight to buy for a prepared weight.

    Parameters
    ----------
    food : from the food list
    grams : prepared weight, g

    Returns
    -------
    Fraction, g : prepared weight / (1 - refuse)

    Source
    ------
    Refuse of USDA SR28; tables print whole percents, so this is near, not exact.

    Examples
    --------
    >>> float(as_bought(find_food("onions"), Fraction(805)))  # 10 percent refuse
    894.4444444444445
    """
    return grams / (1 - food.refuse)


@lru_cache(maxsize=1)
def _titles() -> dict[str, str]:
    return {row["source"]: f"{row['author']}, {row['title']}" for row in _rows("sources.csv")}


def title_of(source: str) -> str:
    """Author and title behind a key of ``data/sources.csv``.

    Examples
    --------
    >>> title_of("usda-sr28").split(",")[0]
    'U.S. Department of Agriculture'
    """
    return _titles()[source]
