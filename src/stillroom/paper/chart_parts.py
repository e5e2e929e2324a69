"""What the charts share: inks, type, scales in both degrees, lines with their names beside them.

Enamelware: off-white ground, cobalt line, tomato red only for what must be acted on, amber for
what wants attention. Nothing is told by color alone: lines differ in dashes and marks in shape, and
each has its name beside it, so that a chart reads in black and white.
"""

from collections.abc import Iterable, Sequence
from textwrap import wrap
from typing import Any, Final

from stillroom.paper.charts import Spec

SCHEMA: Final = "https://vega.github.io/schema/vega-lite/v6.4.1.json"
"""The grammar a chart is written in. It is a name; nothing is fetched from it."""

FONT: Final = "Atkinson Hyperlegible, Helvetica, Arial, sans-serif"
"""The type that ships with this package; the rest stands in where an SVG is shown elsewhere."""

ENAMEL, INK, GREY, FAINT = "#fbf8f1", "#141414", "#5a5a5a", "#d9d5ca"
COBALT, TOMATO, AMBER = "#123a7d", "#c0301c", "#8a5200"

SOLID, DASHED, DOTTED, DASH_DOT = [1, 0], [7, 4], [2, 3], [9, 3, 2, 3]

WIDTH: Final = 330
"""Of the drawing between its axes. With its words a chart is as wide as a large phone."""

SMALL, PLAIN, LARGE = 13, 14, 19

LINE_LENGTH: Final = 58
"""Signs of plain type that fit across a chart."""

_TITLE_LENGTH: Final = 38

LOOK: Final[Spec] = {
    "background": ENAMEL,
    "padding": 12,
    "font": FONT,
    "title": {
        "anchor": "start",
        "color": INK,
        "fontSize": LARGE,
        "fontWeight": "bold",
        "lineHeight": 23,
        "subtitleColor": INK,
        "subtitleFontSize": PLAIN,
        "subtitleLineHeight": 18,
        "subtitlePadding": 5,
        "offset": 12,
    },
    "axis": {
        "labelColor": INK,
        "labelFontSize": PLAIN,
        "labelPadding": 5,
        "labelFlush": False,
        "titleColor": INK,
        "titleFontSize": PLAIN,
        "titleFontWeight": "normal",
        "titlePadding": 8,
        "gridColor": FAINT,
        "domainColor": INK,
        "tickColor": INK,
        "tickSize": 5,
    },
    "view": {"stroke": None},
    "text": {"fontSize": PLAIN, "color": INK},
    "line": {"color": COBALT, "strokeWidth": 2.5, "strokeCap": "butt"},
    "rule": {"color": INK, "strokeWidth": 1},
}


def chart(
    title: str, subtitle: str, panels: Sequence[Spec], *, says: str, foot: Iterable[str]
) -> Spec:
    """A whole chart: its heading, panels one under the other, and what must stand below them.

    Parameters
    ----------
    title, subtitle : broken into lines here
    panels : each with its own width and height
    says : one sentence for those who cannot see it
    foot : sentences that go with the figures, each on lines of its own

    Returns
    -------
    Spec, Vega-Lite
    """
    lines = [line for sentence in foot for line in wrap(sentence, LINE_LENGTH)]
    footer = {
        "data": one({}),
        "width": WIDTH,
        "height": 16 * len(lines),
        "mark": {
            "type": "text",
            "text": lines,
            "align": "left",
            "baseline": "top",
            "fontSize": SMALL,
            "lineHeight": 16,
            "color": INK,
            "x": -_LEFT,
            "y": 0,
        },
    }
    return {
        "$schema": SCHEMA,
        "description": says,
        "config": LOOK,
        "title": {
            "text": wrap(title, _TITLE_LENGTH),
            "subtitle": wrap(subtitle, LINE_LENGTH),
        },
        "spacing": 14,
        "vconcat": [*panels, footer],
    }


_LEFT: Final = 56  # what the labels of an axis take beside the drawing


def one(row: dict[str, Any]) -> Spec:
    """Data of one row."""
    return {"values": [row]}


