"""A canner run as a jar feels it: warm-up, vent, come-up, hold, natural cool-down."""

from dataclasses import dataclass
from math import log
from typing import Final

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.atmosphere import GaugePressure, boiling_point, canner_temperature
from stillroom.physics.history import History
from stillroom.units.si import METRES_PER_FOOT, PASCALS_PER_PSI

_ROOM: Final = 295.0  # K, a warm kitchen; it bends the cool-down a little
_COOLING_PIECES: Final = 12


@dataclass(frozen=True, slots=True)
class Run:
    """One run at an elevation, ft: gauge pressure in psi (``None``: boiling water), and minutes.

    ``water`` is the temperature of the canner, K, as the jars go in. ``minutes`` is the published
    process time, ``cool`` the natural cool-down to zero pressure, ``wait`` what follows before
    the canner is opened.

    >>> run = Run(elevation_ft=0, psi=11, minutes=75, water=333.0, heat=15, vent=10, come_up=5,
    ...           cool=45, wait=10)
    >>> run.heat_off, run.opened
    (6300.0, 9600.0)
    """

    elevation_ft: float
    psi: float | None
    minutes: float
    water: float
    heat: float
    vent: float
    come_up: float
    cool: float
    wait: float

    def __post_init__(self) -> None:
        """Refuse lengths below zero, and a run that never heats or holds."""
        for name in ("minutes", "heat", "vent", "come_up", "cool", "wait"):
            value = getattr(self, name)
            if not 0 <= value <= 1000:
                raise OutOfRange(f"{name} of a run is {value} minutes: write 0 to 1000.")
        if not (self.minutes and self.heat):
            raise OutOfRange("A run heats up and is held for some minutes, not for none.")

    @property
    def heat_off(self) -> float:
        """Seconds from the first instant until the process time is over."""
        return 60.0 * (self.heat + self.vent + self.come_up + self.minutes)

    @property
    def opened(self) -> float:
        """Seconds from the first instant until the canner is opened."""
        return self.heat_off + 60.0 * (self.cool + self.wait)


def history(run: Run, reads_high: Array) -> History:
    """The canner's temperature as the jars feel it, for gauges that are off by some psi.

    Parameters
    ----------
    run : the run as the cook saw it
    reads_high : shape (n,), psi: how much more the gauge shows than there is; 0 for an exact one

    Returns
    -------
    History of n canners, K

    Raises
    ------
    OutOfRange
        A gauge so wrong that no pressure is left.

    Source
    ------
    Saturated steam and standard atmosphere (``physics/``); cool-down by Newton's law toward a
    room of 22 C, through zero pressure at the given minute. Explains; never yields a process.
    """
    boils = boiling_point(run.elevation_ft * METRES_PER_FOOT)
    held = np.array([_held(run, float(off)) for off in reads_high])
    spent, wait = 60.0 * run.cool, 60.0 * run.wait
    shut = np.linspace(0.0, spent, _COOLING_PIECES + 1)[1:] if spent else np.zeros(0)
    waiting = spent + np.array([0.5, 1.0]) * wait if wait else np.zeros(0)
    cooling = np.concatenate([shut, waiting]) if spent or wait else np.array([1.0])
    rate = log((held.mean() - _ROOM) / (boils - _ROOM)) / spent if run.psi and spent else 1e-4
    marks = np.cumsum(60.0 * np.array([0.0, run.heat, run.vent, run.come_up, run.minutes]))
    times = np.concatenate([marks, marks[-1] + cooling])
    level = np.ones(len(held))
    warm = [run.water * level, boils * level, boils * level, held, held]
    cold = [_ROOM + (held - _ROOM) * np.exp(-rate * after) for after in cooling]
    # Of instants that coincide the last counts: after no come-up, the canner is at pressure.
    kept = np.append(np.diff(times) > 0, True)
    return History(times[kept], np.stack([*warm, *cold], axis=1)[:, kept])


def _held(run: Run, off: float) -> float:
    metres = run.elevation_ft * METRES_PER_FOOT
    if run.psi is None:
        return boiling_point(metres)
    return canner_temperature(GaugePressure((run.psi - off) * PASCALS_PER_PSI), metres)
