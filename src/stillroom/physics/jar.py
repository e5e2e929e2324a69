"""The jar: how much it holds, how much a headspace leaves empty, and what its glass does to heat.

A jar is drawn as two cylinders: a body, and on it a neck 1 1/4 in. deep that is as wide as the
mouth. A real shoulder slopes, so a headspace in the neck is a least volume.

No standard for home jars could be read. The bodies in ``data/jars.csv`` are assumptions, and each
row says from what: a width inside and a wall. The height is then the one at which the jar holds
its nominal capacity to the brim. Lists for shoppers print taller jars (a pint of 5.1 in., a quart
of 6.9 in.), which at the same capacity are slimmer and heat faster: these bodies err toward the
slower jar. Brims differ by maker, so weigh a jar full of water once and use ``measured``.
"""

import csv
from dataclasses import dataclass, replace
from functools import lru_cache
from math import pi, sqrt
from pathlib import Path
from typing import Final

from stillroom.errors import InputError, OutOfRange
from stillroom.units.jars import FLUID_OUNCES, parse_jar
from stillroom.units.si import CUBIC_METRES_PER_FLUID_OUNCE, METRES_PER_INCH

DATA: Final = Path(__file__).parent / "data"

NECK: Final = 0.03175
"""Depth of the neck, m: 1 1/4 in., the deepest headspace of the published guide. It is assumed."""

GLASS_DENSITY: Final = 2520.0
"""Soda-lime glass for containers at 20 C, kg/m3 (Seward and Vascott 2005, as listed)."""

GLASS_HEAT_CAPACITY: Final = 813.0
"""J/(kg K): 49 J/(mol K) at 20 C over the 60.25 g/mol of the listed composition (the same list).
Other lists print 720 to 870."""

GLASS_CONDUCTIVITY: Final = 1.0
"""W/(m K): lists of glass properties print 0.9 to 1.3, most of them 1.0 to 1.1."""

BOTTOM: Final = 1.5
"""Thickness of the bottom over that of the wall: assumed, because the pint and the quart then
weigh what shoppers' lists print (230 to 260 g, 400 to 430 g)."""


@dataclass(frozen=True, slots=True)
class JarBody:
    """The inside of a jar and its glass.

    ``radius`` of the body inside, m; ``height`` inside, from the bottom to the rim, m; ``wall``,
    thickness of the glass, m; ``mouth``, width of the opening inside, m; ``glass``, kg. What no
    jar can have raises ``OutOfRange``, which names it.
    """

    size: str
    radius: float
    height: float
    wall: float
    mouth: float
    glass: float

    def __post_init__(self) -> None:
        """Refuse what no jar can have."""
        for name, least, most in (
            ("radius", 0.02, 0.1),
            ("height", NECK, 0.4),
            ("wall", 0.001, 0.01),
            ("mouth", 0.02, 2 * self.radius * (1 + 1e-9)),
            ("glass", 0.01, 5.0),
        ):
            value = getattr(self, name)
            if not least <= value <= most:
                raise OutOfRange(
                    f"{name} of a {self.size} jar is {value}: it lies between {least:.3g} and "
                    f"{most:.3g} (m, kg)."
                )


@lru_cache(maxsize=1)
def _rows() -> tuple[dict[str, str], ...]:
    with (DATA / "jars.csv").open(encoding="utf-8", newline="") as f:
        return tuple(csv.DictReader(f))


