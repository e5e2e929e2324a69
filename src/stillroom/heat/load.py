"""A load of jars as its canner feels it: masses, temperatures and aims for the heat model."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import sqrt
from typing import Final

import numpy as np

from stillroom.physics.array import Array
from stillroom.physics.atmosphere import GaugePressure, boiling_point, canner_temperature
from stillroom.physics.jar import GLASS_HEAT_CAPACITY, jar_body
from stillroom.physics.priors import Prior, drawn, priors
from stillroom.physics.vessel import Aims, Canner, Jars
from stillroom.processes.model import PRESSURE
from stillroom.units.jars import SIZES, quarts
from stillroom.units.si import CUBIC_METRES_PER_QUART, METRES_PER_FOOT, PASCALS_PER_PSI

# kg of water in a quart: its litres, within 4 % from 20 to 100 C.
_QUART: Final = 1000.0 * CUBIC_METRES_PER_QUART

LISTED: Final = ("half-pint", "pint", "quart", "half-gallon")
"""Jar sizes of the table of priors; those of a boiling-water canner's water end at the quart."""

VENT: Final = 600.0
"""Seconds of venting, as published for every pressure canner (AIB-539 Guide 1): never less."""

OPENING: Final = {"pressure": 600.0, "boiling-water": 300.0}
"""Seconds from zero on the gauge, or from heat off, to opening, as published."""


@dataclass(frozen=True, slots=True)
class HeatedLoad:
    """Jars of one size in a canner at an elevation.

    ``psi`` is the gauge pressure, 0 for boiling water; ``liquid`` whether the food stands in
    liquid, ``None`` where that is not known; ``minutes`` the published process time, as given.
    """

    method: str
    elevation_ft: int
    psi: int
    jar: str
    jars: int
    pack: str
    liquid: bool | None
    minutes: int


def aims(load: HeatedLoad) -> Aims:
    """The temperatures of the run, K, and its given times, s.

    Parameters
    ----------
    load : elevation in ft, pressure in lb per square inch, process time in minutes

    Returns
    -------
    Aims

    Source
    ------
    Boiling points and gauges: ``physics/atmosphere.py``. Vent and wait: AIB-539 Guide 1 and UF/IFAS
    sheets, as in ``day/data/durations.csv``. The process time is the published one.
    """
    elevation = load.elevation_ft * METRES_PER_FOOT
    boil = boiling_point(elevation)
    hold = 60.0 * load.minutes
    if load.method not in PRESSURE:
        return Aims(boil, boil, 0.0, hold, OPENING["boiling-water"])
    target = canner_temperature(GaugePressure(load.psi * PASCALS_PER_PSI), elevation)
    return Aims(boil, target, VENT, hold, OPENING["pressure"])


def untold(load: HeatedLoad, water: float) -> tuple[Prior, ...]:
    """What differs from run to run, each a figure of its own, in the order of the scores.

    Parameters
    ----------
    load : the load
    water : U.S. quarts in the canner, 0 where they are not told

    Returns
    -------
    Priors in SI units (kg, K, s, J/(kg K), W)

    Source
    ------
    ``physics/data/vessel_priors.csv``.
    """
    return _untold(load.method, load.jar, load.pack, load.liquid, water)


@lru_cache(maxsize=256)
def _untold(
    method: str, jar: str, pack: str, liquid: bool | None, water: float
) -> tuple[Prior, ...]:
    table, pressure = priors(), method in PRESSURE
    dense = liquid is False
    start = "hot" if pack == "hot" else "raw without liquid" if dense else "raw with liquid"
    vessel = "pressure" if pressure else "bath"
    figures = [
        table["water", "pressure" if pressure else f"bath {like(jar, LISTED[:-1])}"],
        table["water start", f"{vessel} {pack}"],
        table["food start", start],
        table["food", "per quart"],
        table["food heat", "any"],
        _uptake(like(jar), liquid),
        table["room", "kitchen"],
    ]
    if water:
        figures[0] = _measured(figures[0], water * _QUART)
    simmer = table.get(("simmer", method))
    return (*figures, *((simmer,) if simmer else ()))


def on_the_fire(
    load: HeatedLoad, figures: Array, water: float, scores: Array
) -> tuple[Canner, Jars, Aims]:
    """The load as the heat model takes it, for n canners.

    Parameters
    ----------
    load : the load
    figures : shape (n, 4): W into the pot, W/K, J/K, and a factor on the jars' fh
    water : U.S. quarts in the canner, 0 where they are not told
    scores : shape (n, u), standard normal, one column for each of ``untold``

    Returns
    -------
    what ``physics.vessel.run`` takes, SI units, shapes (n,)

    Source
    ------
    ``physics/data/vessel_priors.csv``; glass: ``physics/jar.py``.
    """
    table = untold(load, water)
    told = [drawn(prior, scores[:, i]) for i, prior in enumerate(table)]
    kilograms, cold, food_start, per_quart, capacity, fh, room, *simmer = told
    glass = load.jars * jar_body(load.jar).glass * GLASS_HEAT_CAPACITY
    food = load.jars * quarts(load.jar) * per_quart * capacity
    canner = Canner(
        power=figures[:, 0],
        loss=figures[:, 1],
        metal=figures[:, 2],
        water=kilograms,
        start=cold,
        room=room,
        simmer=simmer[0] if simmer else 0.0,
    )
    return canner, Jars(food + glass, fh * figures[:, 3], food_start), aims(load)


def like(jar: str, sizes: Sequence[str] = LISTED) -> str:
    """The size of the table of priors that stands for a jar: the next larger, or the largest.

    Examples
    --------
    >>> like("12 oz"), like("half-gallon", LISTED[:-1])
    ('pint', 'quart')
    """
    larger = (size for size in sizes if SIZES.index(size) >= SIZES.index(jar))
    return next(larger, sizes[-1])


def _uptake(size: str, liquid: bool | None) -> Prior:
    """How fast a jar warms; between brothy and dense, and wide, where that is not told."""
    brothy, dense = (priors()["fh", f"{kind} {size}"] for kind in ("brothy", "dense"))
    if liquid is not None:
        return brothy if liquid else dense
    between = sqrt(brothy.median * dense.median)
    apart = float(np.log(dense.median / brothy.median)) / 2
    return _measured(brothy, between, float(np.hypot(apart, brothy.spread)))


def _measured(prior: Prior, median: float, spread: float = 0.05) -> Prior:
    """The same figure with another median and spread of its logarithm."""
    return replace(prior, median=median, spread=spread)
