"""Files: text of several encodings, saved pages, our own recipes, and what is refused."""

from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.recipes.read import STARTERS, read_recipe, starters
from stillroom.recipes.text.file import LARGEST_PAGE, from_recipe, read_paste_file
from stillroom.units.amounts import parse_amount

CARD = "Pears\n17½ lb pears\nHot pack quarts, 1/2 in., boiling water 25 min"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_text_of_any_usual_encoding_is_read(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "pears.txt"
    path.write_bytes(CARD.encode(encoding))

    card = read_paste_file(path)

    assert card.kind == "text"
    assert card.lines[0].high == parse_amount("17 1/2 lb")


@pytest.mark.parametrize("ends", ["\r\n", "\r", "\n"])
def test_line_ends_of_any_system_part_lines(tmp_path: Path, ends: str) -> None:
    path = tmp_path / "pears.txt"
    path.write_bytes(CARD.replace("\n", ends).encode())

    assert [one.line for one in read_paste_file(path).lines] == [2]


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "not text"),
        (bytes(range(128, 256)) * 40, "not text"),
        (b"\xff\xfe\x00", "not text"),
        (b"2 cups salt\n" * 170_000, "too many"),
        (b" " * (LARGEST_PAGE + 1), "too many"),
        (b"<html><body>pears</body></html>", "paste them as text"),
    ],
)
def test_what_is_no_recipe_is_told_naming_the_file(tmp_path: Path, raw: bytes, words: str) -> None:
    path = tmp_path / "odd.txt"
    path.write_bytes(raw)

    with pytest.raises(InputError, match=words) as wrong:
        read_paste_file(path)

    assert "odd.txt" in str(wrong.value)


def test_no_such_file_and_a_folder_are_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_paste_file(tmp_path / "none.txt")
    with pytest.raises(InputError, match="folder"):
        read_paste_file(tmp_path)
    with pytest.raises(InputError):
        read_paste_file(tmp_path / "a\x00b")


@pytest.mark.parametrize("name", starters())
def test_our_own_recipe_file_is_read_as_it_stands(name: str) -> None:
    path = STARTERS / f"{name}.toml"
    recipe = read_recipe(path)

    card = read_paste_file(path)

    assert card.kind == "file"
    assert [(one.food, one.prep, one.amount, one.optional) for one in card.lines] == [
        (one.food, one.prep, one.amount, one.optional) for one in recipe.lines
    ]
    assert card.facts.packs == (recipe.pack,)
    assert card.facts.jars == recipe.jars
    assert card.facts.headspaces == (recipe.headspace_in,)
    assert card.not_understood == ()
    written = path.read_text("utf-8").splitlines()
    assert all(one.text in written[one.line - 1] for one in card.lines)


def test_what_the_notes_of_a_recipe_file_keep_out_is_read_as_kept_out() -> None:
    """The soup's notes name noodles, rice, flour, cream, celery and cabbage as what stays out."""
    card = read_paste_file(STARTERS / "garden-chicken-soup.toml")

    kept_out = {m.food for m in card.mentions if m.negated}
    assert {"flour", "celery", "cabbage"} <= kept_out
    # Water is of the canner: "never boiling water".
    listed = {one.food for one in card.lines} | {"water"}
    assert {m.food for m in card.mentions if not m.negated and not m.at_serving} == listed
    assert card.facts.half_solids


def test_a_recipe_without_its_text_is_pasted_all_the_same() -> None:
    assert from_recipe(read_recipe(STARTERS / "carrots.toml")).lines[0].line == 1
