"""Patterns that tell a jar's layers apart in black and white."""

from collections.abc import Sequence
from itertools import count
from typing import Final

from stillroom.paper.chart_parts import COBALT, INK

_SOLIDS: Final = ("rising", "dots", "falling", "rings", "upright", "checks", "dashes", "corners")

# Side of the tile, and its lines; "fill" parts are filled instead.
_TILES: Final[dict[str, tuple[int, str]]] = {
    "rising": (8, "M -2 2 L 2 -2 M 0 8 L 8 0 M 6 10 L 10 6"),
    "falling": (7, "M -2 5 L 2 9 M 0 0 L 7 7 M 5 -2 L 9 2"),
    "rings": (10, "M 2.5 5 a 2.5 2.5 0 1 0 5 0 a 2.5 2.5 0 1 0 -5 0"),
    "upright": (6, "M 3 0 V 6"),
    "checks": (8, "M 0 4 H 8 M 4 0 V 8"),
    "dashes": (10, "M 0 2.5 H 6 M 5 7.5 H 10 M 0 7.5 H 1"),
    "corners": (10, "M 2 7 L 5 3 L 8 7"),
    "waves": (16, "M 0 8 Q 4 4 8 8 T 16 8"),
    "mash": (12, "M 0 3 Q 3 0 6 3 T 12 3 M 3 8 h 1.5 M 9 9 h 1.5"),
    "zigzag": (6, "M 0 4 L 1.5 2 L 4.5 6 L 6 4"),
}


def pattern_names(kinds: Sequence[str]) -> list[str]:
    """The pattern of each layer by its kind; solids differ from their neighbors.

    Examples
    --------
    >>> pattern_names(["seasoning", "solids", "solids", "liquid"])
    ['dark', 'rising', 'dots', 'waves']
    """
    solids = count()
    of_kind = {"liquid": "waves", "whole": "mash", "acid": "zigzag", "seasoning": "dark"}
    return [
        of_kind[kind] if kind in of_kind else _SOLIDS[next(solids) % len(_SOLIDS)] for kind in kinds
    ]


def pattern(name: str, mark: str) -> str:
    """An SVG pattern of that name under an id of its own.

    Examples
    --------
    >>> pattern("dark", "p").startswith('<pattern id="p"')
    True
    """
    if name == "dark":
        side, drawn = 4, f'<rect width="4" height="4" fill="{INK}"/>'
    elif name == "dots":
        side = 6
        drawn = f'<circle cx="3" cy="3" r="1.4" fill="{COBALT}"/>'
    else:
        side, path = _TILES[name]
        ink = INK if name == "zigzag" else COBALT
        drawn = f'<path d="{path}" fill="none" stroke="{ink}" stroke-width="1.1"/>'
    return (
        f'<pattern id="{mark}" width="{side}" height="{side}" patternUnits="userSpaceOnUse">'
        f'<rect width="{side}" height="{side}" fill="#ffffff"/>{drawn}</pattern>'
    )
