"""The air a canner stands in: what elevation does to boiling and to a gauge.

A gauge counts from the air outside, so the steam inside feels the gauge plus the air. Here the air
is the standard atmosphere of ISO 2533 (the same as ICAO's). Weather moves the real one, which these
functions do not know.
"""

from dataclasses import dataclass
from math import pow
from typing import Final

from stillroom.errors import OutOfRange
from stillroom.physics.steam import AbsolutePressure, saturation_temperature

LOWEST_ELEVATION: Final = -2_000.0
"""Deeper than any dry land, m. ISO 2533 with its addendum 2 goes on to -5 000 m."""

HIGHEST_ELEVATION: Final = 11_000.0
"""The end of the standard's lowest layer, m; the formula below holds only inside that layer."""

# ISO 2533:1975, section 2: the constants on which the standard atmosphere is built.
_SEA_LEVEL_PRESSURE: Final = 101_325.0  # Pa
_SEA_LEVEL_TEMPERATURE: Final = 288.15  # K
_LAPSE_RATE: Final = 0.0065  # K/m, geopotential
_GRAVITY: Final = 9.80665  # m/s2
_GAS_CONSTANT: Final = 287.05287  # J/(kg K)
_EARTH_RADIUS: Final = 6_356_766.0  # m, the standard's nominal radius


@dataclass(frozen=True, slots=True)
class GaugePressure:
    """Pressure above the air outside, as a canner's gauge shows it: scalar, Pa, 0 or more.

    It is no float, so it cannot be added to an ``AbsolutePressure`` or taken for one.
    A pressure that is below zero or is not a number raises ``OutOfRange``.

    >>> GaugePressure(75_842.0)
    GaugePressure(pascals=75842.0)
    """

    pascals: float

    def __post_init__(self) -> None:
        """Refuse what no canner gauge can show."""
        if not self.pascals >= 0:
            raise OutOfRange(
                f"A canner's gauge shows no {self.pascals} Pa: its scale starts at 0, "
                "the pressure of the air outside."
            )


def standard_pressure(elevation: float) -> AbsolutePressure:
    """Pressure of the air at an elevation in the standard atmosphere.

    Formula
    -------
    With the geopotential height h = r z / (r + z), r = 6 356 766 m:
    p = 101 325 (1 - 0.0065 h / 288.15)^(g / (0.0065 R)) Pa.

    Parameters
    ----------
    elevation : scalar, m above sea level (geometric, as a map gives it), from -2 000 to 11 000

    Returns
    -------
    scalar, Pa absolute (not gauge)

    Raises
    ------
    OutOfRange
        The elevation lies outside the range or is not a number.

    Source
    ------
    ISO 2533:1975, section 2 (equal to ICAO Doc 7488/3, 1993, below 11 km).
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(standard_pressure(1_000.0))
    89876
    """
    if not LOWEST_ELEVATION <= elevation <= HIGHEST_ELEVATION:
        raise OutOfRange(
            f"No standard air pressure for an elevation of {elevation} m: the formula holds "
            f"from {LOWEST_ELEVATION:.0f} to {HIGHEST_ELEVATION:.0f} m (ISO 2533)."
        )
    geopotential = _EARTH_RADIUS * elevation / (_EARTH_RADIUS + elevation)
    cooling = 1 - _LAPSE_RATE * geopotential / _SEA_LEVEL_TEMPERATURE
    exponent = _GRAVITY / (_LAPSE_RATE * _GAS_CONSTANT)
    return AbsolutePressure(_SEA_LEVEL_PRESSURE * pow(cooling, exponent))


def boiling_point(elevation: float) -> float:
    """Temperature at which water boils in an open pot: that of steam at the standard pressure.

    Parameters
    ----------
    elevation : scalar, m above sea level (geometric), from -2 000 to 11 000

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        The elevation lies outside the range or is not a number.

    Source
    ------
    ISO 2533:1975, section 2, and IAPWS R7-97 (2012), region 4.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(boiling_point(0.0), 2)
    373.12
    """
    return saturation_temperature(standard_pressure(elevation))


def canner_temperature(gauge: GaugePressure, elevation: float) -> float:
    """Temperature of saturated steam, free of air, in a canner with an exact gauge.

    Air left in the canner, a gauge that is off and the weather each make the truth differ.
    Formula: saturation_temperature(standard_pressure(elevation) + gauge).

    Parameters
    ----------
    gauge : GaugePressure, scalar, Pa gauge, 0 or more
    elevation : scalar, m above sea level (geometric), from -2 000 to 11 000

    Returns
    -------
    scalar, K

    Raises
    ------
    OutOfRange
        The elevation lies outside its range, or gauge and air together outside that of steam.

    Source
    ------
    ISO 2533:1975, section 2, and IAPWS R7-97 (2012), region 4.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(canner_temperature(GaugePressure(75_842.0), 0.0), 1)
    389.6
    """
    outside = standard_pressure(elevation)
    return saturation_temperature(AbsolutePressure(outside + gauge.pascals))
