"""``stillroom plan``: a day file to a plan, drawn for the stove, as JSON, or as a printed sheet."""

import argparse
import json
import sys
from datetime import datetime, time, timedelta
from io import TextIOWrapper
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED
from stillroom.day.model import Day
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Load, Plan
from stillroom.day.planner import plan_day
from stillroom.day.read import read_day
from stillroom.errors import InputError


def run(arguments: argparse.Namespace) -> int:
    """Read, plan, show, and say by the exit status whether there was a plan."""
    if not 0 < arguments.time_limit <= 3600:
        raise InputError(
            f"--time-limit: {arguments.time_limit:g} does not fit. "
            "Say seconds, more than 0 and at most 3600."
        )
    day = read_day(Path(arguments.day))
    try:
        plan = plan_day(day, time_limit=arguments.time_limit)
    except TimeoutError as wrong:
        raise InputError(
            f"{arguments.day}: {wrong}, and none was proved impossible. Give a longer --time-limit."
        ) from None
    if isinstance(plan, Unplannable):
        return _say_why_not(plan, arguments.json)
    if arguments.pdf:
        _print(plan, Path(arguments.pdf))
    if arguments.json:
        print(json.dumps(as_json(plan), ensure_ascii=False))
        return ANSWERED
    from stillroom.cli.plan_text import show

    # A pipe on a computer set to an old code page knows no block characters: better a plan with
    # question marks in its drawing than none.
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    show(plan)
    if arguments.pdf:
        print(f"Printed day sheet: {arguments.pdf}")
    else:
        print(f"To print it: stillroom plan {arguments.day} --pdf day.pdf")
    print(f"To change it: edit {arguments.day} and the kitchen file beside it, and plan again.")
    return ANSWERED


def _say_why_not(answer: Unplannable, as_document: bool) -> int:
    if as_document:
        reasons = {"because": list(answer.because), "try": list(answer.mend)}
        print(json.dumps({"infeasible": reasons}, ensure_ascii=False))
    else:
        print("This day cannot be planned.", file=sys.stderr)
        for reason in answer.because:
            print(f"  Because: {reason}", file=sys.stderr)
        for change in answer.mend:
            print(f"  Try: {change}", file=sys.stderr)
    return REFUSED


def _print(plan: Plan, path: Path) -> None:
    from stillroom.paper.day_sheet import day_sheet

    try:
        path.write_bytes(day_sheet(plan))
    except OSError as wrong:
        raise InputError(f"--pdf: {path} cannot be written ({wrong.strerror}).") from None


def iso(day: Day, minutes: int) -> str:
    """Minutes after midnight as an ISO 8601 local time; 24:00 is the next day's 0:00."""
    return (datetime.combine(day.date, time()) + timedelta(minutes=minutes)).isoformat()


def as_json(plan: Plan) -> dict[str, object]:
    """The plan in the shape outside checks read; keys may be added, never taken away."""
    day = plan.day
    lists = plan.lists
    return {
        "status": "optimal" if plan.optimal else "feasible",
        "start": iso(day, plan.start),
        "finish": iso(day, plan.finish),
        "makespan_minutes": plan.finish - day.start,
        "bound_minutes": plan.bound - day.start,
        "finish_p50": iso(day, plan.likely.p50),
        "finish_p90": iso(day, plan.likely.p90),
        "loads": [_load_json(day, load) for load in plan.loads],
        "tasks": [
            {
                "name": task.name,
                "recipe": task.recipe,
                "who": list(task.who),
                "where": task.where,
                "load": task.load or None,
                "start": iso(day, task.start),
                "end": iso(day, task.end),
            }
            for task in plan.tasks
        ],
        "lists": {
            "buy": [entry.text for entry in lists.buy],
            "from_shelf": [entry.text for entry in lists.from_shelf],
            "prep": [entry.text for entry in lists.prep],
            "liquids": [entry.text for entry in lists.liquids],
            "jars": [entry.text for entry in lists.jars],
            "lids": [entry.text for entry in (*lists.lids, *lists.bands)],
        },
        "make_first": [made.text for made in lists.first],
        "cost": list(lists.cost.lines) if lists.cost else [],
        "warnings": list(plan.warnings),
        "stand_ins": list(plan.stand_ins),
        "elevation_ft": day.kitchen.elevation_ft,
        "solver_seconds": round(plan.seconds, 3),
    }


def _load_json(day: Day, load: Load) -> dict[str, object]:
    return {
        "number": load.number,
        "canner": load.canner,
        "method": load.method,
        "burner": load.burner,
        "pressure_psi": load.psi,
        "process_minutes": load.minutes,
        "source": load.rules.citation,
        "jars": [
            {
                "recipe": jars.recipe,
                "jar": jars.jar,
                "count": jars.count,
                "pack": jars.pack,
                "published_minutes": jars.process.minutes,
                "headspace_in": jars.process.headspace_in,
                "source": jars.process.citation,
            }
            for jars in load.jars
        ],
        "phases": [
            {"name": p.name, "start": iso(day, p.start), "end": iso(day, p.end)}
            for p in load.phases
        ],
        "durations": [
            {
                "phase": length.phase,
                "minutes": length.minutes,
                "low": length.low,
                "high": length.high,
                "basis": length.basis,
                "source": length.source,
            }
            for length in load.lengths
        ],
    }
