"""Elevation as a person writes it, to whole feet."""

import re

from stillroom.errors import InputError

# 20,000 ft lies above the highest town on earth: a larger number is a slip of the unit.
HIGHEST_FT = 20_000
# The lowest dry land, a salt lake's shore, lies at about -1,400 ft.
LOWEST_FT = -2_000
# No elevation needs more; a number of thousands of digits is a slip of the paste.
MOST_DIGITS = 20

# Thousands stand in groups of three; "1.600 m" may be meant as thousands or as a part of a metre.
_WRITTEN = re.compile(
    r"([+-]?)\s*(\d{1,3}(?:[, ]\d{3})+|\d+)(?:\.(\d+))?\s*([a-z.'′]*)", re.IGNORECASE
)
_AMBIGUOUS = re.compile(r"\d{1,3}\.\d{3}")
_FEET = {"ft", "ft.", "feet", "foot", "'", "′"}
_METRES = {"m", "m.", "metre", "metres", "meter", "meters"}


def parse_elevation(text: str, where: str = "elevation") -> int:
    """Whole feet above sea level, rounded up so that a band edge is never crossed downwards.

    Parameters
    ----------
    text : number and unit, ft or m: "5,430 ft", "1655 m", "-20 ft"
    where : what to name in an error: an option, or file and key

    Returns
    -------
    int, ft; negative below sea level

    Raises
    ------
    InputError
        No number, no unit, an unknown unit, more than 20,000 ft, or less than -2,000 ft.

    Source
    ------
    1 ft = 0.3048 m exactly (international foot). The tables print whole feet, so 1,000.5 ft
    belongs to the band that starts at 1,001 ft.

    Examples
    --------
    >>> parse_elevation("5,430 ft"), parse_elevation("304.8 m"), parse_elevation("305 m")
    (5430, 1000, 1001)
    """
    found = _WRITTEN.fullmatch(text.strip())
    unit = found.group(4).lower() if found else ""
    if not found or (unit not in _FEET and unit not in _METRES):
        raise InputError(
            f'{where}: "{text}" is not an elevation. Write a number and its unit, '
            'such as "5200 ft" or "1600 m". Your county office or a topographic map knows yours.'
        )
    if _AMBIGUOUS.fullmatch(f"{found.group(2)}.{found.group(3)}"):
        raise InputError(
            f'{where}: "{text}" can be read in two ways. Write thousands without a dot: '
            f'"{found.group(2)}{found.group(3)} {unit}", or a part with one or two digits.'
        )
    sign, whole, part = found.group(1), found.group(2), found.group(3) or ""
    if len(whole) + len(part) > MOST_DIGITS:
        raise InputError(f"{where}: {len(whole) + len(part)} digits are no elevation. Check it.")
    digits = int(re.sub(r"[, ]", "", whole) + part)
    top, bottom = (digits, 1) if unit in _FEET else (digits * 10_000, 3048)
    bottom *= int("1" + "0" * len(part))
    if sign == "-":
        top = -top
    feet = -(-top // bottom)
    if feet > HIGHEST_FT:
        raise InputError(
            f'{where}: "{text}" is higher than any town. Check the number and the unit (ft or m).'
        )
    if feet < LOWEST_FT:
        raise InputError(
            f'{where}: "{text}" is lower than any dry land. Check the number and its unit.'
        )
    return feet
