"""A day written and planned in a real browser, with scripts and without, found usable by axe."""

import re

from playwright.sync_api import Page, expect

from tests.browser.looking import small_targets, too_wide, violations
from tests.browser.opening import DESKTOP, Windows

# Longer than a plan takes, on a machine that is busy with other work.
LONG = 120_000


def _written(page: Page) -> None:
    page.get_by_label("Recipe", exact=True).first.select_option("dilled-beans")
    page.get_by_label("Jars", exact=True).first.fill("8")
    page.get_by_label("Start", exact=True).fill("08:00")
    page.get_by_label("Finish by", exact=True).fill("18:00")


def test_what_a_day_takes_follows_the_typing_and_a_row_comes_without_a_new_page(
    windows: Windows,
) -> None:
    page = windows.open("/days/new", DESKTOP)
    page.evaluate("window.stillHere = true")
    _written(page)

    expect(page.locator("#at-once")).to_contain_text("lids: 8 new ones needed")
    page.get_by_role("button", name="Another recipe").click()
    expect(page.locator("#order-3-recipe")).to_be_focused()
    page.locator("#order-3-recipe").select_option("berry-jam")

    # Jam is for half-pints only: no other size can be chosen with it.
    expect(page.locator("#order-3-jar")).to_have_value("half-pint")
    assert page.locator("#order-1-jars").input_value() == "8"
    assert page.evaluate("window.stillHere") is True


def test_a_day_is_planned_while_one_looks_on(windows: Windows) -> None:
    page = windows.open("/days/new", DESKTOP)
    page.get_by_label("Date").fill("2026-11-07")
    _written(page)

    page.get_by_role("button", name="Keep and plan").click()
    expect(page.locator("#timetable")).to_be_visible(timeout=LONG)

    expect(page.locator("main")).to_contain_text("8 jars in 1 load.")
    page.get_by_role("button", name="Another helper, all day").click()
    expect(page.locator(".tried")).to_contain_text(re.compile("at \\d+:\\d\\d"), timeout=LONG)
    page.get_by_role("button", name="Find out why").click()
    expect(page.locator(".chain")).to_be_visible(timeout=LONG)
    assert violations(page) == []


def test_a_day_is_planned_with_scripts_off_and_made_anew_at_noon(windows: Windows) -> None:
    page = windows.open("/days/new", scripts=False)
    page.get_by_label("Date").fill("2026-11-14")
    _written(page)
    page.get_by_role("button", name="Keep and plan").click()
    expect(page.locator("#timetable")).to_be_visible(timeout=LONG)

    page.get_by_role("link", name="Plan the rest from now").click()
    page.get_by_label("Time", exact=True).fill("08:10")
    page.get_by_label("Minutes late").fill("20")
    page.get_by_role("button", name="Plan the rest").click()

    expect(page.locator("main")).to_contain_text("Planned anew at 8:10.", timeout=LONG)


def test_every_slip_of_a_form_is_met_from_the_top_of_the_page(windows: Windows) -> None:
    windows.watch.expect("status of 422")
    page = windows.open("/days/new")
    page.get_by_label("Recipe", exact=True).first.select_option("dilled-beans")

    page.get_by_role("button", name="Keep", exact=True).click()

    expect(page.get_by_role("alert")).to_be_focused()
    page.get_by_role("link", name="Say how many jars.").click()
    assert page.evaluate("document.activeElement.id") == "order-1-jars"
    assert violations(page) == [] and small_targets(page) == [] and too_wide(page) == []
