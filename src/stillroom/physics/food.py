"""What food does to heat, from what it is made of.

Six components (water, protein, fat, carbohydrate, fibre, ash) each have a density, a heat capacity
and a conductivity that are known over temperature. A food is their mixture: heat capacity by mass,
volume by mass over density, conductivity by share of volume. The rule for conductivity has two
ends: all components side by side along the heat (parallel, the most it can be) or one behind the
other (series, the least). Wet foods lie near the parallel end, which is the default.

The compositions are averages of a public table; a garden's carrot differs. Air between pieces is
not in them. That a food is listed here says nothing about a process for it.
"""

import csv
from dataclasses import dataclass, fields
from difflib import get_close_matches
from functools import lru_cache
from pathlib import Path
from typing import Final, Literal

from stillroom.errors import DataError, InputError, OutOfRange

DATA: Final = Path(__file__).parent / "data"

COMPONENTS: Final = ("water", "protein", "fat", "carbohydrate", "fibre", "ash")

COLDEST, HOTTEST = 273.15, 423.15
"""Range of the water polynomials, 0 to 150 C, K. The other components' begin at -40 C."""

Mixing = Literal["parallel", "series"]

_KELVIN: Final = 273.15
_SUM_TOLERANCE: Final = 1e-3
_PER_100_G: Final = 100.0


@dataclass(frozen=True, slots=True)
class Composition:
    """Shares of a food's mass, which add up to 1 within 0.001; otherwise ``OutOfRange``.

    ``carbohydrate`` is without the fibre.

    >>> Composition(water=0.9, protein=0.01, fat=0.0, carbohydrate=0.06, fibre=0.02, ash=0.01).water
    0.9
    """

    water: float
    protein: float
    fat: float
    carbohydrate: float
    fibre: float
    ash: float

    def __post_init__(self) -> None:
        """Refuse shares that are none or do not make a whole."""
        for field in fields(self):
            share = getattr(self, field.name)
            if not 0 <= share <= 1:
                raise OutOfRange(f"A food's share of {field.name} is {share}: write 0 to 1.")
        whole = sum(getattr(self, field.name) for field in fields(self))
        if abs(whole - 1) > _SUM_TOLERANCE:
            raise OutOfRange(f"The shares of a food's mass add up to {whole:.4f}, not to 1.")


@dataclass(frozen=True, slots=True)
class Properties:
    """``density``, kg/m3; ``heat_capacity``, J/(kg K); ``conductivity``, W/(m K)."""

    density: float
    heat_capacity: float
    conductivity: float

    @property
    def diffusivity(self) -> float:
        """How fast heat soaks in, m2/s: conductivity over density times heat capacity."""
        return self.conductivity / (self.density * self.heat_capacity)


@lru_cache(maxsize=1)
def _polynomials() -> dict[tuple[str, str], tuple[float, float, float]]:
    """By component and property: constant, per C and per C squared, in SI units."""
    with (DATA / "components.csv").open(encoding="utf-8", newline="") as f:
        return {
            (row["component"], row["property"]): (
                _si(row["unit"]) * float(row["constant"]),
                _si(row["unit"]) * float(row["per_degree"]),
                _si(row["unit"]) * float(row["per_degree_squared"]),
            )
            for row in csv.DictReader(f)
        }


def _si(unit: str) -> float:
    return 1000.0 if unit.startswith("kJ") else 1.0


def component(name: str, temperature: float) -> Properties:
    """Properties of one pure component.

    Parameters
    ----------
    name : water, protein, fat, carbohydrate, fibre or ash
    temperature : scalar, K, from 273.15 to 423.15

    Returns
    -------
    Properties

    Raises
    ------
    InputError
        No such component.
    OutOfRange
        The temperature lies outside the range or is not a number.

    Source
    ------
    Choi and Okos (1986), polynomials in C, ``data/components.csv``.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(component("water", 293.15).density, 2)
    995.74
    """
    if name not in COMPONENTS:
        raise InputError(f'"{name}" is not a part of food. Parts: {", ".join(COMPONENTS)}.')
    if not COLDEST <= temperature <= HOTTEST:
        raise OutOfRange(
            f"No properties of food at {temperature} K: the polynomials hold "
            f"from {COLDEST} to {HOTTEST} K (Choi and Okos 1986)."
        )
    celsius = temperature - _KELVIN

    def at(named: str) -> float:
        constant, slope, bend = _polynomials()[name, named]
        return constant + slope * celsius + bend * celsius**2

    return Properties(at("density"), at("heat_capacity"), at("conductivity"))


