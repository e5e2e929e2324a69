"""Links lead somewhere, words are ours, cautions stand, and the picture is there."""

import importlib.util
import re
import struct
import zlib
from pathlib import Path
from types import ModuleType

import pytest

from tests.docs.pages import BLOCK, DOCS, PAGES, ROOT, name, text


def test_every_page_is_in_the_menu() -> None:
    menu = text(ROOT / "mkdocs.yml")

    for page in DOCS.rglob("*.md"):
        assert f": {page.relative_to(DOCS).as_posix()}\n" in menu


def _anchors(page: Path) -> set[str]:
    """The anchors that Markdown makes of a page's headings."""
    plain = BLOCK.sub("", text(page))
    headings = re.findall(r"^#+ (.+)$", plain, re.MULTILINE)
    return {re.sub(r"[\s-]+", "-", re.sub(r"[^\w\s-]", "", h.lower())).strip("-") for h in headings}


def test_every_link_leads_to_a_file_and_heading_that_is_there() -> None:
    followed = 0
    for page in PAGES:
        for target in re.findall(r"\]\(([^)\s]+)\)", BLOCK.sub("", text(page))):
            assert "://" not in target, f"{name(page)}: {target} asks something of the outside"
            path, _, anchor = target.partition("#")
            file = (page.parent / path).resolve() if path else page
            assert file.is_file(), f"{name(page)}: {target}"
            if DOCS in page.parents:
                assert DOCS in file.parents, f"{name(page)}: {target} is not on the site"
            assert not anchor or anchor in _anchors(file), f"{name(page)}: {target}"
            followed += 1
    assert followed > 20


# What no page may hold. The brackets keep this file itself from naming what it looks for.
FORBIDDEN = {
    "a verdict that is not ours to give": r"\bsafe\w*|\bunsafe\w*",
    "a place on somebody's machine": r"/wor[k]\b|/hom[e]/|/tm[p]\b",
    "the host of a package registry": r"py[p]i\b|python[h]osted|npm[j]s|crates\.i[o]|anacond[a]",
    "how this was written": r"\bsession[s]?\b|\bagent[s]?\b",
}
# A page may name a publication by its title.
ALLOWED = {"Preserving Food Safely": "the title of a series of MSU Extension"}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_page_holds(what: str) -> None:
    for page in PAGES:
        held = text(page)
        for phrase in ALLOWED:
            held = held.replace(phrase, "")
        found = re.search(FORBIDDEN[what], held, re.IGNORECASE)
        assert not found, f"{name(page)}: {found}"


def test_the_search_for_forbidden_words_finds_them() -> None:
    """A check that cannot fail is none."""
    sample = f"It is safe, in /wor{'k'}, from py{'pi'}, in a sess{'ion'}."

    assert all(re.search(pattern, sample, re.IGNORECASE) for pattern in FORBIDDEN.values())
    assert all(any(phrase in text(page) for page in PAGES) for phrase in ALLOWED)


def test_cautions_stand_where_the_work_can_hurt() -> None:
    assert "## Cautions" in text(ROOT / "README.md")
    told = [*DOCS.glob("*/*.md"), DOCS / "index.md", DOCS / "develop.md"]
    # The page on libraries is about programs.
    told.remove(DOCS / "why" / "libraries.md")

    assert len(told) > 8
    assert [name(page) for page in told if "!!! warning" not in text(page)] == []


def _make_pictures() -> ModuleType:
    spec = importlib.util.spec_from_file_location("make_pictures", DOCS / "make_pictures.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_a_picture_holds_the_greys_it_was_given() -> None:
    """Three pixels of two rows, in a buffer whose rows are four long; read by hand.

    Four bits a pixel: black is 0, white 15, and 128 of 255 is nearest to 8 of 15.
    """
    made = _make_pictures().png(bytes([0, 255, 128, 9, 255, 0, 0, 9]), 3, 2, 4)

    assert made[:8] == b"\x89PNG\r\n\x1a\n"
    assert struct.unpack(">IIBB", made[16:26]) == (3, 2, 4, 0)
    begin = made.index(b"IDAT")
    (length,) = struct.unpack(">I", made[begin - 4 : begin])
    lines = zlib.decompress(made[begin + 4 : begin + 4 + length])
    assert lines == bytes([0, 0x0F, 0x80, 0, 0xF0, 0x00])


_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def _numbers(svg: str) -> list[float]:
    return [float(n) for n in _NUMBER.findall(svg)]


def test_the_charts_of_the_guide_are_those_its_commands_draw(tmp_path: Path) -> None:
    """Word for word; a place on the drawing may differ by a part of a dot between machines."""
    maker = _make_pictures()

    drawn = maker.charts(maker.GUIDE, tmp_path)

    shown = set(re.findall(r"\.\./pictures/([\w-]+\.svg)", text(maker.GUIDE)))
    assert {file.name for file in drawn} == shown
    assert len(shown) == 7
    assert shown == {file.name for file in (DOCS / "pictures").glob("*.svg")}
    for file in drawn:
        kept, made = text(DOCS / "pictures" / file.name), text(file)
        assert _NUMBER.sub("", kept) == _NUMBER.sub("", made), (
            f"{file.name} is old: run python docs/make_pictures.py"
        )
        for old, new in zip(_numbers(kept), _numbers(made), strict=True):
            assert old == pytest.approx(new, abs=0.5), file.name
        assert len(kept) < 60_000


def test_the_day_sheet_is_a_picture_that_pages_can_carry() -> None:
    picture = (DOCS / "pictures" / "day-sheet.png").read_bytes()

    assert picture.startswith(b"\x89PNG\r\n\x1a\n")
    assert len(picture) < 400_000
