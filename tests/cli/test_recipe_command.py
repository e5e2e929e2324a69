"""`stillroom recipe`: line by line what was understood, and what was not."""

import json
from pathlib import Path
from typing import Any

import pytest

from stillroom.cli import ANSWERED, WRONG_INPUT, main
from stillroom.recipes.read import STARTERS, read_recipe

CARD = """\
Pears from Alder Fork
17.5 lb pears, peeled
2-3 c sugar
1 c foozle
1/2 tsp brocolli salt per quart
Boil 5 min. Hot pack quarts, 1/2 in., boiling water 25 min. No ginger. Serve with cream.
"""


def card(folder: Path, text: str = CARD) -> str:
    path = folder / "pears.txt"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_each_line_is_shown_with_what_it_was_read_as(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["recipe", card(tmp_path)]) == ANSWERED

    shown = capsys.readouterr().out
    assert '2  "17.5 lb pears, peeled"\n       = 17.5 lb (7.94 kg) pears (peeled)' in shown
    assert "2 cups (473 ml) to 3 cups (710 ml) sugar" in shown
    assert "for each quart" in shown
    assert "25 min: process" in shown
    assert "headspace: 0.5 in" in shown
    assert "Said to stay out: ginger root." in shown
    assert "For serving day, not for the jar: cream." in shown
    assert 'line 4: "1 c foozle"' in shown


def test_json_holds_lines_facts_and_what_was_not_understood(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["recipe", card(tmp_path), "--json"]) == ANSWERED

    told: dict[str, Any] = json.loads(capsys.readouterr().out)
    pears = told["ingredients"][0]
    assert (pears["line"], pears["food"], pears["prep"], pears["unit"]) == (
        2, "pears", "peeled", "g"
    )  # fmt: skip
    assert pears["quantity"] == pytest.approx(17.5 * 453.59237)
    assert told["facts"]["packs"] == ["hot"]
    assert told["facts"]["headspaces_in"] == [0.5]
    assert {"line": 4, "text": "1 c foozle"} in told["not_understood"]
    assert [m["left_out"] for m in told["mentions"] if m["food"] == "ginger root"] == [True]


def test_a_settled_recipe_is_written_as_a_file_that_reads(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = "Pears\n17.5 lb pears, peeled\n2 c sugar\nHot pack quarts, 1/2 in. BW 25 min"

    assert main(["recipe", card(tmp_path, text), "--toml", "--makes", "7 quarts"]) == ANSWERED

    ours = tmp_path / "ours.toml"
    ours.write_text(capsys.readouterr().out, encoding="utf-8")
    assert read_recipe(ours).food == "pears"


def test_an_open_recipe_is_not_written_and_told_why(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["recipe", card(tmp_path), "--toml"]) == WRONG_INPUT

    told = capsys.readouterr()
    assert told.out == ""
    assert "Settle these first" in told.err
    assert "foozle" in told.err


def test_one_of_our_own_files_is_shown_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recipe", str(STARTERS / "carrots.toml")]) == ANSWERED

    assert "carrots" in capsys.readouterr().out


@pytest.mark.parametrize("said", ["seven", "7", "7 buckets", "0 quarts", "٣ quarts"])
def test_a_number_of_jars_that_cannot_be_read_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], said: str
) -> None:
    assert main(["recipe", card(tmp_path), "--toml", "--makes", said]) == WRONG_INPUT
    assert "--makes" in capsys.readouterr().err


@pytest.mark.parametrize(("text", "told"), [("", "empty"), ("\x00" * 99, "not text")])
def test_a_file_without_a_recipe_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, told: str
) -> None:
    assert main(["recipe", card(tmp_path, text)]) == WRONG_INPUT
    assert told in capsys.readouterr().err
