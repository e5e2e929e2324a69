"""What is thought of a canner before it was ever timed: medians and spreads, each with its source.

A log-normal figure is as often above its median as below it, and two times in three within the
factor exp(spread); a normal one within the spread itself.
"""

import csv
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Final

import numpy as np

from stillroom.errors import DataError
from stillroom.physics.array import Array

DATA: Final = Path(__file__).parent / "data"
LOG_NORMAL: Final = "log-normal"

# What a figure of the file times and plus gives its SI figure.
_UNITS: Final = {
    "W": (1.0, 0.0),
    "W/K": (1.0, 0.0),
    "kg": (1.0, 0.0),
    "J/(kg K)": (1.0, 0.0),
    "1": (1.0, 0.0),
    "min": (60.0, 0.0),
    "C": (1.0, 273.15),
}


@dataclass(frozen=True, slots=True)
class Prior:
    """One figure before anything was measured; ``median`` in SI units.

    ``spread`` is the standard deviation, of the logarithm where ``law`` is log-normal. ``source``,
    ``place`` and ``status`` tell where it comes from.
    """

    parameter: str
    kind: str
    median: float
    spread: float
    law: str
    unit: str
    source: str
    place: str
    status: str


@lru_cache(maxsize=1)
def priors() -> dict[tuple[str, str], Prior]:
    """Every figure of the table, by parameter and kind.

    Returns
    -------
    medians in SI units: W, W/K, kg, J/(kg K), s, K, or without unit

    Raises
    ------
    DataError
        The file is wrong: a unit nobody knows or a figure told twice.

    Source
    ------
    ``data/vessel_priors.csv``, a source beside each figure.

    Examples
    --------
    >>> priors()["burner", "gas"].median
    3200.0
    """
    found: dict[tuple[str, str], Prior] = {}
    with (DATA / "vessel_priors.csv").open(encoding="utf-8", newline="") as f:
        for line in csv.DictReader(f):
            key = line["parameter"], line["kind"]
            if line["unit"] not in _UNITS or key in found:
                raise DataError(f"vessel_priors.csv: {key}: told twice, or in an unknown unit.")
            scale, zero = _UNITS[line["unit"]]
            of_normal = scale if line["law"] != LOG_NORMAL else 1.0
            found[key] = Prior(
                parameter=key[0],
                kind=key[1],
                median=float(line["median"]) * scale + zero,
                spread=float(line["spread"]) * of_normal,
                law=line["law"],
                unit=line["unit"],
                source=line["source"],
                place=line["place"],
                status=line["status"],
            )
    return found


def drawn(prior: Prior, scores: Array) -> Array:
    """Draws of a figure from standard normal scores.

    Parameters
    ----------
    prior : the figure
    scores : shape (n,), without unit; 0 is the median

    Returns
    -------
    shape (n,), the figure's SI unit (W, W/K, kg, J/(kg K), s, K or none)

    Source
    ------
    Definitions of the normal and the log-normal law.

    Examples
    --------
    >>> drawn(priors()["room", "kitchen"], np.array([0.0, 1.0]))
    array([296.15, 298.15])
    """
    if prior.law == LOG_NORMAL:
        of_log: Array = prior.median * np.exp(prior.spread * scores)
        return of_log
    values: Array = prior.median + prior.spread * scores
    return values
