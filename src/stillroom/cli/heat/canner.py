"""``stillroom heat canner``: how long a loaded canner heats, comes up and cools."""

import argparse
import json
import sys
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED
from stillroom.cli.heat.say import CAUTION, bullets, paragraph, table
from stillroom.errors import InputError
from stillroom.heat.durations import Span, Times, TooWeak, durations, middle_run
from stillroom.heat.load import HeatedLoad
from stillroom.kitchen import Canner, read_kitchen
from stillroom.processes.model import METHODS, PRESSURE
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import parse_jar
from stillroom.words import did_you_mean

_USUAL_LOAD, _MOST_JARS = 7, 48
PLANS_ONLY = "These minutes plan a day. Gauge, weight and boil decide when timing starts."


def run(arguments: argparse.Namespace) -> int:
    """Ask the heat model of a canner with a load, show its minutes or why it has none."""
    canner, feet = _canner(arguments)
    load = _load(arguments, canner, feet)
    answer = durations(canner, load)
    if arguments.chart and isinstance(answer, Times):
        _draw(canner, load, answer, Path(arguments.chart))
    if arguments.json:
        print(json.dumps(as_json(load, answer), ensure_ascii=False))
    elif isinstance(answer, TooWeak):
        print(paragraph(answer.why), file=sys.stderr)
        print("\n".join(bullets("Taken for what is not told", answer.stand_ins)), file=sys.stderr)
    else:
        print(as_text(canner, load, answer))
    return ANSWERED if isinstance(answer, Times) else REFUSED


def _canner(arguments: argparse.Namespace) -> tuple[Canner, int | None]:
    """The canner of a kitchen file and its elevation, or one of which only the method is known."""
    if not arguments.kitchen:
        if arguments.canner is not None:
            raise InputError("--canner: names one of a kitchen file. Add the file with --kitchen.")
        if arguments.method not in METHODS:
            raise InputError(
                f'--method: "{arguments.method or ""}" does not fit. Write {", ".join(METHODS)}, '
                "or name a kitchen file with --kitchen and its canner with --canner."
            )
        return Canner("this canner", arguments.method, {}), None
    kitchen = read_kitchen(Path(arguments.kitchen))
    names = [canner.name for canner in kitchen.canners]
    wanted = names[0] if arguments.canner is None and len(names) == 1 else arguments.canner
    for canner in kitchen.canners:
        if canner.name == wanted:
            if arguments.method not in (None, canner.method):
                raise InputError(
                    f'--method: "{arguments.method}" does not fit. {canner.name} is a '
                    f"{canner.method} canner in {arguments.kitchen}. Leave --method out."
                )
            return canner, kitchen.elevation_ft
    raise InputError(
        f'--canner: "{arguments.canner or ""}" is not in {arguments.kitchen}.'
        f"{did_you_mean(arguments.canner or '', names)} Canners: {', '.join(names)}."
    )


def _load(arguments: argparse.Namespace, canner: Canner, feet: int | None) -> HeatedLoad:
    if arguments.elevation:
        feet = parse_elevation(arguments.elevation, "--elevation")
    if feet is None:
        raise InputError('--elevation: missing. Write a number and its unit, such as "5200 ft".')
    jar = parse_jar(arguments.jar, "--jar")
    jars = _jars(arguments.jars, canner, jar)
    psi = arguments.psi or 0
    if canner.method in PRESSURE and not 1 <= psi <= 15:
        raise InputError("--psi: a pressure canner needs pounds, 1 to 15, as the process tells.")
    if canner.method not in PRESSURE and psi:
        raise InputError("--psi: a boiling-water canner has no pressure. Leave it out.")
    if not 1 <= arguments.minutes <= 600:
        raise InputError(f"--minutes: {arguments.minutes} does not fit. Write 1 to 600.")
    if arguments.pack not in ("raw", "hot"):
        raise InputError(f'--pack: "{arguments.pack}" does not fit. Write raw or hot.')
    liquid = {"solid": False, "brothy": True}.get(arguments.packed)
    return HeatedLoad(
        canner.method, feet, psi, jar, jars, arguments.pack, liquid, arguments.minutes
    )


