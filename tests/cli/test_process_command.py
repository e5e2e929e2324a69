"""``stillroom process`` and its small neighbours: shapes, exit status, and what a person reads."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from stillroom.cli import main

MATCH_KEYS = {
    "food", "form", "pack", "jar", "method", "minutes", "pressure_psi", "headspace_in",
    "band_ft", "option", "source", "notes", "requires",
}  # fmt: skip
ASKED = ["process", "green beans", "--jar", "quart", "--elevation", "5,430 ft"]

Capture = pytest.CaptureFixture[str]


def test_json_has_the_agreed_shape(capsys: Capture) -> None:
    """AIB-539 Guide 4 p. 4-8: quarts 25 min; dial 13 lb to 6,000 ft, weighted 15 lb above 1,000."""
    assert main([*ASKED, "--json"]) == 0

    out = capsys.readouterr()
    answer = json.loads(out.out)
    assert out.err == ""
    assert answer["refusal"] is None
    assert all(set(m) >= MATCH_KEYS for m in answer["matches"])
    assert [(m["method"], m["minutes"], m["pressure_psi"]) for m in answer["matches"]] == [
        ("dial-gauge", 25, 13),
        ("weighted-gauge", 25, 15),
    ]
    assert [m["band_ft"] for m in answer["matches"]] == [[4001, 6000], [1001, None]]
    assert answer["matches"][0]["option"] is None
    assert "AIB-539" in answer["matches"][0]["source"]


def test_boiling_water_has_no_pressure_and_tomatoes_tell_their_option(capsys: Capture) -> None:
    main(["process", "peaches", "--elevation", "0 ft", "--method", "boiling-water", "--json"])
    peaches = json.loads(capsys.readouterr().out)
    main(["process", "tomato sauce", "--elevation", "0 ft", "--method", "dial-gauge", "--json"])
    sauce = json.loads(capsys.readouterr().out)

    assert {m["pressure_psi"] for m in peaches["matches"]} == {None}
    assert {m["option"] for m in sauce["matches"]} == {"1 of 2", "2 of 2"}


@pytest.mark.parametrize(
    ("asked", "code"),
    [
        (["moon rocks"], "unknown-food"),
        (["corn"], "unknown-food"),
        (["zucchini"], "no-row"),
        (["beets", "--method", "boiling-water"], "method-barred"),
        (["snap beans", "--jar", "half-gallon"], "jar-too-large"),
        (["beets", "--method", "dial-gauge", "--elevation", "9000 ft"], "above-table"),
        (["mango salsa"], "withheld"),
    ],
)
def test_a_refusal_is_one_document_with_its_code_and_exit_3(
    asked: list[str], code: str, capsys: Capture
) -> None:
    elevation = [] if "--elevation" in asked else ["--elevation", "500 ft"]

    assert main(["process", *asked, *elevation, "--json"]) == 3

    answer = json.loads(capsys.readouterr().out)
    assert answer["matches"] == []
    assert answer["refusal"]["code"] == code
    assert answer["refusal"]["reason"].endswith((".", ")"))


def test_an_uncertain_name_lists_candidates(capsys: Capture) -> None:
    assert main(["process", "corn", "--elevation", "500 ft"]) == 3

    out = capsys.readouterr()
    assert out.out == ""
    assert "cream-style corn" in out.err
    assert "whole-kernel corn" in out.err


def test_the_table_shows_minutes_pounds_source_and_caution(capsys: Capture) -> None:
    assert main(ASKED) == 0

    told = capsys.readouterr().out
    assert "quart   dial-gauge            25      13 lb   1 in" in told
    assert "Vent steam for 10 minutes" in told
    assert "Guide 4 p. 4-8" in told
    assert "extension office" in told
    assert "safe" not in told.lower()


@pytest.mark.parametrize(
    "wrong",
    [["process", "beets"], ["process"], [], ["simmer"], ["process", "beets", "--elevation"]],
)
def test_a_call_that_cannot_be_read_exits_2(wrong: list[str], capsys: Capture) -> None:
    with pytest.raises(SystemExit) as ended:
        main(wrong)

    assert ended.value.code == 2
    assert "usage: stillroom" in capsys.readouterr().err


def test_a_value_that_cannot_be_read_exits_2_and_names_the_option(capsys: Capture) -> None:
    assert main(["process", "beets", "--elevation", "high"]) == 2

    out = capsys.readouterr()
    assert out.out == ""
    assert '--elevation: "high" is not an elevation' in out.err


@pytest.mark.parametrize("below", ["-20ft", "-20 ft", "-6 m"])
def test_an_elevation_below_sea_level_is_the_lowest_band(below: str, capsys: Capture) -> None:
    assert main(["process", "beets", "--elevation", below, "--method", "dial-gauge", "--json"]) == 0

    answer = json.loads(capsys.readouterr().out)
    assert {m["pressure_psi"] for m in answer["matches"]} == {11}


def test_foods_lists_the_library_and_marks_what_is_withheld(capsys: Capture) -> None:
    assert main(["foods"]) == 0
    every = capsys.readouterr().out.splitlines()
    assert main(["foods", "salsa"]) == 0
    salsas = capsys.readouterr().out

    assert len(every) == 143  # 129 foods with rows, 14 of which nobody could read a row
    assert "mango salsa" in salsas
    assert "withheld" in next(line for line in salsas.splitlines() if "mango" in line)
    assert main(["foods", "moon"]) == 3


def test_recipes_lists_twelve_starters_with_their_source(capsys: Capture) -> None:
    assert main(["recipes"]) == 0

    told = capsys.readouterr().out
    assert told.count("\n  Source: ") == 12
    assert told.count("\n  Process: ") == 12


def test_start_writes_the_demo_day_and_keeps_what_is_there(tmp_path: Path, capsys: Capture) -> None:
    assert main(["start", str(tmp_path)]) == 0
    assert "stillroom plan" in capsys.readouterr().out
    mine = tmp_path / "day.toml"
    mine.write_text("mine", encoding="utf-8")

    assert main(["start", str(tmp_path)]) == 2
    assert "--force" in capsys.readouterr().err
    assert mine.read_text(encoding="utf-8") == "mine"
    assert main(["start", str(tmp_path), "--force"]) == 0
    assert "[[order]]" in mine.read_text(encoding="utf-8")


def test_the_module_and_the_installed_command_answer_alike() -> None:
    script = Path(sys.executable).parent / "stillroom"
    ways = ([str(script)], [sys.executable, "-m", "stillroom"])

    answers = [
        subprocess.run([*way, *ASKED, "--json"], capture_output=True, check=True).stdout
        for way in ways
    ]

    assert answers[0] == answers[1]
    assert json.loads(answers[0])["matches"]


def test_a_look_up_loads_neither_solver_nor_web_nor_database() -> None:
    """Start-up is the measured promise (benchmarks/start_up.py); this holds its cause."""
    asked = ["process", "green beans", "--elevation", "5430 ft", "--json"]
    code = (
        "import io, sys, contextlib\n"
        "from stillroom.cli import main\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        f"    main({asked!r})\n"
        "print(' '.join(sorted(sys.modules)))"
    )

    loaded = set(
        subprocess.run(
            [sys.executable, "-c", code], capture_output=True, check=True, text=True
        ).stdout.split()
    )

    barred = {
        "ortools", "pandas", "numpy", "rich", "typst", "rapidfuzz", "fastapi", "starlette",
        "sqlalchemy", "uvicorn", "dataclasses", "inspect",
    }  # fmt: skip
    assert "stillroom.processes.lookup" in loaded
    assert not loaded & barred
    assert not {m for m in loaded if m.startswith(("stillroom.day", "stillroom.recipes"))}


def test_importing_the_command_opens_no_data_file() -> None:
    code = (
        "import sys\n"
        "opened = []\n"
        "sys.addaudithook(lambda e, a: opened.append(str(a[0])) if e == 'open' else None)\n"
        "import stillroom.cli, stillroom.processes, stillroom.day.planner\n"
        "print([p for p in opened if p.endswith(('.csv', '.toml'))])"
    )

    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)

    assert done.stdout.strip() == "[]"
