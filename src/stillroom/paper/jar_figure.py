"""One jar drawn to scale: its body and neck, its layers with their amounts, and the headspace.

The drawing is SVG, made here line by line, so that the same build gives the same bytes. A layer
is told by its pattern and its words, never by color alone. Its height follows its volume in the
body of ``physics.jar``: a layer in the narrower neck stands higher.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from textwrap import wrap
from typing import Final
from xml.sax.saxutils import escape, quoteattr
from zlib import crc32

from stillroom.paper.chart_parts import COBALT, ENAMEL, FONT, INK
from stillroom.paper.jar_patterns import pattern, pattern_names
from stillroom.paper.letters import printable
from stillroom.physics.jar import NECK, JarBody
from stillroom.recipes.build import Build
from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import between
from stillroom.recipes.packing import level
from stillroom.units.rulers import inches

WIDTH: Final = 360
"""Pixels: as wide as a small phone. It grows with the screen; nothing in it is smaller than 13."""

_JAR, _TALLEST = 144, 300  # the room a jar may take, px
_LEFT, _WORDS = 12, 184  # where the glass begins, and the words beside it
_LINE, _GAP = 16, 9
_LETTERS = 25  # of 13 px that fit beside the jar
_TITLE_LETTERS = 36
_TOGETHER: Final = re.compile(r"\([^()]{1,22}\)|\d+ \d+/\d+(?: [a-zA-Z]+)?|\d \w{1,4}\b")


@dataclass(frozen=True, slots=True)
class _Frame:
    """Where things stand: ``scale`` px in a meter, ``middle`` of the jar, ``bottom`` inside."""

    body: JarBody
    scale: float
    middle: float
    bottom: float

    def y(self, height: float) -> float:
        return self.bottom - height * self.scale

    @property
    def half(self) -> float:
        return self.body.radius * self.scale

    @property
    def mouth(self) -> float:
        return self.body.mouth / 2 * self.scale

    @property
    def wall(self) -> float:
        return self.body.wall * self.scale


@dataclass(frozen=True, slots=True)
class _Label:
    """Words beside the jar: ``names`` bold, then ``amounts``; ``at`` is the y they point to."""

    names: tuple[str, ...]
    amounts: tuple[str, ...]
    at: float

    @property
    def lines(self) -> tuple[str, ...]:
        return (*self.names, *self.amounts)

    @property
    def height(self) -> int:
        return _LINE * len(self.lines)


def jar_figure(made: Build, *, alone: bool = True) -> str:
    """The jar as an SVG document, 360 px wide.

    Parameters
    ----------
    made : Build, its layers in filling order
    alone : whether it has a heading and an off-white ground of its own; on a card it has neither

    Returns
    -------
    str : the same for the same build; ``title`` and ``desc`` tell it to those who cannot see it

    Source
    ------
    The build alone; the body of the jar is that of ``physics.jar``.

    Examples
    --------
    >>> from stillroom.recipes.build import build
    >>> from stillroom.recipes.read import starter
    >>> figure = jar_figure(build(starter("snap-beans"), "pint"))
    >>> figure.startswith("<svg"), "1 in headspace" in figure
    (True, True)
    """
    mark = f"jar{crc32(repr((made.title, made.jar, made.layers)).encode('utf-8', 'replace')):08x}"
    title = wrap(_clean(f"{made.title}, {made.jar}"), _TITLE_LETTERS, max_lines=3) or [made.jar]
    top = 16 + 22 * len(title) if alone else 0
    scale = min(_JAR / (2 * (made.body.radius + made.body.wall)), _TALLEST / made.body.height)
    tall = made.body.height * scale
    heights = _stack(made)
    words = _labels(made, heights, scale)
    needed = sum(label.height + _GAP for label in words)
    frame = _Frame(
        made.body,
        scale,
        _LEFT + _JAR / 2,
        top + 14 + max(tall, (needed + tall) / 2 if needed > tall else 0),
    )
    end = max(frame.bottom + 16, top + 18 + needed)
    placed = _placed([replace(label, at=frame.y(label.at)) for label in words], top + 8, end - 6)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {_n(end)}" '
        f'width="{WIDTH}" height="{_n(end)}" role="img" '
        f'aria-labelledby="{mark}-title {mark}-desc" font-family={quoteattr(FONT)}>',
        f'<title id="{mark}-title">{_x("How to fill: " + " ".join(title))}</title>',
        f'<desc id="{mark}-desc">{_x(described(made))}</desc>',
        *_defs(made, mark, frame),
    ]
    if alone:
        parts.append(f'<rect width="{WIDTH}" height="{_n(end)}" fill="{ENAMEL}"/>')
        parts += [
            _text(_LEFT, 26 + 22 * place, line, size=17, bold=True)
            for place, line in enumerate(title)
        ]
    parts += _bands(made, mark, frame, heights)
    parts += _glass(frame)
    parts += _headspace(made, frame)
    for label, y in placed:
        parts += _words(label, y, frame)
    return "\n".join([*parts, "</svg>", ""])


def described(made: Build) -> str:
    """The jar in words, from the bottom up."""
    told = [
        f"{n}, {_clean(layer.name)}: {_clean(' '.join(_amount(made, layer)))}"
        for n, layer in enumerate(made.layers, 1)
    ]
    return (
        f"A {made.jar} jar, filled in this order. {'. '.join(told)}. "
        f"{inches(made.headspace_in)} in headspace stay empty below the rim."
    )


def _stack(made: Build) -> dict[str, tuple[float, float]]:
    """Bottom and top of each layer, m above the bottom. What is poured stands over the rest,
    whenever it went in."""
    order = sorted(made.layers, key=lambda layer: layer.name == made.poured)
    held = 0.0
    stack = {}
    for layer in order:
        upper = min(held + layer.stands, made.room)
        stack[layer.name] = (level(made.body, held), level(made.body, upper))
        held = upper
    return stack


def _amount(made: Build, layer: Layer) -> list[str]:
    """What is said of a layer: its amount, and of what is poured how much and how far."""
    if layer.name != made.poured:
        wanted = ", if wanted" if all(item.optional for item in layer.items) else ""
        return [(layer.said or "as the recipe says") + wanted]
    if made.liquid:
        return [f"about {between(made.liquid)},", "gaps filled, to the line"]
    return [f"about {between(layer.volume)},", "to the line"]


def _labels(made: Build, heights: dict[str, tuple[float, float]], scale: float) -> list[_Label]:
    """Words from the top of the jar down; ``at`` still in m above the bottom."""
    line = made.body.height - made.headspace
    head = (f"{inches(made.headspace_in)} in headspace",)
    labels = [_Label(head, ("left empty to the rim",), line + made.headspace / 2)]
    numbers = {layer.name: n for n, layer in enumerate(made.layers, 1)}
    upward = sorted(made.layers, key=lambda layer: heights[layer.name])
    for layer in reversed(upward):
        low, high = heights[layer.name]
        name = f"{numbers[layer.name]}. {_clean(layer.name)}"
        amounts = [part for text in _amount(made, layer) for part in _wrapped(text)]
        labels.append(_Label(tuple(_wrapped(name)), tuple(amounts), (low + high) / 2))
    return labels


def _wrapped(text: str) -> list[str]:
    """Lines beside the jar; an amount in parentheses is not torn, nor a number from its part."""
    whole = _TOGETHER.sub(
        lambda found: found.group().replace(" ", "\N{NO-BREAK SPACE}"), _clean(text)
    )
    lines = wrap(whole, _LETTERS, max_lines=6, placeholder=" …")
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines] or [""]


def _placed(labels: Sequence[_Label], top: float, end: float) -> list[tuple[_Label, float]]:
    """Each label as near to what it names as its neighbors let it, y of its upper edge."""
    ys: list[float] = []
    free = top
    for label in labels:
        ys.append(max(free, label.at - label.height / 2))
        free = ys[-1] + label.height + _GAP
    below = end
    for place in range(len(labels) - 1, -1, -1):
        ys[place] = min(ys[place], below - labels[place].height)
        below = ys[place] - _GAP
    return list(zip(labels, ys, strict=True))


def _defs(made: Build, mark: str, frame: _Frame) -> Iterator[str]:
    yield "<defs>"
    for place, name in enumerate(pattern_names([layer.kind for layer in made.layers])):
        yield pattern(name, f"{mark}-p{place}")
    yield f'<clipPath id="{mark}-in"><path d="{_outline(frame, 0.0)}"/></clipPath>'
    yield "</defs>"


def _bands(
    made: Build, mark: str, frame: _Frame, heights: dict[str, tuple[float, float]]
) -> Iterator[str]:
    yield f'<g clip-path="url(#{mark}-in)">'
    for place, layer in enumerate(made.layers):
        low, high = heights[layer.name]
        yield (
            f'<rect class="layer" data-layer={quoteattr(_clean(layer.name))} '
            f'x="{_n(frame.middle - frame.half)}" y="{_n(frame.y(high))}" '
            f'width="{_n(2 * frame.half)}" height="{_n((high - low) * frame.scale)}" '
            f'fill="url(#{mark}-p{place})" stroke="{INK}" stroke-width="0.8"/>'
        )
    yield "</g>"


def _outline(frame: _Frame, out: float) -> str:
    """Body, shoulder and neck as a path, ``out`` px outside the inner face of the glass."""
    half, mouth = frame.half + out, frame.mouth + out
    left, right = frame.middle - half, frame.middle + half
    bottom, shoulder = frame.bottom + out, frame.y(frame.body.height - NECK) - out
    rim = frame.y(frame.body.height)
    neck_left, neck_right = frame.middle - mouth, frame.middle + mouth
    bend = min(5.0 + out, max(half - mouth, 0.0))
    return (
        f"M {_n(neck_left)} {_n(rim)} V {_n(shoulder)} H {_n(left + bend)} "
        f"Q {_n(left)} {_n(shoulder)} {_n(left)} {_n(shoulder + bend)} "
        f"V {_n(bottom - 5)} Q {_n(left)} {_n(bottom)} {_n(left + 5)} {_n(bottom)} "
        f"H {_n(right - 5)} Q {_n(right)} {_n(bottom)} {_n(right)} {_n(bottom - 5)} "
        f"V {_n(shoulder + bend)} Q {_n(right)} {_n(shoulder)} {_n(right - bend)} {_n(shoulder)} "
        f"H {_n(neck_right)} V {_n(rim)} Z"
    )


def _glass(frame: _Frame) -> Iterator[str]:
    for out, thick in ((0.0, 1.0), (frame.wall, 2.2)):
        yield (
            f'<path d="{_outline(frame, out)}" fill="none" stroke="{COBALT}" '
            f'stroke-width="{thick}" stroke-linejoin="round"/>'
        )
    rim, half = frame.y(frame.body.height), frame.mouth + frame.wall + 2
    yield (
        f'<rect x="{_n(frame.middle - half)}" y="{_n(rim - 3)}" width="{_n(2 * half)}" '
        f'height="5" rx="2" fill="{COBALT}"/>'
    )


def _headspace(made: Build, frame: _Frame) -> Iterator[str]:
    """The fill line, dashed across the jar, and what lies above it."""
    y, rim = frame.y(frame.body.height - made.headspace), frame.y(frame.body.height)
    left, right = frame.middle - frame.mouth - 14, frame.middle + frame.mouth + 14
    yield (
        f'<line class="headspace" x1="{_n(left)}" x2="{_n(right)}" y1="{_n(y)}" y2="{_n(y)}" '
        f'stroke="{INK}" stroke-width="2" stroke-dasharray="6 3"/>'
    )
    x = frame.middle
    yield (
        f'<path d="M {_n(x)} {_n(rim + 3)} V {_n(y - 1)} M {_n(x - 4)} {_n(y - 6)} L {_n(x)} '
        f"{_n(y - 1)} L {_n(x + 4)} {_n(y - 6)} M {_n(x - 4)} {_n(rim + 8)} L {_n(x)} "
        f'{_n(rim + 3)} L {_n(x + 4)} {_n(rim + 8)}" fill="none" stroke="{INK}"/>'
    )


def _words(label: _Label, y: float, frame: _Frame) -> Iterator[str]:
    in_neck = label.at < frame.y(frame.body.height - NECK)
    dot = frame.middle + (frame.mouth if in_neck else frame.half) - 10
    at, edge = y + 9, frame.middle + frame.half + frame.wall
    yield (
        f'<path d="M {_n(dot)} {_n(label.at)} H {_n(edge + 4)} L {_n(_WORDS - 11)} {_n(at)} '
        f'H {_n(_WORDS - 4)}" fill="none" stroke="{INK}" stroke-width="1"/>'
        f'<circle cx="{_n(dot)}" cy="{_n(label.at)}" r="2.4" fill="{INK}"/>'
    )
    for place, line in enumerate(label.lines):
        bold = place < len(label.names)
        yield _text(_WORDS, y + 13 + _LINE * place, line, size=13, bold=bold)


def _text(x: float, y: float, words: str, *, size: int, bold: bool) -> str:
    heavy = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" font-size="{size}"{heavy} fill="{INK}">{_x(words)}</text>'
    )


def _clean(text: str) -> str:
    """The text without signs that no XML document may hold."""
    return "".join(sign for sign in printable(text) if not _forbidden(ord(sign)))


def _forbidden(code: int) -> bool:
    return 0xD800 <= code <= 0xDFFF or code & 0xFFFE == 0xFFFE


def _x(text: str) -> str:
    return escape(_clean(text))


def _n(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
