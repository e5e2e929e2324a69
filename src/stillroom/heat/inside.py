"""Inside the jars of one load: many jars that differ as real ones do, and what that does.

A load is followed as some hundred jars. Each has its own fill, start, gauge and food, drawn from
``data/spreads.csv``; the bands are what the middle nine in ten of them do. They show how far jars
of one load differ. They approve nothing.
"""

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Final

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.heat.load import like
from stillroom.heat.run import Run, history
from stillroom.physics.array import Array
from stillroom.physics.food import Composition, properties
from stillroom.physics.history import History
from stillroom.physics.jar import GLASS_CONDUCTIVITY, JarBody, pack_height
from stillroom.physics.lethality import c100, f0
from stillroom.physics.pack import Blend, Brothy, Solid, conductance, heat_through
from stillroom.physics.priors import priors
from stillroom.units.si import METRES_PER_INCH

DATA: Final = Path(__file__).parent / "data"
FILMS: Final = Path(__file__).parent.parent / "physics" / "data" / "films.csv"
JARS: Final = 200
SEED: Final = 1

_KELVIN_PER_FAHRENHEIT: Final = 5 / 9
_BROTHY_J: Final = 1.2
"""Lag factor of a brothy pack, within 1.0 to 1.6: from memory, for no table of home jars was
read."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A kind of filled jar: its body, ``headspace`` in m, the food, and how solid it is packed.

    ``solid`` is 1 for a pack that only conducts, 0 for a broth, between for pieces in liquid.
    """

    body: JarBody
    headspace: float
    food: Composition
    solid: float

    def __post_init__(self) -> None:
        """Refuse a share that is none."""
        if not 0 <= self.solid <= 1:
            raise OutOfRange(f"solid is {self.solid}: write 0 (a broth) to 1 (packed solid).")


@dataclass(frozen=True, slots=True, eq=False)
class Inside:
    """What many jars of a load did: ``times`` (k,), s from the lid going on.

    ``canner`` and ``slowest`` have shape (jars, k), K. ``lethality`` and ``cook``, shape (jars,),
    are F0 and C100 in s at the slowest place; ``while_cooling`` is the share of each jar's F0 that
    came after the heat was off.
    """

    times: Array
    canner: Array
    slowest: Array
    lethality: Array
    cook: Array
    while_cooling: Array


def band(values: Array) -> Array:
    """The middle nine in ten of many jars: their least, median and most, shape (3, ...)."""
    return np.quantile(values, [0.05, 0.5, 0.95], axis=0)


def follow_run(
    filled: Filled, start: float, run: Run, *, jars: int = JARS, seed: int = SEED
) -> Inside:
    """Follow a load's jars through a run, until the canner is opened.

    Parameters
    ----------
    filled : the kind of jar
    start : K, the food as the lid goes on
    run : the run as the cook saw it
    jars, seed : how many jars, and the seed of their differences

    Source
    ------
    ``physics/pack.py``; spreads in ``data/spreads.csv``. Explains and warns; never approves.
    """
    dice = np.random.default_rng(seed)
    off = _spread("gauge") * dice.uniform(-1.0, 1.0, jars)
    canners = history(run, off if run.psi is not None else np.zeros(jars))
    return _follow(filled, start, canners, run.opened, run.heat_off, run.psi is not None, dice)


def follow_log(
    filled: Filled,
    start: float,
    canner: History,
    heat_off: float,
    *,
    jars: int = JARS,
    seed: int = SEED,
) -> Inside:
    """Follow a load's jars through a pressure canner's temperatures as they were logged.

    Parameters
    ----------
    filled : the kind of jar
    start : K, the food as the lid goes on
    canner : one history; the gauge is taken as exact
    heat_off : s, the instant when the burner went off
    jars, seed : how many jars, and the seed of their differences

    Source
    ------
    ``physics/pack.py``; spreads in ``data/spreads.csv``. Explains and warns; never approves.
    """
    dice = np.random.default_rng(seed)
    every = History(canner.times, np.broadcast_to(canner.temperatures, (jars, len(canner.times))))
    lasted = float(canner.times[-1] - canner.times[0])
    return _follow(filled, start, every, lasted, heat_off - float(canner.times[0]), True, dice)


def _follow(
    filled: Filled,
    start: float,
    canners: History,
    lasted: float,
    heat_off: float,
    in_steam: bool,
    dice: np.random.Generator,
) -> Inside:
    jars = len(canners.temperatures)
    starts = start + _spread("start") * _KELVIN_PER_FAHRENHEIT * dice.uniform(-1.0, 1.0, jars)
    hottest = float(canners.temperatures.max())
    pack = _pack(filled, 0.5 * (start + hottest), in_steam, dice, jars)
    times, slowest = heat_through(pack, starts, canners, lasted)
    lethality = f0(times, slowest)
    hot = times <= times[0] + heat_off
    before = f0(times[hot], slowest[:, hot]) if hot.sum() > 1 else np.zeros(jars)
    return Inside(
        times=times - times[0],
        canner=canners.at(times),
        slowest=slowest,
        lethality=lethality,
        cook=c100(times, slowest),
        while_cooling=1.0 - before / np.maximum(lethality, 1e-12),
    )


def _pack(
    filled: Filled, middle: float, in_steam: bool, dice: np.random.Generator, jars: int
) -> Blend:
    body = filled.body
    fills = filled.headspace + _spread("headspace") * METRES_PER_INCH * dice.uniform(
        -1.0, 1.0, jars
    )
    heights = np.array([pack_height(body, max(0.0, float(fill))) for fill in fills])
    # The model's properties are constant: those at the middle of the food's way.
    food = properties(filled.food, middle)
    spread = _spread("diffusivity") ** dice.uniform(-1.0, 1.0, jars)
    film = _film("condensing steam" if in_steam else "boiling water")
    wall = conductance(film, GLASS_CONDUCTIVITY / body.wall)
    solid = Solid(
        radius=np.full(jars, body.radius),
        height=heights,
        diffusivity=food.diffusivity * spread,
        conductivity=food.conductivity * spread,
        side=np.full(jars, wall),
        bottom=np.full(jars, wall),
        top=np.full(jars, _film("headspace")),
    )
    mixing = priors()["fh", f"brothy {like(body.size)}"]
    brothy = Brothy(
        f=mixing.median * np.exp(mixing.spread * dice.standard_normal(jars)),
        j=np.full(jars, _BROTHY_J),
    )
    return Blend(solid, brothy, np.full(jars, filled.solid))


@lru_cache(maxsize=1)
def _spreads() -> dict[str, float]:
    with (DATA / "spreads.csv").open(encoding="utf-8", newline="") as f:
        return {row["quantity"]: float(row["spread"]) for row in csv.DictReader(f)}


def _spread(quantity: str) -> float:
    return _spreads()[quantity]


@lru_cache(maxsize=1)
def _films() -> dict[str, float]:
    with FILMS.open(encoding="utf-8", newline="") as f:
        return {row["film"]: float(row["conductance"]) for row in csv.DictReader(f)}


def _film(name: str) -> float:
    return _films()[name]
