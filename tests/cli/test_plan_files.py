"""The files beside a plan: sheets, calendar and drawing tell what the JSON tells."""

import json
import re
from collections import Counter
from collections.abc import Iterator
from contextlib import redirect_stdout
from datetime import datetime
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
import vobject

from stillroom.cli import main
from tests.paper.read_back import pages

DAY = """
date = 2026-08-08
kitchen = "kitchen.toml"
start = "8:00"
finish_by = "18:00"

[[order]]
recipe = "snap-beans"
jars = 14
jar = "pint"
"""
FILES = {"pdf": "day.pdf", "people": "who.pdf", "calendar": "day.ics", "chart": "day.svg"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("small day")
    with redirect_stdout(StringIO()):
        main(["start", str(made)])
    (made / "day.toml").write_text(DAY, encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def plan(folder: Path) -> Iterator[dict[str, Any]]:
    asked = [word for option, name in FILES.items() for word in (f"--{option}", str(folder / name))]
    out = StringIO()
    with redirect_stdout(out):
        assert main(["plan", str(folder / "day.toml"), "--time-limit", "5", "--json", *asked]) == 0
    yield json.loads(out.getvalue())


def clock(told: str) -> str:
    """An ISO time as a sheet prints it."""
    at = datetime.fromisoformat(told)
    return f"{at.hour}:{at.minute:02d}"


def test_the_calendar_has_every_task_of_the_plan_at_its_time(
    plan: dict[str, Any], folder: Path
) -> None:
    events = vobject.readOne((folder / "day.ics").read_bytes().decode()).vevent_list

    read = Counter(
        (e.dtstart.value.isoformat(), e.dtend.value.isoformat(), e.location.value)
        for e in events
        if "canner: " not in e.summary.value
    )
    assert read == Counter((t["start"], t["end"], t["where"]) for t in plan["tasks"])


def test_the_calendar_has_every_process_of_the_plan_at_its_time(
    plan: dict[str, Any], folder: Path
) -> None:
    events = vobject.readOne((folder / "day.ics").read_bytes().decode()).vevent_list

    read = Counter(
        (e.dtstart.value.isoformat(), e.dtend.value.isoformat())
        for e in events
        if "start timing" in e.summary.value
    )
    phases = [phase for load in plan["loads"] for phase in load["phases"]]
    assert read == Counter((p["start"], p["end"]) for p in phases if p["name"] == "process")


def test_each_person_has_a_page_with_their_tasks_of_the_plan(
    plan: dict[str, Any], folder: Path
) -> None:
    read = pages((folder / "who.pdf").read_bytes())

    assert [page.split()[0] for page in read] == ["Marit", "Jonas"]
    rows = r"\d+:\d\d–\d+:\d\d (?:Prepare|Fill and load|Unload)"
    for page in read:
        name = page.split()[0]
        assert Counter(re.findall(rows, page)) == Counter(
            f"{clock(task['start'])}–{clock(task['end'])} {task['name']}"
            for task in plan["tasks"]
            if name in task["who"]
        )


def test_sheet_and_drawing_are_written(plan: dict[str, Any], folder: Path) -> None:
    assert plan["loads"]
    assert "PRESSURE" in pages((folder / "day.pdf").read_bytes())[0]
    assert (folder / "day.svg").read_bytes().startswith(b"<svg ")


def test_what_was_written_is_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    name = str(folder / "again.ics")

    main(["plan", str(folder / "day.toml"), "--time-limit", "2", "--calendar", name])

    assert f"Calendar file: {name}" in capsys.readouterr().out.replace("\n", "")


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (["--calendar", "day.txt"], '--calendar: "day.txt" does not end in .ics. Name it so.'),
        (["--people", "who"], '--people: "who" does not end in .pdf. Name it so.'),
        (["--chart", "day.jpg"], '--chart: "day.jpg" does not end in .svg, .png or .pdf.'),
        (["--pdf", "a.pdf", "--people", "a.pdf"], "a.pdf is named for two files"),
    ],
)
def test_a_name_that_does_not_fit_is_told_before_any_planning(
    asked: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """The day file is not even there."""
    assert main(["plan", "none.toml", *asked]) == 2
    assert told in capsys.readouterr().err


@pytest.mark.parametrize("option", ["--people", "--chart", "--calendar"])
def test_a_folder_that_is_not_there_is_told(
    option: str, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    name = folder / "no" / {"--people": "a.pdf", "--chart": "a.png", "--calendar": "a.ics"}[option]

    assert main(["plan", str(folder / "day.toml"), "--time-limit", "2", option, str(name)]) == 2

    assert f"{option}: {name} cannot be written" in capsys.readouterr().err
