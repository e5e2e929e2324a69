"""What a gauge tells of the heat inside: by elevation, with air left in, with a gauge that is off.

A printed pressure belongs to its band of elevation as it was tested. The temperatures here say why
tables go by elevation, why a canner is vented and why a gauge is tested. They are no ground for
another pressure, a longer or a shorter time.
"""

from dataclasses import dataclass
from typing import Final

from stillroom.errors import InputError
from stillroom.physics.air import misread_temperature, temperature_with_air
from stillroom.physics.atmosphere import (
    LOWEST_ELEVATION,
    GaugePressure,
    boiling_point,
    canner_temperature,
)
from stillroom.physics.lethality import lethal_rate
from stillroom.processes import lookup
from stillroom.units.si import METRES_PER_FOOT, PASCALS_PER_PSI

AIR: Final = (0.0, 0.01, 0.02, 0.05, 0.1, 0.2, 0.3)
"""Shares of air that are told, moles of air in a mole of the gas."""

OFF: Final = (2.0, 1.0, 0.0, -1.0, -2.0)
"""By how much a gauge is off, psi: above 0 it reads high. One off by more is replaced."""

HIGHEST_PSI: Final = 15.0
"""The guide goes to 15 lb and no further (AIB-539, 1994, Guide 1)."""


@dataclass(frozen=True, slots=True)
class Case:
    """One way things may be: ``how`` much (a share of air, or psi off), K inside, and the rate.

    ``rate`` is the lethal rate over that of the same reading without air and with an exact gauge.
    """

    how: float
    inside: float
    rate: float


@dataclass(frozen=True, slots=True)
class Steam:
    """What a gauge reading means at an elevation. Temperatures in K.

    ``air`` are cases of air left in, ``off`` of a gauge that reads high or low.
    """

    elevation_ft: int
    psi: float
    boiling: float
    inside: float
    air: tuple[Case, ...]
    off: tuple[Case, ...]


@dataclass(frozen=True, slots=True)
class Setting:
    """A printed pressure over its band, ft, and the temperatures (K) at the band's two ends."""

    method: str
    psi: int
    from_ft: int
    to_ft: int
    at_from: float
    at_to: float
    source: str


def steam(
    elevation_ft: int, psi: float, *, air: float | None = None, off: float | None = None
) -> Steam:
    """What a gauge reading means at an elevation.

    Parameters
    ----------
    elevation_ft : ft, not below 2,000 m under the sea
    psi : gauge reading, 0 to 15
    air : one more share of air to tell, 0 to 0.9
    off : one more gauge error to tell, psi; above 0 where it reads high

    Returns
    -------
    Steam, K

    Raises
    ------
    InputError
        A figure outside its range.

    Source
    ------
    ``physics/air.py``, ``physics/atmosphere.py`` and ``physics/lethality.py``. Explains and warns;
    never yields a pressure.

    Examples
    --------
    >>> told = steam(0, 11)
    >>> [round(case.inside * 1.8 - 459.67, 1) for case in told.air[:4]]
    [241.6, 241.0, 240.4, 238.7]
    """
    metres = metres_of(elevation_ft)
    if not 0 <= psi <= HIGHEST_PSI:
        raise InputError(f"--psi: {psi:g} does not fit. Write pounds on the gauge, 0 to 15.")
    if air is not None and not 0 <= air <= 0.9:
        raise InputError(f"--air: {100 * air:g} % does not fit. Write 0 to 90 percent.")
    if off is not None and not (abs(off) <= 5 and off <= psi):
        raise InputError(
            f"--reads-high: {off:g} does not fit. Write pounds, at most 5 and no more than the "
            "gauge shows; below 0 where it reads low."
        )
    gauge = GaugePressure(psi * PASCALS_PER_PSI)
    exact = canner_temperature(gauge, metres)
    shares = sorted({*AIR, air or 0.0})
    errors = sorted({*(o for o in OFF if o <= psi), off or 0.0}, reverse=True)
    return Steam(
        elevation_ft=elevation_ft,
        psi=psi,
        boiling=boiling_point(metres),
        inside=exact,
        air=tuple(_case(a, temperature_with_air(gauge, metres, a), exact) for a in shares),
        off=tuple(
            _case(o, misread_temperature(gauge, o * PASCALS_PER_PSI, metres), exact) for o in errors
        ),
    )


def inside(elevation_ft: float, psi: float, air: float = 0.0) -> float:
    """Temperature in a canner, K, at an elevation (ft), a true gauge pressure (psi), with air."""
    gauge = GaugePressure(psi * PASCALS_PER_PSI)
    return temperature_with_air(gauge, elevation_ft * METRES_PER_FOOT, air)


def settings() -> tuple[Setting, ...]:
    """The pressures printed for most low-acid food, band by band, and how hot each is there.

    Read from the rows for snap beans in quarts. Where the table prints no end, 10,000 ft is drawn.
    """
    found = []
    for method in ("dial-gauge", "weighted-gauge"):
        feet = 0
        while feet is not None and feet <= 10_000:
            answer = lookup("snap beans", jar="quart", method=method, elevation=feet)
            if not answer.processes:
                break
            row = answer.processes[0]
            top = 10_000 if row.to_ft is None else row.to_ft
            psi = int(row.psi or 0)
            found.append(
                Setting(
                    method, psi, row.from_ft, top, inside(row.from_ft, psi), inside(top, psi),
                    row.citation,
                )
            )  # fmt: skip
            feet = top + 1
    return tuple(found)


def metres_of(elevation_ft: int) -> float:
    """Metres of an elevation in ft.

    Raises
    ------
    InputError
        Lower than any dry land.
    """
    metres = elevation_ft * METRES_PER_FOOT
    if metres < LOWEST_ELEVATION:
        raise InputError(f"--elevation: {elevation_ft:,} ft is lower than any dry land. Check it.")
    return metres


def _case(how: float, temperature: float, exact: float) -> Case:
    return Case(how, temperature, float(lethal_rate(temperature) / lethal_rate(exact)))
