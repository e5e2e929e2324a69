"""The drawn timetable: its words from the PDF, its picture by a renderer that did not write it."""

import struct
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import chain, pairwise

import vl_convert

from stillroom.day.steps import steps
from stillroom.paper.day_chart import day_chart
from tests.paper.made import plan
from tests.paper.read_back import greys, letters, pages

DAY = plan(((75, 13), (20, None)), 2)
SVG = "{http://www.w3.org/2000/svg}"


def test_rows_are_canners_people_and_burners_under_the_hours() -> None:
    (page,) = pages(day_chart(DAY, "pdf"))

    rows = ["7:00", "11:00", "canner 0", "canner 1", "Marit", "Jonas", "burner 1", "burner 3"]
    places = [page.index(row) for row in rows]
    assert all(a < b for a, b in pairwise(places))
    assert "14 jars in 2 loads, 7:00 to 10:15" in page


def test_phases_are_told_by_word() -> None:
    (page,) = pages(day_chart(DAY, "pdf"))

    for word in ("heat", "vent", "cool", "wait"):
        assert f" {word} " in page
    assert "75 min 13 lb" in page
    assert "decide when timing starts" in page


def test_nothing_is_smaller_than_8_and_a_half_points() -> None:
    assert min(size for size, _, _ in letters(day_chart(DAY, "pdf"))) >= 8.5


def test_an_svg_tells_in_words_what_it_draws() -> None:
    """``title`` and ``desc`` come first, as SVG 2 (5.7) asks, and hold every step."""
    root = ET.fromstring(day_chart(DAY, "svg"))

    assert root.get("role") == "img"
    title, desc = list(root)[:2]
    assert (title.tag, desc.tag) == (f"{SVG}title", f"{SVG}desc")
    assert title.text == "Timetable, Saturday 17 October 2026"
    assert desc.text is not None
    for step in steps(DAY):
        assert step.told in desc.text


def test_an_svg_asks_nothing_of_the_outside() -> None:
    root = ET.fromstring(day_chart(DAY, "svg"))

    for element in root.iter():
        for name, value in element.attrib.items():
            if name.endswith(("href", "src")):
                assert value.startswith(("#", "data:"))


def test_signs_of_markup_in_names_stay_text() -> None:
    odd = replace(DAY, tasks=tuple(replace(t, recipe="<b>&'\"]]>") for t in DAY.tasks))

    desc = ET.fromstring(day_chart(odd, "svg")).find(f"{SVG}desc")

    assert desc is not None
    assert "<b>&'\"]]>" in str(desc.text)


def test_a_png_is_twice_as_sharp_as_a_screen() -> None:
    """11 in. wide at 150 pixels an inch; width and height stand at byte 16 (ISO/IEC 15948)."""
    drawn = day_chart(DAY, "png")

    assert drawn[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", drawn[16:24])
    assert width == 1650
    assert 300 < height < 900


def test_the_svg_looks_the_same_to_another_renderer() -> None:
    """Its patterns and letters are drawn by vl-convert's renderer as pdfium draws the PDF's."""
    ours = greys(day_chart(DAY, "pdf"))
    # It takes a point for a 96th of an inch.
    theirs = greys(vl_convert.svg_to_pdf(day_chart(DAY, "svg").decode()), scale=0.75)

    assert (len(ours), len(ours[0])) == (len(theirs), len(theirs[0]))
    pairs = list(zip(chain(*ours), chain(*theirs), strict=True))
    # The means of 8 by 8 dots: letters and hatching may fall a part of a dot to the side.
    assert max(abs(a - b) for a, b in pairs) < 40
    assert sum(abs(a - b) for a, b in pairs) / len(pairs) < 2


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert day_chart(DAY, "svg") == day_chart(DAY, "svg")
    assert day_chart(DAY, "png") == day_chart(DAY, "png")
