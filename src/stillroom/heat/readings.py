"""A run as a person wrote it down: a CSV file of times and readings, read line by line.

Every line is taken or told: a reading that cannot be read, a time that goes back, a column nobody
knows is an error with its line and column, never dropped.
"""

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from io import StringIO
from pathlib import Path
from typing import Final, Literal

from stillroom.errors import InputError
from stillroom.heat.read_times import Clock, read_time
from stillroom.words import did_you_mean

Kind = Literal["pressure", "boil", "temperature"]

READINGS: Final[dict[str, Kind]] = {
    "psi": "pressure",
    "kpa": "pressure",
    "boil": "boil",
    "temp_f": "temperature",
    "temp_c": "temperature",
}
"""The columns of readings; a file has one of them."""

COLUMNS: Final = ("time", *READINGS, "event", "note")

EVENTS: Final = (
    "lid on", "vent start", "vent end", "timing starts", "heat off", "zero pressure", "lid off",
)  # fmt: skip
"""What the event column may hold. Anything else belongs into the note column."""

REPEATED: Final = "timing starts"
"""The one event that may stand more than once: after a fall, timing starts again."""

# A log written by hand is a page; a logger's of a day, one line a second, is less than this.
LARGEST_BYTES: Final = 1_000_000
LONGEST_HOURS: Final = 24

PSI_PER_KPA: Final = 1 / 6.894757293168
HIGHEST_PSI: Final = 30.0
"""No gauge of a home canner shows more; a larger number is a slip of the unit or the pen."""
LOWEST_F, HIGHEST_F = 0.0, 300.0

_NUMBER: Final = re.compile(r"[+-]?(\d{1,6})(\.\d{1,9})?")
_BOILS: Final = {"yes": True, "y": True, "full": True, "no": False, "n": False, "stopped": False}


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of a log.

    ``at`` is in s from the first line; ``time`` as it was written. ``psi`` is gauge pressure,
    ``boils`` tells of a full boil, ``kelvin`` is a temperature: the one the file has, ``None`` on
    a line that holds an event or a note only. ``event`` is one of ``EVENTS`` or "".
    """

    line: int
    at: float
    time: str
    psi: float | None = None
    boils: bool | None = None
    kelvin: float | None = None
    event: str = ""
    note: str = ""

    @property
    def has_value(self) -> bool:
        """Whether something was read off at this time, and not only noted."""
        return not (self.psi is None and self.boils is None and self.kelvin is None)


@dataclass(frozen=True, slots=True)
class Log:
    """A whole file: its name, what kind of readings it holds, and every line in order.

    ``clock`` tells whether times were written as times of day.
    """

    file: str
    kind: Kind
    clock: bool
    lines: tuple[Reading, ...]

    @property
    def read_off(self) -> tuple[Reading, ...]:
        """The lines that hold a reading."""
        return tuple(line for line in self.lines if line.has_value)

    def event(self, name: str) -> Reading | None:
        """The first line of an event, or ``None`` where the log does not tell it."""
        return next((line for line in self.lines if line.event == name), None)


def read_log(path: Path, kinds: Sequence[Kind]) -> Log:
    """A run's log from its CSV file.

    Parameters
    ----------
    path : UTF-8 text, comma between columns, the first line naming them: ``time``, one of ``psi``,
        ``kpa``, ``boil``, ``temp_f``, ``temp_c``, and if wanted ``event`` and ``note``
    kinds : the kinds of readings that are of use to the caller

    Returns
    -------
    Log, every line of the file in order

    Raises
    ------
    InputError
        Naming file, line and column, and what to write instead.

    Source
    ------
    The file's columns are this project's own; ``docs/reference/files.md`` lists them.
    """
    text = _text(path)
    try:
        table = list(_rows(text))
    except csv.Error as wrong:
        raise InputError(
            f"{path.name}: {wrong}. Save it as CSV: one line a reading, a comma between columns."
        ) from None
    if not table:
        raise InputError(
            f"{path.name}: empty. Write a first line such as time,psi,event and then a line for "
            "each reading."
        )
    columns = _columns(path.name, table[0][1], kinds)
    lines = list(_lines(path.name, columns, table[1:]))
    if sum(line.has_value for line in lines) < 2:
        raise InputError(
            f"{path.name}: fewer than two readings. Write a line for each time you looked."
        )
    kind = next(READINGS[name] for name in columns if name in READINGS)
    return _from_first(path.name, kind, lines)


def _text(path: Path) -> str:
    try:
        with path.open("rb") as f:
            raw = f.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise InputError(f"{path}: there is no such file. Check the name and folder.") from None
    except IsADirectoryError:
        raise InputError(f"{path}: this is a folder. Name the file in it.") from None
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
    except ValueError:
        # No file system takes a name with a NUL character in it.
        raise InputError(f"{str(path)!r}: this cannot be a file name. Write another.") from None
    if len(raw) > LARGEST_BYTES:
        raise InputError(
            f"{path.name}: more than {LARGEST_BYTES // 1_000_000} MB is too large for the log of a "
            "run. One line every few seconds is plenty."
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        raise InputError(
            f"{path.name}: byte {wrong.start} is not text. Save the file as CSV in plain text "
            "(UTF-8), not as a workbook."
        ) from None


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Lines with their numbers, cells without the spaces around them; blank lines hold nothing."""
    reader = csv.reader(StringIO(text, newline=""), strict=True)
    for cells in reader:
        stripped = [cell.strip() for cell in cells]
        if any(stripped):
            yield reader.line_num, stripped


