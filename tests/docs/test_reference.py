"""Every name of the program has its place in the reference, and quoted figures are the data's."""

import ast
import csv
import inspect
import re
from argparse import ArgumentParser, _SubParsersAction
from types import ModuleType

import pytest

from stillroom import cli
from stillroom.cli.heat import canner as canner_face
from stillroom.cli.heat import cook as cook_face
from stillroom.cli.heat import food as food_face
from stillroom.cli.heat import jar as jar_face
from stillroom.cli.heat import log_told as log_face
from stillroom.day import read as day_file
from stillroom.day import told as day_face
from stillroom.day.durations import durations
from stillroom.day.replan import read as status_file
from stillroom.heat import told as steam_face
from stillroom.heat.log import COLUMNS, EVENTS
from stillroom.kitchen import care as care_of_canners
from stillroom.kitchen import read as kitchen_file
from stillroom.processes import library
from stillroom.processes import told as process_face
from stillroom.processes.model import CODES
from stillroom.recipes import published
from stillroom.recipes import read as recipe_file
from stillroom.recipes.told import built as build_face
from stillroom.recipes.told import judged as check_face
from stillroom.recipes.told import read as recipe_face
from tests.docs.pages import DOCS, ROOT, text


def _keys_read(module: ModuleType) -> set[str]:
    """Keys of the file that a module asks its tables for."""
    asks = {"text", "whole", "number", "flag", "choice", "strings", "date", "table", "tables"}
    tree = ast.parse(inspect.getsource(module))
    return {
        node.args[0].value
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in asks
        and node.args
        and isinstance(node.args[0], ast.Constant)
        and isinstance(node.args[0].value, str)
    }


def test_every_key_of_a_file_has_its_line_in_the_reference_and_no_other_has() -> None:
    files = (kitchen_file, care_of_canners, day_file, status_file, recipe_file, published)
    read = {module: _keys_read(module) for module in files}
    assert all(read.values())
    page = text(DOCS / "reference" / "files.md")

    told = set(re.findall(r"^\| `(\w+)` \|", page, re.MULTILINE))

    assert told == set().union(COLUMNS, *read.values())
    assert all(f"`{event}`" in page for event in EVENTS)


def _choices(parser: ArgumentParser) -> dict[str, ArgumentParser]:
    found = (a for a in parser._actions if isinstance(a, _SubParsersAction))
    return {name: one for action in found for name, one in action.choices.items()}


def _subparsers() -> dict[str, ArgumentParser]:
    """Every command; one that holds others stands for each of them: "heat jar"."""
    commands: dict[str, ArgumentParser] = {}
    for name, parser in _choices(cli._parser()).items():
        below = {f"{name} {about}": one for about, one in _choices(parser).items()}
        commands |= below or {name: parser}
    return commands


def _section(command: str) -> str:
    page = text(DOCS / "reference" / "commands.md")
    found = re.search(rf"^## `stillroom {command}`$(.*?)(?=^## |\Z)", page, re.M | re.S)
    return found.group(1) if found else ""


@pytest.mark.parametrize("command", _subparsers())
def test_every_argument_of_a_command_has_its_line_and_no_other_has(command: str) -> None:
    wanted = set()
    for action in _subparsers()[command]._actions:
        if "--help" in action.option_strings:
            continue
        option = action.option_strings[0] if action.option_strings else ""
        wanted.add(" ".join(part for part in (option, action.metavar) if isinstance(part, str)))
    section = _section(command)
    assert section

    told = set(re.findall(r"^\| `([^`]+)` \| ", section.partition("| key |")[0], re.MULTILINE))

    assert told - set(CODES) == {name.strip() for name in wanted}


def test_every_command_is_in_the_reference() -> None:
    page = text(DOCS / "reference" / "commands.md")

    assert re.findall(r"^## `stillroom ([\w ]+)`$", page, re.MULTILINE) == list(_subparsers())
    assert "`--help`" in page


FACES = (
    process_face, day_face, recipe_face, check_face, build_face,
    steam_face, jar_face, food_face, cook_face, canner_face, log_face,
)  # fmt: skip


def test_every_key_of_a_json_document_is_in_the_reference() -> None:
    page = text(DOCS / "reference" / "commands.md")
    keys = {
        key.value
        for face in FACES
        for node in ast.walk(ast.parse(inspect.getsource(face)))
        if isinstance(node, ast.Dict)
        for key in node.keys
        if isinstance(key, ast.Constant) and isinstance(key.value, str)
    }
    assert len(keys) > 100

    assert [key for key in sorted(keys) if f"`{key}`" not in page] == []
    assert [code for code in CODES if f"| `{code}` |" not in page] == []


def test_figures_quoted_in_the_pages_are_those_of_the_data() -> None:
    rows = library.processes()
    agreed = [row for row in rows if row.status == "agreed"]
    bulletin = [row for row in rows if row.source == "usda-aib539"]
    readings = ROOT / "tests" / "processes" / "outside_readings.csv"
    outside = list(csv.DictReader(text(readings).splitlines()))
    independent = [reading for reading in outside if reading["independent"] == "yes"]
    one_reprint = sum(len(row.read_in) == 1 for row in agreed)
    numbers = text(DOCS / "why" / "numbers.md")

    single = len(rows) - len(agreed)
    assert f"Of {len(rows):,} rows {len(agreed):,} are agreed and {single} single." in numbers
    assert f"{one_reprint} of the agreed rows name one reprint only" in numbers
    assert f"holds {len(outside)} rows typed" in numbers
    assert f"{len(independent)} come from publications" in numbers
    changes = text(ROOT / "CHANGELOG.md")
    assert f"{len(rows):,} rows of process tables: {len(bulletin):,} of USDA" in changes
    assert f"{len(library.withheld())} groups of rows withheld" in changes


def test_every_withheld_food_is_listed_with_its_guide_and_no_other_is() -> None:
    page = text(DOCS / "reference" / "sources.md")
    told = re.findall(r"^\| ([^|]+) \| [^|]+ \| (Guide \d) \|$", page, re.MULTILINE)
    held = {(w.food, w.place) for w in library.withheld()}

    # What stands in the table after the food's name tells its form.
    for food, place in held:
        assert any(
            said == food or said.startswith((f"{food} (", f"{food}, "))
            for said, guide in told
            if guide == place
        ), food
    assert len(told) == len(held)


def test_every_planning_figure_is_told_with_its_minutes() -> None:
    page = text(DOCS / "reference" / "sources.md")
    table = page.partition("## Planning figures")[2].partition("##")[0]
    told = [int(n) for cell in re.findall(r"\| ([\d; ]+) \|", table) for n in cell.split("; ")]

    assert sorted(told) == sorted(d.minutes for d in durations())


def test_the_sources_page_counts_the_foods_as_they_are() -> None:
    """Foods, foods without a pH and rows from memory are told as foods.csv has them."""
    foods = list(csv.DictReader(text(ROOT / "src/stillroom/foods/data/foods.csv").splitlines()))
    page = text(DOCS / "reference" / "sources.md")

    assert f"Each of the {len(foods)} foods" in page
    assert f"{sum(not food['ph_source'] for food in foods)} foods have no pH" in page
    memory = sum(food["status"] == "from memory" for food in foods)
    assert f"{memory} rows rest on memory" in page
    for source, says in (
        ("fda-ph-2003", "pH of {} foods; only"),
        ("fda-bad-bug-book", "pH of {} foods that"),
        ("idaho-fcs270", "pH of {} foods |"),
    ):
        count = sum(food["ph_source"] == source for food in foods)
        assert says.format(count) in page, source
