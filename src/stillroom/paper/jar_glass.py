"""The glass of a drawn jar: where things stand, its outline, its rim and the fill line."""

from collections.abc import Iterator
from dataclasses import dataclass

from stillroom.paper.chart_parts import COBALT, INK
from stillroom.physics.jar import NECK, JarBody


@dataclass(frozen=True, slots=True)
class Frame:
    """Where things stand: ``scale`` px in a meter, ``middle`` of the jar, ``bottom`` inside."""

    body: JarBody
    scale: float
    middle: float
    bottom: float

    def y(self, height: float) -> float:
        """How far down a height above the inside bottom lies, px."""
        return self.bottom - height * self.scale

    @property
    def half(self) -> float:
        """Half of the body's width inside, px."""
        return self.body.radius * self.scale

    @property
    def mouth(self) -> float:
        """Half of the mouth's width, px."""
        return self.body.mouth / 2 * self.scale

    @property
    def wall(self) -> float:
        """Thickness of the glass, px."""
        return self.body.wall * self.scale


def outline(frame: Frame, out: float) -> str:
    """Body, shoulder and neck as a path, ``out`` px outside the inner face of the glass."""
    half, mouth = frame.half + out, frame.mouth + out
    left, right = frame.middle - half, frame.middle + half
    bottom, shoulder = frame.bottom + out, frame.y(frame.body.height - NECK) - out
    rim = frame.y(frame.body.height)
    neck_left, neck_right = frame.middle - mouth, frame.middle + mouth
    bend = min(5.0 + out, max(half - mouth, 0.0))
    return (
        f"M {px(neck_left)} {px(rim)} V {px(shoulder)} H {px(left + bend)} "
        f"Q {px(left)} {px(shoulder)} {px(left)} {px(shoulder + bend)} "
        f"V {px(bottom - 5)} Q {px(left)} {px(bottom)} {px(left + 5)} {px(bottom)} "
        f"H {px(right - 5)} Q {px(right)} {px(bottom)} {px(right)} {px(bottom - 5)} "
        f"V {px(shoulder + bend)} "
        f"Q {px(right)} {px(shoulder)} {px(right - bend)} {px(shoulder)} "
        f"H {px(neck_right)} V {px(rim)} Z"
    )


def glass(frame: Frame) -> Iterator[str]:
    """Both faces of the glass, and the rim."""
    for out, thick in ((0.0, 1.0), (frame.wall, 2.2)):
        yield (
            f'<path d="{outline(frame, out)}" fill="none" stroke="{COBALT}" '
            f'stroke-width="{thick}" stroke-linejoin="round"/>'
        )
    rim, half = frame.y(frame.body.height), frame.mouth + frame.wall + 2
    yield (
        f'<rect x="{px(frame.middle - half)}" y="{px(rim - 3)}" width="{px(2 * half)}" '
        f'height="5" rx="2" fill="{COBALT}"/>'
    )


def headspace_line(frame: Frame, headspace: float) -> Iterator[str]:
    """The fill line, dashed across the jar, and what lies above it."""
    y, rim = frame.y(frame.body.height - headspace), frame.y(frame.body.height)
    left, right = frame.middle - frame.mouth - 14, frame.middle + frame.mouth + 14
    yield (
        f'<line class="headspace" x1="{px(left)}" x2="{px(right)}" y1="{px(y)}" y2="{px(y)}" '
        f'stroke="{INK}" stroke-width="2" stroke-dasharray="6 3"/>'
    )
    x = frame.middle
    yield (
        f'<path d="M {px(x)} {px(rim + 3)} V {px(y - 1)} M {px(x - 4)} {px(y - 6)} L {px(x)} '
        f"{px(y - 1)} L {px(x + 4)} {px(y - 6)} M {px(x - 4)} {px(rim + 8)} L {px(x)} "
        f'{px(rim + 3)} L {px(x + 4)} {px(rim + 8)}" fill="none" stroke="{INK}"/>'
    )


def px(value: float) -> str:
    """A length in px as the drawing writes it: to a hundredth."""
    return f"{value:.2f}".rstrip("0").rstrip(".")
