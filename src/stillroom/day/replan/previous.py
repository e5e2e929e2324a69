"""A plan read back from the document that ``stillroom plan --json`` prints."""

import json
from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from typing import Any

from stillroom.day.replan.status import (
    PlannedJars,
    PlannedLoad,
    PlannedPot,
    PlannedWork,
    Previous,
)
from stillroom.errors import InputError
from stillroom.toml_file import LARGEST_BYTES


def read_previous(path: Path) -> Previous:
    """Loads, tasks and pots of a saved plan, in minutes after midnight.

    Raises
    ------
    InputError
        No such file, or not a document of ``stillroom plan --json``.
    """
    try:
        raw = path.read_bytes()
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
    try:
        if len(raw) > LARGEST_BYTES:
            raise ValueError("too large")
        plan = json.loads(raw)
        return previous_from(plan)
    except (ValueError, KeyError, TypeError, AttributeError, StopIteration, RecursionError):
        raise InputError(
            f"{path.name}: this is not a saved plan. Save one with "
            "stillroom plan DAY.toml --json > plan.json."
        ) from None


def previous_from(plan: Mapping[str, Any]) -> Previous:
    """Loads, tasks and pots of a plan's document, in minutes after midnight."""
    # A finish after midnight does not move the day: its date is that of the first task.
    day = datetime.fromisoformat(plan["day_start"]).date()
    tasks = [(task, _work(task, day)) for task in plan["tasks"]]
    return Previous(
        day.isoformat(),
        tuple(_load(load, tasks, day) for load in plan["loads"]),
        tuple(_pots(tasks)),
        tuple(_jars(jars) for load in plan["done"] for jars in load["jars"]),
        max(int(load["number"] or 0) for load in (*plan["loads"], *plan["done"])),
    )


def _jars(jars: dict[str, Any]) -> PlannedJars:
    return PlannedJars(
        jars["recipe"],
        jars["jar"],
        int(jars["count"]),
        int(jars["published_minutes"]),
        int(jars.get("order") or 0),
    )


def _minute(text: str, day: date) -> int:
    at = datetime.fromisoformat(text)
    return (at.date() - day).days * 24 * 60 + at.hour * 60 + at.minute


def _work(task: dict[str, Any], day: date) -> PlannedWork:
    who = tuple(str(name) for name in task["who"])
    return PlannedWork(
        who, str(task["where"]), _minute(task["start"], day), _minute(task["end"], day)
    )


def _burner(where: str) -> int:
    return int(where.removeprefix("burner ")) if where.startswith("burner ") else 0


Tasks = list[tuple[dict[str, Any], PlannedWork]]


def _load(load: dict[str, Any], tasks: Tasks, day: date) -> PlannedLoad:
    own = [(task, work) for task, work in tasks if task["load"] == load["number"]]
    named = {task["name"]: work for task, work in own if task["who"]}
    cuts = [work for task, work in own if task["who"] and task["name"] == "Prepare"]
    pots = [work for task, work in own if not task["who"]]
    spans = {p["name"]: (_minute(p["start"], day), _minute(p["end"], day)) for p in load["phases"]}
    ready = max(end for name, (_, end) in spans.items() if name != "unload")
    return PlannedLoad(
        number=int(load["number"]),
        canner=str(load["canner"]),
        psi=load["pressure_psi"],
        burner=_burner(load["burner"]),
        jars=tuple(_jars(jars) for jars in load["jars"]),
        cuts=tuple(sorted(cuts, key=lambda work: work.start)),
        pot=min(pots, key=lambda work: work.start) if pots else None,
        fill=named["Fill and load"],
        heat_off=spans["process"][1],
        cool=spans["cool"][1] - spans["cool"][0] if "cool" in spans else 0,
        open=ready,
        unload=named["Unload"],
    )


def _pots(tasks: Tasks) -> list[PlannedPot]:
    once = [
        ((task["recipe"], int(task.get("order") or 0)), task, work)
        for task, work in tasks
        if not task["load"]
    ]
    cuts = [(key, work) for key, task, work in once if task["who"]]
    pots: dict[tuple[str, int], PlannedWork] = {}
    for key, task, work in sorted(once, key=lambda entry: entry[2].start):
        if not task["who"]:
            # A pot that was moved has several stands; it began with the first.
            pots.setdefault(key, work)
    return [
        PlannedPot(key[0], next((w for of, w in cuts if of == key), None), cook, key[1])
        for key, cook in pots.items()
    ]
