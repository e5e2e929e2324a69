"""Saturated steam: which temperature belongs to which pressure.

The saturation line of IAPWS R7-97 (2012), region 4: one quadratic in the fourth root of the
pressure, solved either for the pressure or for the temperature, so the two functions below are
inverses of each other without iteration. Steam with air in it is colder than this line says.
"""

from math import sqrt
from typing import Final, NewType

from stillroom.errors import OutOfRange

AbsolutePressure = NewType("AbsolutePressure", float)
"""Pressure counted from vacuum, Pa. What a canner's gauge shows is a ``GaugePressure``."""

LOWEST_TEMPERATURE: Final = 273.15
"""Lower end of the saturation line in IAPWS R7-97, K."""

HIGHEST_TEMPERATURE: Final = 647.096
"""Upper end of the saturation line: the critical point of water, K."""

# IAPWS R7-97, table 34. Temperatures in K, pressures in MPa.
_N1: Final = 0.11670521452767e4
_N2: Final = -0.72421316703206e6
_N3: Final = -0.17073846940092e2
_N4: Final = 0.12020824702470e5
_N5: Final = -0.32325550322333e7
_N6: Final = 0.14915108613530e2
_N7: Final = -0.48232657361591e4
_N8: Final = 0.40511340542057e6
_N9: Final = -0.23855557567849
_N10: Final = 0.65017534844798e3

_PASCALS_PER_MEGAPASCAL: Final = 1e6


def saturation_pressure(temperature: float) -> AbsolutePressure:
    """Absolute pressure of saturated steam.

    Formula
    -------
    With v = T + n9 / (T - n10), A = v^2 + n1 v + n2, B = n3 v^2 + n4 v + n5,
    C = n6 v^2 + n7 v + n8: p = (2 C / (-B + sqrt(B^2 - 4 A C)))^4 MPa.

    Parameters
    ----------
    temperature : scalar, K, from 273.15 to 647.096

    Returns
    -------
    scalar, Pa absolute (not gauge), from 611.2 to 22 064 000

    Raises
    ------
    OutOfRange
        The temperature lies outside the range or is not a number.

    Source
    ------
    IAPWS R7-97 (2012), section 8.1, saturation-pressure equation, coefficients of table 34.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(saturation_pressure(373.15))
    101418
    """
    if not LOWEST_TEMPERATURE <= temperature <= HIGHEST_TEMPERATURE:
        raise OutOfRange(
            f"No saturated steam at {temperature} K: the saturation line runs "
            f"from {LOWEST_TEMPERATURE} to {HIGHEST_TEMPERATURE} K (IAPWS R7-97)."
        )
    v = temperature + _N9 / (temperature - _N10)
    a = v * v + _N1 * v + _N2
    b = _N3 * v * v + _N4 * v + _N5
    c = _N6 * v * v + _N7 * v + _N8
    fourth_root = 2 * c / (-b + sqrt(b * b - 4 * a * c))
    return AbsolutePressure(fourth_root**4 * _PASCALS_PER_MEGAPASCAL)


def saturation_temperature(pressure: AbsolutePressure) -> float:
    """Temperature at which water boils and steam condenses under an absolute pressure.

    Formula
    -------
    With b = (p in MPa)^(1/4), E = b^2 + n3 b + n6, F = n1 b^2 + n4 b + n7,
    G = n2 b^2 + n5 b + n8, D = 2 G / (-F - sqrt(F^2 - 4 E G)):
    T = (n10 + D - sqrt((n10 + D)^2 - 4 (n9 + n10 D))) / 2.

    Parameters
    ----------
    pressure : scalar, Pa absolute (not gauge), the saturation pressures of 273.15 to 647.096 K

    Returns
    -------
    scalar, K, from 273.15 to 647.096

    Raises
    ------
    OutOfRange
        The pressure lies outside the range or is not a number.

    Source
    ------
    IAPWS R7-97 (2012), section 8.2, saturation-temperature equation, coefficients of table 34.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(saturation_temperature(AbsolutePressure(101_325.0)), 3)
    373.124
    """
    lowest = saturation_pressure(LOWEST_TEMPERATURE)
    highest = saturation_pressure(HIGHEST_TEMPERATURE)
    if not lowest <= pressure <= highest:
        raise OutOfRange(
            f"No saturated steam at {pressure} Pa absolute: the saturation line runs "
            f"from {lowest:.1f} to {highest:.0f} Pa (IAPWS R7-97)."
        )
    beta = sqrt(sqrt(pressure / _PASCALS_PER_MEGAPASCAL))
    e = beta * beta + _N3 * beta + _N6
    f = _N1 * beta * beta + _N4 * beta + _N7
    g = _N2 * beta * beta + _N5 * beta + _N8
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    return (_N10 + d - sqrt((_N10 + d) ** 2 - 4 * (_N9 + _N10 * d))) / 2
