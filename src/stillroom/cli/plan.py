"""``stillroom plan``: a day file to a plan, drawn for the stove, as JSON, or as a printed sheet."""

import argparse
import json
import sys
from io import TextIOWrapper
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED, plan_files, plan_why
from stillroom.cli.follow import plan_followed
from stillroom.cli.iso import iso
from stillroom.day.model import Day
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Load, Plan
from stillroom.day.read import read_day
from stillroom.day.replan.read import read_status
from stillroom.errors import InputError


def run(arguments: argparse.Namespace) -> int:
    """Read, plan, show, and say by the exit status whether there was a plan."""
    if not 0 < arguments.time_limit <= 3600:
        raise InputError(
            f"--time-limit: {arguments.time_limit:g} does not fit. "
            "Say seconds, more than 0 and at most 3600."
        )
    plan_files.check(arguments)
    day = read_day(Path(arguments.day))
    status = read_status(Path(arguments.status), day) if arguments.status else None
    try:
        plan, why = plan_followed(
            day,
            status,
            time_limit=arguments.time_limit,
            seed=arguments.seed,
            explain=arguments.why,
        )
    except TimeoutError as wrong:
        raise InputError(
            f"{arguments.day}: {wrong}, and none was proved impossible. Give a longer --time-limit."
        ) from None
    if isinstance(plan, Unplannable):
        return _say_why_not(plan, arguments.json)
    plan_files.write(plan, arguments)
    if arguments.json:
        document = as_json(plan) | ({"why": plan_why.as_json(day, why)} if why else {})
        print(json.dumps(document, ensure_ascii=False))
        return ANSWERED
    from stillroom.cli.plan_text import show

    # A pipe on a computer set to an old code page knows no block characters: better a plan with
    # question marks in its drawing than none.
    if isinstance(sys.stdout, TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")
    show(plan)
    if why:
        plan_why.show(why)
    for line in plan_files.told(arguments):
        print(line)
    if not arguments.pdf:
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


def as_json(plan: Plan) -> dict[str, object]:
    """The plan in the shape outside checks read; keys may be added, never taken away."""
    day = plan.day
    lists = plan.lists
    threat = plan.likely.threat
    return {
        "status": "optimal" if plan.optimal else "feasible",
        "start": iso(day, plan.start),
        "finish": iso(day, plan.finish),
        "makespan_minutes": plan.finish - day.start,
        "bound_minutes": plan.bound - day.start,
        "finish_p50": iso(day, plan.likely.p50),
        "finish_p90": iso(day, plan.likely.p90),
        "threat": threat
        and {"step": threat.step, "share": round(threat.share, 3), "minutes_over": threat.over},
        "loads": [_load_json(day, load) for load in plan.loads],
        "tasks": [
            {
                "name": task.name,
                "recipe": task.recipe,
                "who": list(task.who),
                "where": task.where,
                "load": task.load or None,
                "order": task.order or None,
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
        "aims": [
            {
                "aim": aim.aim,
                "value": aim.value,
                "unit": aim.unit,
                "bound": aim.bound,
                "proved": aim.proved,
            }
            for aim in plan.reached
        ],
        "stopped": plan.stopped,
        "day_start": iso(day, day.start),
        "now": None if plan.now is None else iso(day, plan.now),
        "done": [
            {
                "number": number or None,
                "jars": [
                    {
                        "recipe": j.recipe,
                        "jar": j.jar,
                        "count": j.count,
                        "published_minutes": j.minutes,
                        "order": j.order or None,
                    }
                    for j in jars
                ],
            }
            for number, jars in plan.done
        ],
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
                "order": jars.order or None,
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
