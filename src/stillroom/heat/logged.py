"""What a pressure log tells of the heat inside: the canner's by reading, the jars' by model.

Each reading is taken as saturated steam, free of air, under the standard atmosphere, with an exact
gauge. Air left in, a gauge that reads high and the weather each make the truth differ.
"""

from typing import Final

import numpy as np

from stillroom.errors import InputError
from stillroom.heat.inside import Filled, Inside, follow_log
from stillroom.heat.log import Log, Reading
from stillroom.heat.steam import metres_of
from stillroom.physics.atmosphere import GaugePressure, boiling_point, canner_temperature
from stillroom.physics.history import History
from stillroom.physics.priors import priors
from stillroom.units.si import PASCALS_PER_PSI

TAKEN: Final = (
    "saturated steam free of air, an exact gauge and the standard atmosphere at each reading, and "
    "straight lines between them"
)
"""What every temperature that comes from a log takes for granted."""


def inferred(log: Log, elevation_ft: int) -> tuple[tuple[Reading, float], ...]:
    """The readings from which a temperature can be told, each with the canner's in K.

    A gauge at 0 tells nothing before steam flows: such readings are left out up to the start of
    venting, or up to the last of them before the pressure rises where the log tells no venting.

    Parameters
    ----------
    log : of pressure
    elevation_ft : of the kitchen, ft

    Raises
    ------
    InputError
        An elevation lower than any dry land.

    Source
    ------
    ``physics/atmosphere.py``. Explains and warns; never approves.
    """
    metres = metres_of(elevation_ft)
    since = _steam_since(log)
    return tuple(
        (line, canner_temperature(GaugePressure(line.psi * PASCALS_PER_PSI), metres))
        for line in log.read_off
        if line.psi is not None and line.at >= since
    )


def canner_history(log: Log, elevation_ft: int, pack: str) -> History:
    """The canner's temperature over a pressure log, K, from its first line to its last.

    Before steam flows it is taken to rise evenly from the water's usual warmth for the pack.

    Parameters
    ----------
    log : of pressure
    elevation_ft : of the kitchen, ft
    pack : raw or hot

    Raises
    ------
    InputError
        A log from which no temperature can be told.

    Source
    ------
    As ``inferred``; the water's warmth: ``physics/data/vessel_priors.csv``. Explains and warns.
    """
    told = {line.at: kelvin for line, kelvin in inferred(log, elevation_ft)}
    if not told:
        raise InputError(
            f"{log.file}: the gauge never left 0 and no venting is told, so that no temperature "
            "can be inferred."
        )
    boils = boiling_point(metres_of(elevation_ft))
    first_rise = min((line.at for line in log.read_off if line.psi), default=float("inf"))
    for name in ("vent start", "vent end"):
        event = log.event(name)
        # While the vent is open the gauge stays at 0, whether or not it was read.
        if event and event.at < first_rise:
            told.setdefault(event.at, boils)
    if min(told) > 0:
        told[0.0] = priors()["water start", f"pressure {pack}"].median
    times = sorted(told)
    return History(np.array(times), np.array([told[at] for at in times]))


def inside_log(
    log: Log, filled: Filled, start: float, elevation_ft: int, pack: str, heat_off: float
) -> Inside:
    """Many jars of a load followed through a pressure log.

    Parameters
    ----------
    log : of pressure
    filled : the kind of jar
    start : K, the food at the log's first line
    elevation_ft : of the kitchen, ft
    pack : raw or hot
    heat_off : s of the log

    Source
    ------
    ``heat/inside.py``. Cooling that was not logged is not followed. Explains; never approves.
    """
    history = canner_history(log, elevation_ft, pack)
    return follow_log(filled, start, history, heat_off)


def usual_start(pack: str) -> float:
    """K of the food as the lid goes on, where it is not told: usual for a hot or raw pack."""
    return priors()["food start", "hot" if pack == "hot" else "raw with liquid"].median


def _steam_since(log: Log) -> float:
    """From when on a gauge at 0 means boiling, s of the log."""
    vent = log.event("vent start")
    if vent:
        return vent.at
    zeros = []
    for line in log.read_off:
        if line.psi:
            break
        zeros.append(line.at)
    if len(zeros) == len(log.read_off):
        return float("inf")
    return zeros[-1] if zeros else 0.0
