"""The layers of one jar and the room each takes: solids with their gaps, then what is poured."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from stillroom.foods.vocabulary import find_food
from stillroom.recipes.measures import Measured, measured_line
from stillroom.recipes.packing import Range, density, gaps, measured_volume
from stillroom.recipes.steps import Filling, Kind, Step, role_of

BY_CUP: Final = 0.1
"""How far a kitchen's cups and pounds stray from the tables', as a share: assumed."""


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of a jar.

    ``name`` tells it apart from the others; ``step`` is the fill list's own line, and ``ours``
    marks one that the list does not have. ``volume`` is the food without gaps that the jar takes,
    m3; ``stands`` the room it takes in the drawing, gaps included. Of a liquid ``stands`` is what
    shows above the solids: the rest is in their gaps.
    """

    name: str
    kind: Kind
    step: str
    ours: bool
    items: tuple[Measured, ...]
    volume: Range
    stands: float

    @property
    def solid(self) -> bool:
        """Whether it counts among the solids."""
        return self.kind == "solids"

    @property
    def dry(self) -> bool:
        """Seasoning that floats unless something lies on it."""
        return self.kind == "seasoning"

    @property
    def said(self) -> str:
        """Its amounts in one jar, as a kitchen says them."""
        if len(self.items) == 1:
            return self.items[0].said
        return "; ".join(f"{item.food} {item.said}" for item in self.items)


def layers_of(placed: Filling, times: Fraction) -> list[Layer]:
    """A recipe's steps as layers, so many times its amounts, each with a name of its own.

    A step of several solids makes a layer of each. ``volume`` is all that the recipe has of it,
    ``stands`` is not known yet.
    """
    layers: list[Layer] = []
    for step in placed.steps:
        items = [measured_line(line, times) for line in step.lines]
        if step.kind in ("liquid", "whole"):
            held = sum(_bulk(item) for item in items)
            layers.append(_layer(step, step.word, tuple(items), held))
        else:
            layers += [_layer(step, item.food, (item,), _bulk(item)) for item in items]
    return _named(layers)


def _layer(step: Step, name: str, items: tuple[Measured, ...], volume: float) -> Layer:
    kind: Kind = step.kind
    if kind in ("solids", "acid", "seasoning"):
        # A step may name several: "dill and carrots" is one of seasoning and one of solids.
        kind = _kind(items[0], kind)
    return Layer(name, kind, step.text, step.ours, items, Range(volume, volume), 0.0)


def _kind(item: Measured, of_step: Kind) -> Kind:
    role = role_of(find_food(item.food))
    if role == "solids" or role == "acid" or role == "seasoning":
        return role
    return "seasoning" if of_step == "seasoning" else "solids"


def _bulk(item: Measured) -> float:
    """The room of an ingredient: of solids without gaps, of the rest as measured."""
    food = find_food(item.food)
    if item.grams is not None and food.kind not in ("acid", "liquid", "stock", "salt", "spice"):
        return float(item.grams) / 1000 / density(item.food)
    if item.cups is not None:
        return measured_volume(item.cups)
    return float(item.grams or 0) / 1000 / density(item.food)


def whole(layer: Layer) -> float:
    """All of a layer that the recipe has, m3 without gaps."""
    return sum(_bulk(item) for item in layer.items)


def packed_room(layers: Sequence[Layer]) -> Range:
    """The room the solids take with their gaps: well filled, and loose."""
    low = high = 0.0
    for layer in layers:
        if layer.solid:
            held = _gaps(layer)
            low += whole(layer) / (1 - held.low)
            high += whole(layer) / (1 - held.high)
    return Range(low, high)


def _gaps(layer: Layer) -> Range:
    return gaps(find_food(layer.items[0].food), layer.items[0].prep)


def inside_jar(food: float, packed: Range, space: float) -> Range:
    """How much food without gaps the jar takes: what there is, or what fits."""
    if not food:
        return Range(0.0, 0.0)
    loose, pressed = (max(space, 0.0) * food / room for room in (packed.high, packed.low))
    return Range(min(food * (1 - BY_CUP), loose), min(food * (1 + BY_CUP), pressed))


def cut(layer: Layer, food: float, inside: Range) -> Range:
    """A layer's food that the jar takes; of solids their part of what fits."""
    if not layer.solid or not food:
        return layer.volume
    part = whole(layer) / food
    return Range(inside.low * part, inside.high * part)


def standing(layers: Sequence[Layer], filler: int | None, room: float) -> list[float]:
    """The room of each layer in the drawing, m3, in all at most ``room``.

    Solids stand halfway between loose and pressed, or as high as there is room; what is poured
    takes the rest.
    """
    held = [
        whole(layer) / (1 - _gaps(layer).middle) if layer.solid else layer.volume.high
        for layer in layers
    ]
    if filler is not None:
        held[filler] = 0.0
    loose = sum(v for v, layer in zip(held, layers, strict=True) if layer.solid)
    firm = sum(v for v, layer in zip(held, layers, strict=True) if not layer.solid)
    # Absurd amounts of seasoning leave no room even for themselves.
    firmly = min(1.0, room / firm) if firm else 1.0
    space = max(room - firm * firmly, 0.0)
    settled = min(1.0, space / loose) if loose else 1.0
    stands = [
        v * (settled if layer.solid else firmly) for v, layer in zip(held, layers, strict=True)
    ]
    if filler is not None:
        stands[filler] = max(space - loose * settled, 0.0)
    return stands


def _named(layers: list[Layer]) -> list[Layer]:
    """Layers whose names differ: by how they are cut, else by number."""
    names = [layer.name for layer in layers]
    made: list[Layer] = []
    for layer in layers:
        name = layer.name
        if names.count(name) > 1 and layer.items and layer.items[0].prep:
            name = f"{name}, {layer.items[0].prep}"
        taken = [other.name for other in made]
        number = 2
        while name in taken:
            name, number = f"{layer.name} ({number})", number + 1
        made.append(replace(layer, name=name))
    return made