def jar_body(size: str, opening: str | None = None) -> JarBody:
    """The assumed body of a jar size.

    Parameters
    ----------
    size : a jar size, as ``stillroom.units.jars`` reads it
    opening : "regular" or "wide"; without it, the one the size is mostly made with

    Returns
    -------
    JarBody, m and kg; it holds the nominal capacity to the brim

    Raises
    ------
    InputError
        Not a jar size, or one that is not made with that opening.

    Source
    ------
    ``data/jars.csv``, where every row is an assumption and says of what kind; openings of about
    2 3/8 and 3 in.: AIB-539 Guide 1. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> pint = jar_body("pint")
    >>> round(pint.radius * 1000), round(pint.height * 1000), round(brim_volume(pint) * 1e6, 1)
    (40, 108, 473.2)
    """
    name = parse_jar(size)
    made = [row for row in _rows() if row["size"] == name]
    rows = [row for row in made if opening in (None, row["opening"])]
    if not rows:
        raise InputError(
            f'A {name} jar has no "{opening}" opening. '
            f"Openings: {', '.join(row['opening'] for row in made)}."
        )
    row = rows[0]
    radius = float(row["inside_diameter_mm"]) / 2000
    mouth = float(row["mouth_in"]) * METRES_PER_INCH
    wall = float(row["wall_mm"]) / 1000
    height = _height(FLUID_OUNCES[name] * CUBIC_METRES_PER_FLUID_OUNCE, radius, mouth)
    return JarBody(name, radius, height, wall, mouth, _shell(radius, height, wall, mouth))


def measured(
    body: JarBody,
    *,
    brim: float | None = None,
    diameter: float | None = None,
    height: float | None = None,
    glass: float | None = None,
    wall: float | None = None,
) -> JarBody:
    """A body with what a person measured in place of what was assumed.

    What was not measured is rescaled, so that the jar holds the measured brim volume, or else as
    much as before. A brim volume alone scales the width with its cube root, but never to less
    than the mouth. Glass that was not weighed is worked out from the wall.

    Parameters
    ----------
    body : the assumed body
    brim : m3 of water to the brim (1 mL is 1e-6 m3; 1 g of water is about 1 mL)
    diameter, height : m, inside the body, and from the bottom to the rim
    glass : kg, the empty jar on a scale
    wall : m

    Returns
    -------
    JarBody, m and kg

    Raises
    ------
    InputError
        Brim, diameter and height together: two of them tell the third.
    OutOfRange
        A body no jar can have.

    Source
    ------
    Geometry of two cylinders. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> mine = measured(jar_body("quart"), brim=0.000965, glass=0.418)
    >>> round(brim_volume(mine) * 1e6), round(mine.radius * 2000, 1)
    (965, 95.6)
    """
    if None not in (brim, diameter, height):
        raise InputError(
            "Give two of brim volume, inside diameter and inside height: they tell the third."
        )
    holds = brim_volume(body) if brim is None else brim
    if not holds > 0:
        raise OutOfRange(f"A jar holds more than {holds} m3 to the brim.")
    if diameter is not None:
        radius = diameter / 2
    elif height is not None:
        below = height - NECK
        room = holds - _neck_volume(body.mouth)
        if not (below > 0 and room > 0):
            raise OutOfRange(f"A jar {height} m high inside does not hold {holds} m3.")
        radius = sqrt(room / (pi * below))
        if radius < body.mouth / 2:
            raise OutOfRange(
                f"A {body.size} jar {height} m high inside that holds {holds:.6f} m3 would be "
                "narrower than its mouth. Measure its inside diameter too."
            )
    else:
        radius = body.radius * (holds / brim_volume(body)) ** (1 / 3)
        radius = max(radius, body.mouth / 2)
    tall = _height(holds, radius, body.mouth) if height is None else height
    thick = body.wall if wall is None else wall
    mass = _shell(radius, tall, thick, body.mouth) if glass is None else glass
    return replace(body, radius=radius, height=tall, wall=thick, glass=mass)


def brim_volume(body: JarBody) -> float:
    """What a jar holds when it is full to the brim.

    Parameters
    ----------
    body : JarBody

    Returns
    -------
    scalar, m3

    Source
    ------
    Geometry of two cylinders. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> round(brim_volume(jar_body("half-gallon")) * 1e6, 1)
    1892.7
    """
    return pi * body.radius**2 * (body.height - NECK) + _neck_volume(body.mouth)


