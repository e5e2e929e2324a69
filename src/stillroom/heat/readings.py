"""A run as a person wrote it down: a CSV file of times and readings, read line by line.

Every line is taken or told: a reading that cannot be read, a time that goes back, a column nobody
knows is an error with its line and column, never dropped.
"""

import csv
from collections.abc import Iterator, Sequence
from dataclasses import replace
from io import StringIO
from pathlib import Path
from typing import Final

from stillroom.errors import InputError
from stillroom.heat.log import COLUMNS, READINGS, REPEATED, Kind, Log, Reading
from stillroom.heat.read_cells import read_cells
from stillroom.heat.read_times import Clock, read_time
from stillroom.words import did_you_mean

# A log written by hand is a page; a logger's of a day, one line a second, is less than this.
LARGEST_BYTES: Final = 1_000_000
LONGEST_HOURS: Final = 24


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
        line = read_cells(where, number, at, cell)
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
