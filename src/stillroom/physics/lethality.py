"""What heat does to spores, vitamins and texture, added up over a temperature history.

Each law here is an equivalent time: a minute at one temperature counts as so many minutes at a
reference, ten times as many for every z degrees. F0 is that of spores (reference 121.1 C, z 10 C),
the cook value C100 that of texture and flavor (reference 100 C, z 33 C).

F0's reference is 121.1 C, as texts print it. 250 F is 121.111 C exactly: with it every F0 would be
0.26 % lower. Both are in use, so name the reference beside a figure.

Between two readings the temperature is taken to run straight, and its integral is then exact:
method "exact integral of straight lines between readings". Name the method beside every F0: from
one coarse list the trapezoid rule, a plain sum and Simpson's rule each make another figure.

A food's published process was found by experiment, with inoculated packs or heat penetration
tests. Nothing in here replaces it.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.history import COLDEST, HOTTEST, History

APPROVES_NOTHING: Final = (
    "These figures explain and compare; they approve no process, and the published one stands."
)
"""The sentence beside every figure that comes from this module."""

METHOD: Final = "exact integral of straight lines between readings"
"""What to call the method of ``f0``, ``c100`` and ``equivalent_time``."""

TRAPEZOID: Final = "trapezoid rule on the lethal rates"
"""What to call the method of ``by_trapezoid``."""

T_REF_F0: Final = 394.25
"""Reference of F0, K: 121.1 C."""

Z_F0: Final = 10.0
"""z of F0, K."""

T_REF_C100: Final = 373.15
"""Reference of the cook value, K: 100 C."""

Z_C100: Final = 33.0
"""z of the cook value, K: from memory (Mansfield 1962 is said to have 33.1; not read)."""

D_THIAMIN: Final = 158.0 * 60.0
"""D of thiamin in carrot puree of pH 5.9 at 121.1 C, s (Lamikanra and others 2005, table 10.10,
109 to 149 C). Other foods differ widely: activation energies of 33 to 124 kJ/mol are printed."""

Z_THIAMIN: Final = 25.0
"""z of thiamin in carrot puree, K (the same table)."""

COARSE: Final = 120.0
"""Readings further apart than this, s, are coarse during come-up: this project's choice. At five
minutes the trapezoid overstates a come-up from 100 to 121.1 C in twenty by 12 %, at two by 2 %."""

_COME_UP_OVER: Final = 0.5  # K below the hottest reading
_LN10: Final = float(np.log(10.0))


def lethal_rate(temperatures: Array | float, reference: float = T_REF_F0, z: float = Z_F0) -> Array:
    """How many seconds at the reference one second counts for: 10^((T - reference)/z).

    Parameters
    ----------
    temperatures : any shape, K, from 250 to 500
    reference : scalar, K
    z : scalar, K, from 1 to 200

    Returns
    -------
    same shape, no unit

    Raises
    ------
    OutOfRange
        A temperature or constant outside its range; the message names the first and its place.

    Source
    ------
    Bigelow's law, as in Warne, Manual on Fish Canning (FAO Fish. Tech. Paper 285, 1988).
    Explains and warns; never yields a process.

    Examples
    --------
    >>> lethal_rate(np.array([384.25, 394.25, 404.25])).round(6)
    array([ 0.1,  1. , 10. ])
    """
    _check_constants(reference, z)
    checked = np.asarray(temperatures, dtype=np.float64)
    fits = (checked >= COLDEST) & (checked <= HOTTEST)
    if not np.all(fits):
        place = tuple(int(i) for i in np.argwhere(~np.atleast_1d(fits))[0])
        raise OutOfRange(
            f"Temperature {place} is {np.atleast_1d(checked)[place]} K: a canner's lie between "
            f"{COLDEST:.0f} and {HOTTEST:.0f} K."
        )
    return _rate(checked, reference, z)


def equivalent_time(times: Array, temperatures: Array, reference: float, z: float) -> Array:
    """Time at the reference temperature that does as much as a history.

    Formula
    -------
    From T1 to T2 in dt, with x = ln 10 (T2 - T1)/z: dt L(T1) (e^x - 1)/x, exactly; where the
    temperature stands still the last factor is 1.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500
    reference : scalar, K
    z : scalar, K, from 1 to 200

    Returns
    -------
    shape () or (n,), s

    Raises
    ------
    OutOfRange
        An instant out of order, a temperature or constant outside its range, by its place.

    Source
    ------
    Integral of Bigelow's law over straight pieces, in closed form.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> ramp = equivalent_time(np.array([0.0, 1200.0]), np.array([373.15, 394.25]), 394.25, 10.0)
    >>> round(float(ramp) / 60, 4)
    4.0846
    """
    return np.asarray(_pieces(times, temperatures, reference, z).sum(axis=-1))


def equivalent_time_so_far(
    times: Array, temperatures: Array, reference: float = T_REF_F0, z: float = Z_F0
) -> Array:
    """``equivalent_time`` from the first instant up to each one: a running total.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500
    reference, z : scalars, K; those of F0 unless others are given

    Returns
    -------
    shape (k,) or (n, k), s, beginning with 0

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    As ``equivalent_time``. Explains and warns; never yields a process.

    Examples
    --------
    >>> equivalent_time_so_far(np.array([0.0, 60.0, 120.0]), np.full(3, 394.25))
    array([  0.,  60., 120.])
    """
    pieces = _pieces(times, temperatures, reference, z)
    total = np.zeros((*pieces.shape[:-1], pieces.shape[-1] + 1))
    np.cumsum(pieces, axis=-1, out=total[..., 1:])
    return total


def f0(times: Array, temperatures: Array) -> Array:
    """F0 of a history: reference 121.1 C, z 10 C, exact between readings.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500

    Returns
    -------
    shape () or (n,), s

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    Definition of F0 (Warne, FAO Fish. Tech. Paper 285, 1988), its reference as printed there.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(float(f0(np.array([0.0, 600.0]), np.array([384.25, 384.25]))), 6)
    60.0
    """
    return equivalent_time(times, temperatures, T_REF_F0, Z_F0)


def c100(times: Array, temperatures: Array) -> Array:
    """Cook value of a history: reference 100 C, z 33 C, exact between readings.

    Compare foods and places of one load by it; it promises no texture. Softening runs in two
    parts, and constants do not group by food (Bourne 1989; Lee 2017).

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500

    Returns
    -------
    shape () or (n,), s

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    The z of 33 C is from memory (said to be Mansfield 1962).
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(float(c100(np.array([0.0, 60.0]), np.array([394.25, 394.25]))) / 60, 3)
    4.359
    """
    return equivalent_time(times, temperatures, T_REF_C100, Z_C100)


def by_trapezoid(
    times: Array, temperatures: Array, reference: float = T_REF_F0, z: float = Z_F0
) -> Array:
    """The same by the trapezoid rule on lethal rates, to show how far a coarse log misleads.

    It is never below the exact figure: between two readings the rate hangs below its chord.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500
    reference, z : scalars, K; those of F0 unless others are given

    Returns
    -------
    shape () or (n,), s

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    General method by trapezoids (Warne, FAO Fish. Tech. Paper 285, 1988).
    Explains and warns; never yields a process.

    Examples
    --------
    >>> minutes = np.arange(0.0, 21.0, 5.0)
    >>> round(float(by_trapezoid(60 * minutes, 373.15 + 21.1 * minutes / 20)) / 60, 4)
    4.5748
    """
    _check_constants(reference, z)
    history = _history(times, temperatures)
    rates = _rate(history.temperatures, reference, z)
    return np.asarray(np.trapezoid(rates, history.times, axis=-1))


def coarse(times: Array, temperatures: Array | None = None) -> NDArray[np.bool_]:
    """Which stretches between readings are too long for a come-up: more than two minutes.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,) or (n, k), K; with them, only stretches count that begin before the
        history is within half a kelvin of its hottest reading

    Returns
    -------
    shape (k - 1,) or (n, k - 1), true or false

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    This project's choice, by the error of the trapezoid on a ramp. Explains and warns.

    Examples
    --------
    >>> log = np.array([0.0, 60.0, 300.0, 900.0, 1500.0])
    >>> coarse(log, np.array([373.0, 376.0, 389.0, 389.5, 389.5]))
    array([False,  True, False, False])
    """
    if temperatures is None:
        gaps = np.diff(_history(times, np.full(np.shape(times), T_REF_F0)).times)
        return np.asarray(gaps > COARSE)
    history = _history(times, temperatures)
    hottest = history.temperatures.max(axis=-1, keepdims=True)
    come_up = history.temperatures < hottest - _COME_UP_OVER
    rising = np.logical_and.accumulate(come_up, axis=-1)[..., :-1]
    return np.asarray((np.diff(history.times) > COARSE) & rising)


def thiamin_retained(times: Array, temperatures: Array) -> Array:
    """Share of thiamin (vitamin B1) that a history leaves, as in carrot puree.

    Parameters
    ----------
    times : shape (k,), s, each later than the one before
    temperatures : shape (k,), or (n, k) for n jars, K, from 250 to 500

    Returns
    -------
    shape () or (n,), from 0 to 1

    Raises
    ------
    OutOfRange
        As ``equivalent_time``.

    Source
    ------
    D 158 min at 121.1 C, z 25 C: carrot puree of pH 5.9, measured at 109 to 149 C
    (Lamikanra and others 2005, table 10.10). Other foods differ widely. Explains and compares.

    Examples
    --------
    >>> round(float(thiamin_retained(np.array([0.0, 1200.0]), np.full(2, 394.25))), 3)
    0.747
    """
    lost = equivalent_time(times, temperatures, T_REF_F0, Z_THIAMIN) / D_THIAMIN
    return np.asarray(10.0**-lost)


def _rate(temperatures: Array, reference: float, z: float) -> Array:
    return np.asarray(np.exp((temperatures - reference) * (_LN10 / z)))


def _pieces(times: Array, temperatures: Array, reference: float, z: float) -> Array:
    """Equivalent time of each stretch between readings, shape (k - 1,) or (n, k - 1)."""
    _check_constants(reference, z)
    history = _history(times, temperatures)
    before = history.temperatures[..., :-1]
    x = np.diff(history.temperatures, axis=-1) * (_LN10 / z)
    # expm1(x)/x keeps its digits however small the rise; on the flat its limit is 1.
    flat = x == 0.0
    grown = np.where(flat, 1.0, np.expm1(x) / np.where(flat, 1.0, x))
    return np.asarray(np.diff(history.times) * _rate(before, reference, z) * grown)


def _history(times: Array, temperatures: Array) -> History:
    """The readings, checked: a history refuses what is out of order or range by its place."""
    return History(np.asarray(times, dtype=np.float64), np.asarray(temperatures, dtype=np.float64))


def _check_constants(reference: float, z: float) -> None:
    if not COLDEST <= reference <= HOTTEST:
        raise OutOfRange(
            f"A reference temperature lies between {COLDEST:.0f} and {HOTTEST:.0f} K, "
            f"not at {reference} K."
        )
    if not 1.0 <= z <= 200.0:
        raise OutOfRange(f"z is {z} K: for spores, vitamins and texture it lies between 1 and 200.")
