"""What a logged temperature did to the food: F0, cook value, thiamin, and how sure a log is."""

from dataclasses import dataclass

import numpy as np

from stillroom.errors import InputError
from stillroom.heat.log import Log
from stillroom.physics.array import Array
from stillroom.physics.lethality import (
    T_REF_F0,
    Z_F0,
    by_trapezoid,
    c100,
    coarse,
    equivalent_time_so_far,
    f0,
    thiamin_retained,
)


@dataclass(frozen=True, slots=True, eq=False)
class Cook:
    """A temperature log's sums, minutes; ``times`` s and ``temperatures`` K are its readings.

    ``lethality`` is F0 by the exact integral of the straight lines between readings,
    ``by_trapezoid`` the same by a rule that overstates it where readings lie far apart, and
    ``so_far`` what had come together at each reading. ``coarse`` counts stretches of come-up
    longer than two minutes without a reading.
    """

    times: Array
    temperatures: Array
    lethality: float
    by_trapezoid: float
    so_far: Array
    cook_value: float
    thiamin: float
    coarse: int

    @property
    def overstated(self) -> float:
        """By what share the trapezoid is above the exact integral; 0 where there is nothing."""
        return self.by_trapezoid / self.lethality - 1 if self.lethality > 1e-6 else 0.0


def cook(log: Log) -> Cook:
    """The sums of a temperature log.

    Parameters
    ----------
    log : of temperatures

    Returns
    -------
    Cook, minutes and shares

    Raises
    ------
    InputError
        A log of something else.

    Source
    ------
    ``physics/lethality.py``, which names method, reference and z of each figure. Explains and
    compares; never approves.
    """
    if log.kind != "temperature":
        raise InputError(f"{log.file}: has no temperatures. Name a column temp_f or temp_c.")
    read = log.read_off
    times = np.array([line.at for line in read])
    temperatures = np.array([line.kelvin for line in read], dtype=np.float64)
    return Cook(
        times=times,
        temperatures=temperatures,
        lethality=float(f0(times, temperatures)) / 60,
        by_trapezoid=float(by_trapezoid(times, temperatures, T_REF_F0, Z_F0)) / 60,
        so_far=equivalent_time_so_far(times, temperatures, T_REF_F0, Z_F0) / 60,
        cook_value=float(c100(times, temperatures)) / 60,
        thiamin=float(thiamin_retained(times, temperatures)),
        coarse=int(coarse(times, temperatures).sum()),
    )
