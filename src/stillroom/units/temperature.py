"""Temperatures as a kitchen reads them, F first and C beside it; kelvin inside."""

import re
from typing import Final

from stillroom.errors import InputError

COLDEST_F, HOTTEST_F = 0.0, 300.0
"""What food, water and canners of a kitchen have, F: below is deep frost, above no canner goes."""

_WRITTEN: Final = re.compile(r"(-?\d{1,4}(?:\.\d{1,6})?)\s*(?:°|deg\.?|degrees)?\s*([fc])", re.I)


def fahrenheit(kelvin: float) -> float:
    """Degrees F of a temperature in K.

    Examples
    --------
    >>> round(fahrenheit(388.7056), 2)
    240.0
    """
    return kelvin * 1.8 - 459.67


def celsius(kelvin: float) -> float:
    """Degrees C of a temperature in K."""
    return kelvin - 273.15


def said(kelvin: float) -> str:
    """A temperature as it is told.

    Examples
    --------
    >>> said(388.7056)
    '240.0 F (115.6 C)'
    """
    return f"{fahrenheit(kelvin):.1f} F ({celsius(kelvin):.1f} C)"


def parse_temperature(text: str, where: str = "temperature") -> float:
    """K of a temperature with its unit.

    Parameters
    ----------
    text : number and unit, F or C: "170 F", "77 C"
    where : what to name in an error: an option, or file and column

    Raises
    ------
    InputError
        No number, no unit, or a temperature no kitchen has.

    Examples
    --------
    >>> round(parse_temperature("170 F"), 2), round(parse_temperature("-5.5 C"), 2)
    (349.82, 267.65)
    """
    found = _WRITTEN.fullmatch(text.strip())
    if not found:
        raise InputError(
            f'{where}: "{text}" is not a temperature. Write a number and its unit, such as '
            '"170 F" or "77 C".'
        )
    degrees, unit = float(found.group(1)), found.group(2).lower()
    kelvin = degrees + 273.15 if unit == "c" else (degrees + 459.67) / 1.8
    if not COLDEST_F - 1e-9 <= fahrenheit(kelvin) <= HOTTEST_F + 1e-9:
        raise InputError(
            f'{where}: "{text}" is no temperature of a kitchen ({COLDEST_F:.0f} to '
            f"{HOTTEST_F:.0f} F). Check the number and the unit."
        )
    return kelvin
