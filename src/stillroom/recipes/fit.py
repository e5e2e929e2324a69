"""Will it fit: what to know before a jar is filled, told as an estimate."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import volume
from stillroom.recipes.packing import Range, measured_volume

_SURE = 0.85
"""Kitchen measures stray by a tenth and jars by a twentieth (assumed): a lesser excess is none to
warn of."""

# The words with which the published rule of soups is kept among the products' limits.
_HALF = "solids at most half the jar"


@dataclass(frozen=True, slots=True)
class Fit:
    """Something to know of how the jar fills: a warning asks for a change, a note for care."""

    kind: Literal["warning", "note"]
    message: str


def fits(
    layers: Sequence[Layer],
    packed: Range,
    food: float,
    space: float,
    room: float,
    rest: Range,
    filler: int | None,
    limits: str,
) -> tuple[Fit, ...]:
    """What to know of how a jar fills.

    Parameters
    ----------
    layers : of the build
    packed : m3, the solids with their gaps
    food : m3, the solids without gaps
    space : m3 left for solids and liquid below the headspace line
    room : m3 below the headspace line
    rest : m3 of what is poured to the line
    filler : place of the layer that is poured to the line
    limits : what the published product limits, in words

    Source
    ------
    The half of solids: AIB-539 Guide 4, soups (``processes/data/products.csv``). The rest is the
    estimate of ``packing``.
    """
    found = [
        *_no_room(space),
        *_too_much(layers, packed, food, space),
        *_half(packed, room, limits),
    ]
    if filler is None:
        found += _short(packed, space, room)
    elif layers[filler].kind == "liquid":
        found += _liquid(layers[filler], rest)
    unknown = [
        layer.name for layer in layers if layer.solid and any(i.grams is None for i in layer.items)
    ]
    if unknown:
        found.append(
            Fit(
                "note",
                f"No weight is known for {', '.join(unknown)}: not counted here, so that less "
                "liquid will go in than is told.",
            )
        )
    return tuple(found)


def _no_room(space: float) -> Iterator[Fit]:
    if space <= 0:
        yield Fit(
            "warning",
            "Seasoning and acid alone fill the jar. Check their amounts and how many jars they "
            "are for.",
        )


def _too_much(layers: Sequence[Layer], packed: Range, food: float, space: float) -> Iterator[Fit]:
    if not food or space <= 0 or packed.high <= space:
        return
    solids = [layer for layer in layers if layer.solid]
    names = ", ".join(layer.name for layer in solids)
    if packed.low <= space:
        yield Fit(
            "note",
            f"The jar takes all of it ({names}) only when the pieces settle: filled loosely, about "
            f"{_percent(1 - space / packed.high)} is left over. Never shake or press corn, peas or "
            "lima beans down: they swell (AIB-539 Guide 4).",
        )
        return
    part = Range(max(space, 0.0) / packed.high, max(space, 0.0) / packed.low)
    told = (
        f"By this estimate a jar takes about {_percents(part)} of its {names}: fill to the "
        "headspace line, and what is left goes into the next jar."
    )
    if any(item.as_bought for layer in solids for item in layer.items):
        # Published pounds are averages as bought; salted, peeled or cooked food shrinks as well.
        yield Fit("note", f"{told} Pounds as bought are averages to shop by, not a fill.")
    elif packed.low * _SURE <= space:
        yield Fit("note", told)
    else:
        alone = " even without any gaps" if food * _SURE > space else ""
        yield Fit("warning", f"The solids alone exceed the jar{alone}. {told}")


def _half(packed: Range, room: float, limits: str) -> Iterator[Fit]:
    if _HALF not in limits or packed.high <= room / 2:
        return
    share = _percents(Range(packed.low / room, packed.high / room))
    rule = "The process rests on solids that fill at most half of each jar (AIB-539 Guide 4)."
    if packed.low > room / 2:
        yield Fit("warning", f"Solids fill about {share} of the jar. {rule} Take less of them.")
    else:
        yield Fit(
            "note",
            f"Solids fill about {share} of the jar. {rule} Level them at half or below before "
            "you pour.",
        )


def _short(packed: Range, space: float, room: float) -> Iterator[Fit]:
    if packed.high < 0.9 * space:
        yield Fit(
            "note",
            f"Nothing is poured on, and the food fills about "
            f"{_percents(Range(packed.low / room, packed.high / room))} of the room below the "
            "headspace line: fill jars full, and take fewer of them.",
        )


def _liquid(layer: Layer, rest: Range) -> Iterator[Fit]:
    """Whether the recipe's own liquid reaches the line; sugar swells a syrup, so that is left."""
    held = sum(
        measured_volume(item.cups) for item in layer.items if item.poured and item.cups is not None
    )
    sweet = any(not item.poured and item.cups and item.cups.value > 24 for item in layer.items)
    if held and not sweet and held < rest.low:
        yield Fit(
            "note",
            f"The recipe's {volume(held)} of {layer.name} falls short of the headspace line: it "
            f"takes about {volume(rest.low)} to {volume(rest.high)}. Have more ready.",
        )


def _percent(share: float) -> str:
    return f"{round(share * 100)} percent"


def _percents(share: Range) -> str:
    low, high = round(share.low * 100), round(share.high * 100)
    return f"{low} percent" if low == high else f"{low} to {high} percent"