def properties(
    composition: Composition, temperature: float, mixing: Mixing = "parallel"
) -> Properties:
    """Properties of a food without air in it.

    Formula
    -------
    cp = sum of m cp; 1/rho = sum of m/rho; with the shares of volume v = (m/rho_i) rho:
    k = sum of v k (parallel), or 1/k = sum of v/k (series).

    Parameters
    ----------
    composition : Composition, shares of mass
    temperature : scalar, K, from 273.15 to 423.15
    mixing : "parallel", the most that the conductivity can be, or "series", the least

    Returns
    -------
    Properties

    Raises
    ------
    OutOfRange
        The temperature lies outside the range or is not a number.

    Source
    ------
    Choi and Okos (1986): components and mixing rules. Explains and warns; never yields a process.

    Examples
    --------
    >>> carrots = properties(composition("carrots"), 293.15)
    >>> round(carrots.density), round(carrots.heat_capacity), round(carrots.conductivity, 3)
    (1037, 3882, 0.573)
    """
    parts = [
        (getattr(composition, name), component(name, temperature))
        for name in COMPONENTS
        if getattr(composition, name) > 0
    ]
    mass = sum(share for share, _ in parts)
    volume = sum(share / part.density for share, part in parts)
    volumes = [share / part.density / volume for share, part in parts]
    across = [part.conductivity for _, part in parts]
    if mixing == "parallel":
        conductivity = sum(v * k for v, k in zip(volumes, across, strict=True))
    else:
        conductivity = 1 / sum(v / k for v, k in zip(volumes, across, strict=True))
    return Properties(
        density=mass / volume,
        heat_capacity=sum(share * part.heat_capacity for share, part in parts) / mass,
        conductivity=conductivity,
    )


@lru_cache(maxsize=1)
def _compositions() -> dict[str, Composition]:
    with (DATA / "compositions.csv").open(encoding="utf-8", newline="") as f:
        return {row["food"]: _whole(row) for row in csv.DictReader(f)}


def _whole(row: dict[str, str]) -> Composition:
    """A printed row as shares. Each part is measured by itself, so that a meat's parts add up to
    99 to 102 g of 100 g: they are scaled to a whole."""
    grams = {name: float(row[name]) for name in ("water", "protein", "fat", "fibre", "ash")}
    grams["carbohydrate"] = float(row["carbohydrate_by_difference"]) - grams["fibre"]
    whole = sum(grams.values())
    if abs(whole - _PER_100_G) > 2.0:
        raise DataError(f"The parts of {row['food']} add up to {whole} g of 100 g.")
    return Composition(**{name: part / whole for name, part in grams.items()})


def foods() -> tuple[str, ...]:
    """Foods whose composition is listed, in file order; no K or Pa here.

    Source
    ------
    ``data/compositions.csv``: USDA SR28.

    Examples
    --------
    >>> len(foods()) > 40
    True
    """
    return tuple(_compositions())


def composition(food: str) -> Composition:
    """What a food is made of: an average, scaled to a whole; no K or Pa here.

    Parameters
    ----------
    food : a name of ``foods()``

    Returns
    -------
    Composition, shares of mass

    Raises
    ------
    InputError
        No such food in the list; the message gives the nearest names.

    Source
    ------
    USDA SR28, carbohydrate by difference less fibre; NDB numbers in ``data/compositions.csv``.

    Examples
    --------
    >>> round(composition("carrots").water, 3)
    0.883
    """
    listed = _compositions()
    if food in listed:
        return listed[food]
    near = get_close_matches(food.lower(), listed, n=3, cutoff=0.6)
    hint = f" Near it: {', '.join(near)}." if near else ""
    raise InputError(
        f'No composition of "{food}" is listed.{hint} Listed are plain foods, such as carrots, '
        "chicken or tomato sauce; take the one most like yours."
    )
