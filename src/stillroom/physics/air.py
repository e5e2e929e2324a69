"""Air left in a canner, and a gauge that is off: why the gauge may show more than the jars feel.

A gauge shows the pressure of all the gas in the canner. Only the steam's part of it decides the
temperature (Dalton's law): with air in it, a canner at the right pressure is colder than that
pressure says, and the lethal rate falls steeply with the temperature.

These laws say why the published ten minutes of venting and a tested gauge matter. They are no
ground for a longer or shorter vent, and none for another pressure.
"""

from math import log
from typing import Final

from stillroom.errors import OutOfRange
from stillroom.physics.atmosphere import (
    GaugePressure,
    boiling_point,
    canner_temperature,
    standard_pressure,
)
from stillroom.physics.steam import (
    LOWEST_TEMPERATURE,
    AbsolutePressure,
    saturation_pressure,
    saturation_temperature,
)

PURGE_LEAVES_OUT: Final = (
    "It counts only the air that is in the canner at first. Jars go on giving off air as they "
    "warm, which it does not count, so the published ten minutes of venting stand."
)
"""The sentence beside every figure from ``least_purge``."""

_MOLAR_MASS: Final = 0.018015268  # kg/mol of water, IAPWS R6-95
_GAS_CONSTANT: Final = 8.314462618  # J/(mol K), product of two defined constants, rounded


def temperature_with_air(gauge: GaugePressure, elevation: float, air: float) -> float:
    """Temperature in a canner whose gas is steam with a share of air, evenly mixed.

    Formula
    -------
    saturation_temperature((1 - air) (standard_pressure(elevation) + gauge)).

    Parameters
    ----------
    gauge : GaugePressure, scalar, Pa gauge
    elevation : scalar, m above sea level, from -2 000 to 11 000
    air : scalar, moles of air in a mole of the gas, from 0 to less than 1

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        A share that is none, an elevation outside its range, or too little steam to boil.

    Source
    ------
    Dalton's law of partial pressures, with ISO 2533:1975 and IAPWS R7-97 (2012), region 4.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> eleven = GaugePressure(75_842.0)  # 11 psi
    >>> [round(temperature_with_air(eleven, 0.0, air) * 1.8 - 459.67, 1) for air in (0, 0.05, 0.1)]
    [241.6, 238.7, 235.7]
    """
    if not 0 <= air < 1:
        raise OutOfRange(f"A share of air is {air}: write 0 (all steam) to less than 1.")
    total = standard_pressure(elevation) + gauge.pascals
    return _steam_temperature((1 - air) * total)


def temperature_with_kept_air(gauge: GaugePressure, elevation: float, kept: float) -> float:
    """Temperature in a canner that kept a part of the air it was closed with.

    The older textbooks' way to tell it: none let out (kept 1), half, all (kept 0). The air kept is
    counted at the pressure it had outside, and the gauge shows air and steam together.

    Formula
    -------
    saturation_temperature((1 - kept) standard_pressure(elevation) + gauge).

    Parameters
    ----------
    gauge : GaugePressure, scalar, Pa gauge
    elevation : scalar, m above sea level, from -2 000 to 11 000
    kept : scalar, share of the first air, from 0 to 1

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        A share that is none, an elevation outside its range, or too little steam to boil.

    Source
    ------
    Dalton's law as old laboratory tables of autoclaves use it (from memory; no print was readable).
    The air's own warming is left out there, and here. Explains; never yields a process.

    Examples
    --------
    >>> fifteen = GaugePressure(103_421.0)  # 15 psi
    >>> [round(temperature_with_kept_air(fifteen, 0.0, kept) - 273.15, 1) for kept in (1, 0.5, 0)]
    [100.5, 112.2, 121.0]
    """
    if not 0 <= kept <= 1:
        raise OutOfRange(f"A kept share of air is {kept}: write 0 (all let out) to 1 (none).")
    outside = standard_pressure(elevation)
    return _steam_temperature(outside * (1 - kept) + gauge.pascals)


