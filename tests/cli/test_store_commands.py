"""``stillroom export`` and ``stillroom import``, as a person calls them."""

import io
from pathlib import Path
from typing import Any

import pytest

from stillroom.cli import main
from stillroom.store.changes import undo
from stillroom.store.days import add_day, remove_day
from stillroom.store.engine import open_store
from stillroom.store.kitchens import save_kitchen
from stillroom.store.recipes import add_recipe
from stillroom.store.transfer import export_document
from tests.store.made import BY, DAY, KITCHEN, RECIPE, later


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    path = tmp_path / "kept.sqlite3"
    store = open_store(path)
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)
        add_recipe(session, RECIPE | {"title": "Möhren 🥕"}, "", **BY)
        made = add_day(session, DAY, **BY)
        undo(session, remove_day(session, made.key, **later(1)), **later(2))
    store.close()
    return path


def _exported(capsys: pytest.CaptureFixture[str], path: Path) -> str:
    assert main(["export", "--json", "--store", str(path)]) == 0
    shown = capsys.readouterr()
    assert shown.err == ""
    return shown.out


def test_what_export_prints_import_takes_back_unchanged(
    kept: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    printed = _exported(capsys, kept)
    file = tmp_path / "export.json"
    file.write_text(printed, encoding="utf-8")

    assert main(["import", str(file), "--store", str(tmp_path / "new" / "s.sqlite3")]) == 0

    assert (
        "1 kitchen, 1 recipe, 1 day, 0 plans, 5 changes and 0 settings" in capsys.readouterr().out
    )
    assert _exported(capsys, tmp_path / "new" / "s.sqlite3") == printed


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_an_export_is_read_from_standard_input_in_any_unicode(
    kept: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch, encoding: str,
) -> None:  # fmt: skip
    """PowerShell 5 writes a program's output to a file as UTF-16 (from memory)."""
    printed = _exported(capsys, kept)
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(printed.encode(encoding))))

    assert main(["import", "-", "--store", str(tmp_path / "new.sqlite3")]) == 0

    capsys.readouterr()
    assert _exported(capsys, tmp_path / "new.sqlite3") == printed


def test_without_json_export_tells_how_much_there_is(
    kept: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["export", "--store", str(kept)]) == 0

    assert "holds 1 kitchen, 1 recipe, 1 day" in capsys.readouterr().out


def test_the_usual_store_is_taken_where_none_is_named(
    kept: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    assert main(["export", "--json"]) == 2
    assert "there is no store yet" in capsys.readouterr().err
    assert not (tmp_path / "data").exists()
    file = tmp_path / "export.json"
    file.write_text(_exported(capsys, kept), encoding="utf-8")

    assert main(["import", str(file)]) == 0

    assert (tmp_path / "data" / "stillroom" / "stillroom.sqlite3").is_file()


def test_a_store_that_holds_something_is_not_written_over(
    kept: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "export.json"
    file.write_text(_exported(capsys, kept), encoding="utf-8")

    assert main(["import", str(file), "--store", str(kept)]) == 2

    assert "This store is not empty" in capsys.readouterr().err
    assert _exported(capsys, kept) == file.read_text("utf-8")


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "no JSON document"),
        (b"\x89PNG\r\n\x1a\n\0\xff", "no JSON document"),
        (b"[" * 100_000, "no JSON document"),
        (b"1" * 10_000, "no JSON document"),
        (b"[]", "one JSON object"),
        (b"{}", "file.json, stillroom.format: missing"),
        (b'{"stillroom": {"format": NaN}}', "cannot be kept"),
        (b'{"stillroom": {"format": 9}}', "newer Stillroom"),
    ],
)
def test_a_file_that_is_no_export_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], content: bytes, says: str
) -> None:
    file = tmp_path / "file.json"
    file.write_bytes(content)

    assert main(["import", str(file), "--store", str(tmp_path / "new.sqlite3")]) == 2

    shown = capsys.readouterr()
    assert shown.out == ""
    assert says in shown.err


@pytest.mark.parametrize("name", ["none.json", ".", "a\0b"])
def test_a_file_that_cannot_be_read_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    path = f"{tmp_path}/{name}"

    assert main(["import", path, "--store", str(tmp_path / "new.sqlite3")]) == 2

    assert "cannot be" in capsys.readouterr().err
    assert not (tmp_path / "new.sqlite3").exists()


def test_the_export_has_no_key_that_the_reference_does_not_tell(kept: Path) -> None:
    page = (Path(__file__).parents[2] / "docs" / "reference" / "commands.md").read_text("utf-8")
    section = page.partition("## `stillroom export`")[2].partition("## `stillroom import`")[0]
    store = open_store(kept)
    with store.read() as session:
        document = export_document(session)
    store.close()

    def keys(value: Any) -> set[str]:
        parts = value.values() if isinstance(value, dict) else value
        own = set(value) if isinstance(value, dict) else set()
        return own.union(*(keys(part) for part in parts if isinstance(part, dict | list)))

    for part in (document["kitchen"], *document["recipes"], *document["days"]):
        part["document"] = None
    for change in document["changes"]:
        change["before"] = change["after"] = None
    assert [key for key in sorted(keys(document)) if f"`{key}`" not in section] == []
    assert {"slug", "change_id", "undone_at", "plans"} <= keys(document)
