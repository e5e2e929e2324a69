"""``stillroom heat steam``: what a gauge tells of the heat inside, by elevation, air and error."""

import argparse
import json
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.cli.heat.say import CAUTION, paragraph, table
from stillroom.heat.steam import Setting, Steam, settings, steam
from stillroom.heat.told import steam_json
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.units.elevation import parse_elevation
from stillroom.units.temperature import fahrenheit, said

WHY_VENT = (
    "Why ten minutes: the gauge counts air and steam together, and only steam heats. Raw packs "
    "hold most of the air (PNW 421), and it leaves slowly while steam sweeps the canner. Vent ten "
    "full minutes, every time (AIB-539, 1994, Guide 1), whatever this table says."
)
WHY_TEST = (
    "A gauge that reads high leaves the jars colder than it says; have a dial gauge tested every "
    "year. One off by more than 1 lb (1994 edition, from memory) or more than 2 lb (Iowa State "
    "Extension 2024) is replaced: keep to the stricter. Ask your extension office how to set a "
    "canner whose gauge is off by less."
)
ABOUT_240 = (
    "The printed pressures give about 240 F in every band, a little less at its upper end. They "
    "were tested as they stand: nothing here is a reason to set another one."
)


def run(arguments: argparse.Namespace) -> int:
    """Work out the temperatures, show them."""
    feet = parse_elevation(arguments.elevation, "--elevation")
    air = None if arguments.air is None else arguments.air / 100
    told = steam(feet, arguments.psi or 0.0, air=air, off=arguments.reads_high)
    printed = settings()
    if arguments.chart:
        _draw(arguments, told, printed)
    if arguments.json:
        print(json.dumps(steam_json(told, printed), ensure_ascii=False))
    elif arguments.psi is None:
        print(by_elevation(told, printed))
    else:
        print(as_text(told))
    return ANSWERED


def as_text(told: Steam) -> str:
    """For a person: the temperature, then what air and a wrong gauge take from it."""
    air = [["of the gas is air", "inside", "lethal rate"]]
    air += [
        [f"{100 * case.how:g} %", said(case.inside), f"{100 * case.rate:.0f} %"]
        for case in told.air
    ]
    off = [["the gauge reads", "inside", "lethal rate"]]
    off += [[_off(case.how), said(case.inside), f"{100 * case.rate:.0f} %"] for case in told.off]
    return "\n".join(
        [
            f"{told.psi:g} lb on the gauge at {told.elevation_ft:,} ft: {said(told.inside)} in "
            "pure steam",
            f"Water boils here at {said(told.boiling)}.",
            "",
            "Air left in:",
            *table(air, right=(0, 1, 2)),
            "",
            paragraph(WHY_VENT),
            "",
            "A gauge that is off:",
            *table(off, right=(1, 2)),
            "",
            paragraph(WHY_TEST),
            "",
            paragraph(
                "Lethal rate: how fast spores die against the first figure (z 10 C). A jar's slow "
                "middle dampens it."
            ),
            *_end(),
        ]
    )


def by_elevation(told: Steam, printed: tuple[Setting, ...]) -> str:
    """For a person who names no pressure: boiling, and what the printed pressures give."""
    rows = [["canner", "printed", "from", "to", "inside"]]
    rows += [
        [
            setting.method,
            f"{setting.psi} lb",
            f"{setting.from_ft:,} ft",
            f"{setting.to_ft:,} ft",
            f"{fahrenheit(setting.at_from):.1f} to {fahrenheit(setting.at_to):.1f} F"
            + (" *" if setting.from_ft <= max(told.elevation_ft, 0) <= setting.to_ft else ""),
        ]
        for setting in printed
    ]
    return "\n".join(
        [
            f"Water boils at {said(told.boiling)} at {told.elevation_ft:,} ft.",
            "",
            "Printed for most low-acid food (here: snap beans), and the steam inside:",
            *table(rows, right=(1, 2, 3)),
            "  * your band",
            "",
            paragraph(ABOUT_240),
            paragraph("Which pressure and time a food takes: stillroom process FOOD."),
            *_end(),
        ]
    )


def _end() -> list[str]:
    return [paragraph(APPROVES_NOTHING), "", paragraph(CAUTION)]


def _off(pounds: float) -> str:
    if not pounds:
        return "exactly"
    return f"{abs(pounds):g} lb {'high' if pounds > 0 else 'low'}"


def _draw(arguments: argparse.Namespace, told: Steam, printed: tuple[Setting, ...]) -> None:
    from stillroom.paper.charts import write_chart
    from stillroom.paper.steam_chart import air_chart, elevation_chart

    chart = elevation_chart(printed, told) if arguments.psi is None else air_chart(told)
    write_chart(chart, Path(arguments.chart))
