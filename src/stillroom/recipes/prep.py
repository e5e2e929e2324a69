"""Minutes of preparing each ingredient by its cut, from work rates that a household may change."""

import csv
import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from stillroom.recipes.model import HEATED, Recipe
from stillroom.recipes.totals import Need, totals
from stillroom.units.amounts import POUND

DATA = Path(__file__).parent / "data"
WASH = "wash"
# "Cut in cubes" and "ends cut off, sliced" are one cutting, by its finer name.
FINER = frozenset(["halve", "quarter", "slice", "cube", "chop", "grate"])


@dataclass(frozen=True, slots=True)
class Rate:
    """A kind of work, the words by which a recipe asks for it, and minutes of hands a pound."""

    work: str
    words: tuple[str, ...]
    minutes: float
    source: str


@dataclass(frozen=True, slots=True)
class Prep:
    """An ingredient's work: what is done, and minutes of hands for a quart of jars."""

    name: str
    work: tuple[str, ...]
    minutes: float


@lru_cache(maxsize=1)
def rates() -> tuple[Rate, ...]:
    """The table of work rates, in file order."""
    with (DATA / "rates.csv").open(encoding="utf-8", newline="") as f:
        return tuple(
            Rate(
                line["work"],
                tuple(line["words"].split()),
                float(line["minutes_per_lb"]),
                line["source"],
            )
            for line in csv.DictReader(f)
        )


def prep(recipe: Recipe, own: Mapping[str, float] | None = None) -> tuple[Prep, ...]:
    """The work of each ingredient of a recipe for a quart of jars.

    Parameters
    ----------
    recipe : its lines say how each food goes in: "carrots, peeled and sliced"
    own : the household's own minutes a pound, by kind of work

    Returns
    -------
    Prep for each ingredient that is cut, trimmed or the like. Each kind of work its line names is
    counted once, by the weight as bought, with washing; raw meat and cooked food are not washed.
    Food without a cut of its own, such as sugar, and food without a weight are left out.

    Source
    ------
    ``data/rates.csv``: common practice.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> [(p.name, p.work, p.minutes) for p in prep(starter("snap-beans"))]
    [('snap beans, trimmed and cut in 1 in pieces', ('wash', 'trim', 'cut'), 12.0)]
    """
    minutes = {rate.work: rate.minutes for rate in rates()} | dict(own or {})
    unwashed = {line.food for line in recipe.lines if line.perishable}
    made = []
    for need in totals([(recipe, "quart", 1)]).needs:
        done = _work(need, washed=need.food not in unwashed)
        if done and need.bought_g is not None:
            pounds = float(need.bought_g / POUND)
            made.append(Prep(need.name, done, pounds * sum(minutes[work] for work in done)))
    return tuple(made)


def minutes_per_quart(recipe: Recipe, own: Mapping[str, float] | None = None) -> float:
    """Minutes of hands for a quart of jars: the recipe's own, or the sum of its ingredients'."""
    if recipe.work.prep_per_quart is not None:
        return recipe.work.prep_per_quart
    return sum(p.minutes for p in prep(recipe, own))


def _work(need: Need, *, washed: bool) -> tuple[str, ...]:
    said = set(re.findall(r"[a-z]+", need.prep.lower()))
    done = [rate.work for rate in rates() if said & set(rate.words)]
    if FINER & set(done) and "cut" in done:
        done.remove("cut")
    cooked = HEATED & {*said, *need.food.lower().split()}
    return tuple([WASH] * (washed and not cooked) + done) if done else ()
