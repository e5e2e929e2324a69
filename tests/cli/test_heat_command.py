"""``stillroom heat jar, food, cook, canner``: what a person and a program get, and plain errors."""

import json
from pathlib import Path
from typing import Any

import pytest

from stillroom.cli import main
from stillroom.physics.lethality import APPROVES_NOTHING

RUN = ["--food", "pumpkin", "--elevation", "5430 ft", "--psi", "13", "--minutes", "90"]
# The constructed oracle of the science notes, 1.2: readings every five minutes, C.
ORACLE = "80 95 105 112 116 118 119 119.5 110 90 70".split()


def asked(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["heat", *words]) == 0
    return capsys.readouterr().out


def document(capsys: pytest.CaptureFixture[str], *words: str) -> Any:
    return json.loads(asked(capsys, *words, "--json"))


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    assert main(["heat", *words]) == 2
    seen = capsys.readouterr()
    assert seen.out == ""
    return seen.err


@pytest.fixture
def oracle(tmp_path: Path) -> str:
    log = tmp_path / "oracle.csv"
    lines = [f"{5 * n},{c}" for n, c in enumerate(ORACLE)]
    log.write_text("\n".join(["time,temp_c", *lines]), encoding="utf-8")
    return str(log)


def test_a_jar_alone_tells_its_volumes(capsys: pytest.CaptureFixture[str]) -> None:
    """A quart is 946.35 mL; 1 in. under a 2 3/8 in. opening takes 72.6 mL (science notes, 5)."""
    told = document(capsys, "jar", "quart")

    assert told["body"]["brim_ml"] == pytest.approx(946.4, abs=0.1)
    assert told["headspace_ml"] == pytest.approx(72.6, rel=0.01)
    assert told["pack_ml"] == pytest.approx(946.4 - 72.6, rel=0.01)
    assert told["run"] is None


def test_a_measured_brim_takes_the_place_of_the_assumed_one(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = document(capsys, "jar", "quart", "--brim", "965")

    assert told["body"]["brim_ml"] == pytest.approx(965, abs=0.5)


def test_a_followed_jar_tells_bands_in_order_and_approves_nothing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = document(capsys, "jar", "quart", *RUN)["run"]

    for figure in ("hottest_f", "f0_minutes", "c100_minutes", "f0_share_after_heat_off"):
        band = told[figure]
        assert band["low"] <= band["median"] <= band["high"]
    assert len(told["times_min"]) == len(told["canner_f"]) == len(told["slowest_f"]["low"])
    assert max(told["canner_f"]) == pytest.approx(240.3, abs=0.5)  # 13 lb at 5,430 ft
    text = asked(capsys, "jar", "quart", *RUN)
    assert APPROVES_NOTHING in " ".join(text.split())
    assert "safe" not in text.lower()


def test_a_brothy_jar_is_ahead_of_a_solid_one(capsys: pytest.CaptureFixture[str]) -> None:
    packed = [
        document(capsys, "jar", "quart", *RUN, "--packed", how)["run"]["c100_minutes"]["median"]
        for how in ("brothy", "pieces in liquid", "0.9", "solid")
    ]

    assert packed == sorted(packed, reverse=True)


def test_minutes_of_warm_up_and_cooling_may_be_told(capsys: pytest.CaptureFixture[str]) -> None:
    told = document(capsys, "jar", "pint", *RUN, "--heat", "22", "--come-up", "6", "--cool", "40")

    minutes = told["run"]["minutes"]
    assert (minutes["heat"], minutes["come-up"], minutes["cool"]) == (22, 6, 40)
    assert (minutes["vent"], minutes["wait"]) == (10, 10)


def test_boiling_water_has_no_vent_and_stays_at_the_boil(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """At 5,000 ft water boils at 202.83 F (science notes, 3.2)."""
    told = document(
        capsys, "jar", "pint", "--food", "peaches", "--elevation", "5000 ft", "--minutes", "30",
        "--pack", "raw",
    )["run"]  # fmt: skip

    assert told["minutes"]["vent"] == told["minutes"]["come-up"] == 0
    assert max(told["canner_f"]) == pytest.approx(202.83, abs=0.05)


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (["jar", "qurt"], "quart"),
        (["jar", "quart", "--headspace", "9 in"], "at most 3"),
        (["jar", "quart", "--headspace", "some"], "is no length"),
        (["jar", "quart", "--brim", "20"], "--brim"),
        (["jar", "quart", "--opening", "tiny"], "opening"),
        (["jar", "quart", "--food", "gravel", *RUN[2:]], "gravel"),
        (["jar", "quart", "--food", "pumpkin"], "--elevation and --minutes"),
        (["jar", "quart", *RUN[:-1], "9000"], "--minutes"),
        (["jar", "quart", *RUN, "--psi", "40"], "--psi"),
        (["jar", "quart", *RUN, "--packed", "stuffed"], "--packed"),
        (["jar", "quart", *RUN, "--pack", "cold"], "--pack"),
        (["jar", "quart", *RUN, "--start", "warm"], "--start"),
        (["jar", "quart", "--chart", "jar.svg"], "--chart"),
        (["jar", "quart", *RUN, "--chart", "jar.bmp"], "jar.bmp"),
        (["jar", "quart", *RUN, "--heat", "-3"], "--heat"),
        (["food", "gravel"], "gravel"),
        (["food", "carrots", "--at", "hot"], "--at"),
        (["cook", "nowhere.csv"], "nowhere.csv"),
        (["canner"], "--method"),
        (["canner", "--method", "dial-gauge", "--psi", "11"], "--elevation"),
        (["canner", "--method", "dial-gauge", "--elevation", "0 ft"], "--psi"),
        (["canner", "--method", "boiling-water", "--elevation", "0 ft", "--psi", "5"], "--psi"),
        (["canner", "--kitchen", "none.toml"], "none.toml"),
    ],
)
def test_what_does_not_fit_is_told_by_name(
    capsys: pytest.CaptureFixture[str], words: list[str], named: str
) -> None:
    assert named in refused(capsys, *words)


