"""A run's log drawn: the gauge, where it fell short, and below it the heat that goes with it."""

from collections.abc import Iterator
from typing import Final

import numpy as np

from stillroom.heat.deviation import Deviation
from stillroom.heat.inside import Inside
from stillroom.heat.inside import band as middle_band
from stillroom.heat.log import Log, Reading
from stillroom.paper.chart_parts import (
    AMBER,
    COBALT,
    DASHED,
    INK,
    SMALL,
    SOLID,
    TOMATO,
    WIDTH,
    band,
    chart,
    degrees,
    line,
    number,
    one,
    rows,
    ticks,
    words,
)
from stillroom.paper.charts import Spec
from stillroom.physics.array import Array
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.units.temperature import fahrenheit

_WIDE: Final = WIDTH
_MOST_POINTS: Final = 240
_POINT: Final = {"filled": True, "size": 32, "color": COBALT, "opacity": 1}


def run_chart(
    log: Log,
    found: Deviation,
    canner: tuple[tuple[Reading, float], ...],
    inside: Inside | None,
    elevation_ft: int,
    food: str = "",
) -> Spec:
    """Pressure over minutes (or the boil), and the temperatures inferred from it.

    Parameters
    ----------
    log, found : the log and what it shows
    canner : readings with the canner's temperature in K; empty for a boil
    inside : the jars by model, or ``None``
    elevation_ft : ft
    food : what the modelled jars hold
    """
    x = _minutes(log)
    panels = [_gauge(log, found, x) if found.target is not None else _boil(log, found, x)]
    if canner:
        panels.append(_heat(canner, inside, x))
    aim = "A full boil" if found.target is None else f"{found.target:g} lb"
    foot = [APPROVES_NOTHING]
    if inside:
        foot.append(f"The band in the lower part: nine in ten jars of {food}, by the model.")
    return chart(
        "The log of a run",
        f"{aim} for {found.minutes:g} minutes at {elevation_ft:,} ft. {_shown(found)}",
        panels,
        says=f"{_shown(found)} The upper part shows what was read over the minutes of the run, the "
        "lower part the temperatures that go with it.",
        foot=foot,
    )


def _shown(found: Deviation) -> str:
    longest = f"{found.longest.minutes:.3g}" if found.longest else "no"
    held = f"Longest without a break: {longest} minutes."
    if not found.below:
        return held
    what = "Below it" if found.target is not None else "It stopped"
    often = {1: "once", 2: "twice"}.get(len(found.below), f"{len(found.below)} times")
    return f"{what} {often}. {held}"


def _minutes(log: Log) -> Spec:
    last = log.lines[-1].at / 60
    places = ticks(0, last)
    title = "minutes"
    look: dict[str, object] = {}
    if log.clock:
        title = f"minutes from {log.lines[0].time}"
    return number("m", title, 0, last, places, **look)


def _gauge(log: Log, found: Deviation, x: Spec) -> Spec:
    assert found.target is not None
    read = [(one_line.at / 60, one_line.psi or 0.0) for one_line in log.read_off]
    highest = max(found.target, *(psi for _, psi in read))
    most = 1.38 * highest
    places = [p for p in ticks(0, highest, 4) if p != found.target]
    y = number("psi", "pounds on the gauge", 0, most, places)
    data = rows(m=[m for m, _ in read], psi=[psi for _, psi in read])
    aim = {"type": "rule", "color": INK, "strokeWidth": 1.5, "strokeDash": DASHED}
    layers = [
        *_gaps(found, x, y, most),
        *_spans(found, x, y, most),
        {"data": one({"psi": found.target}), "mark": aim, "encoding": {"y": y}},
        line(data, x, y),
        {"data": data, "mark": {"type": "point", **_POINT}, "encoding": {"x": x, "y": y}},
        words(f"{found.target:g} lb", x, y, (log.lines[-1].at / 60, found.target),
              dx=6, fontWeight="bold", fontSize=15),
        *_events(log, x, y, most),
    ]  # fmt: skip
    return {"width": _WIDE, "height": 230, "layer": layers}


def _boil(log: Log, found: Deviation, x: Spec) -> Spec:
    read = log.read_off
    y = number("b", None, 0, 1.6, [0, 1], labelExpr="datum.value ? 'full boil' : 'no boil'")
    data = rows(m=[r.at / 60 for r in read], b=[float(bool(r.boils)) for r in read])
    layers = [
        *_gaps(found, x, y, 1.6),
        *_spans(found, x, y, 1.6),
        line(data, x, y, interpolate="step-after"),
        {"data": data, "mark": {"type": "point", **_POINT}, "encoding": {"x": x, "y": y}},
        *_events(log, x, y, 1.6),
    ]
    return {"width": _WIDE, "height": 150, "layer": layers}


