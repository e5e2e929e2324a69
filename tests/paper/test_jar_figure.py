"""The drawn jar: to scale, readable on a small phone, the same each time, whatever the names."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise
from xml.etree import ElementTree

import pypdfium2 as pdfium
import pytest
import vl_convert
from hypothesis import given
from hypothesis import strategies as st

from stillroom.paper.jar_figure import described, jar_figure
from stillroom.paper.jar_patterns import pattern_names
from stillroom.paper.typeset import FOLDER
from stillroom.physics.jar import NECK
from stillroom.recipes.build import Build, build, reordered
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import starter, starters
from tests.recipes.any_recipe import recipes

SVG = "{http://www.w3.org/2000/svg}"
read = cache(starter)
ALL = [(name, jar) for name in starters() for jar in read(name).jars]


def made(name: str = "garden-chicken-soup", jar: str = "quart") -> Build:
    return build(read(name), jar)


def drawn(one: Build) -> ElementTree.Element:
    return ElementTree.fromstring(jar_figure(one))


def bands(figure: ElementTree.Element) -> dict[str, tuple[float, float]]:
    """Each layer's upper y and height, px."""
    return {
        rect.attrib["data-layer"]: (float(rect.attrib["y"]), float(rect.attrib["height"]))
        for rect in figure.iter(f"{SVG}rect")
        if rect.attrib.get("class") == "layer"
    }


def words(figure: ElementTree.Element) -> str:
    return " ".join(text.text or "" for text in figure.iter(f"{SVG}text"))


def test_in_the_body_heights_are_as_the_volumes() -> None:
    """Potatoes, carrots and the rest of the soup all lie below the shoulder."""
    soup = made()
    solids = [layer for layer in soup.layers if layer.solid]
    found = bands(drawn(soup))

    each = {layer.name: found[layer.name][1] / layer.stands for layer in solids}

    # Heights are written to a hundredth of a pixel; the least band is 8 px.
    assert max(each.values()) / min(each.values()) == pytest.approx(1, abs=0.003)


@pytest.mark.parametrize(("name", "jar"), ALL)
def test_the_layers_lie_one_on_the_other_from_the_bottom_up(name: str, jar: str) -> None:
    one = made(name, jar)
    found = bands(drawn(one))

    order = sorted(one.layers, key=lambda layer: layer.name == one.poured)
    for below, above in pairwise(order):
        top = found[above.name][0] + found[above.name][1]
        assert top == pytest.approx(found[below.name][0], abs=0.021)


@pytest.mark.parametrize(("name", "jar"), ALL)
def test_the_headspace_line_lies_where_the_published_inches_say(name: str, jar: str) -> None:
    """Body and headspace in one scale: the outline gives the pixels of the jar's own height."""
    one = made(name, jar)
    figure = drawn(one)
    (line,) = (x for x in figure.iter(f"{SVG}line") if x.attrib.get("class") == "headspace")
    (path,) = (c[0].attrib["d"] for c in figure.iter(f"{SVG}clipPath"))
    rim = float(path.split()[2])
    bottom = max(float(n) for n in re.findall(r"Q [\d.]+ [\d.]+ [\d.]+ ([\d.]+)", path))
    shoulder = float(path.split()[4])

    scale = (bottom - rim) / one.body.height
    assert float(line.attrib["y1"]) - rim == pytest.approx(
        one.headspace_in * 0.0254 * scale, abs=0.03
    )
    assert shoulder - rim == pytest.approx(NECK * scale, abs=0.03)


def test_a_full_jar_reaches_the_headspace_line() -> None:
    one = made("berry-jam", "half-pint")
    figure = drawn(one)
    (line,) = (x for x in figure.iter(f"{SVG}line") if x.attrib.get("class") == "headspace")

    assert bands(figure)["jam without added pectin"][0] == pytest.approx(
        float(line.attrib["y1"]), abs=0.021
    )


@pytest.mark.parametrize(("name", "jar"), ALL)
def test_it_is_as_wide_as_a_small_phone_and_nothing_is_smaller_than_13_px(
    name: str, jar: str
) -> None:
    figure = drawn(made(name, jar))

    assert figure.attrib["viewBox"].split()[2] == "360"
    assert min(float(text.attrib["font-size"]) for text in figure.iter(f"{SVG}text")) >= 13


@pytest.mark.parametrize(("name", "jar"), ALL)
def test_every_letter_lies_on_the_drawing(name: str, jar: str) -> None:
    """Read back from a PDF of it, set in our own type."""
    vl_convert.register_font_directory(str(FOLDER / "fonts"))
    (page,) = pdfium.PdfDocument(vl_convert.svg_to_pdf(jar_figure(made(name, jar))))
    wide, tall = page.get_size()
    text = page.get_textpage()

    assert text.count_chars() > 40
    for n in range(text.count_chars()):
        left, bottom, right, top = text.get_charbox(n)
        assert 8 <= left <= right <= wide - 4 or right == left
        assert 4 <= bottom <= top <= tall - 4 or top == bottom


