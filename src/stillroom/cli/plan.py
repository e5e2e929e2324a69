"""``stillroom plan``: a day file to a plan, drawn for the stove, as JSON, or as a printed sheet."""

import argparse
import json
import sys
from io import TextIOWrapper
from pathlib import Path

from stillroom.cli import ANSWERED, REFUSED, plan_files, plan_why
from stillroom.cli.follow import plan_followed
from stillroom.day.orders import Unplannable
from stillroom.day.read import read_day
from stillroom.day.replan.read import read_status
from stillroom.day.told import plan_json, unplannable_json, why_json
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
        document = plan_json(plan) | ({"why": why_json(day, why)} if why else {})
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
        print(json.dumps(unplannable_json(answer), ensure_ascii=False))
    else:
        print("This day cannot be planned.", file=sys.stderr)
        for reason in answer.because:
            print(f"  Because: {reason}", file=sys.stderr)
        for change in answer.mend:
            print(f"  Try: {change}", file=sys.stderr)
    return REFUSED
