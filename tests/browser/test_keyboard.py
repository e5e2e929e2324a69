"""The whole way by keyboard alone: by Tab and Enter, and always seen where one is."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.opening import DESKTOP, PHONE, Windows

PLANNED_WITHIN = 45_000
MOST_STEPS = 80
# Where the keyboard is: its name, and what is wrong with how that is shown. A focus that is wholly
# covered by something else fails WCAG 2.2, 2.4.11; one that cannot be seen fails 2.4.7.
_FOCUS = """() => {
  const one = document.activeElement;
  if (!one || one === document.body) return ["", ""];
  const name = (one.getAttribute("aria-label") || (one.labels && one.labels[0]?.innerText)
    || one.innerText || one.value || one.name || "").trim();
  const style = getComputedStyle(one);
  if (one.id === "main") return [name, ""];
  if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 2) {
    return [name, "has no outline"];
  }
  const box = one.getBoundingClientRect();
  const seen = [0.1, 0.5, 0.9].some((x) => [0.1, 0.5, 0.9].some((y) => {
    const hit = document.elementFromPoint(box.x + box.width * x, box.y + box.height * y);
    return hit && (hit === one || one.contains(hit) || hit.contains(one));
  }));
  return [name, seen ? "" : `is covered at ${Math.round(box.x)}, ${Math.round(box.y)}`];
}"""


def _reach(page: Page, name: str, *, exact: bool = False) -> None:
    """Press Tab until the thing of that name has the focus; every step on the way is seen."""
    for _ in range(MOST_STEPS):
        page.keyboard.press("Tab")
        at, wrong = page.evaluate(_FOCUS)
        assert not wrong, f'{page.url}: "{at}" {wrong}'
        if at == name if exact else at.startswith(name):
            return
    raise AssertionError(f'{page.url}: no Tab leads to "{name}"')


def _enter(page: Page, name: str, *, exact: bool = False) -> None:
    _reach(page, name, exact=exact)
    with page.expect_navigation():
        page.keyboard.press("Enter")


def _write(page: Page, name: str, text: str) -> None:
    _reach(page, name)
    page.keyboard.press("Control+A")
    page.keyboard.type(text)


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_a_day_is_planned_and_its_sheet_reached_by_keyboard_alone(
    empty_windows: Windows, size: tuple[int, int]
) -> None:
    page = empty_windows.open("/", size)

    # The first thing Tab meets leads past the rooms.
    page.keyboard.press("Tab")
    expect(page.locator(":focus")).to_have_text("Skip to the page")
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()

    _write(page, "Food", "green beans")
    _write(page, "Elevation of your kitchen", "5,430 ft")
    _enter(page, "Show the process")
    expect(page.get_by_role("region", name="dial-gauge")).to_contain_text("13 lb")

    _enter(page, "Kitchen", exact=True)
    _write(page, "Elevation", "5,430 ft")
    _reach(page, "Kind")
    page.keyboard.type("dial")
    _enter(page, "Keep my kitchen")
    expect(page.get_by_role("status")).to_be_visible()

    _enter(page, "Days", exact=True)
    _enter(page, "A new day")
    _reach(page, "Recipe", exact=True)
    page.keyboard.type("Snap")
    _write(page, "Jars", "7")
    _reach(page, "Size")
    page.keyboard.type("quart")
    _write(page, "Name", "Marit")
    _enter(page, "Keep and plan")
    expect(page.locator("#timetable")).to_be_visible(timeout=PLANNED_WITHIN)
    _reach(page, "Print the day sheet")
