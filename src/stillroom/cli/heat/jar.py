"""``stillroom heat jar``: what a jar holds, and how its slowest place follows the canner."""

import argparse
import json
from collections.abc import Callable
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.cli.heat.say import CAUTION, paragraph, parse_inches, table
from stillroom.errors import InputError
from stillroom.heat.durations import Times, durations
from stillroom.heat.filled import body_of, check_headspace, filled
from stillroom.heat.inside import JARS, SEED, Inside, band, follow_run
from stillroom.heat.load import HeatedLoad
from stillroom.heat.run import Run
from stillroom.kitchen import Canner
from stillroom.physics.array import Array
from stillroom.physics.jar import (
    JarBody,
    brim_volume,
    glass_heat,
    headspace_volume,
    pack_volume,
    wall_conductance,
)
from stillroom.physics.lethality import APPROVES_NOTHING, METHOD
from stillroom.physics.priors import priors
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import parse_jar
from stillroom.units.si import (
    CUBIC_METRES_PER_FLUID_OUNCE,
    KILOGRAMS_PER_OUNCE,
    METRES_PER_INCH,
)
from stillroom.units.temperature import fahrenheit, parse_temperature, said

_FOOD = {"hot": "170 F", "raw": "70 F"}
_COLDEST, _HOTTEST = 273.15, 373.15
_OF_A_RUN = ("elevation", "psi", "minutes", "heat", "come_up", "cool", "start", "chart")


def run(arguments: argparse.Namespace) -> int:
    """Tell the jar; where a run is given, follow many such jars through it."""
    body = body_of(parse_jar(arguments.size, "SIZE"), arguments.opening, arguments.brim)
    headspace = check_headspace(body, parse_inches(arguments.headspace, "--headspace", 3.0))
    told: dict[str, object] = _jar_json(body, headspace)
    lines = _jar_text(body, headspace)
    if arguments.food is not None:
        kind = filled(body, headspace, arguments.food, arguments.packed)
        course, start = _run_of(arguments, body.size)
        inside = follow_run(kind, start, course)
        told["run"] = _run_json(arguments, course, start, inside)
        lines += _run_text(arguments, course, start, inside)
        if arguments.chart:
            _draw(arguments, body.size, course, inside)
    else:
        _no_run(arguments)
    if arguments.json:
        print(json.dumps(told, ensure_ascii=False))
    else:
        print("\n".join(lines))
    return ANSWERED


def _no_run(arguments: argparse.Namespace) -> None:
    """Refuse what only a run has, where nothing is in the jar."""
    for name in _OF_A_RUN:
        if getattr(arguments, name) is not None:
            option = f"--{name.replace('_', '-')}"
            raise InputError(f"{option}: belongs to a run. Say what is in the jar with --food.")


def _run_of(arguments: argparse.Namespace, size: str) -> tuple[Run, float]:
    """The run as told, its unknown lengths those planned for a canner nothing is known of."""
    if arguments.elevation is None or arguments.minutes is None:
        raise InputError(
            "--elevation and --minutes: both are needed to follow a run. Minutes and pounds are "
            "those of the published process; ask stillroom process for them."
        )
    if not 1 <= arguments.minutes <= 600:
        raise InputError(f"--minutes: {arguments.minutes:g} does not fit. Write 1 to 600.")
    psi = arguments.psi
    if psi is not None and not 1 <= psi <= 15:
        raise InputError(f"--psi: {psi:g} does not fit. Write pounds, 1 to 15, or leave it out.")
    if arguments.pack not in _FOOD:
        raise InputError(f'--pack: "{arguments.pack}" does not fit. Write raw or hot.')
    feet = parse_elevation(arguments.elevation, "--elevation")
    method = "boiling-water" if psi is None else "dial-gauge"
    load = HeatedLoad(
        method, feet, int(psi or 0), size, 7, arguments.pack, None, int(arguments.minutes)
    )
    planned = durations(Canner("this canner", method, {}), load)
    usual = (planned.heat.planned, planned.come_up.planned, planned.cool.planned) if isinstance(
        planned, Times) else (30, 0, 0) if psi is None else (15, 5, 45)  # fmt: skip
    told = (arguments.heat, arguments.come_up, arguments.cool)
    for option, minutes in zip(("--heat", "--come-up", "--cool"), told, strict=True):
        if minutes is not None and psi is None and option != "--heat":
            raise InputError(f"{option}: boiling water has none. Leave it out, or give --psi.")
        if minutes is not None and not 1 <= minutes <= 300:
            raise InputError(f"{option}: {minutes:g} does not fit. Write 1 to 300 minutes.")
    heat, come_up, cool = (u if t is None else t for t, u in zip(told, usual, strict=True))
    start = parse_temperature(arguments.start or _FOOD[arguments.pack], "--start")
    if not _COLDEST <= start <= _HOTTEST:
        raise InputError(
            f'--start: "{arguments.start}" does not fit. Food goes into the canner thawed and no '
            "hotter than it boils: write 32 to 212 F."
        )
    vessel = "bath" if psi is None else "pressure"
    course = Run(
        elevation_ft=feet,
        psi=psi,
        minutes=arguments.minutes,
        water=priors()["water start", f"{vessel} {arguments.pack}"].median,
        heat=heat,
        vent=0 if psi is None else 10,
        come_up=0 if psi is None else come_up,
        cool=0 if psi is None else cool,
        wait=5 if psi is None else 10,
    )
    return course, start


