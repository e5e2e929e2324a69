"""``stillroom heat food``: how a food takes up heat, by what it is made of."""

import argparse
import json
from dataclasses import asdict
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.cli.heat.say import paragraph, table
from stillroom.errors import InputError
from stillroom.physics.food import (
    COLDEST,
    HOTTEST,
    Composition,
    Properties,
    composition,
    properties,
)
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.units.temperature import celsius, fahrenheit, parse_temperature, said

SOURCE = (
    "Choi and Okos (1986) by composition; composition of the raw or cooked food: USDA SR28, an "
    "average. Conductivity by volume shares, the upper of two bounds."
)
_AMERICAN = {"fibre": "fiber"}
USUAL = ("68 F", "170 F", "240 F")


def run(arguments: argparse.Namespace) -> int:
    """Look up the composition, work out the properties, show them."""
    at = [_temperature(text) for text in arguments.at or USUAL]
    made_of = composition(arguments.food)
    found = [(kelvin, properties(made_of, kelvin)) for kelvin in at]
    if arguments.chart:
        _draw(arguments.food, made_of, Path(arguments.chart))
    if arguments.json:
        print(json.dumps(as_json(arguments.food, made_of, found), ensure_ascii=False))
    else:
        print(as_text(arguments.food, made_of, found))
    return ANSWERED


def _temperature(text: str) -> float:
    kelvin = parse_temperature(text, "--at")
    if not COLDEST <= kelvin <= HOTTEST:
        raise InputError(
            f'--at: "{text}" does not fit. Figures of food are known from 32 to 300 F.'
        )
    return kelvin


def as_json(
    food: str, made_of: Composition, found: list[tuple[float, Properties]]
) -> dict[str, object]:
    """Composition in shares of mass, properties in SI units with the temperature in F and C."""
    return {
        "food": food,
        "composition": {name: round(share, 5) for name, share in asdict(made_of).items()},
        "at": [
            {
                "temperature_f": round(fahrenheit(kelvin), 2),
                "temperature_c": round(celsius(kelvin), 2),
                "density_kg_m3": round(one.density, 1),
                "heat_capacity_j_kgk": round(one.heat_capacity, 1),
                "conductivity_w_mk": round(one.conductivity, 4),
                "diffusivity_m2_s": float(f"{one.diffusivity:.4g}"),
            }
            for kelvin, one in found
        ],
        "source": SOURCE,
        "approves": APPROVES_NOTHING,
    }


def as_text(food: str, made_of: Composition, found: list[tuple[float, Properties]]) -> str:
    """For a person: what it is made of, and its properties at each temperature."""
    shares = ", ".join(
        f"{_AMERICAN.get(name, name)} {100 * share:.1f} %"
        for name, share in asdict(made_of).items()
        if share >= 5e-4
    )
    rows = [["at", "density", "heat capacity", "conductivity", "diffusivity"]]
    rows += [
        [
            said(kelvin),
            f"{one.density:,.0f} kg/m3",
            f"{one.heat_capacity / 1000:.2f} kJ/(kg K)",
            f"{one.conductivity:.3f} W/(m K)",
            f"{one.diffusivity * 1e7:.2f}e-7 m2/s",
        ]
        for kelvin, one in found
    ]
    lines = [
        f"{food[0].upper()}{food[1:]}: {shares}",
        "",
        *table(rows, right=(1, 2, 3, 4)),
        "",
        paragraph(
            "The diffusivity tells how fast heat soaks in: twice as much, half the time. Wet foods "
            "are all alike in it, which is why the jar and the pack matter more than the food."
        ),
        paragraph("That a food is listed here says nothing of whether it may be canned."),
        "",
        paragraph(SOURCE),
        paragraph(APPROVES_NOTHING),
    ]
    return "\n".join(lines)


def _draw(food: str, made_of: Composition, path: Path) -> None:
    from stillroom.paper.charts import write_chart
    from stillroom.paper.food_chart import food_chart

    write_chart(food_chart(food, made_of), path)
