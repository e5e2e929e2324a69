"""The power of a burner as a person reads it off a plate: watts or Btu an hour."""

import re

from stillroom.errors import InputError

# A Btu (international table) is 1,055.05585262 J exactly by its definition.
_WATTS = {"w": 1.0, "kw": 1_000.0, "btu": 1_055.05585262 / 3_600}
_SAID = {"watt": "w", "watts": "w", "kilowatt": "kw", "kilowatts": "kw"}
_BTU_AN_HOUR = re.compile(r"btus?( ?(/|an|per)? ?(h|hr|hour))?")
_WRITTEN = re.compile(r"(\d{1,3}(?:[, ]\d{3})+|\d{1,6})(\.\d{1,3})?\s*([a-z/ ]+)")
# A household's burners lie well inside; a number beyond is a slip of the unit.
LEAST, MOST = 100.0, 30_000.0
# No burner's plate prints thousands of watts as high as this: Btu/h were meant.
_MOST_IN_WATTS = 6_000.0


def parse_power(text: str, where: str = "power") -> float:
    """Watts that a burner uses, whatever reaches the pot.

    Parameters
    ----------
    text : number and unit: "1,900 W", "2.2 kW", "9,000 Btu/h"
    where : what to name in an error: file and key

    Returns
    -------
    float, W

    Raises
    ------
    InputError
        No number, no unit, or a power no kitchen has.

    Source
    ------
    1 Btu (international table) = 1,055.05585262 J exactly (ISO 31-4).

    Examples
    --------
    >>> parse_power("1,900 W"), round(parse_power("12,000 Btu/h"))
    (1900.0, 3517)
    """
    found = _WRITTEN.fullmatch(text.strip().lower().rstrip("."))
    said = found.group(3).strip() if found else ""
    unit = "btu" if _BTU_AN_HOUR.fullmatch(said) else _SAID.get(said, said)
    if not found or unit not in _WATTS:
        raise InputError(
            f'{where}: "{text}" is not the power of a burner. Write a number and its unit, such '
            'as "1,900 W" or "9,000 Btu/h"; the plate or the manual of the stove tells it.'
        )
    number = float(re.sub(r"[, ]", "", found.group(1)) + (found.group(2) or ""))
    watts = number * _WATTS[unit]
    if not LEAST <= watts <= (_MOST_IN_WATTS if unit == "w" else MOST):
        raise InputError(
            f'{where}: "{text}" is no burner of a kitchen. Check the number and the unit '
            "(W, kW or Btu/h)."
        )
    return watts
