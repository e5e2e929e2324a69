"""Temperatures over a run, drawn: jars in a canner, a canner heating, a logged cook."""

from collections.abc import Sequence

import numpy as np

from stillroom.heat.cook import Cook
from stillroom.heat.inside import Inside
from stillroom.heat.inside import band as middle_band
from stillroom.paper.chart_parts import (
    COBALT,
    DASHED,
    INK,
    SOLID,
    WIDTH,
    apart,
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
from stillroom.physics.lethality import APPROVES_NOTHING, METHOD
from stillroom.units.temperature import fahrenheit

_HEIGHT = 260
_MOST_POINTS = 240

Curve = tuple[str, Array, Sequence[int], str]
"""A line's name, its temperatures in K, its dashes and its color."""


def jar_chart(
    title: str, subtitle: str, inside: Inside, phases: Sequence[tuple[float, str]]
) -> Spec:
    """The canner and the slowest place of its jars, with the middle nine in ten as a band.

    ``phases`` are the minutes at which each begins, and their names.
    """
    low, middle, high = middle_band(inside.slowest)
    canner = np.median(inside.canner, axis=0)
    panel = _temperatures(
        inside.times,
        [("canner", canner, SOLID, COBALT), ("slowest place", middle, DASHED, INK)],
        (low, high),
        phases,
    )
    return chart(
        title,
        subtitle,
        [panel],
        says=f"{title}: the slowest place of the jars lags behind the canner and goes on warming "
        "for a while after the heat is off.",
        foot=[APPROVES_NOTHING, "The band holds nine jars in ten."],
    )


def canner_chart(
    title: str, subtitle: str, times: Array, canner: Array, jars: Array,
    phases: Sequence[tuple[float, str]],
) -> Spec:  # fmt: skip
    """A canner and the mean of its jars over a run; ``times`` s, temperatures K."""
    curves: list[Curve] = [("canner", canner, SOLID, COBALT), ("jars, mean", jars, DASHED, INK)]
    return chart(
        title,
        subtitle,
        [_temperatures(times, curves, None, phases)],
        says=f"{title}: the jars lag behind the canner while it heats and while it cools.",
        foot=["Foretold for planning a day. Gauge, weight and boil decide at the stove."],
    )


def cook_chart(title: str, cook: Cook) -> Spec:
    """A logged temperature, and below it F0 as it comes together."""
    minutes = (cook.times / 60).tolist()
    upper = _temperatures(cook.times, [("logged", cook.temperatures, SOLID, COBALT)], None, ())
    x = _minutes(minutes)
    read = rows(m=minutes, f=[fahrenheit(k) for k in cook.temperatures])
    dot = {"type": "point", "filled": True, "size": 32, "color": COBALT, "opacity": 1}
    upper["layer"].append(
        {"data": read, "mark": dot, "encoding": {"x": x, "y": upper["layer"][0]["encoding"]["y"]}}
    )
    most = max(1.0, 1.08 * float(cook.so_far[-1]))
    y = number("f0", "F0, minutes", 0, most, ticks(0, most, 4))
    lower = {
        "width": WIDTH - 40,
        "height": 130,
        "layer": [
            line(rows(m=minutes, f0=cook.so_far.tolist()), x, y),
            words(f"F0 {cook.lethality:.1f} min", x, y, (minutes[-1], float(cook.so_far[-1])),
                  align="right", dy=24, fontWeight="bold", fontSize=15),
        ],
    }  # fmt: skip
    return chart(
        title,
        f"F0 (121.1 C, z 10 C) by the {METHOD}",
        [upper, lower],
        says=f"{title}: F0 comes together only while the temperature is high, "
        f"and ends at {cook.lethality:.1f} minutes.",
        foot=[APPROVES_NOTHING],
    )


def _temperatures(
    times: Array,
    curves: Sequence[Curve],
    between: tuple[Array, Array] | None,
    phases: Sequence[tuple[float, str]],
) -> Spec:
    """Lines in F over minutes, their names at their ends, phases named at their beginnings."""
    every = max(1, len(times) // _MOST_POINTS)
    kept = np.unique(np.append(np.arange(0, len(times), every), len(times) - 1))
    minutes = (times[kept] / 60).tolist()
    drawn = [np.array([fahrenheit(k) for k in curve[1][kept]]) for curve in curves]
    spread = [np.array([fahrenheit(k) for k in edge[kept]]) for edge in between or ()]
    least = 10 * (min(float(d.min()) for d in [*drawn, *spread]) // 10)
    most = 10 * (max(float(d.max()) for d in [*drawn, *spread]) // 10 + 3)
    x, y = _minutes(minutes), degrees("f", least, most, _even(least, most))
    layers: list[Spec] = []
    if spread:
        layers.append(
            band(rows(m=minutes, f=spread[0].tolist(), high=spread[1].tolist()), x, y, "high")
        )
    for row, (at, name) in enumerate(phases):
        rule = {"type": "rule", "color": INK, "strokeWidth": 0.6, "strokeDash": [1, 3]}
        layers.append({"data": one({"m": at}), "mark": rule, "encoding": {"x": x}})
        # Short phases stand close together: their names go down in steps.
        layers.append(words(name, x, y, (at, most), dx=3, dy=8 + 15 * (row % 3), fontSize=13))
    gap = 17 * (most - least) / _HEIGHT
    ends = apart([float(d[-1]) for d in drawn], gap)
    for (name, _, dash, color), values, end in zip(curves, drawn, ends, strict=True):
        layers.append(line(rows(m=minutes, f=values.tolist()), x, y, dash=dash, color=color))
        layers.append(words(name, x, y, (minutes[-1], end), dx=7, color=color))
    return {"width": WIDTH - 40, "height": _HEIGHT, "layer": layers}


def _minutes(minutes: Sequence[float]) -> Spec:
    return number("m", "minutes", minutes[0], minutes[-1], ticks(minutes[0], minutes[-1]))


def _even(least: float, most: float) -> list[float]:
    return [t for t in ticks(least, most, 6) if least <= t <= most]
