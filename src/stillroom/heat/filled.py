"""A filled jar as a person tells it: size, opening, brim, headspace, and how it is packed."""

from stillroom.errors import InputError
from stillroom.heat.inside import Filled
from stillroom.physics.food import composition
from stillroom.physics.jar import JarBody, brim_volume, jar_body, measured
from stillroom.units.si import METRES_PER_INCH

PACKED = {"solid": 1.0, "pieces in liquid": 0.5, "brothy": 0.0}
"""How solid a jar is packed, in words; the middle one is this project's own choice."""


def body_of(size: str, opening: str | None, brim_ml: float | None) -> JarBody:
    """The assumed body of a size, or the one that holds what a person measured to the brim.

    Raises
    ------
    InputError
        No such size or opening, or a brim volume that size cannot have.
    """
    body = jar_body(size, opening)
    if brim_ml is None:
        return body
    nominal = 1e6 * brim_volume(body)
    if not 0.7 * nominal <= brim_ml <= 1.4 * nominal:
        raise InputError(
            f"--brim: {brim_ml:g} mL does not fit a {body.size} jar of about {nominal:.0f} mL. "
            "Weigh it empty and full of water to the brim: a gram of water is about a milliliter."
        )
    return measured(body, brim=brim_ml * 1e-6)


def check_headspace(body: JarBody, headspace: float) -> float:
    """The headspace, m, where it leaves at least half of the jar for food.

    Raises
    ------
    InputError
        A headspace deeper than that.
    """
    if not 0 <= headspace <= body.height / 2:
        deep, high = headspace / METRES_PER_INCH, body.height / METRES_PER_INCH
        raise InputError(
            f"--headspace: {deep:.3g} in does not fit a {body.size} jar, which is {high:.2g} in "
            "high inside. Write the one published for the food."
        )
    return headspace


def filled(body: JarBody, headspace: float, food: str, packed: str) -> Filled:
    """A jar filled with a food, packed as a word or a share says.

    Parameters
    ----------
    body : of the jar
    headspace : m
    food : one whose composition is listed
    packed : a word of ``PACKED``, or a share such as "0.7"

    Raises
    ------
    InputError
        A food without composition, or a word or share that is none.
    """
    said = " ".join(packed.lower().replace("-", " ").split())
    if said in PACKED:
        return Filled(body, headspace, composition(food), PACKED[said])
    try:
        share = float(said)
    except ValueError:
        share = -1.0
    if not 0 <= share <= 1:
        raise InputError(
            f'--packed: "{packed}" does not fit. Write {", ".join(PACKED)}, or a share from 0 '
            "(a broth) to 1 (solid)."
        )
    return Filled(body, headspace, composition(food), share)
