"""How many tries at the door are taken, and how long the next must wait."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from math import ceil

WINDOW = timedelta(minutes=15)
FROM_ONE = 5
FROM_ALL = 20


def seconds_to_wait(
    from_one: Sequence[datetime], from_all: Sequence[datetime], at: datetime
) -> int:
    """Seconds until another try is taken; 0 is now.

    Parameters
    ----------
    from_one : when the same address tried, in order
    from_all : when anybody tried, in order
    at : now

    Examples
    --------
    >>> noon = datetime(2026, 11, 25, 12)
    >>> tries = [noon + timedelta(minutes=m) for m in range(5)]
    >>> seconds_to_wait(tries, tries, noon + timedelta(minutes=5))
    600
    >>> seconds_to_wait(tries[1:], tries, noon + timedelta(minutes=5))
    0
    """
    waits = [0.0]
    for tries, most in ((from_one, FROM_ONE), (from_all, FROM_ALL)):
        recent = [t for t in tries if t > at - WINDOW]
        if len(recent) >= most:
            waits.append((recent[-most] + WINDOW - at).total_seconds())
    return ceil(max(waits))
