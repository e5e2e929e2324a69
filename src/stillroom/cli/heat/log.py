"""``stillroom heat run``: a run's log held against its published process, told and drawn."""

import argparse
import json
import sys
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED
from stillroom.cli.heat.log_text import as_text
from stillroom.cli.heat.log_told import Told, as_json
from stillroom.cli.heat.say import parse_inches
from stillroom.errors import InputError
from stillroom.heat.deviation import deviation
from stillroom.heat.filled import body_of, check_headspace, filled
from stillroom.heat.inside import Inside
from stillroom.heat.log import Log
from stillroom.heat.logged import inferred, inside_log, usual_start
from stillroom.heat.readings import read_log
from stillroom.processes import lookup
from stillroom.processes.model import Process, Refusal
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import parse_jar
from stillroom.units.temperature import parse_temperature


def run(arguments: argparse.Namespace) -> int:
    """Read the log, hold it against its process, show what it shows."""
    feet = parse_elevation(arguments.elevation, "--elevation")
    log = read_log(Path(arguments.log), ("pressure", "boil"))
    row = _process(arguments, log, feet)
    if isinstance(row, Refusal):
        if arguments.json:
            document = {"refusal": {"code": row.code, "reason": row.reason}}
            print(json.dumps(document, ensure_ascii=False))
        else:
            print(row.reason, file=sys.stderr)
        return REFUSED
    told = _told(arguments, log, row, feet)
    if arguments.chart:
        _draw(told, Path(arguments.chart))
    print(json.dumps(as_json(told), ensure_ascii=False) if arguments.json else as_text(told))
    return ANSWERED


def _told(arguments: argparse.Namespace, log: Log, row: Process | None, feet: int) -> Told:
    psi, minutes = (row.psi, row.minutes) if row else (arguments.psi, arguments.minutes)
    target = float(psi) if psi is not None else None
    found = deviation(log, target, float(minutes))
    pressure = log.kind == "pressure"
    return Told(
        log=log,
        elevation_ft=feet,
        source=row.citation if row else "",
        found=found,
        inside_canner=inferred(log, feet) if pressure else (),
        food=arguments.food or "",
        jar=arguments.jar or "",
        packed=arguments.packed,
        inside=_inside(arguments, log, feet, found.end),
    )


def _inside(arguments: argparse.Namespace, log: Log, feet: int, heat_off: float) -> Inside | None:
    """The jars by model, where it is told what is in them."""
    if not arguments.food:
        return None
    if log.kind == "boil":
        raise InputError(
            "--food: the jar is followed through a log of pressure only. Leave it out."
        )
    if not arguments.jar:
        raise InputError("--jar: missing. Say which jar the food is in, such as quart.")
    pack = arguments.pack or "hot"
    if pack not in ("raw", "hot"):
        raise InputError(f'--pack: "{pack}" does not fit. Write raw or hot.')
    start = parse_temperature(arguments.start, "--start") if arguments.start else usual_start(pack)
    body = body_of(parse_jar(arguments.jar, "--jar"), None, None)
    headspace = check_headspace(body, parse_inches(arguments.headspace, "--headspace", 3.0))
    kind = filled(body, headspace, arguments.food, arguments.packed)
    return inside_log(log, kind, start, feet, pack, heat_off)


def _process(arguments: argparse.Namespace, log: Log, feet: int) -> Process | Refusal | None:
    """The published row asked for, or ``None`` where pounds and minutes are given."""
    pressure = log.kind == "pressure"
    if not arguments.process:
        if arguments.minutes is None or (pressure and arguments.psi is None):
            raise InputError(
                f"{'--psi and ' if pressure else ''}--minutes: needed, as the process was "
                "published. Or name its food with --process, and stillroom looks it up."
            )
        _check(arguments, pressure)
        return None
    answer = lookup(
        arguments.process,
        elevation=feet,
        form=arguments.form,
        pack=arguments.pack,
        jar=arguments.jar,
        method=arguments.method or ("pressure" if pressure else "boiling-water"),
    )
    if answer.refusal:
        return answer.refusal
    rows = {
        (row.psi, row.minutes): row
        for row in answer.processes
        if (row.psi is not None) == pressure
        and arguments.psi in (None, row.psi)
        and arguments.minutes in (None, row.minutes)
    }
    if len(rows) == 1:
        return next(iter(rows.values()))
    printed = {(row.jar, row.method, row.psi, row.minutes) for row in answer.processes}
    listed = "; ".join(
        f"{jar}, {method}, {f'{psi} lb, ' if psi else ''}{minutes} min"
        for jar, method, psi, minutes in sorted(printed, key=str)
    )
    many = "several rows fit" if rows else "no row is for such a log, pounds and minutes"
    raise InputError(
        f"--process: {many}. Narrow it with --jar, --method, --form, --pack, --psi or --minutes. "
        f"Printed: {listed}."
    )


def _check(arguments: argparse.Namespace, pressure: bool) -> None:
    if not 1 <= arguments.minutes <= 600:
        raise InputError(f"--minutes: {arguments.minutes:g} does not fit. Write 1 to 600.")
    if pressure and not 1 <= arguments.psi <= 15:
        raise InputError(f"--psi: {arguments.psi:g} does not fit. Write pounds, 1 to 15.")
    if not pressure and arguments.psi is not None:
        raise InputError("--psi: a log of the boil has no pressure. Leave it out.")


def _draw(told: Told, path: Path) -> None:
    from stillroom.paper.charts import write_chart
    from stillroom.paper.run_chart import run_chart

    chart = run_chart(
        told.log, told.found, told.inside_canner, told.inside, told.elevation_ft,
        f"{told.food}, {told.jar} ({told.packed})" if told.food else "",
    )  # fmt: skip
    write_chart(chart, path)
