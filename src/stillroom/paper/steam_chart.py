"""Steam drawn: the heat inside by gauge and air, and by elevation at the printed pressures."""

from typing import Final

from stillroom.heat.steam import Setting, Steam, inside
from stillroom.paper.chart_parts import (
    COBALT,
    DASH_DOT,
    DASHED,
    DOTTED,
    INK,
    SOLID,
    WIDTH,
    apart,
    chart,
    degrees,
    line,
    number,
    one,
    rows,
    words,
)
from stillroom.paper.charts import Spec
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.units.temperature import fahrenheit, said

AIR: Final = ((0.0, SOLID, "no air"), (0.05, DASHED, "5 % air"), (0.1, DASH_DOT, "10 % air"),
              (0.2, DOTTED, "20 % air"))  # fmt: skip
_HEIGHT: Final = 250
_DOT: Final = {"type": "point", "filled": True, "color": COBALT, "size": 110, "opacity": 1}


def air_chart(told: Steam) -> Spec:
    """Temperature inside against the gauge, free of air and with some left in."""
    feet = told.elevation_ft
    pounds = [0.25 * n for n in range(61)]
    coldest = fahrenheit(inside(feet, 0, 0.2))
    least, most = 10 * (coldest // 10), 10 * (fahrenheit(inside(feet, 15)) // 10 + 1)
    x = number("psi", "pounds on the gauge", 0, 15, [0, 5, 10, 15])
    y = degrees("f", least, most, [least + 20 * n for n in range(int((most - least) / 20) + 1)])
    curves = [[fahrenheit(inside(feet, p, share)) for p in pounds] for share, _, _ in AIR]
    beside = apart([curve[-1] for curve in curves], 17 * (most - least) / _HEIGHT)
    layers: list[Spec] = []
    for (_, dash, name), curve, place in zip(AIR, curves, beside, strict=True):
        layers.append(line(rows(psi=pounds, f=curve), x, y, dash=dash))
        layers.append(words(name, x, y, (15, place), dx=7))
    f = fahrenheit(told.inside)
    here = one({"psi": told.psi, "f": round(f, 2)})
    layers += [
        {"data": here, "mark": _DOT, "encoding": {"x": x, "y": y}},
        words(f"{told.psi:g} lb: {f:.1f} F", x, y, (told.psi, f),
              dx=-9, dy=-12, align="right", fontWeight="bold", fontSize=15),
    ]  # fmt: skip
    return chart(
        "The gauge counts air as well as steam",
        f"Inside a pressure canner at {feet:,} ft, by what the gauge shows and by how much of "
        "the gas is air",
        [{"width": WIDTH - 30, "height": _HEIGHT, "layer": layers}],
        says=f"At {feet:,} ft and {told.psi:g} lb the inside is at {said(told.inside)} without "
        "air, and colder the more air is left in.",
        foot=[APPROVES_NOTHING, "Vent ten full minutes, every time."],
    )


def elevation_chart(printed: tuple[Setting, ...], told: Steam | None = None) -> Spec:
    """Boiling point, and the temperature at the printed pressures, against elevation.

    Where ``told`` is given, its elevation is marked.
    """
    feet = [float(n) for n in range(0, 10_001, 250)]
    boiling = [fahrenheit(inside(f, 0)) for f in feet]
    x = number("ft", "elevation in thousands of feet", 0, 10_000,
               [0, 2000, 4000, 6000, 8000, 10_000], labelExpr="datum.value / 1000")  # fmt: skip
    y = degrees("f", 190, 255, [190, 200, 212, 230, 240, 250])
    layers = [line(rows(ft=feet, f=boiling), x, y, dash=DASHED)]
    if told:
        mark = {"type": "rule", "color": INK, "strokeWidth": 1}
        layers += [
            {"data": one({"ft": told.elevation_ft}), "mark": mark, "encoding": {"x": x}},
            words(
                f"{told.elevation_ft:,} ft", x, y, (told.elevation_ft, 193), dx=5, fontWeight="bold"
            ),
        ]
    layers.append(words("water boils", x, y, (2000, boiling[8]), dy=-13))
    for setting in printed:
        layers += _setting(setting, x, y)
    return chart(
        "Thin air boils cooler",
        "Printed pressures make up for it: for most low-acid food by dial gauge (solid, band by "
        "band) and by weight (dotted)",
        [{"width": WIDTH, "height": 300, "layer": layers}],
        says="The boiling point falls with elevation; at the printed pressures the steam stays "
        "at about 240 F in every band.",
        foot=[APPROVES_NOTHING, "Printed pressures: " + printed[0].source + "."],
    )


def _setting(setting: Setting, x: Spec, y: Spec) -> list[Spec]:
    """A printed pressure over its band, with its pounds below a dial's line and by a weight's."""
    span = setting.to_ft - setting.from_ft
    along = [setting.from_ft + span * n / 20 for n in range(21)]
    curve = [fahrenheit(inside(f, setting.psi)) for f in along]
    dial = setting.method == "dial-gauge"
    # The first bands of dial and weight lie over each other: one is named to the right, one left.
    at = 14 if dial else 1 if span < 2_000 else 10
    return [
        line(rows(ft=along, f=curve), x, y, dash=SOLID if dial else DOTTED,
             color=COBALT if dial else INK),
        words(f"{setting.psi} lb", x, y, (along[at], curve[at]),
              dy=-13 if span > 2_000 else 14 if dial else 22, align="center" if at > 1 else "left"),
    ]  # fmt: skip