def rows(**columns: Iterable[object]) -> Spec:
    """Data of several columns, numbers cut to six digits so that the file stays small.

    Examples
    --------
    >>> rows(x=[1, 2], y=[0.12345678, "b"])
    {'values': [{'x': 1, 'y': 0.123457}, {'x': 2, 'y': 'b'}]}
    """
    cut = [[_short(value) for value in column] for column in columns.values()]
    return {"values": [dict(zip(columns, row, strict=True)) for row in zip(*cut, strict=True)]}


def _short(value: object) -> object:
    return float(f"{value:.6g}") if isinstance(value, float) else value


def number(
    field: str, title: str | None, least: float, most: float, ticks: Sequence[float], **axis: Any
) -> Spec:
    """A scale of numbers from ``least`` to ``most`` with ticks at given places."""
    return {
        "field": field,
        "type": "quantitative",
        "scale": {"domain": [least, most], "nice": False, "zero": False},
        "axis": {"title": title, "values": list(ticks), **axis},
    }


def degrees(field: str, least: float, most: float, ticks: Sequence[float]) -> Spec:
    """A scale of temperatures in F, each tick with the same in C under it."""
    both = "[format(datum.value, 'd') + ' F', format((datum.value - 32) / 1.8, '.0f') + ' C']"
    # A label of two lines is set by its first; it is lifted so that the tick points between them.
    look = {"labelExpr": both, "labelLineHeight": 15, "labelOffset": -7}
    return number(field, None, least, most, ticks, **look)


def ticks(least: float, most: float, about: int = 6) -> list[float]:
    """Round numbers that divide a span into about so many parts.

    Examples
    --------
    >>> ticks(0, 152), ticks(0, 9.2)
    ([0, 30, 60, 90, 120, 150], [0, 2, 4, 6, 8])
    """
    steps = (0.1, 0.2, 0.5, 1, 2, 5, 10, 15, 20, 30, 60, 120, 240, 500, 1000, 2000)
    step = next((s for s in steps if (most - least) / s <= about), 5000)
    first = -(-least // step) * step
    count = int((most - first) // step) + 1
    return [round(first + n * step, 6) for n in range(count)]


def apart(places: Sequence[float], least: float) -> list[float]:
    """Places of names beside a drawing, moved up where they would stand closer than ``least``.

    Examples
    --------
    >>> apart([240.0, 238.0, 220.0], 5.0)
    [243.0, 238.0, 220.0]
    """
    moved = dict.fromkeys(range(len(places)), 0.0)
    below = float("-inf")
    for index in sorted(moved, key=lambda i: places[i]):
        below = moved[index] = max(places[index], below + least)
    return list(moved.values())


def line(data: Spec, x: Spec, y: Spec, *, dash: Sequence[int] = SOLID, **mark: Any) -> Spec:
    """A line through points."""
    return {
        "data": data,
        "mark": {"type": "line", "strokeDash": list(dash), **mark},
        "encoding": {"x": x, "y": y},
    }


def band(data: Spec, x: Spec, low: Spec, high: str, color: str = COBALT) -> Spec:
    """What lies between two lines, lightly filled; it shows in grey, too."""
    return {
        "data": data,
        "mark": {
            "type": "area",
            "color": color,
            "opacity": 0.22,
        },
        "encoding": {"x": x, "y": low, "y2": {"field": high}},
    }


def words(
    text: str | Sequence[str], x: Spec, y: Spec, at: tuple[float, float], **mark: Any
) -> Spec:
    """Words at a place of the drawing, with a little of the ground around them."""
    told = [text] if isinstance(text, str) else list(text)
    look = {
        "type": "text",
        "text": told if len(told) > 1 else told[0],
        "align": "left",
        "baseline": "middle",
        "lineHeight": 16,
        **mark,
    }
    # The same words in the ground's color, wider and below: a voice that reads aloud skips them.
    ground = {**look, "color": ENAMEL, "stroke": ENAMEL, "strokeWidth": 4, "strokeJoin": "round"}
    ground["aria"] = False
    return {
        "data": one({str(x["field"]): _short(at[0]), str(y["field"]): _short(at[1])}),
        "layer": [{"mark": ground}, {"mark": look}],
        "encoding": {"x": x, "y": y},
    }
