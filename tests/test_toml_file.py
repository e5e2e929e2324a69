"""Complaints about a file name the file, the line and the full key."""

from datetime import date
from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.toml_file import Table, placed, read_toml, table_of

TEXT = """\
# a comment
name = "kitchen"
count = 3
ratio = 0.5
open = true

[shelf]
salt = "3 lb"
"bottled lemon juice" = "1 cup"

[[canner]]
name = "first"
holds = { quart = 7 }

[[canner]]
name = "second"
"""


@pytest.fixture
def top(tmp_path: Path) -> Table:
    file = tmp_path / "file.toml"
    file.write_text(TEXT, encoding="utf-8")
    return read_toml(file)


def test_values_come_by_kind(top: Table) -> None:
    assert top.text("name", such_as="x") == "kitchen"
    assert top.whole("count", least=1, most=5) == 3
    assert top.number("ratio", least=0, most=1) == 0.5
    assert top.flag("open", False) is True
    assert top.table("shelf").names() == ("salt", "bottled lemon juice")
    assert [t.text("name", such_as="x") for t in top.tables("canner")] == ["first", "second"]


def test_places_count_lines_and_list_tables_from_one(top: Table) -> None:
    first, second = top.tables("canner")

    assert top.where("count") == "file.toml, line 3, count"
    assert top.table("shelf").where("salt") == "file.toml, line 8, shelf.salt"
    assert top.table("shelf").where("bottled lemon juice").startswith("file.toml, line 9")
    assert first.where("holds") == "file.toml, line 13, canner[1].holds"
    assert second.where("name") == "file.toml, line 16, canner[2].name"
    assert second.where("holds").startswith("file.toml, line 15, canner[2].holds")


@pytest.mark.parametrize(
    ("read", "told"),
    [
        (lambda t: t.whole("name", least=0, most=9), "file.toml, line 2, name: 'kitchen'"),
        (lambda t: t.whole("open", least=0, most=9), "line 5, open: True does not fit"),
        (lambda t: t.whole("count", least=5, most=9), "line 3, count: 3 does not fit"),
        (lambda t: t.number("ratio", least=1, most=2), "line 4, ratio: 0.5 does not fit"),
        (lambda t: t.choice("name", ("house", "barn")), '"kitchen" is not one of house, barn'),
        (lambda t: t.text("nmae", such_as="x"), 'nmae: missing. Is it meant by "name"?'),
        (lambda t: t.strings("name", such_as='"a"'), "line 2, name"),
        (lambda t: t.tables("shelf"), "tables headed [[shelf]]"),
        (lambda t: t.table("count"), "a table headed [count]"),
        (lambda t: t.date("name"), "a date without quotes"),
    ],
)
def test_a_value_that_does_not_fit_is_named_with_its_place(
    top: Table, read: object, told: str
) -> None:
    assert callable(read)
    with pytest.raises(InputError) as wrong:
        read(top)

    assert told in str(wrong.value)


def test_a_key_nobody_reads_is_never_dropped(top: Table) -> None:
    top.text("name", such_as="x")
    top.whole("count", least=0, most=9)

    with pytest.raises(InputError, match='"ratio" is not a key that belongs here'):
        top.no_more()


def test_tables_below_list_tables_keep_their_own_lines(tmp_path: Path) -> None:
    """Counted by hand: the second canner's second run stands in lines 9 and 10."""
    file = tmp_path / "file.toml"
    file.write_text(
        '[[canner]]\nname = "one"\n[[canner.timed]]\njar = "pint"\n'
        '[[canner]]\nname = "two"\n[[canner.timed]]\njar = "pint"\n'
        '[[canner.timed]]\njar = "quart"\n[canner.holds]\npint = 9\n',
        encoding="utf-8",
    )

    first, second = read_toml(file).tables("canner")

    assert first.tables("timed")[0].where("jar") == "file.toml, line 4, canner[1].timed[1].jar"
    assert second.tables("timed")[1].where("jar") == "file.toml, line 10, canner[2].timed[2].jar"
    assert second.table("holds").where("pint") == "file.toml, line 12, canner[2].holds.pint"


def test_a_document_is_told_by_name_and_key_without_lines() -> None:
    document = {"canner": [{"name": "first"}], "date": "2026-10-17"}
    top = table_of(document, "kitchen")

    assert top.date("date") == date(2026, 10, 17)
    with pytest.raises(InputError, match=r"^kitchen, canner\[1\].holds: missing\."):
        top.tables("canner")[0].text("holds", such_as="7")


@pytest.mark.parametrize("said", ["17 October", "2026-13-01", "", "2026-02-30"])
def test_a_document_s_date_that_is_none_is_told(said: str) -> None:
    with pytest.raises(InputError, match="day, date: "):
        table_of({"date": said}, "day").date("date")


def test_a_file_s_date_stands_without_quotes(tmp_path: Path) -> None:
    file = tmp_path / "day.toml"
    file.write_text('date = "2026-10-17"\n', encoding="utf-8")

    with pytest.raises(InputError, match="a date without quotes"):
        read_toml(file).date("date")


@placed
def _second_name(table: Table) -> str:
    return table.tables("canner")[1].text("nmae", such_as="tall canner")


def test_an_error_knows_its_place_in_file_and_document(top: Table) -> None:
    for table in (top, table_of({"canner": [{}, {}]}, "kitchen")):
        with pytest.raises(InputError) as told:
            _second_name(table)

        assert told.value.place == "canner[2].nmae"


def test_the_place_is_the_longest_key_that_fits() -> None:
    """A household's own word may hold a colon, and a key may begin with another."""
    top = table_of({"pantry": {"a: b": "x", "a": "y"}}, "kitchen")
    pantry = top.table("pantry")
    wheres = [pantry.where(key) for key in pantry.names()]

    assert [top.place(f"{where}: write an amount.") for where in wheres] == [
        "pantry.a: b",
        "pantry.a",
    ]
    assert top.place("Something else is wrong.") == ""


@pytest.mark.parametrize("number", [10**18, 10**400, -(10**400)])
def test_a_whole_number_too_large_for_a_float_is_told(number: int) -> None:
    """TOML and JSON have whole numbers of any length; a float ends at about 1.8e308."""
    table = table_of({"heat": number}, "recipe")

    with pytest.raises(InputError, match=r"heat: -?10000000000\d?… does not fit. Write a number"):
        table.number("heat", least=0, most=1440)


def test_more_tables_than_are_meant_are_told_with_the_most() -> None:
    table = table_of({"helper": [{}] * 201}, "day")

    with pytest.raises(InputError, match=r"day, helper: 201 are too many\. Write at most 200\."):
        table.tables("helper", most=200)
    assert len(table.tables("helper", most=201)) == 201
