"""How long a loaded canner takes to heat up, come up and cool down, and how sure that is.

The heat model (``physics/vessel.py``) is run for some hundred canners that differ as far as nothing
is known of this one. What is planned is the length that three runs in four keep. These minutes plan
a day; a process time is published, is given, and is never worked out here.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from statistics import NormalDist
from typing import Final

import numpy as np

from stillroom.heat.household import household
from stillroom.heat.load import HeatedLoad, on_the_fire, untold
from stillroom.kitchen import Canner, Fire
from stillroom.physics.array import Array
from stillroom.physics.vessel import MOST_WATER_VENTED, Run, run

DRAWS: Final = 400
SEED: Final = 1
PLANNED: Final = 0.75
"""Share of runs that a planned length holds for (``docs/why/durations.md`` says why)."""

LOW, HIGH = 0.1, 0.9

STRONGEST: Final = 3_517.0
"""Watts, 12,000 Btu/h: more can ruin a canner (Kansas State University, You Asked It!)."""

LONGEST: Final = 240.0
"""Minutes at which a run is given up for the day's sake, where a draw never gets there."""


@dataclass(frozen=True, slots=True)
class Span:
    """Minutes of a phase: what a plan uses, and what one run in ten stays below and beyond.

    All are 0 for a phase that the canner has not.
    """

    planned: int
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class Times:
    """How long a canner takes with a load.

    ``before`` is heat-up and come-up together, which hang together: a weak burner is slow in both.
    ``draws`` are (heat-up, come-up, cool-down) in minutes, one for each canner that was tried; the
    same place in two loads' draws is the same canner. None is longer than four hours.
    ``stand_ins`` tells what the kitchen file does not and what was taken for it; ``timed`` counts
    the timed runs behind the figures; ``warnings`` are whole sentences.
    """

    heat: Span
    come_up: Span
    cool: Span
    before: Span
    draws: tuple[tuple[float, float, float], ...]
    stand_ins: tuple[str, ...]
    timed: int
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TooWeak:
    """The heat model finds no way to the pressure or the boil: an answer, told in a sentence."""

    why: str
    stand_ins: tuple[str, ...]


def durations(canner: Canner, load: HeatedLoad) -> Times | TooWeak:
    """Heat-up, come-up and cool-down of a canner with a load.

    Parameters
    ----------
    canner : of the kitchen file
    load : jars, pack, pressure in lb per square inch, elevation in ft, published minutes

    Returns
    -------
    Times in whole minutes, planned figures rounded up; or TooWeak where more than a quarter of
    the canners tried do not get there within four hours

    Source
    ------
    ``physics/vessel.py`` with ``physics/data/vessel_priors.csv``, the kitchen file and its timed
    runs. Predicts durations; never yields a process.
    """
    known = household(canner, load.elevation_ft)
    tried = _tried(canner.method, canner.own_plug, canner.fire, load)
    told = known.stand_ins
    if not np.quantile(tried.before, PLANNED, method="higher") <= LONGEST:
        aim = f"{load.psi} lb" if load.psi else "a boil"
        return TooWeak(
            f"{canner.name}: by the heat model this burner may never bring {load.jars} {load.jar} "
            f"jars to {aim}, or not within four hours. Check burner_power in the kitchen file, and "
            "try the canner with water alone first.",
            told,
        )
    draws = np.minimum(np.stack([tried.heat, tried.come_up, tried.cool], axis=1), LONGEST)
    return Times(
        heat=_span(tried.heat),
        come_up=_span(tried.come_up),
        cool=_span(tried.cool),
        before=_span(tried.before),
        draws=tuple(map(tuple, draws.tolist())),
        stand_ins=told,
        timed=known.runs,
        warnings=(
            *_strong(canner),
            *_dry(canner, tried.vented),
            *(f"{canner.name}: {odd}." for odd in known.odd),
        ),
    )


def middle_run(canner: Canner, load: HeatedLoad) -> Run:
    """The run of one canner, every figure of it in the middle of what is known.

    Parameters
    ----------
    canner : of the kitchen file
    load : the load

    Returns
    -------
    Run of one draw, s and K; its durations lie near the middle of those of ``durations``

    Source
    ------
    ``physics/vessel.py`` with ``physics/data/vessel_priors.csv``, the kitchen file and its timed
    runs. Predicts durations; never yields a process.
    """
    belief = household(canner, load.elevation_ft).belief
    water = canner.fire.water
    figures = np.array([belief.medians])
    return run(*on_the_fire(load, figures, water, np.zeros((1, len(untold(load, water))))))


@dataclass(frozen=True, slots=True, eq=False)
class _Tried:
    """Minutes of each phase, and the share of water vented, for every canner tried."""

    heat: Array
    come_up: Array
    cool: Array
    before: Array
    vented: Array


@lru_cache(maxsize=256)
def _tried(method: str, own_plug: bool, fire: Fire, load: HeatedLoad) -> _Tried:
    canner = Canner("", method, {}, own_plug, fire)
    belief = household(canner, load.elevation_ft).belief
    water = canner.fire.water
    scores = _scores(len(belief.names) + len(untold(load, water)))
    spread = np.linalg.cholesky(belief.covariance())
    figures = np.array(belief.medians) * np.exp(scores[:, : len(spread)] @ spread.T)
    made = run(*on_the_fire(load, figures, water, scores[:, len(spread) :]))
    heat, come_up, cool = (s / 60 for s in (made.heat, made.come_up, made.cool))
    return _Tried(heat, come_up, cool, heat + come_up, made.vented_share)


@lru_cache(maxsize=8)
def _scores(columns: int) -> Array:
    """Standard normal scores, each column spread evenly over its law and shuffled by itself."""
    law = NormalDist()
    even = np.array([law.inv_cdf((n + 0.5) / DRAWS) for n in range(DRAWS)])
    dice = np.random.default_rng(SEED)
    return np.stack([dice.permutation(even) for _ in range(columns)], axis=1)


def _span(minutes: Array) -> Span:
    low, planned, high = (
        float(np.quantile(minutes, share, method="higher")) for share in (LOW, PLANNED, HIGH)
    )
    return Span(ceil(min(planned, LONGEST)), round(min(low, LONGEST)), round(min(high, LONGEST)))


def _strong(canner: Canner) -> tuple[str, ...]:
    """A burner that may ruin a canner (Kansas State University, You Asked It!)."""
    if canner.fire.watts <= STRONGEST:
        return ()
    return (
        f"{canner.name}: a burner of more than 12,000 Btu/h (3,517 W) can ruin a canner. "
        "Ask its manual.",
    )


def _dry(canner: Canner, vented: Array) -> tuple[str, ...]:
    share = float(np.median(vented))
    if share <= MOST_WATER_VENTED:
        return ()
    return (
        f"{canner.name}: by the heat model venting takes about {100 * share:.0f} % of its water. "
        "Start with as much as the canner's manual asks for, and no less.",
    )
