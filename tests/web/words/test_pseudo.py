"""Every page in a language of brackets: what names and tells things is in the catalogue.

Left out, and English in every language, is what the work below the pages says: notes, findings,
refusals, reasons, steps of a plan, lists, names of foods, sources; and what the household wrote.
So headings, buttons and the names of fields are held here, not paragraphs and list items; that no
template has words of its own is held in ``test_catalogue``.
"""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from stillroom.day.aims import AIMS
from stillroom.kitchen import BURNER_KINDS, LEAVES, PACKS, WALLS, WORK
from stillroom.processes.model import METHODS
from stillroom.store.engine import open_store
from stillroom.store.settings import set_setting
from stillroom.units.jars import SIZES
from stillroom.web.app import create_app
from stillroom.web.settings import Settings
from stillroom.web.words.trade import TRADE
from stillroom.web.work.desk import close_desk
from tests.browser.addresses import every
from tests.household import NOW, filled
from tests.web.words import pseudo

NAMING = ("button", "label", "legend", "summary", "th", "dt", "caption", "h2", "figcaption")
# What the household wrote, and what the work below the pages says.
THEIRS = re.compile(
    r"(dial canner|weight canner|water bath|Marit|Jonas|.*\(invented\)|"
    r"Another .*|A start.*|.*Btu.*|[\W\d_]*(lb|min|pt|qt)?)[\W\d_]*"
)


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder = tmp_path_factory.mktemp("words")
    pseudo.write_catalogue(folder)
    (folder / "store.sqlite3").write_bytes(filled())
    store = open_store(folder / "store.sqlite3")
    with store.write() as s:
        set_setting(s, "language", pseudo.LANGUAGE)
    app = create_app(store, Settings(words=folder, now=lambda: NOW))
    yield TestClient(app, base_url="http://localhost:8642")
    close_desk(app)
    store.close()


def test_headings_buttons_and_names_of_fields_are_in_the_catalogue(pages: TestClient) -> None:
    missed: dict[str, str] = {}
    for address in every():
        found = pseudo.outside(pages.get(address).text)
        for said in found:
            tag, words = said[1:].split("> ", 1)
            if tag in NAMING and not THEIRS.fullmatch(words):
                missed.setdefault(said, address)

    assert missed == {}


def test_the_pages_speak_the_language_that_was_chosen(pages: TestClient) -> None:
    first = pages.get("/").text

    assert f'<html lang="{pseudo.LANGUAGE}">' in first
    assert f"{pseudo.OPEN}Wants a decision{pseudo.CLOSE}" in first
    # Dates come from the language, not from the catalogue (Unicode CLDR, Esperanto).
    assert "merkredo" in first


def test_words_outside_of_the_brackets_are_seen() -> None:
    html = (
        '<html lang="eo"><p>⟦in⟧ out <b title="over">⟦a <i>b</i>⟧</b> 5,430 ft <code>x</code></p>'
    )

    assert pseudo.outside(html) == ["<p> out", "<b title> over"]


def test_the_words_of_the_trade_are_those_of_the_work() -> None:
    lists = (METHODS, SIZES, PACKS, BURNER_KINDS, WALLS, LEAVES, tuple(WORK), tuple(AIMS))

    assert set(TRADE) == {word for words in lists for word in words}


def test_a_catalogue_of_brackets_holds_every_message(tmp_path: Path) -> None:
    pseudo.write_catalogue(tmp_path)

    assert (tmp_path / f"{pseudo.LANGUAGE}.po").read_text("utf-8").count("\nmsgid ") > 400