def _jars(asked: int | None, canner: Canner, jar: str) -> int:
    """How many jars stand in the canner: as asked, or a full load."""
    holds = canner.capacity(jar)
    if canner.holds and not holds:
        raise InputError(f"--jar: {canner.name} holds no {jar} jars, says the kitchen file.")
    if asked is None:
        return holds or _USUAL_LOAD
    if canner.holds and asked > holds:
        raise InputError(f"--jars: {asked} do not fit. {canner.name} holds {holds} {jar} jars.")
    if not 1 <= asked <= _MOST_JARS:
        raise InputError(f"--jars: {asked} does not fit. Write 1 to {_MOST_JARS}.")
    return asked


def _phases(load: HeatedLoad, times: Times) -> list[tuple[str, Span]]:
    if load.method in PRESSURE:
        return [
            ("heat-up, to steam", times.heat),
            ("vent, as published", Span(10, 10, 10)),
            ("come-up, to pressure", times.come_up),
            ("process, as given", Span(load.minutes, load.minutes, load.minutes)),
            ("cool-down, to zero", times.cool),
            ("wait, as published", Span(10, 10, 10)),
        ]
    return [
        ("heat-up, to a boil", times.heat),
        ("process, as given", Span(load.minutes, load.minutes, load.minutes)),
        ("wait, as published", Span(5, 5, 5)),
    ]


def as_json(load: HeatedLoad, answer: Times | TooWeak) -> dict[str, object]:
    """Phases in minutes: planned, and what eight runs in ten lie between."""
    asked = {
        "method": load.method, "elevation_ft": load.elevation_ft, "pressure_psi": load.psi or None,
        "jar": load.jar, "jars": load.jars, "pack": load.pack, "process_minutes": load.minutes,
    }  # fmt: skip
    if isinstance(answer, TooWeak):
        return {**asked, "phases": [], "refusal": answer.why, "stand_ins": list(answer.stand_ins)}
    return {
        **asked,
        "phases": [
            {"name": name, "planned": span.planned, "low": span.low, "high": span.high}
            for name, span in _phases(load, answer)
        ],
        "refusal": None,
        "stand_ins": list(answer.stand_ins),
        "timed_runs": answer.timed,
        "warnings": list(answer.warnings),
        "approves": PLANS_ONLY,
    }


def as_text(canner: Canner, load: HeatedLoad, times: Times) -> str:
    """For a person: minutes of each phase, what stands in, what to watch."""
    at = f"{load.psi} lb" if load.psi else "boiling water"
    phases = _phases(load, times)
    rows = [["", "plan", "8 runs in 10"]]
    rows += [
        [name, f"{span.planned} min", "" if span.low == span.high else f"{span.low} to {span.high}"]
        for name, span in phases
    ]
    whole = sum(span.planned for _, span in phases)
    return "\n".join(
        [
            f"{load.jars} {load.jar} jars, {load.pack} pack, {at} at {load.elevation_ft:,} ft"
            f" ({canner.name})",
            "",
            *table([*rows, ["in all", f"{whole} min", ""]], right=(1, 2)),
            "",
            paragraph(PLANS_ONLY),
            *bullets("Taken for what is not told", times.stand_ins),
            *bullets("Watch", times.warnings),
            "",
            paragraph(CAUTION),
        ]
    )


def _draw(canner: Canner, load: HeatedLoad, times: Times, path: Path) -> None:
    from stillroom.paper.charts import write_chart
    from stillroom.paper.time_charts import canner_chart
    from stillroom.physics.vessel import history

    made = middle_run(canner, load)
    seen, jars = history(made, 30.0), history(made, 30.0, of_jars=True)
    begins = [(float(p.start[0]) / 60, p.name) for p in made.phases if p.length[0] > 0]
    at = f"{load.psi} lb" if load.psi else "boiling water"
    chart = canner_chart(
        f"{load.jars} {load.jar} jars, {load.pack} pack",
        f"{at} at {load.elevation_ft:,} ft, a canner in the middle of what is known",
        seen.times,
        seen.temperatures[0],
        jars.temperatures[0],
        begins,
    )
    write_chart(chart, path)
