"""The status file: the time now and what did not go as planned, in TOML or JSON."""

import json
from collections.abc import Callable
from pathlib import Path

from stillroom.day.model import Day
from stillroom.day.replan.previous import read_previous
from stillroom.day.replan.status import STATES, Out, Previous, Status, ToldLoad
from stillroom.errors import InputError
from stillroom.toml_file import Table, placed, read_toml
from stillroom.units.clock import parse_clock
from stillroom.words import did_you_mean

LATEST = 600


def read_status(path: Path, day: Day) -> Status:
    """How a day stands, with the plan it began with read from beside the file.

    Raises
    ------
    InputError
        Naming file, line and key, what was written, and what to write instead.

    Source
    ------
    The file's keys are this project's own; ``docs/reference/files.md`` lists them.
    """

    def previous(said: str, where: str) -> Previous:
        return read_previous(path.parent / said)

    return status_from(_read(path), day, previous)


@placed
def status_from(top: Table, day: Day, plan: Callable[[str, str], Previous]) -> Status:
    """How a day stands, from the top table of its file or document.

    Parameters
    ----------
    top : the keys that docs/reference/files.md lists
    day : as its file says
    plan : finds the plan it began with by what the table calls it; the second argument is what to
        name in an error

    Raises
    ------
    InputError
        As ``read_status``.
    """
    now = parse_clock(top.text("now", such_as="11:20"), top.where("now"))
    if not day.start <= now <= day.finish_by:
        raise InputError(f"{top.where('now')}: the day is from start to finish_by; this is not.")
    previous = plan(top.text("plan", such_as="plan.json"), top.where("plan"))
    if previous.date != day.date.isoformat():
        raise InputError(
            f"{top.where('plan')}: this plan is for {previous.date}, the day file for {day.date}."
        )
    loads = tuple(_load(t, previous) for t in top.tables("load"))
    canners = tuple(
        _out(t, "name", now, day.finish_by, [c.name for c in day.kitchen.canners], "canner")
        for t in top.tables("canner")
    )
    people = tuple(
        _out(t, "who", now, day.finish_by, [p.name for p in day.people], "person")
        for t in top.tables("gone")
    )
    pots = tuple(_pot(t, day) for t in top.tables("pot"))
    top.no_more()
    return Status(now, previous, loads, canners, people, pots)


def _read(path: Path) -> Table:
    if path.suffix.lower() != ".json":
        return read_toml(path)
    try:
        values = json.loads(path.read_text("utf-8"))
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
    except (ValueError, RecursionError) as wrong:
        raise InputError(f"{path.name}: {wrong}.") from None
    if not isinstance(values, dict):
        raise InputError(f"{path.name}: write an object with now and plan.")
    return Table(values, path.name, "", {})


def _load(table: Table, previous: Previous) -> ToldLoad:
    number = table.whole("number", least=1, most=10_000)
    known = [load.number for load in previous.loads]
    if number not in known:
        raise InputError(
            f"{table.where('number')}: the plan has no load {number}. "
            f"Loads: {', '.join(map(str, known))}."
        )
    state = table.choice("state", STATES) if table.has("state") else ""
    late = table.whole("late", 0, least=-LATEST, most=LATEST)
    table.no_more()
    told = [known for known in STATES if known == state]
    return ToldLoad(number, told[0] if told else "", late, table.where())


def _out(table: Table, key: str, now: int, until: int, known: list[str], kind: str) -> Out:
    name = table.text(key, such_as=known[0]) if key == "who" else table.text("name", such_as="pot")
    if name not in known:
        raise InputError(
            f'{table.where(key)}: no {kind} here is called "{name}".{did_you_mean(name, known)}'
        )
    begin, end = table.text("from", "", such_as="11:00"), table.text("to", "", such_as="13:00")
    start = parse_clock(begin, table.where("from")) if begin else now
    back = parse_clock(end, table.where("to")) if end else until
    if back <= start:
        raise InputError(f"{table.where('to')}: it ends before it begins.")
    table.no_more()
    return Out(name, start, back, table.where())


def _pot(table: Table, day: Day) -> tuple[str, int]:
    name = table.text("recipe", such_as="chicken-stock")
    known = [order.recipe.name for order in day.orders if order.recipe.work.make]
    if name not in known:
        raise InputError(
            f'{table.where("recipe")}: no pot of this day is made for "{name}".'
            f"{did_you_mean(name, known)}"
        )
    late = table.whole("late", least=-LATEST, most=LATEST)
    table.no_more()
    return name, late
