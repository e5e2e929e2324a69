"""The files that ``stillroom plan`` writes beside its answer: sheets, calendar, drawing."""

import argparse
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from stillroom.day.plan import Plan
from stillroom.errors import InputError

_TOLD = {
    "pdf": "Printed day sheet",
    "calendar": "Calendar file",
}


def check(arguments: argparse.Namespace) -> None:
    """Refuse names that no file of their kind can have, before any planning is done.

    Raises
    ------
    InputError
        An ending that does not fit, or one name for two files.
    """
    for option, ending in (("calendar", ".ics"),):
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
    for option, name in _wanted(arguments):
        drawn = _drawn(option, plan)
        try:
            Path(name).write_bytes(drawn)
        except (OSError, ValueError) as wrong:
            # ValueError: no file system takes a name with a NUL character in it.
            why = wrong.strerror if isinstance(wrong, OSError) else "this cannot be a file name"
            raise InputError(f"--{option}: {name} cannot be written ({why}).") from None


def told(arguments: argparse.Namespace) -> Iterator[str]:
    """A line for each file that was written."""
    for option, name in _wanted(arguments):
        yield f"{_TOLD[option]}: {name}"


def _wanted(arguments: argparse.Namespace) -> Iterator[tuple[str, str]]:
    for option in _TOLD:
        name = getattr(arguments, option)
        if name:
            yield option, name


def _drawn(option: str, plan: Plan) -> bytes:
    match option:
        case "pdf":
            from stillroom.paper.day_sheet import day_sheet

            return day_sheet(plan)
        case _:
            from stillroom.paper.day_calendar import day_calendar

            return day_calendar(plan, datetime.now(UTC))
