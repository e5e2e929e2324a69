"""How food lies in a jar: its volume, the gaps between its pieces, and how high it stands.

A cup of cut food is part air. From what the cup weighs and how dense the food is without air
follows the share of gaps in a cup that was filled loosely. In a jar the pieces are shaken down,
softened by heat or pressed, and the gaps are smaller: how much smaller, nobody has published for
home jars, so a range stands in for one figure. Liquid fills the gaps.

Volumes here tell what to have ready and whether it fits. They approve nothing.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import pi
from typing import Final

from stillroom.errors import InputError
from stillroom.foods.vocabulary import Food, cup_grams
from stillroom.physics.food import composition, properties
from stillroom.physics.jar import NECK, JarBody, brim_volume
from stillroom.units.amounts import CUP, MILLILITRE, Amount

PRESSED: Final = 0.6
"""Gaps in a well-filled jar over those in a loose cup: assumed. With it the covering liquid of
the published dilled beans (8 cups to 8 pints, AIB-539 Guide 6) falls within the range."""

UNKNOWN_GAPS: Final = 0.45
"""Loose gaps of food whose cup was never weighed: assumed, the middle of what the food tables give
for cut vegetables (0.25 to 0.6)."""

UNKNOWN_DENSITY: Final = 1040.0
"""kg/m3 of food whose composition is not listed: assumed; those listed lie between 1000 and 1130,
but for honey, jam and the like."""

KITCHEN: Final = 293.15
"""The temperature at which food is measured, K: 68 F."""

_CUP: Final = float(CUP / MILLILITRE) * 1e-6  # m3
_MOST_GAPS: Final = 0.75  # looser than any cut food of the tables: leaves, which wilt in any case


@dataclass(frozen=True, slots=True)
class Range:
    """The least and the most that a figure may be."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Halfway between them."""
        return (self.low + self.high) / 2


def measured_volume(amount: Amount) -> float:
    """Cubic meters that a spoon or cup measure holds; 0 for a weight or a count.

    Examples
    --------
    >>> round(measured_volume(Amount(Fraction(48), "tsp")) * 1e6, 1)
    236.6
    """
    return float(amount.value / MILLILITRE) * 1e-6 if amount.kind == "volume" else 0.0


@lru_cache(maxsize=512)
def density(food: str) -> float:
    """Kilograms in a cubic meter of a food without air.

    Source
    ------
    USDA SR28 composition and the component densities of Choi and Okos (``physics.food``);
    ``UNKNOWN_DENSITY`` where no composition is listed.

    Examples
    --------
    >>> round(density("carrots")), density("no such food")
    (1037, 1040.0)
    """
    try:
        made_of = composition(food)
    except InputError:
        return UNKNOWN_DENSITY
    return properties(made_of, KITCHEN).density


def gaps(food: Food, prep: str) -> Range:
    """The share of gaps in a jar of cut food, from well filled to as loose as in a cup.

    Parameters
    ----------
    food : from the food list
    prep : how it is cut

    Returns
    -------
    Range, shares from 0 to 0.75

    Source
    ------
    Loose: 1 - (g in a cup / 236.6 mL) / density, cup weights of USDA SR28. Well filled:
    ``PRESSED`` of that, assumed.

    Examples
    --------
    >>> from stillroom.foods.vocabulary import find_food
    >>> held = gaps(find_food("potatoes"), "diced")
    >>> round(held.low, 2), round(held.high, 2)
    (0.25, 0.41)
    """
    cup = cup_grams(food, prep)
    loose = UNKNOWN_GAPS if cup is None else 1 - float(cup) / 1000 / _CUP / density(food.food)
    loose = min(max(loose, 0.0), _MOST_GAPS)
    return Range(PRESSED * loose, loose)


def cups_of(food: Food, prep: str, grams: Fraction) -> Amount | None:
    """A prepared weight as loose cups, or ``None`` where no cup weight is known.

    Examples
    --------
    >>> from stillroom.foods.vocabulary import find_food
    >>> cups_of(find_food("potatoes"), "diced", Fraction(1050))  # 150 g a cup
    Amount(value=Fraction(336, 1), unit='tsp')
    """
    cup = cup_grams(food, prep)
    return Amount(grams / cup * CUP, "tsp") if cup else None


def level(body: JarBody, volume: float) -> float:
    """How high a volume stands in a jar.

    Parameters
    ----------
    body : JarBody
    volume : m3, from 0 to what the jar holds

    Returns
    -------
    m above the inside bottom; the inverse of the jar's volume below a height

    Raises
    ------
    ValueError
        More than the jar holds; the caller has cut it to the jar before.

    Source
    ------
    Geometry of the two cylinders of ``physics.jar``.

    Examples
    --------
    >>> from stillroom.physics.jar import jar_body, pack_volume
    >>> quart = jar_body("quart")
    >>> round(quart.height - level(quart, pack_volume(quart, 0.0254)), 4)
    0.0254
    """
    # A sum of layers may pass the brim by a rounding.
    if not -1e-12 <= volume <= brim_volume(body) * (1 + 1e-9):
        raise ValueError(f"{volume} m3 is not within a {body.size} jar.")
    below = pi * body.radius**2 * (body.height - NECK)
    if volume <= below:
        return max(volume, 0.0) / (pi * body.radius**2)
    return body.height - NECK + min((volume - below) / (pi / 4 * body.mouth**2), NECK)