def true_gauge(reading: GaugePressure, error: float) -> GaugePressure:
    """What an exact gauge would show where this one shows a reading.

    Parameters
    ----------
    reading : GaugePressure, scalar, Pa gauge, as shown
    error : scalar, Pa: above 0 where the gauge reads high, below 0 where it reads low

    Returns
    -------
    GaugePressure, Pa gauge: reading less error

    Raises
    ------
    OutOfRange
        A gauge that reads high by more than it shows, or an error that is not a number.

    Source
    ------
    Definition of a gauge's error. Explains and warns; a gauge that is off is replaced or tested
    by the rules of its guide, never corrected for here.

    Examples
    --------
    >>> true_gauge(GaugePressure(75_842.0), 6_895.0)
    GaugePressure(pascals=68947.0)
    """
    if not error <= reading.pascals:
        raise OutOfRange(
            f"A gauge that shows {reading.pascals} Pa cannot read high by {error} Pa: "
            "no pressure would be left."
        )
    return GaugePressure(reading.pascals - error)


def misread_temperature(reading: GaugePressure, error: float, elevation: float) -> float:
    """Temperature of steam, free of air, in a canner whose gauge reads high or low.

    Parameters
    ----------
    reading : GaugePressure, scalar, Pa gauge, as shown
    error : scalar, Pa: above 0 where the gauge reads high (the canner is colder than it shows)
    elevation : scalar, m above sea level, from -2 000 to 11 000

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        As ``true_gauge`` and ``canner_temperature``.

    Source
    ------
    ISO 2533:1975 and IAPWS R7-97 (2012), region 4. Explains and warns; never yields a process.

    Examples
    --------
    >>> shown = GaugePressure(75_842.0)  # 11 psi, and the gauge reads 2 psi high
    >>> round(misread_temperature(shown, 13_790.0, 0.0) * 1.8 - 459.67, 1)
    237.1
    """
    return canner_temperature(true_gauge(reading, error), elevation)


def least_purge(steam: float, room: float, elevation: float, left: float) -> float:
    """The least time in which a vent brings the air of a well-mixed canner down to a share.

    A canner full of air at the temperature of boiling water; steam comes in evenly, mixes at once,
    and as much gas leaves through the vent. Print ``PURGE_LEAVES_OUT`` beside the figure: air that
    jars give off later, and air in corners that do not mix, are not in it.

    Formula
    -------
    left = exp(-t/tau), tau = p room M / (R T steam): the moles in the room over those of the steam
    that comes in each second, as ideal gases at the boiling point.

    Parameters
    ----------
    steam : scalar, kg/s let out through the vent, above 0
    room : scalar, m3 of gas in the canner: without water, jars and food, above 0
    elevation : scalar, m above sea level, from -2 000 to 11 000
    left : scalar, moles of air in a mole of gas at the end, above 0 to 1

    Returns
    -------
    scalar, s

    Raises
    ------
    OutOfRange
        A flow, room or share that is none, or an elevation outside its range (standard air, Pa).

    Source
    ------
    Mass balance of a stirred vessel (any text on reactors); the flow is the caller's.
    Explains and warns; never yields a venting time.

    Examples
    --------
    >>> round(least_purge(steam=0.44 / 600, room=0.010, elevation=0.0, left=0.01))
    37
    """
    for name, value, unit in (("flow of steam", steam, "kg/s"), ("room for gas", room, "m3")):
        if not 0 < value < float("inf"):
            raise OutOfRange(f"A {name} is {value} {unit}: it lies above 0.")
    if not 0 < left <= 1:
        raise OutOfRange(f"A share of air left is {left}: write more than 0, up to 1.")
    pressure, temperature = standard_pressure(elevation), boiling_point(elevation)
    moles = pressure * room / (_GAS_CONSTANT * temperature)
    return moles * _MOLAR_MASS / steam * log(1 / left)


def _steam_temperature(pressure: float) -> float:
    """Saturation temperature of the steam's part, with a message about air where there is none."""
    if not pressure >= saturation_pressure(LOWEST_TEMPERATURE):
        raise OutOfRange(
            f"With so much air only {pressure:.0f} Pa of the pressure is steam: too little for "
            f"water above {LOWEST_TEMPERATURE} K."
        )
    return saturation_temperature(AbsolutePressure(pressure))
