"""Every chart the product makes: a valid description, drawn alike each time, its words readable."""

import struct
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Callable
from functools import cache
from pathlib import Path

import altair
import pypdfium2 as pdfium
import pytest
import vl_convert

from stillroom.errors import InputError
from stillroom.heat.cook import cook
from stillroom.heat.deviation import deviation
from stillroom.heat.durations import middle_run
from stillroom.heat.filled import body_of, filled
from stillroom.heat.inside import follow_run
from stillroom.heat.load import HeatedLoad
from stillroom.heat.log import Log, Reading
from stillroom.heat.logged import inferred, inside_log, usual_start
from stillroom.heat.run import Run
from stillroom.heat.steam import settings, steam
from stillroom.kitchen import Canner
from stillroom.paper import chart_parts
from stillroom.paper.chart_parts import AMBER, COBALT, ENAMEL, INK, TOMATO, apart, ticks
from stillroom.paper.charts import FOLDER, Spec, as_pdf, as_png, as_svg, write_chart
from stillroom.paper.food_chart import food_chart
from stillroom.paper.run_chart import run_chart
from stillroom.paper.steam_chart import air_chart, elevation_chart
from stillroom.paper.time_charts import canner_chart, cook_chart, jar_chart
from stillroom.physics.food import composition
from stillroom.physics.lethality import APPROVES_NOTHING
from stillroom.physics.vessel import history

QUART = filled(body_of("quart", None, None), 0.0254, "pumpkin", "solid")
FELL = ((0, 0), (14, 0), (31, 12.5), (33, 13), (38, 13.5), (43, 13), (47, 11), (52, 13.5), (57, 13),
        (62, 13), (90, 6), (116, 0))  # fmt: skip