def _jar_json(body: JarBody, headspace: float) -> dict[str, object]:
    return {
        "jar": body.size,
        "body": {
            "inside_diameter_mm": round(2000 * body.radius, 1),
            "inside_height_mm": round(1000 * body.height, 1),
            "mouth_mm": round(1000 * body.mouth, 1),
            "wall_mm": round(1000 * body.wall, 2),
            "glass_g": round(1000 * body.glass),
            "brim_ml": round(1e6 * brim_volume(body), 1),
        },
        "headspace_in": round(headspace / METRES_PER_INCH, 4),
        "headspace_ml": round(1e6 * headspace_volume(body, headspace), 1),
        "pack_ml": round(1e6 * pack_volume(body, headspace), 1),
        "wall_conductance_w_m2k": round(wall_conductance(body), 1),
        "glass_heat_j_k": round(glass_heat(body), 1),
        "run": None,
        "approves": APPROVES_NOTHING,
    }


def _jar_text(body: JarBody, headspace: float) -> list[str]:
    def volume(cubic: float) -> str:
        return f"{1e6 * cubic:.0f} mL ({cubic / CUBIC_METRES_PER_FLUID_OUNCE:.1f} fl oz)"

    rows = [
        ["to the brim", volume(brim_volume(body))],
        [
            f"headspace of {headspace / METRES_PER_INCH:g} in",
            volume(headspace_volume(body, headspace)),
        ],
        ["room for food and liquid", volume(pack_volume(body, headspace))],
        ["inside", f"{2000 * body.radius:.0f} mm wide, {1000 * body.height:.0f} mm high"],
        ["glass", f"{1000 * body.glass:.0f} g ({body.glass / KILOGRAMS_PER_OUNCE:.1f} oz), "
                  f"wall {1000 * body.wall:.2g} mm"],
    ]  # fmt: skip
    return [
        f"{body.size[0].upper()}{body.size[1:]} jar, opening {body.mouth / METRES_PER_INCH:.2g} in",
        "",
        *table(rows),
        "",
        paragraph(
            "The body is an assumption. Weigh your jar empty and full of water to the brim and "
            "tell the difference in grams with --brim. The headspace is the least it can be, for "
            "the shoulder widens."
        ),
    ]