def headspace_volume(body: JarBody, headspace: float) -> float:
    """Empty room above the pack, a lower bound: the shoulder widens below the mouth.

    Parameters
    ----------
    body : JarBody
    headspace : scalar, m below the rim, from 0 to less than the jar's height

    Returns
    -------
    scalar, m3

    Raises
    ------
    OutOfRange
        The headspace is no depth within the jar.

    Source
    ------
    Area of the mouth times the headspace, and below the neck the area of the body.
    Explains and warns; no K or Pa here.

    Examples
    --------
    >>> round(headspace_volume(jar_body("quart"), 0.0254) * 1e6, 1)
    72.6
    """
    if not 0 <= headspace < body.height:
        raise OutOfRange(
            f"A headspace of {headspace} m does not fit a {body.size} jar, "
            f"which is {body.height:.3f} m high inside."
        )
    in_neck = pi / 4 * body.mouth**2 * min(headspace, NECK)
    return in_neck + pi * body.radius**2 * max(headspace - NECK, 0.0)


def pack_volume(body: JarBody, headspace: float) -> float:
    """Room that food and liquid take below the headspace.

    Parameters
    ----------
    body : JarBody
    headspace : scalar, m below the rim, from 0 to less than the jar's height

    Returns
    -------
    scalar, m3

    Raises
    ------
    OutOfRange
        The headspace is no depth within the jar.

    Source
    ------
    Brim volume less headspace. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> round(pack_volume(jar_body("quart"), 0.0254) * 1e6)
    874
    """
    return brim_volume(body) - headspace_volume(body, headspace)


def pack_height(body: JarBody, headspace: float) -> float:
    """Height of the plain cylinder, as wide as the body, that holds the pack.

    Heat is followed in that cylinder: it has the pack's volume and its full width, so it heats a
    little more slowly than a pack that narrows toward the mouth.

    Parameters
    ----------
    body : JarBody
    headspace : scalar, m below the rim, from 0 to less than the jar's height

    Returns
    -------
    scalar, m

    Raises
    ------
    OutOfRange
        The headspace is no depth within the jar.

    Source
    ------
    Pack volume over the area of the body. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> round(pack_height(jar_body("pint"), 0.0254) * 1000, 1)
    79.7
    """
    return pack_volume(body, headspace) / (pi * body.radius**2)


def wall_conductance(body: JarBody) -> float:
    """Heat that the glass lets through, without the films on its two sides.

    Parameters
    ----------
    body : JarBody

    Returns
    -------
    scalar, W/(m2 K)

    Source
    ------
    Conductivity over thickness (any heat-transfer text). Explains and warns.

    Examples
    --------
    >>> round(wall_conductance(jar_body("pint")))
    364
    """
    return GLASS_CONDUCTIVITY / body.wall


def glass_heat(body: JarBody) -> float:
    """Heat that one kelvin takes in the glass of a jar.

    Parameters
    ----------
    body : JarBody

    Returns
    -------
    scalar, J/K

    Source
    ------
    Mass times heat capacity. Explains and warns.

    Examples
    --------
    >>> round(glass_heat(measured(jar_body("quart"), glass=0.400)))
    325
    """
    return body.glass * GLASS_HEAT_CAPACITY


def _neck_volume(mouth: float) -> float:
    return pi / 4 * mouth**2 * NECK


def _height(holds: float, radius: float, mouth: float) -> float:
    """Inside height at which a body of this width holds so much to the brim."""
    return NECK + (holds - _neck_volume(mouth)) / (pi * radius**2)


def _shell(radius: float, height: float, wall: float, mouth: float) -> float:
    """Mass of the glass: side, bottom, a flat shoulder and the neck, each by its middle line."""
    outside = radius + wall
    surface = (
        2 * pi * (radius + wall / 2) * (height - NECK)
        + BOTTOM * pi * outside**2
        + pi * (radius**2 - mouth**2 / 4)
        + pi * (mouth + wall) * NECK
    )
    return surface * wall * GLASS_DENSITY