def _log(*points: tuple[float, float]) -> Log:
    lines = [Reading(n, 60 * m, f"{m:g}", psi=psi) for n, (m, psi) in enumerate(points, 2)]
    told = {14: "vent start", 33: "timing starts", 62: "heat off", 116: "zero pressure"}
    named = (
        Reading(r.line, r.at, r.time, r.psi, event=told.get(int(r.at) // 60, "")) for r in lines
    )
    return Log("run.csv", "pressure", False, tuple(named))


def _run(jars: bool) -> Spec:
    log = _log(*FELL)
    found = deviation(log, 13, 25)
    inside = inside_log(log, QUART, usual_start("hot"), 5_430, "hot", found.end) if jars else None
    return run_chart(log, found, inferred(log, 5_430), inside, 5_430, "pumpkin, quart (solid)")


def _boil() -> Spec:
    boils = (False, True, True, False, True, True)
    lines = tuple(Reading(n, 300.0 * n, str(5 * n), boils=b) for n, b in enumerate(boils))
    log = Log("boil.csv", "boil", False, lines)
    return run_chart(log, deviation(log, None, 15), (), None, 5_430)


def _jar() -> Spec:
    run = Run(elevation_ft=5_430, psi=13, minutes=90, water=343, heat=15, vent=10, come_up=6,
              cool=40, wait=10)  # fmt: skip
    inside = follow_run(QUART, 350.0, run, jars=12)
    return jar_chart("Pumpkin in a quart", "packed solid", inside, [(0, "heat"), (15, "vent")])


def _canner() -> Spec:
    load = HeatedLoad("dial-gauge", 5_430, 13, "quart", 7, "hot", None, 75)
    made = middle_run(Canner("any", "dial-gauge", {}), load)
    seen, jars = history(made, 60.0), history(made, 60.0, of_jars=True)
    return canner_chart(
        "7 quarts", "13 lb", seen.times, seen.temperatures[0], jars.temperatures[0], [(0, "heat")]
    )


def _cook() -> Spec:
    kelvin = (350.0, 370.0, 385.0, 391.0, 360.0)
    lines = tuple(Reading(n, 300.0 * n, str(5 * n), kelvin=k) for n, k in enumerate(kelvin))
    return cook_chart("The heat of a log", cook(Log("log.csv", "temperature", False, lines)))


MADE: dict[str, tuple[Callable[[], Spec], tuple[str, ...]]] = {
    "air": (lambda: air_chart(steam(5_430, 13)), ("no air", "20 % air", "13 lb: 240.1 F", "110 C")),
    "elevation": (
        lambda: elevation_chart(settings(), steam(5_430, 0)),
        ("11 lb", "15 lb", "water boils", "5,430 ft", "212 F", "100 C"),
    ),
    "food": (lambda: food_chart("carrots", composition("carrots")), ("carrots", "water")),
    "jar": (_jar, ("Pumpkin in a quart", "slowest place", "canner", "vent", "minutes")),
    "canner": (_canner, ("7 quarts", "canner", "jars", "heat", "minutes")),
    "cook": (_cook, ("The heat of a log", "logged", "F0", "minutes")),
    "run": (
        lambda: _run(jars=True),
        ("The log of a run", "13 lb", "2 lb short", "9 min", "timing starts", "heat off", "canner",
         "slowest place", "Below it once."),
    ),
    "run without jars": (lambda: _run(jars=False), ("13 lb", "2 lb short", "canner")),
    "run with a gap": (
        lambda: run_chart(_log((0, 13), (20, 13), (25, 13)),
                          deviation(_log((0, 13), (20, 13), (25, 13)), 13, 25), (), None, 0),
        ("13 lb", "not read", "for 20 min"),
    ),
    "boil": (_boil, ("full boil", "no boil", "10 min", "It stopped once.")),
}  # fmt: skip
CHARTS = pytest.mark.parametrize("name", MADE)


@cache
def made(name: str) -> Spec:
    return MADE[name][0]()


def words_of(svg: str) -> str:
    """All text of a drawing; lines of one text follow each other."""
    return " ".join(ET.fromstring(svg).itertext())


def size_of(svg: str) -> tuple[float, float]:
    root = ET.fromstring(svg)
    return float(root.attrib["width"]), float(root.attrib["height"])


@CHARTS
def test_a_chart_is_valid_vega_lite(name: str) -> None:
    """Against the schema that Altair carries, which is the version named in the chart."""
    altair.Chart.from_dict(made(name), validate=True)
    assert made(name)["$schema"] == altair.SCHEMA_URL


def test_what_is_no_vega_lite_does_not_pass() -> None:
    """A check that cannot fail is none."""
    wrong = made("air") | {"vconcat": [{"mark": "lion", "encoding": {}}]}

    with pytest.raises(Exception, match="lion"):
        altair.Chart.from_dict(wrong, validate=True)


def test_the_grammar_that_is_written_is_the_one_that_is_drawn() -> None:
    assert f"/v{'6.4'}." in chart_parts.SCHEMA
    assert "6.4" in vl_convert.get_vegalite_versions()


@CHARTS
def test_an_svg_is_xml_and_holds_its_words(name: str) -> None:
    told = " ".join(words_of(as_svg(made(name))).split())

    for word in MADE[name][1]:
        assert word in told, word
    if name != "canner":
        assert " ".join(APPROVES_NOTHING.split()) in told
    assert "safe" not in told.lower()
    assert "NaN" not in told
    assert "undefined" not in told


@CHARTS
def test_a_chart_is_no_wider_than_a_phone_shows_readably(name: str) -> None:
    """480 units wide at most: on a phone of 360 px, type of 14 is then 10 px and more."""
    width, height = size_of(as_svg(made(name)))

    assert 300 < width <= 480
    assert height < 800


@CHARTS
def test_no_type_is_smaller_than_thirteen(name: str) -> None:
    sizes = [
        float(text.attrib["font-size"].removesuffix("px"))
        for text in ET.fromstring(as_svg(made(name))).iter("{http://www.w3.org/2000/svg}text")
    ]

    assert len(sizes) > 8
    assert min(sizes) >= 13


@CHARTS
def test_a_png_is_as_large_as_its_scale_says(name: str) -> None:
    width, height = size_of(as_svg(made(name)))

    for scale in (1.0, 2.0):
        picture = as_png(made(name), scale)
        assert picture.startswith(b"\x89PNG\r\n\x1a\n")
        # A part of a pixel is drawn as a whole one.
        assert struct.unpack(">II", picture[16:24]) == pytest.approx(
            (scale * width, scale * height), abs=1
        )


@CHARTS
def test_a_pdf_has_one_page_whose_words_can_be_read(name: str) -> None:
    document = pdfium.PdfDocument(as_pdf(made(name)))

    assert len(document) == 1
    assert document[0].get_size() == (612, 792)
    read = "".join(document[0].get_textpage().get_text_range().split())
    for word in MADE[name][1]:
        assert "".join(word.split()) in read, word
    document.close()


def test_a_pdf_is_set_in_the_type_that_ships() -> None:
    raw = as_pdf(made("air"))

    assert b"AtkinsonHyperlegible-Regular" in raw
    assert b"AtkinsonHyperlegible-Bold" in raw
    assert b"DejaVu" not in raw


DRAW = """
import hashlib
from stillroom.heat.steam import steam
from stillroom.paper.charts import as_pdf, as_png, as_svg
from stillroom.paper.steam_chart import air_chart
chart = air_chart(steam(5430, 13))
for drawn in (as_svg(chart).encode(), as_png(chart), as_pdf(chart)):
    print(hashlib.sha256(drawn).hexdigest())
"""


def test_the_same_chart_gives_the_same_bytes_in_any_process() -> None:
    runs = [
        subprocess.run([sys.executable, "-c", DRAW], capture_output=True, check=True, text=True)
        for _ in range(2)
    ]

    assert runs[0].stdout == runs[1].stdout
    assert len(set(runs[0].stdout.split())) == 3


def test_drawing_asks_nothing_of_the_network(monkeypatch: pytest.MonkeyPatch) -> None:
    """A chart that names an address is refused, not fetched."""
    asked = {
        "$schema": chart_parts.SCHEMA,
        "data": {"url": "http://192.0.2.1/a.csv"},
        "mark": "bar",
    }

    with pytest.raises(ValueError, match=r"192\.0\.2\.1"):
        as_svg(asked)


@pytest.mark.parametrize("ending", [".svg", ".png", ".pdf", ".SVG", ".Pdf"])
def test_a_file_is_of_the_kind_its_ending_names(ending: str, tmp_path: Path) -> None:
    file = tmp_path / f"chart{ending}"

    write_chart(made("air"), file)

    starts = {".svg": b"<svg", ".png": b"\x89PNG", ".pdf": b"%PDF"}
    assert file.read_bytes().startswith(starts[ending.lower()])


@pytest.mark.parametrize("name", ["chart.jpg", "chart", "chart.svg.gz", ".svg"])
def test_any_other_ending_is_told(name: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"^--chart: .* does not end in \.svg, \.png or \.pdf"):
        write_chart(made("air"), tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_a_place_that_cannot_be_written_is_told_with_what_to_do(tmp_path: Path) -> None:
    for path in (tmp_path / "no" / "such.svg", tmp_path / "a\0.svg"):
        with pytest.raises(InputError, match=r"--chart: .* cannot be written .* Name a folder"):
            write_chart(made("air"), path)
    (tmp_path / "folder.svg").mkdir()
    with pytest.raises(InputError, match="cannot be written"):
        write_chart(made("air"), tmp_path / "folder.svg")


def _light(color: str) -> float:
    """Relative luminance of an sRGB color (WCAG 2.2, its definition)."""
    parts = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def test_every_ink_stands_out_from_the_ground_in_color_and_in_grey() -> None:
    """WCAG 2.2 asks for 4.5 to 1 of text, by luminance alone, so it holds in grey, too."""
    ground = _light(ENAMEL)

    for ink in (INK, COBALT, TOMATO, AMBER):
        assert (ground + 0.05) / (_light(ink) + 0.05) >= 4.5, ink


def test_red_is_only_for_what_must_be_acted_on_and_amber_for_attention() -> None:
    for name in MADE:
        drawn = as_svg(made(name))
        assert (TOMATO in drawn) == (name in ("run", "run without jars", "boil")), name
        assert (AMBER in drawn) == (name == "run with a gap"), name


def test_names_beside_a_drawing_never_cover_each_other() -> None:
    moved = apart([10.0, 9.0, 9.5, 2.0], 3.0)

    assert sorted(moved) == [2.0, 9.0, 12.0, 15.0]
    # Their order stays.
    assert moved[0] > moved[2] > moved[1] > moved[3]


def test_ticks_are_few_and_round() -> None:
    for most in (7.0, 33.0, 125.0, 300.0, 1_439.0):
        places = ticks(0, most)
        assert 3 <= len(places) <= 7
        assert places[-1] <= most


def test_the_page_of_a_chart_pastes_no_data_into_markup() -> None:
    """A name with Typst's own signs prints as it is."""
    named = made("air") | {"description": '#panic("x") [*bold*] \\ "', "title": "#strong[jar] $x$"}

    read = pdfium.PdfDocument(as_pdf(named))[0].get_textpage().get_text_range()

    assert "#strong[jar]$x$" in "".join(read.split())
    assert (FOLDER / "chart.typ").is_file()
