"""Charts as files: a Vega-Lite description drawn as SVG, PNG or PDF.

A chart is a plain dict of the Vega-Lite grammar, made by the modules beside this one. It is drawn
here by ``vl-convert``, in the type that ships with this package; nothing is fetched. PDF goes
through Typst, which sets the SVG on a page: the same chart gives the same bytes each time.
"""

from functools import lru_cache
from pathlib import Path
from typing import Any, Final

from stillroom.errors import InputError
from stillroom.paper.typeset import FOLDER, Kind, typeset

Spec = dict[str, Any]
"""A chart in the Vega-Lite grammar. The grammar is outside, so its values are of any type."""

VEGA_LITE: Final = "6.4"
"""The grammar's version that ``vl-convert`` draws; ``chart_parts.SCHEMA`` names the same one."""

ENDINGS: Final = (".svg", ".png", ".pdf")

SCALE: Final = 2.0
"""Pixels of a PNG for each unit of the chart: sharp on a phone and in print."""


def as_svg(spec: Spec) -> str:
    """The chart as an SVG document.

    Raises
    ------
    ValueError
        The description is no Vega-Lite; no input of a person causes it.
    """
    drawn: str = _converter().vegalite_to_svg(spec, vl_version=VEGA_LITE, allowed_base_urls=[])
    return drawn


def as_png(spec: Spec, scale: float = SCALE) -> bytes:
    """The chart as a PNG picture, ``scale`` pixels for each unit of the chart."""
    drawn: bytes = _converter().svg_to_png(as_svg(spec), scale=scale)
    return drawn


def as_pdf(spec: Spec) -> bytes:
    """The chart as a PDF of one US Letter page, its words kept as words."""
    told = {"svg": as_svg(spec), "says": str(spec.get("description", ""))}
    return typeset("chart.typ", "chart", told)


def chart_kind(path: Path) -> Kind:
    """What to draw a chart as, by the ending of its file's name, which ``check_ending`` passed."""
    match path.suffix.lower():
        case ".svg":
            return "svg"
        case ".png":
            return "png"
        case _:
            return "pdf"


def check_ending(path: Path, where: str = "--chart") -> None:
    """Refuse a file name whose ending is none a chart can have, before any work is done.

    Raises
    ------
    InputError
        An ending that is not .svg, .png or .pdf.

    Examples
    --------
    >>> check_ending(Path("run.jpg"))
    Traceback (most recent call last):
        ...
    stillroom.errors.InputError: --chart: "run.jpg" does not end in .svg, .png or .pdf. Name it so.
    """
    if path.suffix.lower() not in ENDINGS:
        raise InputError(f'{where}: "{path}" does not end in .svg, .png or .pdf. Name it so.')


def write_chart(spec: Spec, path: Path, where: str = "--chart") -> None:
    """Write the chart to a file of the kind its ending names.

    Raises
    ------
    InputError
        An ending that is none of a chart's, or a file that cannot be written.
    """
    check_ending(path, where)
    match chart_kind(path):
        case "svg":
            drawn = as_svg(spec).encode("utf-8")
        case "png":
            drawn = as_png(spec)
        case _:
            drawn = as_pdf(spec)
    write_file(drawn, path, where)


def write_file(drawn: bytes, path: Path, where: str) -> None:
    """Write what was drawn or set.

    Raises
    ------
    InputError
        A file that cannot be written; the message begins with ``where``.
    """
    try:
        path.write_bytes(drawn)
    except (OSError, ValueError) as wrong:
        # ValueError: no file system takes a name with a NUL character in it.
        why = wrong.strerror if isinstance(wrong, OSError) else "this cannot be a file name"
        raise InputError(
            f"{where}: {path} cannot be written ({why}). Name a folder that is there and yours."
        ) from None


@lru_cache(maxsize=1)
def _converter() -> Any:
    """The drawing library, which knows our type from now on. It holds 30 MB: loaded when used."""
    import vl_convert

    vl_convert.register_font_directory(str(FOLDER / "fonts"))
    return vl_convert
