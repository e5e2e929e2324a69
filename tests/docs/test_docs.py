"""The blocks of the pages run, and show what they say."""

import doctest
import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from tests.docs.pages import PAGES, Block, blocks, name, text

# Commands that the pages show and no test runs, each with its reason. They are named whole.
NOT_RUN = {
    "./do demo": "sets up this very environment; what it calls is run by the tour's blocks",
    "./do test": "would run itself",
    "python docs/make_api.py": "writes into the repository; tests/web/api makes the same page",
    "python docs/make_pictures.py": "writes into the repository; its parts are tested below",
    "python -m benchmarks.check": "no timing in the tests",
    "python -m benchmarks.heat": "no timing in the tests",
    "python -m benchmarks.days": "no timing in the tests",
    "python -m benchmarks.batching PATH --time-limit 60": "the instances are not in the repository",
    "python -m benchmarks.pages --seconds 45": "no timing in the tests",
    "python -m benchmarks.start_up": "no timing in the tests",
    "stillroom serve --try": "runs until Ctrl-C; tests/web/security starts and ends it",
    "stillroom serve": "runs until Ctrl-C; tests/web/security starts and ends it",
    "stillroom serve --open-to-household --https": "likewise",
    "uv pip compile pyproject.toml --group dev --universal --python-version 3.11 "
    "--generate-hashes --no-header --no-annotate -o requirements/dev.txt": "asks the network",
}
# Nothing else is let loose on the machine that runs the tests.
PROGRAMS = ("stillroom", "python", "echo", "ls", "sed")
FLAGS = doctest.ELLIPSIS | doctest.NORMALIZE_WHITESPACE

WITHBLOCKS = [page for page in PAGES if blocks(page)]


def commands(block: Block) -> list[tuple[str, str]]:
    """The commands of a console block with the output shown for each."""
    found: list[tuple[str, str]] = []
    for line in block.text.splitlines(keepends=True):
        if line.startswith("$ "):
            found.append((line[2:].strip(), ""))
        else:
            command, shown = found[-1]
            found[-1] = (command, shown + line)
    return found


def _run(command: str, status: int, folder: Path) -> tuple[str, int]:
    """Both streams of a command, and its exit status; ``$?`` holds that of the one before."""
    assert command.split()[0] in PROGRAMS, command
    python = shlex.quote(sys.executable)
    script = (
        f'python() {{ {python} "$@"; }}; stillroom() {{ {python} -m stillroom "$@"; }}\n'
        f"(exit {status}); {command}"
    )
    told = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "PYTHONUTF8": "1"}
    done = subprocess.run(
        ["sh", "-c", script],
        cwd=folder,
        env=told,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        timeout=120,
        check=False,
    )
    return done.stdout, done.returncode


def _check_console(page: str, block: Block, folder: Path, status: int) -> tuple[int, int]:
    ran = 0
    for command, shown in commands(block):
        if command in NOT_RUN:
            assert not shown, f"{page}, line {block.line}: output is shown that nothing checks"
            continue
        got, status = _run(command, status, folder)
        ran += 1
        assert doctest.OutputChecker().check_output(shown, got, FLAGS), (
            f"{page}, line {block.line}: $ {command}\nshown:\n{shown}\ngot:\n{got}"
        )
    return ran, status


def _check_python(page: str, block: Block, names: dict[str, object]) -> int:
    test = doctest.DocTestParser().get_doctest(block.text, names, page, page, block.line)
    runner = doctest.DocTestRunner(optionflags=FLAGS, verbose=False)
    told: list[str] = []
    runner.run(test, out=told.append, clear_globs=False)
    names.update(test.globs)
    assert not told, "".join(told)
    return len(test.examples)


@pytest.mark.parametrize("page", WITHBLOCKS, ids=name)
def test_every_block_of_the_page_runs_and_shows_what_it_says(
    page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In order and in one folder: titled files are written, console is run, Python is a doctest."""
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    status = 0

    for block in blocks(page):
        if block.language in ("toml", "csv", "text"):
            assert block.title, f"{name(page)}, line {block.line}: a file needs its title"
            file = tmp_path / block.title
            file.parent.mkdir(exist_ok=True)
            file.write_text(block.text, encoding="utf-8")
        elif block.language == "python":
            assert _check_python(name(page), block, names), f"{name(page)}, line {block.line}"
        else:
            ran, status = _check_console(name(page), block, tmp_path, status)
            known = {command for command, _ in commands(block)} & set(NOT_RUN)
            assert ran or known, f"{name(page)}, line {block.line}: no command"


def test_no_block_is_missed_by_the_one_who_looks_for_them() -> None:
    """Every fence belongs to a block of a language that is run, and the pages hold many."""
    for page in PAGES:
        fences = len(re.findall(r"^ *```", text(page), re.MULTILINE))
        assert fences == 2 * len(blocks(page)), name(page)
        for block in blocks(page):
            assert block.language in ("console", "python", "toml", "csv", "text"), (
                name(page),
                block.line,
            )
            assert block.language != "console" or block.text.startswith("$ "), name(page)

    kinds = {(name(page), block.language) for page in PAGES for block in blocks(page)}
    assert kinds >= {
        ("README.md", "console"),
        ("docs/start/tour.md", "console"),
        ("docs/guides/ask-the-tables.md", "console"),
        ("docs/guides/on-paper.md", "console"),
        ("docs/guides/what-happens-in-the-jar.md", "console"),
        ("docs/guides/what-happens-in-the-jar.md", "csv"),
        ("docs/guides/your-own-day.md", "console"),
        ("docs/guides/your-own-day.md", "toml"),
        ("docs/reference/commands.md", "console"),
        ("docs/reference/files.md", "toml"),
        ("docs/reference/files.md", "python"),
        ("docs/reference/python.md", "python"),
        ("docs/why/numbers.md", "console"),
    }


def test_what_is_not_run_is_shown_somewhere() -> None:
    """A command that left the pages leaves the list."""
    shown = {
        command
        for page in PAGES
        for block in blocks(page)
        if block.language == "console"
        for command, _ in commands(block)
    }

    assert set(NOT_RUN) <= shown