def test_a_food_tells_its_properties_at_each_temperature(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Carrot at 20 C: 1037 kg/m3, 3.882 kJ/(kg K), 0.573 W/(m K), 1.424e-7 m2/s, at 100 C
    1.649e-7 (science notes, 2.3, from SR28; 0.5 %)."""
    told = document(capsys, "food", "carrots", "--at", "20 C", "--at", "100 C")["at"]

    assert told[0]["density_kg_m3"] == pytest.approx(1037, rel=5e-3)
    assert told[0]["heat_capacity_j_kgk"] == pytest.approx(3882, rel=5e-3)
    assert told[0]["conductivity_w_mk"] == pytest.approx(0.573, rel=5e-3)
    assert told[0]["diffusivity_m2_s"] == pytest.approx(1.424e-7, rel=5e-3)
    assert told[1]["diffusivity_m2_s"] == pytest.approx(1.649e-7, rel=5e-3)


def test_a_temperature_log_is_summed_as_the_constructed_oracle_says(
    capsys: pytest.CaptureFixture[str], oracle: str
) -> None:
    """Exact 10.8386, trapezoid 11.6785 (science notes, 1.2)."""
    told = document(capsys, "cook", oracle)

    assert told["f0_minutes"] == pytest.approx(10.8386, rel=1e-3)
    assert told["f0_by_trapezoid_minutes"] == pytest.approx(11.6785, rel=1e-3)
    assert told["f0_method"] and told["f0_reference_c"] == 121.1
    text = asked(capsys, "cook", oracle)
    assert "8 % too much" in text  # 11.6785 / 10.8386
    assert APPROVES_NOTHING in " ".join(text.split())


def test_a_canner_tells_every_phase_and_what_stands_in(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = document(
        capsys, "canner", "--method", "dial-gauge", "--psi", "11", "--elevation", "0 ft"
    )

    phases = {phase["name"].partition(",")[0]: phase for phase in told["phases"]}
    assert phases["vent"]["planned"] == phases["wait"]["planned"] == 10
    assert phases["process"]["planned"] == 75
    assert all(p["low"] <= p["high"] for p in told["phases"])
    assert any("burner" in stand_in for stand_in in told["stand_ins"])


def test_a_kitchens_canner_is_found_by_name(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    main(["start", str(tmp_path / "day")])
    capsys.readouterr()
    kitchen = str(tmp_path / "day" / "kitchen.toml")

    told = document(capsys, "canner", "--kitchen", kitchen, "--canner", "water bath")

    assert told["elevation_ft"] == 5430
    assert told["method"] == "boiling-water"
    assert "water bath" in refused(capsys, "canner", "--kitchen", kitchen, "--canner", "tub")


def test_a_burner_that_cannot_do_it_is_a_refusal_not_an_error(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    kitchen = tmp_path / "kitchen.toml"
    kitchen.write_text(
        'name = "Hut"\nelevation = "0 ft"\nburners = 1\n[[canner]]\nname = "pot"\n'
        'method = "weighted-gauge"\nholds = { quart = 7 }\nburner_kind = "coil"\n'
        'burner_power = "300 W"\n[[person]]\nname = "Ada"\n',
        encoding="utf-8",
    )

    status = main(["heat", "canner", "--kitchen", str(kitchen), "--psi", "10", "--json"])

    assert status == 3
    assert "never" in json.loads(capsys.readouterr().out)["refusal"]


@pytest.mark.parametrize("ending", ["svg", "png", "pdf"])
@pytest.mark.parametrize("about", ["jar", "food", "cook", "canner"])
def test_each_is_drawn_to_each_kind_of_file(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, oracle: str, about: str, ending: str
) -> None:
    words = {
        "jar": ["jar", "quart", *RUN],
        "food": ["food", "carrots"],
        "cook": ["cook", oracle],
        "canner": ["canner", "--method", "dial-gauge", "--psi", "11", "--elevation", "0 ft"],
    }[about]
    drawing = tmp_path / f"drawing.{ending}"

    asked(capsys, *words, "--chart", str(drawing))

    head = {"svg": b"<svg", "png": b"\x89PNG", "pdf": b"%PDF"}[ending]
    assert drawing.read_bytes().startswith(head)
