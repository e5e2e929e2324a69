"""``stillroom build``: what a person and a program get, the files it writes, and plain errors."""

import argparse
import ast
import inspect
import json
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from stillroom.cli import REFUSED
from stillroom.cli import build as face
from stillroom.cli.build_parser import add_build
from stillroom.errors import InputError
from stillroom.recipes.read import STARTERS
from stillroom.recipes.told import built
from tests.docs.pages import DOCS, text


def run(*words: str) -> int:
    parser = argparse.ArgumentParser()
    add_build(parser.add_subparsers())
    return face.run(parser.parse_args(["build", *words]))


def document(capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    assert run(*words, "--json") == 0
    return json.loads(capsys.readouterr().out)


def test_a_person_reads_layers_in_order_fit_and_what_to_make_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert run("dilled-beans", "--jars", "8", "--elevation", "5430 ft") == 0

    told = capsys.readouterr().out
    assert "headspace 1/2 in" in told
    assert told.index("dill heads") < told.index("snap beans") < told.index("brine")
    assert "Make first, for 8" in told and "brine: make 9 cups" in told
    assert "boiling-water        10    boiling" in told
    assert "Caution" in told and "They approve nothing" in told


def test_a_program_gets_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    """Room: 473.18 mL less 1/2 in. of a mouth of 2 3/8 in., 36.3 mL (science notes 5)."""
    told = document(capsys, "dilled-beans", "--elevation", "5430 ft")

    assert told["room_ml"] == pytest.approx(436.9, abs=0.1)
    assert [layer["name"] for layer in told["layers"]] == [
        "dill heads", "garlic", "snap beans", "brine",
    ]  # fmt: skip
    assert told["poured"] == "brine" and told["liquid_ml"][0] < 237 < told["liquid_ml"][1]
    assert [(p["minutes"], p["pressure_psi"]) for p in told["processes"]] == [(10, None)]
    assert told["refusal"] is None and told["elevation_ft"] == 5430


def test_without_an_elevation_no_process_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    told = document(capsys, "carrots")

    assert told["jar"] == "quart" and told["jars"] == 1
    assert (told["processes"], told["refusal"], told["elevation_ft"]) == ([], None, None)


def test_an_order_moves_layers_and_leaves_the_process(capsys: pytest.CaptureFixture[str]) -> None:
    at = ("venison-cubes", "--elevation", "5430 ft")
    kept, moved = document(capsys, *at), document(capsys, *at, "--order", "salt")

    assert [layer["name"] for layer in moved["layers"]] == ["canning salt", "venison"]
    for key in kept.keys() - {"layers"}:
        assert kept[key] == moved[key]


def test_at_an_elevation_without_a_process_the_status_is_3(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """AIB-539 prints boiling-water bands "above 6,000 ft" without an end, so the refusal is one of
    a pressure food whose every band ends: none of the starters is, hence a made-up answer."""
    from stillroom.processes.model import Answer, Refusal

    refused = Answer((), Refusal("above-table", "The table ends at 8,000 ft."), (), 9000)
    monkeypatch.setattr(face, "process_of", lambda *_, **__: refused)

    assert run("carrots", "--elevation", "9000 ft") == 3
    assert "The table ends at 8,000 ft." in capsys.readouterr().out


def test_drawing_and_card_are_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    figure, card = tmp_path / "jar.svg", tmp_path / "card.pdf"

    assert run("snap-beans", "--jar", "pint", "--elevation", "0 ft", "--figure", str(figure),
               "--card", str(card)) == 0  # fmt: skip

    capsys.readouterr()
    assert ElementTree.parse(figure).getroot().tag.endswith("svg")
    assert card.read_bytes().startswith(b"%PDF")


def test_a_recipe_file_of_ones_own_is_built(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mine = tmp_path / "beets.toml"
    mine.write_text(
        'title = "Beets"\nsource = "test"\nfood = "beets"\nform = "whole, cubed or sliced"\n'
        'pack = "hot"\njars = ["pint"]\nmakes = "1 pint"\n'
        'ingredients = ["beets, sliced, 2 cups"]\nliquid = "water, boiling, 1 cup"\n'
        'fill = ["hot beets", "boiling water to the headspace"]\n'
        "[work]\nprep_per_quart = 1\nheat = 1\nfill_per_jar = 1\n",
        encoding="utf-8",
    )

    told = document(capsys, str(mine))

    assert [layer["name"] for layer in told["layers"]] == ["beets", "water"]
    # 136 g a cup (SR28).
    assert told["layers"][0]["amounts"][0]["grams"] == 272


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["carots"], 'RECIPE: "carots" is not a starter recipe. Did you mean "carrots"'),
        (["nowhere.toml"], "there is no such file"),
        (["dilled-beans", "--jar", "quart"], "is not for quart jars. Jars: pint"),
        (["carrots", "--jar", "bucket"], "is not a jar size"),
        (["carrots", "--jars", "0"], "--jars: 0 does not fit. Say 1 to 5,000"),
        (["carrots", "--order", "carrots, pepper"], '"pepper" is no layer of this jar'),
        (["carrots", "--figure", "jar.png"], '--figure: "jar.png" does not end in .svg'),
        (["carrots", "--card", "card.pdf"], "--card: a card tells the process of one kitchen"),
        (["carrots", "--elevation", "high"], "--elevation"),
        (["carrots", "--figure", "/nowhere/at/all/jar.svg"], "cannot be written"),
        (["carrots", "--figure", "a\0.svg"], "this cannot be a file name"),
    ],
)
def test_a_slip_is_told_with_what_to_write(words: list[str], message: str) -> None:
    with pytest.raises(InputError) as told:
        run(*words)

    assert message in str(told.value)


