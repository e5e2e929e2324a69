"""Every slip gets one clear message: the file, the line or key, what was typed, what to do."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stillroom.cli import main
from stillroom.cli.start import DEMO
from stillroom.day.read import read_day
from stillroom.errors import InputError

DAY = (DEMO / "day.toml").read_text(encoding="utf-8")
KITCHEN = (DEMO / "kitchen.toml").read_text(encoding="utf-8")
RECIPE = """
title = "Carrots of our own"
source = "USDA AIB-539, Guide 4, carrots"
food = "carrots"
pack = "hot"
jars = ["pint"]
makes = "1 quart"
ingredients = ["carrots, sliced, 2 1/2 lb"]
fill = ["carrots"]

[work]
prep_per_quart = 10
heat = 10
fill_per_jar = 2
source = "common practice"
"""
OWN = DAY.replace('recipe = "venison-cubes"', 'recipe = "own.toml"')


def say(
    folder: Path,
    capsys: pytest.CaptureFixture[str],
    *,
    day: str = DAY,
    kitchen: str = KITCHEN,
    recipe: str = RECIPE,
) -> str:
    """What the command says of these files; it must exit 2 with one message and no plan."""
    (folder / "day.toml").write_text(day, encoding="utf-8")
    (folder / "kitchen.toml").write_text(kitchen, encoding="utf-8")
    (folder / "own.toml").write_text(recipe, encoding="utf-8")
    capsys.readouterr()

    assert main(["plan", str(folder / "day.toml")]) == 2

    out = capsys.readouterr()
    assert out.out == ""
    assert out.err.startswith("stillroom: ")
    assert out.err.count("\n") == 1
    assert "safe" not in out.err
    return out.err


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("date = 2026-10-17", "date = Saturday", ("day.toml", "line")),
        ("date = 2026-10-17", "", ("day.toml, date", "missing", "2026-10-17")),
        ('start = "7:00"', 'start = "7.30"', ("day.toml, line 6, start", '"7.30"', "7:30")),
        ('finish_by = "19:00"', 'finish_by = "6:00"', ("finish_by", "ends before it starts")),
        ('kitchen = "kitchen.toml"', 'kitchen = "cellar.toml"', ("cellar.toml", "no such file")),
        ("jars = 14", "jars = 0", ("order[1].jars", "0 does not fit", "from 1")),
        ("jars = 14", "jars = -3", ("order[1].jars", "-3")),
        ("jars = 14", 'jars = "many"', ("order[1].jars", "'many'", "whole number")),
        ('jar = "pint"', 'jar = "qrt"', ("order[1].jar", '"qrt" is not a jar size', "Sizes")),
        ('jar = "pint"', 'jar = "half-gallon"', ("order[1].jar", "venison-cubes", "pint, quart")),
        ('recipe = "snap-beans"', 'recipe = "snap-bean"', ("order[2].recipe", '"snap-beans"?')),
        ('recipe = "snap-beans"', 'recipe = "mine.toml"', ("mine.toml", "no such file")),
        (
            'recipe = "snap-beans"',
            'recpie = "snap-beans"',
            ("order[2].recipe", "missing", '"recpie"?'),
        ),
        ("jars = 14", 'jars = 14\ncanners = ["dail canner"]', ("canners", '"dial canner"?')),
        ('start = "7:00"', 'start = "7:00"\nhurry = true', ('"hurry" is not a key', "Keys")),
        (
            'start = "7:00"',
            'start = "7:00"\nhelper = [{ name = "Ada", hours = ["15:00 to 9:00"] }]',
            ("helper[1].hours", '"15:00 to 9:00" ends before it begins'),
        ),
        ("[[order]]", "[[orders]]", ('"orders" is not a key', 'Did you mean "order"?')),
    ],
)
def test_a_slip_in_the_day_file_is_named(
    old: str, new: str, told: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert old in DAY
    count = -1 if old == "[[order]]" else 1
    said = say(tmp_path, capsys, day=DAY.replace(old, new, count))

    for words in told:
        assert words in said


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('elevation = "5,430 ft"', 'elevation = "high"', ("kitchen.toml, line 5", '"high"', "ft")),
        ('elevation = "5,430 ft"', "elevation = 5430", ("elevation", "5430", "text")),
        ('method = "dial-gauge"', 'method = "dail-gauge"', ("canner[1].method", '"dial-gauge"?')),
        ('name = "weight canner"', 'name = "dial canner"', ("two canners", "dial canner")),
        ("burners_for_canners = 3", "burners_for_canners = 9", ("9 is more than the 4",)),
        ("burners = 4", "burners = -1", ("burners", "-1")),
        ('hours = ["7:00 to 19:00"]', 'hours = ["19:00 to 7:00"]', ("hours", "ends before")),
        ('hours = ["7:00 to 19:00"]', 'hours = ["all day"]', ("hours", '"all day"', "7:00 to")),
        ('name = "Jonas"', 'name = "Marit"', ('two people are called "Marit"',)),
        ('sugar = "5 lb"', 'shugar = "5 lb"', ("pantry.shugar", "sugar")),
        ('sugar = "5 lb"', 'sugar = "lots"', ("pantry.sugar", '"lots"')),
        ("quart = 12", "qrt = 12", ("jars.qrt", "not a jar size")),
        ("holds = { quart = 7, pint = 9 }", "", ("canner[1].holds", "missing")),
    ],
)
def test_a_slip_in_the_kitchen_file_is_named(
    old: str, new: str, told: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert old in KITCHEN
    said = say(tmp_path, capsys, kitchen=KITCHEN.replace(old, new, 1))

    for words in told:
        assert words in said


def test_a_kitchen_without_people_or_canners_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before, _, after = KITCHEN.partition("[[person]]")
    nobody = before + "[jars]" + after.partition("[jars]")[2]
    head, _, rest = KITCHEN.partition("[[canner]]")
    no_canner = head + "[[person]]" + rest.partition("[[person]]")[2]

    assert "nobody is in the kitchen" in say(tmp_path, capsys, kitchen=nobody)
    assert "[[canner]]" in say(tmp_path, capsys, kitchen=no_canner)


def test_a_canner_too_small_for_the_jar_is_told_with_the_remedy(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    small = KITCHEN.replace("holds = { quart = 7, pint = 9 }", "holds = { pint = 9 }")

    said = say(tmp_path, capsys, kitchen=small)

    for words in ("day.toml, line", "order[3].jar", "Chicken stock", "quart", "smaller jar"):
        assert words in said


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        (
            "carrots, sliced, 2 1/2 lb",
            "carots, sliced, 2 lb",
            ("own.toml", "ingredients", "carrots"),
        ),
        ("carrots, sliced, 2 1/2 lb", "plutonium, 2 lb", ("own.toml", "ingredients", "plutonium")),
        ("carrots, sliced, 2 1/2 lb", "carrots, sliced", ("own.toml", "ingredients", "amount")),
        ('food = "carrots"', 'food = "zucchini"', ("own.toml", "food", "zucchini")),
        ('food = "carrots"', 'food = "sauerkraut"', ("own.toml", "food", "sauerkraut")),
        ('pack = "hot"', 'pack = "cold"', ("own.toml", "pack", '"cold"')),
        ('jars = ["pint"]', 'jars = ["half-gallon"]', ("own.toml", "jars", "half-gallon")),
        ('makes = "1 quart"', 'makes = "1 quart"\nheadspace = "1/4 in"', ("headspace", "1 in")),
        ('title = "Carrots of our own"', 'titel = "Carrots"', ("own.toml", "title", "missing")),
        ("prep_per_quart = 10", "prep_per_quart = -5", ("work.prep_per_quart", "-5")),
    ],
)
def test_a_slip_in_a_recipe_file_is_named(
    old: str, new: str, told: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert old in RECIPE
    said = say(tmp_path, capsys, day=OWN, recipe=RECIPE.replace(old, new, 1))

    for words in told:
        assert words in said


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "missing"),
        (b"\x89PNG\x00\xff\xfe", "not text"),
        (b"date = [", "TOML"),
        (b"x" * 2_000_000, "too large"),
        (b"x = " + b"9" * 5000, "5000 digits"),
        (b"x = " + b"[" * 20_000, "TOML"),
        (
            b'date = 2026-10-17\nstart = "7:00"\nfinish_by = "9:00"\nkitchen = "a\\u0000"',
            "file name",
        ),
    ],
)
def test_a_file_that_is_no_day_file_is_told_at_once(
    content: bytes, told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "day.toml"
    file.write_bytes(content)

    assert main(["plan", str(file)]) == 2
    said = capsys.readouterr().err
    assert told in said
    assert "day.toml" in said or "a\\x00" in said


def test_a_missing_file_and_a_folder_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", str(tmp_path / "none.toml")]) == 2
    assert "no such file" in capsys.readouterr().err
    assert main(["plan", str(tmp_path)]) == 2
    assert "this is a folder" in capsys.readouterr().err


def test_a_senseless_time_limit_and_an_unwritable_sheet_are_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    main(["start", str(tmp_path)])
    day = str(tmp_path / "day.toml")

    assert main(["plan", day, "--time-limit", "0"]) == 2
    assert "--time-limit" in capsys.readouterr().err
    assert main(["plan", day, "--time-limit", "1", "--pdf", str(tmp_path / "no" / "a.pdf")]) == 2
    assert "cannot be written" in capsys.readouterr().err


def lines_of(text: str) -> st.SearchStrategy[str]:
    """The text with a few lines dropped, doubled, swapped, or scribbled over."""
    lines = text.splitlines()

    def scribble(moves: list[tuple[int, int, str]]) -> str:
        changed = list(lines)
        for place, kind, junk in moves:
            at = place % max(len(changed), 1)
            if not changed:
                break
            if kind == 0:
                del changed[at]
            elif kind == 1:
                changed.insert(at, changed[at])
            elif kind == 2:
                changed[at] = junk
            else:
                changed[at] = changed[at].replace('"', junk, 1)
        return "\n".join(changed)

    move = st.tuples(st.integers(0, 200), st.integers(0, 3), st.text(max_size=12))
    return st.lists(move, min_size=1, max_size=4).map(scribble)


@given(day=lines_of(DAY) | lines_of(OWN), kitchen=lines_of(KITCHEN), recipe=lines_of(RECIPE))
@settings(
    max_examples=150,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
def test_scribbled_files_read_or_get_a_message_never_a_crash(
    day: str, kitchen: str, recipe: str, tmp_path: Path
) -> None:
    for name, text in (("day.toml", day), ("kitchen.toml", kitchen), ("own.toml", recipe)):
        (tmp_path / name).write_text(text, encoding="utf-8")

    try:
        read_day(tmp_path / "day.toml")
    except InputError as wrong:
        assert ".toml" in str(wrong)


def test_with_json_a_slip_still_puts_nothing_on_standard_output(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", str(tmp_path / "none.toml"), "--json"]) == 2

    out = capsys.readouterr()
    assert out.out == ""
    assert "no such file" in out.err


def test_an_elevation_of_thousands_of_digits_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["process", "beets", "--elevation", "9" * 5000 + " ft"]) == 2
    assert "--elevation" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("pint = 50", "pint = 50\npints = 3", "pints"),
        ('sugar = "5 lb"', 'sugar = "5 lb"\n"granulated sugar" = "1 oz"', "sugar"),
        ("{ quart = 7, pint = 9 }", "{ quart = 7, quarts = 2, pint = 9 }", "quarts"),
    ],
)
def test_one_thing_under_two_names_is_told_and_never_dropped(
    old: str, new: str, told: str, tmp_path: Path
) -> None:
    (tmp_path / "day.toml").write_text(DAY, encoding="utf-8")
    (tmp_path / "kitchen.toml").write_text(KITCHEN.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(InputError, match=told):
        read_day(tmp_path / "day.toml")


@pytest.mark.parametrize("name", ["Canner [new]", "Canner [/new]"])
def test_a_name_with_brackets_is_shown_as_it_is_written(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "day.toml").write_text(
        DAY[: DAY.index("[[order]]")]
        + '[[order]]\nrecipe = "snap-beans"\njars = 1\njar = "pint"\ncanners = ["NAME"]\n'.replace(
            "NAME", name
        ),
        encoding="utf-8",
    )
    (tmp_path / "kitchen.toml").write_text(KITCHEN.replace("dial canner", name), encoding="utf-8")

    assert main(["plan", str(tmp_path / "day.toml")]) == 0

    told = capsys.readouterr().out
    # Once in the drawing; once in the table of loads; and by the clock.
    assert told.count(name) >= 3


def test_a_terminal_without_the_drawing_s_signs_still_gets_its_plan(tmp_path: Path) -> None:
    """A pipe on a computer set to an old code page (cp1252) knows no block characters."""
    (tmp_path / "kitchen.toml").write_text(KITCHEN, encoding="utf-8")
    (tmp_path / "day.toml").write_text(DAY, encoding="utf-8")

    done = subprocess.run(
        [sys.executable, "-m", "stillroom", "plan", tmp_path / "day.toml", "--time-limit", "1"],
        env=os.environ | {"PYTHONIOENCODING": "cp1252"},
        capture_output=True,
        check=False,
    )

    assert done.returncode == 0
    assert b"Take care" in done.stdout
