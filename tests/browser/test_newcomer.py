"""From nothing written to a printed day, as somebody new to the pages does it.

The figures on the way are those of USDA AIB-539 (1994), Guide 4, p. 4-8: snap beans, quarts, dial
gauge, 4,001 to 6,000 ft: 25 minutes at 13 lb.
"""

import re
from pathlib import Path

import pypdfium2
import pytest
from playwright.sync_api import expect

from tests.browser.opening import DESKTOP, PHONE, TABLET, Windows

# The solver's process is started, the day is solved and its sheets are set.
PLANNED_WITHIN = 90_000


def text_of(pdf: Path) -> str:
    """All text of a PDF, its lines joined."""
    document = pypdfium2.PdfDocument(pdf)
    text = " ".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    return " ".join(text.split())


@pytest.mark.parametrize("size", [PHONE, TABLET, DESKTOP], ids=["phone", "tablet", "desktop"])
def test_a_newcomer_comes_from_nothing_to_a_printed_day(
    empty_windows: Windows, tmp_path: Path, size: tuple[int, int]
) -> None:
    # The tablet's person runs no scripts; the way is the same.
    page = empty_windows.open("/", size, scripts=size != TABLET)
    rooms = page.get_by_role("navigation", name="Rooms")

    # The first answer: a food and an elevation, nothing else.
    page.get_by_label("Food").fill("green beans")
    page.get_by_label("Elevation of your kitchen").fill("5,430 ft")
    page.get_by_role("button", name="Show the process").click()
    dial = page.get_by_role("region", name="dial-gauge")
    expect(dial).to_contain_text("25 min")
    expect(dial).to_contain_text("13 lb")
    expect(page.get_by_text("Guide 4 p. 4-8")).to_be_visible()

    # The kitchen: where it stands, and one canner.
    rooms.get_by_role("link", name="Kitchen").click()
    page.get_by_label("Elevation, with its unit").fill("5,430 ft")
    page.get_by_label("Kind").select_option("dial-gauge")
    page.get_by_role("button", name="Keep my kitchen").click()
    expect(page.get_by_role("status")).to_be_visible()

    # A recipe, looked at.
    rooms.get_by_role("link", name="Recipes").click()
    page.get_by_role("link", name=re.compile("^Snap beans")).click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Snap beans")

    # A day of it.
    rooms.get_by_role("link", name="Days").click()
    page.get_by_role("link", name="A new day").click()
    first = page.get_by_role("group", name="Recipe 1")
    first.get_by_label("Recipe", exact=True).select_option("snap-beans")
    first.get_by_label("Jars").fill("7")
    first.get_by_label("Size").select_option("quart")
    page.get_by_role("group", name="Helper 1").get_by_label("Name").fill("Marit")
    page.get_by_role("button", name="Keep and plan").click()

    # Its plan, and the sheet for the kitchen wall.
    printed = page.get_by_role("link", name=re.compile("day sheet", re.IGNORECASE)).first
    expect(printed).to_be_visible(timeout=PLANNED_WITHIN)
    sheet = tmp_path / "day.pdf"
    sheet.write_bytes(page.request.get(str(printed.get_attribute("href"))).body())
    said = text_of(sheet)
    assert "Snap beans" in said
    assert "Marit" in said
    assert "13 lb" in said
    assert "25 min" in said
