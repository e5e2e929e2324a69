"""Slips in what ``stillroom heat`` is asked: each ends in a plain sentence and exit 2."""

from pathlib import Path

import pytest

from stillroom.cli import main

JAR = ["jar", "pint"]
RUN = ["--food", "pumpkin", "--elevation", "0 ft", "--psi", "11", "--minutes", "55"]
CANNER = ["canner", "--method", "dial-gauge", "--elevation", "0 ft", "--psi", "11"]
KITCHEN = """
name = "Alder Fork kitchen (invented)"
elevation = "5,430 ft"
burners = 1

[[canner]]
name = "tall canner"
method = "weighted-gauge"
holds = { quart = 7, pint = 9 }
"""


@pytest.fixture
def kitchen(tmp_path: Path) -> str:
    file = tmp_path / "kitchen.toml"
    file.write_text(KITCHEN, encoding="utf-8")
    return str(file)


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["heat", *words]) == 2
    seen = capsys.readouterr()
    assert seen.out == ""
    assert seen.err.startswith("stillroom: ")
    assert " K" not in seen.err, "a home canner reads F or C"
    return seen.err


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["jar", "4 oz", "--headspace", "2 in"], "--headspace"),
        ([*JAR, "--headspace", "1 tsp"], "is no length"),
        ([*JAR, "--headspace", "1 lb"], "is no length"),
        ([*JAR, *RUN, "--elevation", "-8000 ft"], "lower than any"),
        ([*JAR, *RUN, "--food", ""], "No composition"),
        ([*JAR, *RUN[2:]], "--food"),
        ([*JAR, "--start", "170 F"], "--food"),
        ([*JAR, *RUN, "--minutes", "0"], "--minutes: 0"),
        ([*JAR, *RUN, "--start", "0 F"], "--start"),
        ([*JAR, *RUN, "--start", "250 F"], "--start"),
        ([*JAR, *RUN[:4], "--minutes", "40", "--come-up", "5"], "--come-up"),
        ([*JAR, *RUN[:4], "--minutes", "40", "--cool", "5"], "--cool"),
        (["food", "carrots", "--at", "0 F"], "--at"),
        ([*CANNER, "--elevation", "-8000 ft"], "lower than any"),
        ([*CANNER, "--jars", "0"], "--jars"),
        ([*CANNER, "--canner", "tall canner"], "--kitchen"),
    ],
)
def test_a_slip_is_told_by_the_option_it_stands_in(
    capsys: pytest.CaptureFixture[str], words: list[str], named: str
) -> None:
    assert named in refused(capsys, *words)


def test_a_run_that_is_only_said_is_told_to_be_no_published_process(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Three minutes of boiling are nobody's process for pumpkin, and are followed all the same."""
    assert main(["heat", *JAR, *RUN[:4], "--minutes", "3"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "taken as you gave them and not looked up" in told
    assert "stillroom process tells the published ones" in told


def test_a_jar_may_be_followed_full_to_the_brim(capsys: pytest.CaptureFixture[str]) -> None:
    """Fills vary by an eighth of an inch, and none can stand above the rim."""
    assert main(["heat", *JAR, *RUN, "--headspace", "0 in"]) == 0
    assert "F0" in capsys.readouterr().out


def test_a_kitchens_canner_has_the_method_of_its_file(
    capsys: pytest.CaptureFixture[str], kitchen: str
) -> None:
    told = refused(capsys, "canner", "--kitchen", kitchen, "--psi", "15", "--method", "dial-gauge")

    assert "--method" in told
    assert "tall canner" in told


def test_jars_that_a_canner_does_not_hold_are_told(
    capsys: pytest.CaptureFixture[str], kitchen: str
) -> None:
    words = ["canner", "--kitchen", kitchen, "--psi", "15"]

    assert "holds no half-gallon" in refused(capsys, *words, "--jar", "half-gallon")
    assert "holds 7 quart jars" in refused(capsys, *words, "--jars", "8")


def test_a_food_that_is_not_listed_is_told_what_can_be_asked(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Nothing at the terminal takes a food's own shares, so none are asked for."""
    told = refused(capsys, "food", "dragon fruit")

    assert "such as carrots" in told
    assert "shares" not in told