def _spans(found: Deviation, x: Spec, y: Spec, most: float) -> Iterator[Spec]:
    """What must be acted on: a red field with a bar at its foot, and how long and how low."""
    for span in found.below:
        start, end = span.start / 60, span.end / 60
        field = one({"m": start, "to": end})
        yield {
            "data": field,
            "mark": {"type": "rect", "color": TOMATO, "opacity": 0.14},
            "encoding": {"x": x, "x2": {"field": "to"}},
        }
        yield {
            "data": one({"m": start, "to": end, str(y["field"]): 0.0}),
            "mark": {"type": "rule", "color": TOMATO, "strokeWidth": 6},
            "encoding": {"x": x, "x2": {"field": "to"}, "y": y},
        }
        told = [f"{end - start:.3g} min"]
        if span.short:
            told = [f"{span.short:.2g} lb short", *told]
        # Beside the field on the side that has more room, so that it covers no line.
        left = start > float(x["scale"]["domain"][1]) / 2
        yield words(
            told, x, y, (start if left else end, 0.17 * most),
            align="right" if left else "left", dx=-5 if left else 5,
            color=TOMATO, fontWeight="bold",
        )  # fmt: skip


def _gaps(found: Deviation, x: Spec, y: Spec, most: float) -> Iterator[Spec]:
    """Where nothing was read for long: an amber bar at the foot, broken, with its minutes."""
    for start, end in found.gaps:
        data = one({"m": start / 60, "to": end / 60, str(y["field"]): 0.0})
        mark = {"type": "rule", "color": AMBER, "strokeWidth": 6, "strokeDash": [4, 3]}
        yield {"data": data, "mark": mark, "encoding": {"x": x, "x2": {"field": "to"}, "y": y}}
        told = ["not read", f"for {(end - start) / 60:.3g} min"]
        yield words(told, x, y, ((start + end) / 120, 0.17 * most), align="center", color=AMBER)


def _events(log: Log, x: Spec, y: Spec, most: float) -> Iterator[Spec]:
    """Events as dotted lines, their names above the curve in steps so that none covers another."""
    last = log.lines[-1].at / 60
    told = [entry for entry in log.lines if entry.event and entry.event != "lid on"]
    for step, entry in enumerate(told):
        minute = entry.at / 60
        mark = {"type": "rule", "color": INK, "strokeWidth": 0.7, "strokeDash": [1, 3]}
        yield {"data": one({"m": minute}), "mark": mark, "encoding": {"x": x}}
        right = minute > 0.72 * last
        yield words(entry.event, x, y, (minute, most), fontSize=SMALL,
                    dx=-4 if right else 4, dy=8 + 16 * (step % 3),
                    align="right" if right else "left")  # fmt: skip


def _heat(canner: tuple[tuple[Reading, float], ...], inside: Inside | None, x: Spec) -> Spec:
    at = [entry.at / 60 for entry, _ in canner]
    outside = [fahrenheit(kelvin) for _, kelvin in canner]
    lows, highs = [*outside], [*outside]
    layers: list[Spec] = []
    if inside:
        every = max(1, len(inside.times) // _MOST_POINTS)
        minutes = (inside.times[::every] / 60).tolist()
        edges: list[Array] = [np.array([fahrenheit(k) for k in edge[::every]])
                              for edge in middle_band(inside.slowest)]  # fmt: skip
        lows.append(float(edges[0].min()))
        highs.append(float(edges[2].max()))
    least, most = 20 * (min(lows) // 20), 20 * (max(highs) // 20 + 1)
    y = degrees("f", least, most, _steps(least, most))
    if inside:
        low, middle, high = (edge.tolist() for edge in edges)
        layers.append(band(rows(m=minutes, f=low, high=high), x, y, "high"))
        layers.append(line(rows(m=minutes, f=middle), x, y, dash=DASHED, color=INK))
        # Where it is half way up there is most room beside it.
        half = int(np.argmin(np.abs(edges[1] - (edges[1].min() + edges[1].max()) / 2)))
        layers.append(
            words(
                ["slowest place", "in the jar"], x, y, (minutes[half], middle[half]), dx=10, dy=10
            )
        )
    layers.append(line(rows(m=at, f=outside), x, y, dash=SOLID))
    layers.append(words("canner", x, y, (at[-1], outside[-1]), dx=6, color=COBALT))
    return {"width": _WIDE, "height": 200, "layer": layers}


def _steps(least: float, most: float) -> list[float]:
    return [float(t) for t in ticks(least, most, 5)]
