"""The files that ``stillroom plan`` writes beside its answer: sheets, calendar, drawing."""

import argparse
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from stillroom.day.plan import Plan
from stillroom.errors import InputError

_TOLD = {
    "pdf": "Printed day sheet",
    "people": "Printed lists for each person",
    "calendar": "Calendar file",
    "chart": "Drawn timetable",
}


def check(arguments: argparse.Namespace) -> None:
    """Refuse names that no file of their kind can have, before any planning is done.

    Raises
    ------
    InputError
        An ending that does not fit, or one name for two files.
    """
    if arguments.chart:
        from stillroom.paper.charts import check_ending

        check_ending(Path(arguments.chart))
    for option, ending in (("people", ".pdf"), ("calendar", ".ics")):
        name = getattr(arguments, option)
        if name and Path(name).suffix.lower() != ending:
            raise InputError(f'--{option}: "{name}" does not end in {ending}. Name it so.')
    names = [name for _, name in _wanted(arguments)]
    for name in names:
        if names.count(name) > 1:
            raise InputError(f"{name} is named for two files. Give each its own name.")


def write(plan: Plan, arguments: argparse.Namespace) -> None:
    """Write what was asked for.

    Raises
    ------
    InputError
        A file that cannot be written; the message names its option.
    """
    from stillroom.paper.charts import write_file

    for option, name in _wanted(arguments):
        write_file(_drawn(option, plan, Path(name)), Path(name), f"--{option}")


def told(arguments: argparse.Namespace) -> Iterator[str]:
    """A line for each file that was written."""
    for option, name in _wanted(arguments):
        yield f"{_TOLD[option]}: {name}"


def _wanted(arguments: argparse.Namespace) -> Iterator[tuple[str, str]]:
    for option in _TOLD:
        name = getattr(arguments, option)
        if name:
            yield option, name


def _drawn(option: str, plan: Plan, path: Path) -> bytes:
    match option:
        case "pdf":
            from stillroom.paper.day_sheet import day_sheet

            return day_sheet(plan)
        case "people":
            from stillroom.paper.people_lists import people_lists

            return people_lists(plan)
        case "calendar":
            from stillroom.paper.day_calendar import day_calendar

            return day_calendar(plan, datetime.now(UTC))
        case _:
            from stillroom.paper.charts import chart_kind
            from stillroom.paper.day_chart import day_chart

            return day_chart(plan, chart_kind(path))