def test_the_headspace_is_told_in_inches_as_a_ruler_has_them() -> None:
    for name, jar, inches in (
        ("berry-jam", "half-pint", "1/4"), ("dilled-beans", "pint", "1/2"), ("carrots", "pint", "1")
    ):  # fmt: skip
        assert f"{inches} in headspace" in words(drawn(made(name, jar)))


@pytest.mark.parametrize(("name", "jar"), ALL)
def test_no_words_lie_on_each_other(name: str, jar: str) -> None:
    lines = sorted(
        (float(text.attrib["y"]), float(text.attrib["font-size"]))
        for text in drawn(made(name, jar)).iter(f"{SVG}text")
    )

    for (upper, _), (lower, size) in pairwise(lines):
        assert lower - upper >= size


def test_every_layer_has_its_number_words_and_amount() -> None:
    told = words(drawn(made("dilled-beans", "pint")))

    for part in ("1. dill heads", "1 head", "2. garlic", "1 clove, if wanted", "3. snap beans",
                 "4. brine", "about 3/4 to 1 1/4 cups", "1/2 in headspace"):  # fmt: skip
        assert part in told


def test_those_who_cannot_see_it_are_told_the_same() -> None:
    figure = drawn(made("dilled-beans", "pint"))
    title, desc = figure[0], figure[1]

    assert (title.tag, desc.tag) == (f"{SVG}title", f"{SVG}desc")
    assert figure.attrib["aria-labelledby"].split() == [title.attrib["id"], desc.attrib["id"]]
    assert title.text == "How to fill: Dilled beans, pint"
    assert desc.text is not None and "3, snap beans: 225 g (8 oz) as bought" in desc.text
    assert "1/2 in headspace stay empty below the rim" in described(made("dilled-beans", "pint"))


def test_neighbors_differ_in_pattern_not_in_color_alone() -> None:
    for name, jar in ALL:
        patterns = pattern_names([layer.kind for layer in made(name, jar).layers if layer.stands])
        solid = [p for p in patterns if p != "dark"]
        assert all(a != b for a, b in pairwise(solid))


def test_the_same_build_gives_the_same_bytes_and_ids_of_two_do_not_meet() -> None:
    first, second = made("carrots", "pint"), made("carrots", "quart")

    assert jar_figure(first) == jar_figure(first)
    ids = [set(re.findall(r' id="([^"]+)"', jar_figure(one))) for one in (first, second)]
    assert ids[0] and not ids[0] & ids[1]


def test_another_order_is_numbered_anew_and_what_is_poured_still_stands_on_top() -> None:
    one = reordered(made("snap-beans", "pint"), ["water", "snap beans"])

    assert "1. water" in words(drawn(one))
    assert "3. canning salt" in words(drawn(one))
    found = bands(drawn(one))
    assert found["water"][0] == min(y for y, _ in found.values())


def test_on_a_card_names_stand_alone_and_larger() -> None:
    figure = ElementTree.fromstring(jar_figure(made(), alone=False))

    assert {text.attrib["font-size"] for text in figure.iter(f"{SVG}text")} == {"15"}
    assert "Chicken soup" not in words(figure)


@given(st.text(max_size=80), st.text(min_size=1, max_size=60))
def test_any_name_makes_a_well_formed_drawing(title: str, layer: str) -> None:
    one = made("carrots", "pint")
    layers = (replace(one.layers[0], name=layer), *one.layers[1:])

    figure = drawn(replace(one, title=title, layers=layers))

    assert figure.tag == f"{SVG}svg"
    assert [x for x in figure.iter() if x.tag not in {
        f"{SVG}{name}" for name in ("svg", "title", "desc", "defs", "pattern", "rect", "path",
                                    "circle", "clipPath", "g", "line", "text")
    }] == []  # fmt: skip


def test_markup_in_a_name_is_words() -> None:
    one = replace(made("carrots", "pint"), title='<script>alert("1")</script> & co')
    svg = jar_figure(one)

    assert "<script" not in svg
    assert '<script>alert("1")</script> & co' in words(ElementTree.fromstring(svg))


@given(recipes(), st.sampled_from(["half-pint", "pint", "quart"]))
def test_any_recipe_can_be_drawn(recipe: Recipe, jar: str) -> None:
    one = build(recipe, jar)

    assert len(bands(drawn(one))) == len(one.layers)
