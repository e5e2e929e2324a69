"""Every page, in three sizes, light and dark: what axe finds, and what a thumb and an eye would."""

import pytest
from playwright.sync_api import Page

from tests.browser.addresses import STATUS, every
from tests.browser.looking import (
    larger_text,
    out_of_order,
    shifts,
    small_targets,
    too_wide,
    violations,
)
from tests.browser.opening import DESKTOP, PHONE, SIZES, TABLET, Windows

DRAWN = ("color-contrast", "target-size", "scrollable-region-focusable")


def _resized(page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})


@pytest.mark.parametrize("address", every())
def test_a_page_serves_everyone_in_every_size_and_light(windows: Windows, address: str) -> None:
    """Axe-core's WCAG 2.2 AA rules; targets of 44 px; no scrolling sideways, at 200 % text too."""
    if address in STATUS:
        windows.watch.expect(f"status of {STATUS[address]}")
    page = windows.open(address, PHONE)

    wrong = {"shift": shifts(page), "small": small_targets(page), "order": out_of_order(page)}
    for name, size in SIZES.items():
        _resized(page, size)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            # The markup is the same in all six; the light and the size change these alone.
            rules = DRAWN if wrong.get("phone, light") is not None else ()
            wrong[f"{name}, {scheme}"] = violations(page, *rules)
        wrong[f"{name}, wide"] = too_wide(page)
    for size in (PHONE, TABLET, DESKTOP):
        _resized(page, size)
        larger_text(page)
        wrong[f"{size[0]} px, 200 %"] = too_wide(page)

    assert {what: told for what, told in wrong.items() if told} == {}


BEGINNING = ("/", "/foods/snap%20beans", "/recipes", "/days", "/days/new", "/kitchen", "/changes")


def test_pages_of_a_household_that_has_written_nothing_serve_everyone(
    empty_windows: Windows,
) -> None:
    page = empty_windows.open("/", PHONE)
    wrong = {}
    for address in BEGINNING:
        page.goto(address)
        for size in (PHONE, DESKTOP):
            _resized(page, size)
            wrong[address, size] = [
                *shifts(page), *small_targets(page), *too_wide(page), *violations(page),
            ]  # fmt: skip

    assert {what: told for what, told in wrong.items() if told} == {}