def _columns(file: str, head: list[str], kinds: Sequence[Kind]) -> list[str]:
    """The names of the columns, which must tell a time and one kind of reading."""
    names = [cell.lower() for cell in head]
    wanted = [name for name, kind in READINGS.items() if kind in kinds]
    if len(head) == 1 and (";" in head[0] or "\t" in head[0]):
        raise InputError(f"{file}, line 1: no comma between the columns. Save it with commas.")
    for place, name in enumerate(names, 1):
        if name not in COLUMNS:
            raise InputError(
                f'{file}, line 1, column {place}: "{head[place - 1]}" is not a column.'
                f"{did_you_mean(name, COLUMNS)} Columns: time; one of {', '.join(wanted)}; event; "
                "note."
            )
        if names.count(name) > 1:
            raise InputError(f'{file}, line 1: "{name}" heads two columns. Keep one of them.')
    if "time" not in names:
        raise InputError(f"{file}, line 1: no column is called time. Name it so.")
    read = [name for name in names if name in READINGS]
    if len(read) != 1 or read[0] not in wanted:
        have = " and ".join(read) or "none"
        raise InputError(
            f"{file}, line 1: needs one column of readings out of {', '.join(wanted)}; it has "
            f"{have}."
        )
    return names


def _lines(file: str, columns: list[str], table: list[tuple[int, list[str]]]) -> Iterator[Reading]:
    """The lines, their times counted from whatever midnight or zero they were written from."""
    times: Clock | None = None
    last: Reading | None = None
    seen: dict[str, Reading] = {}
    for number, cells in table:
        if len(cells) > len(columns):
            raise InputError(
                f"{file}, line {number}: {len(cells)} columns, but line 1 names {len(columns)}. "
                "Put text that has a comma in double quotes."
            )
        cell = dict(zip(columns, [*cells, *[""] * (len(columns) - len(cells))], strict=True))
        where = f"{file}, line {number}"
        at, times = read_time(cell["time"], f"{where}, time", times)
        line = _line(where, number, at, cell)
        _check_order(where, line, last)
        if line.event:
            if line.event in seen:
                raise InputError(
                    f'{where}, event: "{line.event}" stands at {seen[line.event].time} already '
                    f"(line {seen[line.event].line}). Keep the one that is right."
                )
            if line.event != REPEATED:
                seen[line.event] = line
        last = line
        yield line


def _line(where: str, number: int, at: float, cell: dict[str, str]) -> Reading:
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


def _check_order(where: str, line: Reading, last: Reading | None) -> None:
    """Times go on; a line with an event or a note only may share the time of its neighbor."""
    if last is None:
        return
    may_share = not (line.has_value and last.has_value)
    if line.at < last.at or (line.at == last.at and not may_share):
        raise InputError(
            f'{where}, time: "{line.time}" is not later than "{last.time}" on the line before. Put '
            "lines in order; for a run past midnight or noon write dates, or am and pm."
        )


def _from_first(file: str, kind: Kind, lines: list[Reading]) -> Log:
    first = lines[0].at
    if lines[-1].at - first > 3600 * LONGEST_HOURS:
        raise InputError(
            f'{file}, line {lines[-1].line}, time: "{lines[-1].time}" is more than '
            f'{LONGEST_HOURS} hours after "{lines[0].time}". One file holds one run.'
        )
    moved = tuple(replace(line, at=line.at - first) for line in lines)
    return Log(file, kind, not _in_minutes(lines[0].time), moved)


def _in_minutes(time: str) -> bool:
    return ":" not in time
