"""How fast heat soaks into a food, drawn against temperature."""

from stillroom.paper.chart_parts import (
    DASHED,
    INK,
    WIDTH,
    apart,
    chart,
    line,
    number,
    rows,
    words,
)
from stillroom.paper.charts import Spec
from stillroom.physics.food import Composition, properties
from stillroom.physics.lethality import APPROVES_NOTHING

WATER = Composition(water=1.0, protein=0.0, fat=0.0, carbohydrate=0.0, fibre=0.0, ash=0.0)


def food_chart(food: str, made_of: Composition) -> Spec:
    """Diffusivity of a food and of water, from 40 to 250 F."""
    degrees = [float(f) for f in range(40, 251, 5)]
    kelvin = [(f + 459.67) / 1.8 for f in degrees]
    x = number("f", "degrees F", 40, 250, [40, 100, 150, 200, 250])
    y = number("a", "diffusivity, 1e-7 m2/s", 1.0, 1.9, [1.0, 1.2, 1.4, 1.6, 1.8])
    curves = [[properties(what, k).diffusivity * 1e7 for k in kelvin] for what in (made_of, WATER)]
    beside = apart([curve[-1] for curve in curves], 0.07)
    layers = [
        line(rows(f=degrees, a=curves[0]), x, y),
        line(rows(f=degrees, a=curves[1]), x, y, dash=DASHED, color=INK),
        words(food, x, y, (250.0, beside[0]), dx=7),
        words("water", x, y, (250.0, beside[1]), dx=7),
    ]
    return chart(
        f"How fast heat soaks into {food}",
        "Twice the diffusivity, half the time",
        [{"width": WIDTH - 60, "height": 220, "layer": layers}],
        says=f"The diffusivity of {food} rises with temperature and lies below that of water.",
        foot=[APPROVES_NOTHING],
    )