def _run_json(
    arguments: argparse.Namespace, course: Run, start: float, inside: Inside
) -> dict[str, object]:
    low, middle, high = band(inside.slowest)
    every = max(1, len(inside.times) // 120)
    return {
        "food": arguments.food,
        "packed": arguments.packed,
        "start_f": round(fahrenheit(start), 1),
        "elevation_ft": course.elevation_ft,
        "pressure_psi": course.psi,
        "minutes": {
            "heat": course.heat, "vent": course.vent, "come-up": course.come_up,
            "process": course.minutes, "cool": course.cool, "wait": course.wait,
        },
        "jars": JARS,
        "seed": SEED,
        "times_min": [round(float(t) / 60, 2) for t in inside.times[::every]],
        "canner_f": [round(fahrenheit(k), 2) for k in _canner(inside)[::every]],
        "slowest_f": {
            name: [round(fahrenheit(k), 2) for k in edge[::every]]
            for name, edge in (("low", low), ("median", middle), ("high", high))
        },
        "hottest_f": _three(band(inside.slowest.max(axis=1)), fahrenheit),
        "f0_minutes": _three(band(inside.lethality), lambda s: s / 60),
        "f0_method": METHOD,
        "c100_minutes": _three(band(inside.cook), lambda s: s / 60),
        "f0_share_after_heat_off": _three(band(inside.while_cooling), float),
    }  # fmt: skip


def _run_text(
    arguments: argparse.Namespace, course: Run, start: float, inside: Inside
) -> list[str]:
    hottest = band(inside.slowest.max(axis=1))
    lethality, cook = band(inside.lethality) / 60, band(inside.cook) / 60
    cooling = 100 * band(inside.while_cooling)
    held = f"{course.psi:g} lb" if course.psi else "boiling water"
    rows = [
        ["slowest place of a jar", "nine jars in ten", "middle"],
        [
            "hottest",
            f"{fahrenheit(hottest[0]):.0f} to {fahrenheit(hottest[2]):.0f} F",
            said(hottest[1]),
        ],
        ["F0", f"{lethality[0]:.1f} to {lethality[2]:.1f} min", f"{lethality[1]:.1f} min"],
        [
            "  of it after heat off",
            f"{cooling[0]:.0f} to {cooling[2]:.0f} %",
            f"{cooling[1]:.0f} %",
        ],
        ["cook value C100", f"{cook[0]:.0f} to {cook[2]:.0f} min", f"{cook[1]:.0f} min"],
    ]
    return [
        "",
        f"{arguments.food[0].upper()}{arguments.food[1:]}, packed {arguments.packed}, starting at "
        f"{said(start)}",
        f"{held} at {course.elevation_ft:,} ft: heat {course.heat:g}, vent {course.vent:g}, "
        f"come-up {course.come_up:g}, process {course.minutes:g}, cool {course.cool:g}, "
        f"wait {course.wait:g} min",
        "",
        *table(rows, right=(1, 2)),
        "",
        paragraph(
            "Minutes and pounds were taken as you gave them and not looked up: stillroom process "
            "tells the published ones."
        ),
        paragraph(
            f"{JARS} jars that differ in fill, start, gauge and food. F0 counts heat as "
            "minutes at 121.1 C (250 F) that would do as much to spores, C100 as minutes at 100 C "
            f"(212 F) that cook as much. F0: z 10 C, {METHOD}; C100: z 33 C, from memory. How "
            "brothy packs mix is a working value from "
            "memory: no table for home jars was found."
        ),
        paragraph(APPROVES_NOTHING),
        "",
        paragraph(CAUTION),
    ]


def _canner(inside: Inside) -> list[float]:
    return [float(k) for k in band(inside.canner)[1]]


def _three(values: Array, say: Callable[[float], float]) -> dict[str, float]:
    named = zip(("low", "median", "high"), values, strict=True)
    return {name: round(say(float(value)), 4) for name, value in named}


def _draw(arguments: argparse.Namespace, size: str, course: Run, inside: Inside) -> None:
    from stillroom.paper.charts import write_chart
    from stillroom.paper.time_charts import jar_chart

    path = Path(arguments.chart)
    begins, at = [], 0.0
    for name, lasts in (
        ("heat", course.heat), ("vent", course.vent), ("come-up", course.come_up),
        ("process", course.minutes), ("cool", course.cool), ("wait", course.wait),
    ):  # fmt: skip
        if lasts:
            begins.append((at, name))
        at += lasts
    held = f"{course.psi:g} lb" if course.psi else "boiling water"
    chart = jar_chart(
        f"{arguments.food[0].upper()}{arguments.food[1:]} in a {size} jar",
        f"Packed {arguments.packed}; {held} at {course.elevation_ft:,} ft for {course.minutes:g} "
        "minutes",
        inside,
        begins,
    )
    write_chart(chart, path)
