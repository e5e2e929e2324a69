"""The printed bands of elevation, and the one a kitchen falls in. Nothing is computed: the figures
are those of printed rows."""

from functools import lru_cache
from typing import NamedTuple

from stillroom.processes import library
from stillroom.processes.model import PRESSURE

# A choice of this project: a map or a device is easily wrong by so much.
NEAR_FT = 300
# Foods whose rows show the bands. Most low-acid food has the pounds of snap beans.
_SHOWN = (
    ("dial-gauge", "snap beans", "", "quart"),
    ("weighted-gauge", "snap beans", "", "quart"),
    ("boiling-water", "peaches", "hot", "quart"),
)


class Band(NamedTuple):
    """One printed band: from and to, ft (None: the table prints no end), and its figure."""

    from_ft: int
    to_ft: int | None
    psi: int | None
    minutes: int
    own: bool


class Table(NamedTuple):
    """The bands of one kind of canner; ``food`` and ``source`` are of the rows they are read from.

    ``above`` is where the table ends, for a kitchen that lies higher, else None. ``edge`` is an
    edge that lies near, else None.
    """

    method: str
    food: str
    jar: str
    bands: tuple[Band, ...]
    source: str
    own: Band | None
    above: int | None
    edge: int | None

    @property
    def is_pressure(self) -> bool:
        """Whether its figure is pounds; else it is minutes."""
        return self.method in PRESSURE


@lru_cache(maxsize=64)
def tables(feet: int) -> tuple[Table, ...]:
    """The bands of each kind of canner, with the one that this elevation falls in.

    Parameters
    ----------
    feet : elevation, ft

    Source
    ------
    The printed rows of snap beans and peaches in quarts; each table names its place.
    """
    return tuple(_table(*shown, feet) for shown in _SHOWN)


def _table(method: str, food: str, pack: str, jar: str, feet: int) -> Table:
    rows = [
        row
        for row in library.processes(food)
        if (row.method, row.jar) == (method, jar) and (not pack or pack in row.pack)
    ]
    rows.sort(key=lambda row: row.from_ft)
    bands = tuple(
        Band(row.from_ft, row.to_ft, row.psi, row.minutes, row.covers(feet)) for row in rows
    )
    own = next((band for band in bands if band.own), None)
    last = bands[-1].to_ft
    return Table(
        method, food, jar, bands, rows[0].citation, own,
        last if own is None else None, _edge(own, feet),
    )  # fmt: skip


def _edge(own: Band | None, feet: int) -> int | None:
    """The edge of the band that lies near, where there is one."""
    if own is None:
        return None
    if own.to_ft is not None and own.to_ft - feet <= NEAR_FT:
        return own.to_ft
    return own.from_ft - 1 if own.from_ft > 0 and feet - own.from_ft < NEAR_FT else None
