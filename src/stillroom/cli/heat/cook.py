"""``stillroom heat cook``: what a logged temperature did to the food."""

import argparse
import json
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.cli.heat.say import CAUTION, paragraph
from stillroom.heat.cook import Cook, cook
from stillroom.heat.readings import read_log
from stillroom.physics.lethality import APPROVES_NOTHING, METHOD, TRAPEZOID
from stillroom.units.temperature import said


def run(arguments: argparse.Namespace) -> int:
    """Read the log, sum it up, show it."""
    path = Path(arguments.log)
    summed = cook(read_log(path, ["temperature"]))
    if arguments.chart:
        from stillroom.paper.charts import write_chart
        from stillroom.paper.letters import printable
        from stillroom.paper.time_charts import cook_chart

        chart = Path(arguments.chart)
        write_chart(cook_chart(f"Logged in {printable(path.name)}", summed), chart)
    if arguments.json:
        print(json.dumps(as_json(summed), ensure_ascii=False))
    else:
        print(as_text(summed))
    return ANSWERED


def as_json(summed: Cook) -> dict[str, object]:
    """Minutes and shares, each with the method, reference and z it rests on."""
    return {
        "readings": len(summed.times),
        "minutes": round(float(summed.times[-1]) / 60, 3),
        "f0_minutes": round(summed.lethality, 4),
        "f0_method": METHOD,
        "f0_reference_c": 121.1,
        "f0_z_c": 10.0,
        "f0_by_trapezoid_minutes": round(summed.by_trapezoid, 4),
        "c100_minutes": round(summed.cook_value, 3),
        "c100_z_c": 33.0,
        "thiamin_retained": round(summed.thiamin, 4),
        "coarse_stretches": summed.coarse,
        "approves": APPROVES_NOTHING,
    }


def as_text(summed: Cook) -> str:
    """For a person: the figures, what each is, and how sure the log makes them."""
    hottest = said(float(summed.temperatures.max()))
    lines = [
        f"{len(summed.times)} readings in {summed.times[-1] / 60:g} minutes, hottest {hottest}",
        "",
        f"  F0              {summed.lethality:8.2f} min   {METHOD}; 121.1 C, z 10 C",
        f"                  {summed.by_trapezoid:8.2f} min   {TRAPEZOID}, for comparison",
        f"  cook value C100 {summed.cook_value:8.1f} min   minutes at 100 C that cook as "
        "much; z 33 C, from memory",
        f"  thiamin left    {100 * summed.thiamin:8.0f} %     carrot puree, D 158 min at "
        "121.1 C, z 25 C; other foods differ",
        "",
    ]
    if summed.coarse:
        lines.append(
            paragraph(
                f"{summed.coarse} stretch{'es' * (summed.coarse > 1)} of the come-up went more "
                "than two minutes without a reading. The trapezoid rule tells "
                f"{100 * summed.overstated:.0f} % too much here; the straight lines are a guess, "
                "too."
            )
        )
    lines += [
        paragraph(APPROVES_NOTHING),
        paragraph(
            "A thermometer that is not at the slowest place of the slowest jar tells of "
            "another place."
        ),
        "",
        paragraph(CAUTION),
    ]
    return "\n".join(lines)
