"""What is left of spores and vitamins after heat: D-values, log reductions, and their z.

D is the time that leaves a tenth. It is a convention: survival curves of spores bend (Peleg and
Cole 2000), and a spore in an acid food dies some three times sooner (Odlaug and Pflug 1977). Log
reductions explain and compare; no number of them approves a process.
"""

from math import log
from typing import Final

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.lethality import lethal_rate

D_BOTULINUM: Final = 0.21 * 60.0
"""D of Clostridium botulinum spores at 121.1 C, s: the high end of 0.1 to 0.21 min, whose z is
7.8 to 10 C (Lamikanra and others 2005, table 10.10). It belongs to ``Z_F0``."""

_GAS_CONSTANT: Final = 8.314462618  # J/(mol K), product of two defined constants, rounded


def decimal_reduction_time(
    temperatures: Array | float, at_reference: float, reference: float, z: float
) -> Array:
    """D, the time that leaves a tenth: at_reference 10^((reference - T)/z).

    Parameters
    ----------
    temperatures : any shape, K, from 250 to 500
    at_reference : scalar, s, D at the reference
    reference, z : scalars, K

    Returns
    -------
    same shape, s

    Raises
    ------
    OutOfRange
        As ``lethal_rate``, or a D that is no time.

    Source
    ------
    Bigelow's law; D and z of spores and vitamins in the constants of this module.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(float(decimal_reduction_time(383.15, D_BOTULINUM, 394.25, 10.0)) / 60, 3)
    2.705
    """
    if not 0 < at_reference < np.inf:
        raise OutOfRange(f"A D-value is a time above 0 s, not {at_reference} s.")
    return np.asarray(at_reference / lethal_rate(temperatures, reference, z))


def log_reductions(equivalent: Array | float, at_reference: float) -> Array:
    """How many times a tenth is left after an equivalent time at the reference.

    Parameters
    ----------
    equivalent : any shape, s, such as F0
    at_reference : scalar, s, D at the same reference, of the same z (K)

    Returns
    -------
    same shape, no unit

    Raises
    ------
    OutOfRange
        A D that is no time.

    Source
    ------
    Definition of D. A convention: real survival curves bend (Peleg and Cole 2000).
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(float(log_reductions(2.52 * 60, D_BOTULINUM)), 6)
    12.0
    """
    if not 0 < at_reference < np.inf:
        raise OutOfRange(f"A D-value is a time above 0 s, not {at_reference} s.")
    return np.asarray(np.asarray(equivalent, dtype=np.float64) / at_reference)


def z_of(activation_energy: float, temperature: float) -> float:
    """The z that an activation energy amounts to near a temperature: ln 10 R T^2/E.

    Parameters
    ----------
    activation_energy : scalar, J/mol, above 0
    temperature : scalar, K, above 0

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        An energy or temperature that is not above 0.

    Source
    ------
    Slope of the Arrhenius law (any kinetics text). Explains and compares.

    Examples
    --------
    >>> round(z_of(94_900.0, 375.85), 1)  # hardness of peas, printed z 28.5 (Van Loey 1995)
    28.5
    """
    if not (0 < activation_energy < np.inf and 0 < temperature < np.inf):
        raise OutOfRange(
            f"No z from {activation_energy} J/mol at {temperature} K: both lie above 0."
        )
    return log(10.0) * _GAS_CONSTANT * temperature**2 / activation_energy
