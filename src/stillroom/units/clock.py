"""Clock times of one day, as minutes after midnight."""

import re

from stillroom.errors import InputError

_WRITTEN = re.compile(r"(\d{1,2}):(\d{2})")


def parse_clock(text: str, where: str = "time") -> int:
    """Minutes after midnight, 0 to 1,440.

    Raises
    ------
    InputError
        Not a 24-hour clock time.

    Examples
    --------
    >>> parse_clock("7:05"), parse_clock("24:00")
    (425, 1440)
    """
    found = _WRITTEN.fullmatch(text.strip())
    minutes = int(found.group(1)) * 60 + int(found.group(2)) if found else -1
    if not found or int(found.group(2)) > 59 or minutes > 24 * 60:
        raise InputError(
            f'{where}: "{text}" is not a clock time. Write hours and minutes of the 24-hour clock, '
            'such as "7:30" or "19:00".'
        )
    return minutes


def clock(minutes: int) -> str:
    """Minutes after midnight as people read a clock.

    Examples
    --------
    >>> clock(425), clock(1440)
    ('7:05', '24:00')
    """
    return f"{minutes // 60}:{minutes % 60:02d}"


def lasting(minutes: int) -> str:
    """A length of time as people say it.

    Examples
    --------
    >>> lasting(130), lasting(60), lasting(25), lasting(0)
    ('2 h 10 min', '1 h', '25 min', '0 min')
    """
    hours, rest = divmod(minutes, 60)
    parts = [f"{hours} h"] * bool(hours) + [f"{rest} min"] * bool(rest or not hours)
    return " ".join(parts)
