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

from stillroom.paper.chart_parts import ENAMEL, FONT, INK
from stillroom.paper.jar_glass import Frame, glass, headspace_line, outline, px
from stillroom.paper.jar_patterns import pattern, pattern_names
from stillroom.paper.letters import printable
from stillroom.physics.jar import NECK
from stillroom.recipes.build import Build
from stillroom.recipes.layers import Layer
from stillroom.recipes.measures import between
from stillroom.recipes.packing import level
from stillroom.units.rulers import inches

WIDTH: Final = 360
"""Pixels: as wide as a small phone. It grows with the screen; nothing in it is smaller than 13."""

_JAR, _TALLEST = 144, 300  # the room a jar may take, px
_LEFT, _WORDS = 12, 184  # where the glass begins, and the words beside it
_LEADING, _GAP = 3, 9
_PLAIN, _LARGE = 13, 15  # of the words: with their amounts, and on a card without
_LETTERS: Final = {_PLAIN: 25, _LARGE: 20}  # that fit beside the jar
_TITLE_LETTERS = 36
_TOGETHER: Final = re.compile(r"\([^()]{1,22}\)|\d+ \d+/\d+(?: [a-zA-Z]+)?|\d \w{1,4}\b")


@dataclass(frozen=True, slots=True)
class _Label:
    """Words beside the jar: ``names`` bold, then ``amounts``; ``at`` is the y they point to, and
    ``size`` of their letters."""

    names: tuple[str, ...]
    amounts: tuple[str, ...]
    at: float
    size: int

    @property
    def lines(self) -> tuple[str, ...]:
        return (*self.names, *self.amounts)

    @property
    def height(self) -> int:
        return (self.size + _LEADING) * len(self.lines)


def jar_figure(made: Build, *, alone: bool = True) -> str:
    """The jar as an SVG document, 360 px wide.

    Parameters
    ----------
    made : Build, its layers in filling order
    alone : whether it has a heading, a ground and the amounts beside the layers; on a card, which
        tells them itself, it has names alone, and larger

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
    words = _labels(made, heights, alone)
    needed = sum(label.height + _GAP for label in words)
    frame = Frame(
        made.body,
        scale,
        _LEFT + _JAR / 2,
        top + 14 + max(tall, (needed + tall) / 2 if needed > tall else 0),
    )
    end = max(frame.bottom + 16, top + 18 + needed)
    placed = _placed([replace(label, at=frame.y(label.at)) for label in words], top + 8, end - 6)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {px(end)}" '
        f'width="{WIDTH}" height="{px(end)}" role="img" '
        f'aria-labelledby="{mark}-title {mark}-desc" font-family={quoteattr(FONT)}>',
        f'<title id="{mark}-title">{_x("How to fill: " + " ".join(title))}</title>',
        f'<desc id="{mark}-desc">{_x(described(made))}</desc>',
        *_defs(made, mark, frame),
    ]
    if alone:
        parts.append(f'<rect width="{WIDTH}" height="{px(end)}" fill="{ENAMEL}"/>')
        parts += [
            _text(_LEFT, 26 + 22 * place, line, size=17, bold=True)
            for place, line in enumerate(title)
        ]
    parts += _bands(made, mark, frame, heights)
    parts += glass(frame)
    parts += headspace_line(frame, made.headspace)
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


def _labels(made: Build, heights: dict[str, tuple[float, float]], alone: bool) -> list[_Label]:
    """Words from the top of the jar down; ``at`` still in m above the bottom."""
    line = made.body.height - made.headspace
    head = (f"{inches(made.headspace_in)} in headspace",)
    size = _PLAIN if alone else _LARGE
    empty = ("left empty to the rim",) if alone else ()
    labels = [_Label(head, empty, line + made.headspace / 2, size)]
    numbers = {layer.name: n for n, layer in enumerate(made.layers, 1)}
    upward = sorted(made.layers, key=lambda layer: heights[layer.name])
    for layer in reversed(upward):
        low, high = heights[layer.name]
        name = f"{numbers[layer.name]}. {_clean(layer.name)}"
        told = _amount(made, layer) if alone else []
        amounts = tuple(part for text in told for part in _wrapped(text, size))
        labels.append(_Label(tuple(_wrapped(name, size)), amounts, (low + high) / 2, size))
    return labels


def _wrapped(text: str, size: int) -> list[str]:
    """Lines beside the jar; an amount in parentheses is not torn, nor a number from its part."""
    whole = _TOGETHER.sub(
        lambda found: found.group().replace(" ", "\N{NO-BREAK SPACE}"), _clean(text)
    )
    lines = wrap(whole, _LETTERS[size], max_lines=6, placeholder=" …")
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


def _defs(made: Build, mark: str, frame: Frame) -> Iterator[str]:
    yield "<defs>"
    for place, name in enumerate(pattern_names([layer.kind for layer in made.layers])):
        yield pattern(name, f"{mark}-p{place}")
    yield f'<clipPath id="{mark}-in"><path d="{outline(frame, 0.0)}"/></clipPath>'
    yield "</defs>"


def _bands(
    made: Build, mark: str, frame: Frame, heights: dict[str, tuple[float, float]]
) -> Iterator[str]:
    yield f'<g clip-path="url(#{mark}-in)">'
    for place, layer in enumerate(made.layers):
        low, high = heights[layer.name]
        yield (
            f'<rect class="layer" data-layer={quoteattr(_clean(layer.name))} '
            f'x="{px(frame.middle - frame.half)}" y="{px(frame.y(high))}" '
            f'width="{px(2 * frame.half)}" height="{px((high - low) * frame.scale)}" '
            f'fill="url(#{mark}-p{place})" stroke="{INK}" stroke-width="0.8"/>'
        )
    yield "</g>"


def _words(label: _Label, y: float, frame: Frame) -> Iterator[str]:
    in_neck = label.at < frame.y(frame.body.height - NECK)
    dot = frame.middle + (frame.mouth if in_neck else frame.half) - 10
    at, edge = y + 9, frame.middle + frame.half + frame.wall
    yield (
        f'<path d="M {px(dot)} {px(label.at)} H {px(edge + 4)} L {px(_WORDS - 11)} {px(at)} '
        f'H {px(_WORDS - 4)}" fill="none" stroke="{INK}" stroke-width="1"/>'
        f'<circle cx="{px(dot)}" cy="{px(label.at)}" r="2.4" fill="{INK}"/>'
    )
    for place, line in enumerate(label.lines):
        bold = place < len(label.names)
        down = label.size + (label.size + _LEADING) * place
        yield _text(_WORDS, y + down, line, size=label.size, bold=bold)


def _text(x: float, y: float, words: str, *, size: int, bold: bool) -> str:
    heavy = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{px(x)}" y="{px(y)}" font-size="{size}"{heavy} fill="{INK}">{_x(words)}</text>'
    )


def _clean(text: str) -> str:
    """The text without signs that no XML document may hold."""
    return "".join(sign for sign in printable(text) if not _forbidden(ord(sign)))


def _forbidden(code: int) -> bool:
    return 0xD800 <= code <= 0xDFFF or code & 0xFFFE == 0xFFFE


def _x(text: str) -> str:
    return escape(_clean(text))