def test_every_key_and_argument_is_in_the_reference() -> None:
    section = text(DOCS / "reference" / "commands.md").partition("## `stillroom build`")[2]
    section = section.partition("\n## ")[0]
    keys = {
        key.value
        for node in ast.walk(ast.parse(inspect.getsource(built)))
        if isinstance(node, ast.Dict)
        for key in node.keys
        if isinstance(key, ast.Constant) and isinstance(key.value, str)
    }
    assert len(keys) > 30

    assert [key for key in sorted(keys - {"code", "reason"}) if f"`{key}`" not in section] == []


def test_nothing_it_says_calls_a_jar_by_that_word(capsys: pytest.CaptureFixture[str]) -> None:
    run("garden-chicken-soup", "--jar", "pint", "--elevation", "5430 ft", "--json")

    assert "safe" not in capsys.readouterr().out.lower()


@pytest.fixture
def floured(tmp_path: Path) -> str:
    """A starter with flour in it, which USDA AIB-539 Guide 4 forbids in soups."""
    file = tmp_path / "floured.toml"
    plain = (STARTERS / "garden-chicken-soup.toml").read_text(encoding="utf-8")
    begins = "ingredients = [\n"
    assert begins in plain
    file.write_text(plain.replace(begins, f'{begins}  "flour, 1 cup",\n'), encoding="utf-8")
    return str(file)


def test_no_process_is_told_for_a_recipe_that_is_barred(
    floured: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(floured, "--elevation", "5430 ft") == REFUSED
    told = capsys.readouterr().out
    assert run(floured, "--elevation", "5430 ft", "--json") == REFUSED
    document = json.loads(capsys.readouterr().out)

    assert "is barred as it stands, so no process is shown" in told
    assert "minutes" not in told
    assert document["verdict"] == "barred" and document["processes"] == []


def test_no_card_is_printed_for_a_recipe_that_is_barred(floured: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no card: this recipe is barred"):
        run(floured, "--elevation", "5430 ft", "--card", str(tmp_path / "card.pdf"))

    assert not (tmp_path / "card.pdf").exists()
