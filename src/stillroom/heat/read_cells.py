"""The cells of one line of a log: a figure, a boil, an event, each read or told."""

import re
from dataclasses import replace
from typing import Final

from stillroom.errors import InputError
from stillroom.heat.log import EVENTS, READINGS, Reading
from stillroom.units.si import PASCALS_PER_PSI
from stillroom.words import did_you_mean

PSI_PER_KPA: Final = 1000 / PASCALS_PER_PSI
HIGHEST_PSI: Final = 30.0
"""No gauge of a home canner shows more; a larger number is a slip of the unit or the pen."""
LOWEST_F, HIGHEST_F = 0.0, 300.0

_NUMBER: Final = re.compile(r"[+-]?(\d{1,6})(\.\d{1,9})?")
_BOILS: Final = {"yes": True, "y": True, "full": True, "no": False, "n": False, "stopped": False}


def read_cells(where: str, number: int, at: float, cell: dict[str, str]) -> Reading:
    """A line of a log from its cells by the names of their columns.

    Parameters
    ----------
    where : file and line, as an error names them
    number : of the line
    at : s, its time
    cell : text by column; one column is a key of ``READINGS``

    Raises
    ------
    InputError
        Naming the column, what was written, and what to write instead.

    Examples
    --------
    >>> read_cells("run.csv, line 3", 3, 60.0, {"time": "1", "psi": "12.5"}).psi
    12.5
    """
    line = Reading(number, at, cell["time"], event=_event(where, cell), note=cell.get("note", ""))
    name = next(name for name in cell if name in READINGS)
    said = cell[name]
    if not said:
        if line.event or line.note:
            return line
        raise InputError(
            f"{where}, {name}: nothing is written. Write what was read, or leave the line out."
        )
    here = f"{where}, {name}"
    match name:
        case "psi":
            return replace(line, psi=_pressure(here, said, _number(here, said, "11.5"), 1.0))
        case "kpa":
            return replace(line, psi=_pressure(here, said, _number(here, said, "79"), PSI_PER_KPA))
        case "boil":
            if said.lower() not in _BOILS:
                raise InputError(
                    f'{here}: "{said}" does not fit. Write yes for a full boil, or no where it '
                    "had stopped."
                )
            return replace(line, boils=_BOILS[said.lower()])
        case _:
            degrees = _number(here, said, "240.5" if name == "temp_f" else "115.8")
            return replace(line, kelvin=_temperature(here, said, degrees, name))


def _event(where: str, cell: dict[str, str]) -> str:
    said = cell.get("event", "")
    plain = " ".join(said.lower().replace("_", " ").replace("-", " ").split())
    if plain and plain not in EVENTS:
        raise InputError(
            f'{where}, event: "{said}" is not an event.{did_you_mean(plain, EVENTS)} Events: '
            f"{', '.join(EVENTS)}. Other remarks belong into a column called note."
        )
    return plain


def _number(where: str, said: str, such_as: str) -> float:
    if not _NUMBER.fullmatch(said):
        raise InputError(
            f'{where}: "{said}" is not a number. Write the figure alone, such as {such_as}.'
        )
    return float(said)


def _pressure(where: str, said: str, value: float, unit: float) -> float:
    psi = value * unit
    if not 0 <= psi <= HIGHEST_PSI:
        most = f"{HIGHEST_PSI / unit:.0f} {'psi' if unit == 1.0 else 'kPa'}"
        raise InputError(
            f"{where}: {said} does not fit. A canner's gauge shows 0 to {most}; check the figure "
            "and the unit of the column."
        )
    return psi


def _temperature(where: str, said: str, degrees: float, column: str) -> float:
    fahrenheit = degrees if column == "temp_f" else 1.8 * degrees + 32
    if not LOWEST_F <= fahrenheit <= HIGHEST_F:
        raise InputError(
            f"{where}: {said} does not fit. In a canner it is {LOWEST_F:.0f} to {HIGHEST_F:.0f} F "
            "(-18 to 149 C); check the figure and the unit of the column."
        )
    return (fahrenheit + 459.67) / 1.8
