"""One way to set a page: a layout of this room, facts as data, always the same bytes."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Final, Literal

FOLDER: Final = Path(__file__).parent

Kind = Literal["pdf", "svg", "png"]

PIXELS_PER_INCH: Final = 150.0
"""Of a PNG: twice what a screen needs, enough for a printed page."""

# A PDF carries the time it was made. The same facts must give the same bytes, so it is fixed.
_MADE: Final = datetime(2000, 1, 1, tzinfo=UTC)


def typeset(
    layout: str,
    name: str,
    facts: Mapping[str, object],
    kind: Kind = "pdf",
) -> bytes:
    """A layout set with its facts.

    Parameters
    ----------
    layout : a Typst file of this folder
    name : what the layout calls its facts
    facts : plain data; it travels as JSON and is never pasted into markup
    kind : an SVG or PNG is of a single page

    Returns
    -------
    bytes, the same for the same facts

    Raises
    ------
    typst.TypstError
        The layout itself is wrong; no facts cause it.
    """
    # 33 MB, loaded only when something is printed.
    import typst

    made = typst.compile(
        FOLDER / layout,
        format=kind,
        font_paths=[FOLDER / "fonts"],
        ignore_system_fonts=True,
        sys_inputs={name: json.dumps(facts, ensure_ascii=False)},
        timestamp=_MADE,
        ppi=PIXELS_PER_INCH,
    )
    return bytes(made)
