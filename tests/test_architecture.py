"""The house stays as the design lays it out: one-way imports, small modules, sourced data."""

import csv
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "stillroom"
LINT_IMPORTS = Path(sys.executable).parent / "lint-imports"


def test_no_storey_imports_from_above() -> None:
    done = subprocess.run(
        [LINT_IMPORTS, "--no-logo", "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode == 0, done.stdout
    assert "1 kept, 0 broken" in done.stdout


def test_an_import_from_above_is_caught(tmp_path: Path) -> None:
    """The same contract over a copy in which the ground imports the planner."""
    shutil.copytree(SOURCE, tmp_path / "stillroom")
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    units = tmp_path / "stillroom" / "units" / "clock.py"
    units.write_text("import stillroom.day.planner\n" + units.read_text("utf-8"), "utf-8")

    done = subprocess.run(
        [sys.executable, "-c", "import sys; sys.path.insert(0, '.'); "
         "from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )  # fmt: skip

    assert done.returncode != 0
    assert "stillroom.units.clock" in done.stdout


def test_no_module_has_grown_into_two() -> None:
    long = {
        str(file.relative_to(SOURCE)): lines
        for file in SOURCE.rglob("*.py")
        if (lines := len(file.read_text(encoding="utf-8").splitlines())) > 400
    }

    assert long == {}


def test_the_ground_knows_no_face() -> None:
    outside = (
        "sqlalchemy", "fastapi", "starlette", "uvicorn", "typer", "click", "ortools", "typst",
        "rich", "argparse",
    )  # fmt: skip
    files = [SOURCE / f"{name}.py" for name in ("errors", "words", "toml_file")]
    for room in ("units", "processes", "foods", "physics"):
        files += (SOURCE / room).rglob("*.py")
    assert len(files) > 15
    for file in files:
        text = file.read_text(encoding="utf-8")
        for name in outside:
            assert f"import {name}" not in text, file
            assert f"from {name}" not in text, file


def test_the_work_knows_no_database_and_no_web() -> None:
    outside = ("sqlalchemy", "alembic", "fastapi", "starlette", "uvicorn", "jinja2", "argparse")
    files = [f for room in ("kitchen", "recipes", "heat", "loads", "day", "paper")
             for f in (SOURCE / room).rglob("*.py")]  # fmt: skip
    assert len(files) > 100
    for file in files:
        text = file.read_text(encoding="utf-8")
        for name in outside:
            assert f"import {name}" not in text, file
            assert f"from {name}" not in text, file


TABLES = [f for f in sorted(SOURCE.rglob("*.csv")) if f.name not in ("sources.csv", "readings.csv")]


@pytest.mark.parametrize("table", TABLES, ids=lambda f: f"{f.parent.parent.name}/{f.name}")
def test_every_row_of_every_table_names_a_source(table: Path) -> None:
    """A key of the folder's sources.csv, or for names and rules the source in words."""
    with (table.parent / "sources.csv").open(encoding="utf-8", newline="") as f:
        keys = {row["source"] for row in csv.DictReader(f)}
    with table.open(encoding="utf-8", newline="") as f:
        rows = list(csv.DictReader(f))

    assert rows
    for row in rows:
        assert row["source"].strip(), row
        if table.name not in ("names.csv", "no_process.csv"):
            assert row["source"] in keys, row


def test_tables_are_utf8_with_plain_line_ends() -> None:
    for table in SOURCE.rglob("*.csv"):
        raw = table.read_bytes()
        assert b"\r" not in raw, table
        raw.decode("utf-8")


def test_nothing_shipped_calls_a_process_safe() -> None:
    """The tables, recipes and messages say tested, published or barred, never that other word."""
    for file in [*SOURCE.rglob("*.csv"), *SOURCE.rglob("*.toml"), *SOURCE.rglob("*.typ")]:
        # The address of a page and the title of a sheet are their publishers' words.
        ours = re.sub(r"https?://\S+", "", file.read_text(encoding="utf-8").lower())
        assert "safe" not in ours.replace("preserving food safely", ""), file
