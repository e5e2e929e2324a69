"""What a gauge setting gives inside the canner, as the lengths of a few bars.

It explains why a canner is vented; no pressure comes from it.
"""

from functools import lru_cache
from typing import NamedTuple

_COLDEST, _HOTTEST = 355.0, 396.0  # K at the two ends of the drawing: 179 and 253 F
_AIR_TOLD = (0.0, 0.1, 0.3)


class Bar(NamedTuple):
    """One case: share of air left in, percent; K inside; its length, 0 to 100."""

    air: int
    kelvin: float
    length: float


class Inside(NamedTuple):
    """A setting at an elevation: where water boils in an open pot, and a bar for each case."""

    psi: int
    elevation_ft: int
    boiling: float
    boiling_length: float
    bars: tuple[Bar, ...]


@lru_cache(maxsize=256)
def inside(elevation_ft: int, psi: int) -> Inside:
    """Temperatures at a printed setting, by how much air was left in.

    Source
    ------
    ``heat.steam``; docs/why/heat.md tells what it rests on.
    """
    from stillroom.heat.steam import steam

    told = steam(elevation_ft, psi)
    bars = tuple(
        Bar(round(100 * case.how), case.inside, _length(case.inside))
        for case in told.air
        if case.how in _AIR_TOLD
    )
    return Inside(psi, elevation_ft, told.boiling, _length(told.boiling), bars)


def _length(kelvin: float) -> float:
    share = (kelvin - _COLDEST) / (_HOTTEST - _COLDEST)
    return round(100 * min(1.0, max(0.02, share)), 1)
