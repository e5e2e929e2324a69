"""Times of a log as people write them: minutes of a kitchen timer, a clock, or a date and clock."""

import re
from datetime import UTC, datetime
from typing import Final, Literal

from stillroom.errors import InputError

Clock = Literal["minutes", "24-hour clock", "am or pm", "date and time"]
"""The way the times of a file are written; all its lines keep to one."""

_MINUTES: Final = re.compile(r"\d{1,5}(\.\d{1,6})?")
_TIME: Final = re.compile(r"(\d{1,2}):(\d{2})(?::(\d{2}))?(?:\s*([ap])\.?\s?m\.?)?", re.I)
_DATED: Final = re.compile(r"\d{4}-\d{2}-\d{2}[T ]\d{1,2}:\d{2}.*")


def read_time(said: str, where: str, so_far: Clock | None) -> tuple[float, Clock]:
    """Seconds of a written time, and the way it is written.

    Parameters
    ----------
    said : "12.5" (minutes), "10:42", "10:42:30", "1:05 pm" or "2026-10-17T10:42"
    where : file, line and column, as an error names them
    so_far : how the lines before were written, or ``None`` on the first

    Returns
    -------
    s from zero, from midnight, or from the year 1, by the way of writing; and that way

    Raises
    ------
    InputError
        No time, or one that is written in another way than those before.

    Examples
    --------
    >>> read_time("12.5", "log.csv, line 2, time", None)
    (750.0, 'minutes')
    >>> read_time("1:05 pm", "log.csv, line 2, time", None)
    (47100.0, 'am or pm')
    """
    found = _read(said)
    if found is None:
        raise InputError(
            f'{where}: "{said}" is not a time. Write minutes ("12.5"), a clock time ("10:42", '
            '"1:05 pm"), or date and time ("2026-10-17T10:42").'
        )
    if so_far and found[1] != so_far:
        raise InputError(
            f'{where}: "{said}" is written in another way than the times before it ({so_far}). '
            "Write all of them in one way."
        )
    return found


def _read(said: str) -> tuple[float, Clock] | None:
    if _MINUTES.fullmatch(said):
        return 60.0 * float(said), "minutes"
    if _DATED.fullmatch(said):
        try:
            moment = datetime.fromisoformat(said)
        except ValueError:
            return None
        plain = moment.astimezone(UTC) if moment.tzinfo else moment
        return (plain.replace(tzinfo=None) - datetime.min).total_seconds(), "date and time"
    found = _TIME.fullmatch(said)
    if not found:
        return None
    hours, minutes, seconds = (int(found.group(n) or 0) for n in (1, 2, 3))
    half = (found.group(4) or "").lower()
    most = 12 if half else 24
    if minutes > 59 or seconds > 59 or hours > most or (half and hours == 0):
        return None
    if hours == 24 and minutes + seconds > 0:
        return None
    if half:
        hours = hours % 12 + (12 if half == "p" else 0)
    return 3600.0 * hours + 60.0 * minutes + seconds, "am or pm" if half else "24-hour clock"
