"""Importing does no work: no data file is read, and the command's face loads no room below it."""

import subprocess
import sys

# Every file opened while the code runs, but for Python's own: sources, bytecode, libraries.
WATCH = """
import sys
opened = []
def watch(event, arguments):
    if event == "open":
        opened.append(str(arguments[0]))
sys.addaudithook(watch)
{code}
import os
ours = os.path.dirname(stillroom.__file__)
data = [os.path.relpath(p, ours) for p in opened if p.startswith(ours)]
print("\\n".join(p for p in data if not p.endswith((".py", ".pyc")) and "__pycache__" not in p))
"""
EVERY_MODULE = """
import importlib, pkgutil, stillroom
for module in pkgutil.walk_packages(stillroom.__path__, "stillroom."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
"""
ONE_QUESTION = """
import stillroom
from stillroom.processes import lookup
lookup("green beans", elevation="5,430 ft")
"""


def said_by(code: str) -> list[str]:
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True, text=True)
    return done.stdout.split()


def test_importing_every_module_reads_no_file_of_ours() -> None:
    assert said_by(WATCH.format(code=EVERY_MODULE)) == []


def test_the_watch_sees_the_tables_when_they_are_asked() -> None:
    """Else the test above would hold whatever an import read."""
    assert "processes/data/guide4.csv" in said_by(WATCH.format(code=ONE_QUESTION))


def test_one_food_reads_no_recipe_and_no_kitchen_measure() -> None:
    opened = said_by(WATCH.format(code=ONE_QUESTION))

    assert {path.partition("/")[0] for path in opened} == {"processes"}


def test_the_face_alone_loads_nothing_below_it() -> None:
    loaded = said_by("import sys, stillroom.cli; print(*sys.modules)")

    assert {m for m in loaded if m.startswith("stillroom")} == {"stillroom", "stillroom.cli"}


def test_a_question_at_the_terminal_loads_no_heavy_library_whatever_the_answer() -> None:
    """Refusals and tables for people count too, not only the JSON of an answer."""
    code = (
        "import contextlib, io, sys\n"
        "from stillroom.cli import main\n"
        "with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):"
        "\n    main(['process', 'green beans', '--elevation', '5430 ft'])"
        "\n    main(['process', 'corn kernels', '--elevation', '1655 m', '--jar', 'pint'])"
        "\n    main(['process', 'beets', '--elevation', '0 ft', '--method', 'boiling-water'])"
        "\n    main(['foods'])\n"
        "print(*sys.modules)"
    )

    names = said_by(code)
    loaded = {name.partition(".")[0] for name in names}

    # The fifty options of the heat questions are not spelled out for a question to the tables.
    assert "stillroom.cli.heat_parser" not in names
    assert not loaded & {
        "ortools", "pandas", "numpy", "rich", "typst", "vl_convert", "fastapi",
        "sqlalchemy", "uvicorn", "dataclasses",
    }  # fmt: skip
