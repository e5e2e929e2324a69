"""What is known of a household's canner as a heated pot, and what stands in where it is not told.

Four figures carry it: the power that reaches the pot, the heat lost to the room, the heat its metal
takes, and how fast jars take up heat beside the working values. They start from the table of
priors and from what the kitchen file tells, and learn from runs the household timed.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache, partial
from typing import Final

import numpy as np

from stillroom.heat.load import HeatedLoad, on_the_fire, untold
from stillroom.kitchen import Canner, Fire, TimedRun
from stillroom.physics.array import Array
from stillroom.physics.learn import Belief, independent, learn
from stillroom.physics.priors import Prior, priors
from stillroom.physics.vessel import run
from stillroom.processes import lookup
from stillroom.processes.model import PRESSURE
from stillroom.units.si import KILOGRAMS_PER_POUND

FIGURES: Final = ("power", "loss", "metal", "uptake")

# What is told is still not exact: a plate says what a burner may use, a scale what a canner weighs.
_TOLD_POWER: Final = 0.08
_TOLD_WEIGHT: Final = 0.03
# A jar's fh scatters from food to food (in the load); what is common to a household's jars less so.
_UPTAKE: Final = 0.15
# A kitchen clock is read to a minute or two, and a phase's start and end are a matter of opinion.
_WATCH_MINUTES: Final = 1.5
_WATCH_SHARE: Final = 0.07

STARTS: Final = "how warm it starts and how fast jars warm (from memory)"


@dataclass(frozen=True, slots=True)
class Household:
    """The figures of one canner (W, W/K, J/K and a share), what stands in, and odd logs.

    ``runs`` is how many timed runs they rest on; ``odd`` tells of times that did not fit.
    """

    belief: Belief
    stand_ins: tuple[str, ...]
    runs: int
    odd: tuple[str, ...]


def household(canner: Canner, elevation_ft: int) -> Household:
    """What is known of a canner, learned from its timed runs where there are any.

    Parameters
    ----------
    canner : of the kitchen file
    elevation_ft : of the kitchen, ft

    Returns
    -------
    Household

    Source
    ------
    ``physics/data/vessel_priors.csv``, the kitchen file, and ``physics/learn.py``. Predicts
    durations; never yields a process.
    """
    return _household(canner.method, canner.own_plug, canner.fire, elevation_ft)


@lru_cache(maxsize=64)
def _household(method: str, own_plug: bool, fire: Fire, elevation_ft: int) -> Household:
    belief, odd = _untimed(method, own_plug, fire), []
    for number, timed in enumerate(fire.timed, 1):
        load, phases, minutes = _of_log(timed, method, elevation_ft)
        predict = partial(_foretold, load, phases, fire.water)
        noise = _noise(load, phases, belief, fire.water, minutes)
        learned = learn(belief, predict, minutes, noise)
        belief = learned.belief
        odd += [
            f"timed run {number}: its {_NAMES[phase]} of {said:g} min does not fit and counts less"
            for phase, said, weight in zip(phases, minutes, learned.weight, strict=True)
            if weight < 1
        ]
    return Household(belief, tuple(_stand_ins(method, own_plug, fire)), len(fire.timed), tuple(odd))


def _untimed(method: str, own_plug: bool, fire: Fire) -> Belief:
    """The figures before any run was timed."""
    pressure = method in PRESSURE
    burner, efficiency = (
        _prior(name, _burner(own_plug, fire)) for name in ("burner", "efficiency")
    )
    pot = _prior("pot", fire.wall or ("not told" if pressure else "bath"))
    metal = _prior("pot heat", "aluminum" if pressure else "steel")
    loss = _prior("loss", fire.wall or ("not told" if pressure else "bath"))
    watts = fire.watts or burner.median
    watts_spread = _TOLD_POWER if fire.watts else burner.spread
    weight = fire.kilograms or pot.median
    weight_spread = _TOLD_WEIGHT if fire.kilograms else pot.spread
    return independent(
        FIGURES,
        np.array([watts * efficiency.median, loss.median, weight * metal.median, 1.0]),
        np.array(
            [
                np.hypot(watts_spread, efficiency.spread),
                loss.spread,
                np.hypot(weight_spread, metal.spread),
                _UPTAKE,
            ]
        ),
    )


def _prior(parameter: str, kind: str) -> Prior:
    return priors()[parameter, kind]


def _burner(own_plug: bool, fire: Fire) -> str:
    return "own plug" if own_plug else fire.kind or "not told"


def _stand_ins(method: str, own_plug: bool, fire: Fire) -> Iterator[str]:
    """Each figure that the kitchen file does not tell, with what is taken for it."""
    burner = _burner(own_plug, fire)
    share = f"{100 * _prior('efficiency', burner).median:.0f} % of"
    watts = f"{_prior('burner', burner).median:,.0f} W"
    kind = "between gas and electric" if burner == "not told" else burner
    if not fire.watts and burner == "not told":
        yield f"burner {watts}, {share} it into the pot ({kind})"
    elif not fire.watts:
        yield f"burner power {watts} ({kind}), {share} it into the pot"
    if not fire.kilograms:
        pot = fire.wall or ("not told" if method in PRESSURE else "bath")
        of = {"thin": " (thin-walled)", "heavy": " (heavy-walled)", "bath": " (enameled steel)"}
        yield f"weight {_prior('pot', pot).median / KILOGRAMS_PER_POUND:.0f} lb{of.get(pot, '')}"
    if not fire.water:
        yield f"water {'3 quarts' if method in PRESSURE else 'to 1 3/8 in over the jars'}"
    if fire.watts:
        yield f"{share} the power into the pot ({kind})"
    yield STARTS
    if fire.timed:
        yield f"all corrected by {len(fire.timed)} timed run{'s' if len(fire.timed) > 1 else ''}"


# --- timed runs ---------------------------------------------------------------------------------

_PHASES: Final = ("heat", "come_up", "cool")
_NAMES: Final = {"heat": "heat-up", "come_up": "come-up", "cool": "cool-down"}


def _of_log(timed: TimedRun, method: str, elevation_ft: int) -> tuple[HeatedLoad, list[str], Array]:
    """The load of a timed run, which of its phases were timed, and their minutes."""
    load = HeatedLoad(
        method=method,
        elevation_ft=elevation_ft,
        psi=(timed.lb or _usual(method, elevation_ft)) if method in PRESSURE else 0,
        jar=timed.jar,
        jars=timed.jars,
        pack=timed.pack,
        liquid=timed.liquid,
        minutes=60,
    )
    phases = [phase for phase in _PHASES if getattr(timed, phase)]
    return load, phases, np.array([getattr(timed, phase) for phase in phases])


def _usual(method: str, elevation_ft: int) -> int:
    """The pressure most low-acid food is held at here, as published for snap beans."""
    answer = lookup("snap beans", jar="pint", method=method, elevation=elevation_ft)
    return next((row.psi for row in answer.processes if row.psi), 15)


def _foretold(load: HeatedLoad, phases: list[str], water: float, figures: Array) -> Array:
    """Minutes of the timed phases for figures of shape (k, 4), all else at its median."""
    return _minutes(
        load, phases, water, figures, np.zeros((len(figures), len(untold(load, water))))
    )


def _minutes(
    load: HeatedLoad, phases: list[str], water: float, figures: Array, scores: Array
) -> Array:
    made = run(*on_the_fire(load, figures, water, scores))
    return np.stack([getattr(made, phase) for phase in phases], axis=1) / 60


def _noise(
    load: HeatedLoad, phases: list[str], belief: Belief, water: float, minutes: Array
) -> Array:
    """Covariance of the logarithms of logged minutes: the clock, and what differs run by run."""
    unknown = len(untold(load, water))
    figures = np.broadcast_to(np.array(belief.medians), (2 * unknown, len(FIGURES)))
    # A standard deviation up and down of each thing that differs from run to run.
    steps = np.concatenate([np.eye(unknown), -np.eye(unknown)])
    logs = np.log(np.clip(_minutes(load, phases, water, figures, steps), 0.1, 1e5))
    slopes = (logs[:unknown] - logs[unknown:]) / 2
    clock = (_WATCH_MINUTES / minutes) ** 2 + _WATCH_SHARE**2
    made: Array = slopes.T @ slopes + np.diag(clock)
    return made
