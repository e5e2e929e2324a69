"""The build of one jar: its layers in filling order, what each takes, and the liquid on top.

Amounts are the recipe's, by the capacity of the jar. Volumes are estimates: the pieces' gaps and
the jar's body are taken from ``packing`` and ``physics.jar``, so that liquid and the solids' share
are told from low to high. A build changes no process: time, pressure, headspace and acid come from
the published row and the recipe, in whatever order the jar is filled.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from stillroom.errors import InputError
from stillroom.physics.jar import JarBody, jar_body, pack_volume
from stillroom.processes import library
from stillroom.recipes.fit import Fit, fits
from stillroom.recipes.layers import (
    Layer,
    cut,
    inside_jar,
    layers_of,
    packed_room,
    standing,
    whole,
)
from stillroom.recipes.measures import Measured, measured_line
from stillroom.recipes.model import Recipe
from stillroom.recipes.packing import Range
from stillroom.recipes.steps import filling
from stillroom.units.jars import quarts
from stillroom.words import did_you_mean, key

INCH: Final = 0.0254

ESTIMATED: Final = (
    "Volumes are estimates: cup weights of USDA SR28, densities after Choi and Okos, and assumed "
    "jar bodies and gaps between the pieces. They approve nothing; the headspace line and the "
    "published process decide."
)


@dataclass(frozen=True, slots=True)
class Build:
    """One jar of a recipe. Volumes in m3; ``headspace`` in m below the rim.

    ``room`` is what lies below the headspace line; ``share`` the solids' part of it with their
    gaps, and ``liquid`` what it takes to reach the line, both ``None`` where the jar has no such
    layers. ``strained`` is cooked along and left out. ``acid`` is what the publication asks for,
    "" where it asks for none; ``poured`` is the layer that goes up to the headspace line, "" where
    nothing does.
    """

    name: str
    title: str
    food: str
    form: str
    pack: str
    jar: str
    body: JarBody
    headspace_in: float
    layers: tuple[Layer, ...]
    strained: tuple[Measured, ...]
    room: float
    share: Range | None
    liquid: Range | None
    fits: tuple[Fit, ...]
    acid: str
    poured: str

    @property
    def headspace(self) -> float:
        """Meters from the rim down to the headspace line."""
        return self.headspace_in * INCH

    @property
    def share_told(self) -> str:
        """The solids' part of the jar in a sentence, "" where no solids lie apart."""
        if self.share is None:
            return ""
        if self.share.low == 1.0:
            poured = "; what is poured fills the gaps" if self.liquid else ""
            return f"The solids reach the headspace line{poured}."
        low, high = round(self.share.low * 100), round(self.share.high * 100)
        told = f"{low}" if low == high else f"{low} to {high}"
        return f"Solids with their gaps fill about {told} percent of the room below the line."


def build(recipe: Recipe, jar: str) -> Build:
    """The build of one jar.

    Parameters
    ----------
    recipe : Recipe
    jar : a jar size that the recipe is for

    Returns
    -------
    Build : layers in the order of the recipe's fill list; every ingredient is in one of them or
        among what is strained out

    Raises
    ------
    InputError
        The recipe is not for this jar size.

    Source
    ------
    Amounts: the recipe. Headspace and acid: its published row. Volumes: ``ESTIMATED``.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> quart = build(starter("garden-chicken-soup"), "quart")
    >>> [layer.name for layer in quart.layers][-3:]
    ['corn', 'tomatoes', 'stock']
    >>> f"{quart.share.low:.2f} to {quart.share.high:.2f}"
    '0.35 to 0.47'
    """
    if jar not in recipe.jars:
        raise InputError(
            f'The recipe "{recipe.name}" is not for {jar} jars. Jars: {", ".join(recipe.jars)}.'
        )
    return filled(recipe, jar)


@lru_cache(maxsize=512)
def filled(recipe: Recipe, jar: str) -> Build:
    """A jar of any size filled by a recipe, whether or not the recipe is for it: for lists, whose
    orders have been checked by who made them."""
    times = Fraction(quarts(jar)) / Fraction(recipe.makes_quarts)
    body = jar_body(jar)
    room = pack_volume(body, recipe.headspace_in * INCH)
    placed = filling(recipe)
    layers = layers_of(placed, times)
    poured = [n for n, layer in enumerate(layers) if layer.kind in ("liquid", "whole")]
    filler = poured[-1] if poured else None
    space = room - sum(
        layer.volume.high for n, layer in enumerate(layers) if n != filler and not layer.solid
    )
    packed = packed_room(layers)
    food = sum(whole(layer) for layer in layers if layer.solid)
    inside = inside_jar(food, packed, space)
    rest = Range(max(space - inside.high, 0.0), max(space - inside.low, 0.0))
    fact = library.product(recipe.food, recipe.form)
    liquid = rest if filler is not None and layers[filler].kind == "liquid" else None
    stands = standing(layers, filler, room)
    made = Build(
        name=recipe.name,
        title=recipe.title,
        food=recipe.food,
        form=recipe.form,
        pack=recipe.pack,
        jar=jar,
        body=body,
        headspace_in=recipe.headspace_in,
        layers=tuple(
            replace(
                layer,
                volume=rest if n == filler else cut(layer, food, inside),
                stands=stands[n],
            )
            for n, layer in enumerate(layers)
        ),
        strained=tuple(measured_line(line, times) for line in placed.strained),
        room=room,
        share=Range(min(packed.low / room, 1.0), min(packed.high / room, 1.0)) if food else None,
        liquid=liquid,
        fits=(),
        acid=fact.acid if fact else "",
        poured="" if filler is None else layers[filler].name,
    )
    limits = fact.limits if fact else ""
    return replace(made, fits=fits(layers, packed, food, space, room, rest, filler, limits))


def reordered(made: Build, order: Sequence[str]) -> Build:
    """The same jar, filled in another order.

    Parameters
    ----------
    made : Build
    order : layers that come first, by name; the others keep their order after them

    Returns
    -------
    Build : only the order of its layers differs; what goes in, how much, and what the process
        rests on do not

    Raises
    ------
    InputError
        A name that is no layer, or one named twice.

    Source
    ------
    No published process gives an order of filling but for what is poured last. Common practice.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> quart = build(starter("venison-cubes"), "quart")
    >>> [layer.name for layer in reordered(quart, ["canning salt"]).layers]
    ['canning salt', 'venison']
    """
    by_name = {layer.name: layer for layer in made.layers}
    by_words = {key(name): layer for name, layer in by_name.items()}
    first: list[Layer] = []
    for said in order:
        layer = by_name.get(said.strip().lower()) or by_words.get(key(said))
        if layer is None:
            raise InputError(
                f'order: "{said.strip()}" is no layer of this jar.{did_you_mean(said, by_name)} '
                f"Layers: {', '.join(by_name)}."
            )
        if layer in first:
            raise InputError(f'order: "{layer.name}" is named twice. Name each layer once.')
        first.append(layer)
    rest = [layer for layer in made.layers if layer not in first]
    return replace(made, layers=(*first, *rest))
