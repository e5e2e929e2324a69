"""The batch that is timed: a thousand quarts of one dense food, no two alike."""

import numpy as np

from benchmarks.heat.jar import Jar
from stillroom.physics.array import Array
from stillroom.physics.atmosphere import GaugePressure, canner_temperature
from stillroom.physics.history import History
from stillroom.physics.pack import Solid
from stillroom.units.si import PASCALS_PER_PSI

SEED = 20
HOURS = 2.0
_QUART_RADIUS, _QUART_HEIGHT = 0.0475, 0.150  # the quart-like body of the tests, m
_NAMES = ("radius", "height", "diffusivity", "conductivity", "side", "bottom", "top")


def make(count: int) -> tuple[list[Jar], Solid, Array, History]:
    """Jars that vary in fill, start and gauge error: one by one, and all together.

    Warm-up, ten minutes of venting, come-up, 75 minutes at 11 psi as read, natural cool-down.
    """
    dice = np.random.default_rng(SEED)
    times = np.array([0.0, 840.0, 1440.0, 1740.0, 6240.0, 7200.0])
    off = dice.normal(0.0, 0.5, count) * PASCALS_PER_PSI  # the gauge, Pa
    at_pressure = np.array(
        [canner_temperature(GaugePressure(11 * PASCALS_PER_PSI - o), 0.0) for o in off]
    )
    level = np.full(count, 1.0)
    canners = np.stack(
        [345.0 * level, 373.1 * level, 373.1 * level, at_pressure, at_pressure, 381.0 * level],
        axis=1,
    )
    starts = 330.0 + dice.normal(0.0, 4.0, count)
    heights = _QUART_HEIGHT - dice.uniform(0.0, 0.012, count)
    shared = dict(zip(_NAMES, (_QUART_RADIUS, 0.0, 1.6e-7, 0.6, 340.0, 250.0, 10.0), strict=True))
    jars = [
        Jar(**{**shared, "height": float(h)}, start=float(s), canner=History(times, c))
        for h, s, c in zip(heights, starts, canners, strict=True)
    ]
    fields = {name: np.full(count, value) for name, value in shared.items()} | {"height": heights}
    return jars, Solid(**fields), starts, History(times, canners)
