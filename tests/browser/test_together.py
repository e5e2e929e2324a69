"""Two browsers at once, the browser's own back button, and pages with scripts off."""

from playwright.sync_api import Page, expect

from stillroom.store.days import day
from stillroom.store.kitchens import kitchen
from tests.browser.addresses import STATUS, every
from tests.browser.opening import DESKTOP, PHONE, Windows
from tests.browser.serving import Site
from tests.household import HOUSEHOLD


def _name_kitchen(page: Page, name: str) -> None:
    page.get_by_label("Name", exact=True).first.fill(name)
    page.get_by_role("button", name="Keep").first.click()


def test_two_browsers_change_the_kitchen_and_the_later_one_is_told(
    windows: Windows, site: Site
) -> None:
    windows.watch.expect("status of 409")
    phone, laptop = windows.open("/kitchen/place"), windows.open("/kitchen/place", DESKTOP)

    _name_kitchen(phone, "Upper kitchen")
    _name_kitchen(laptop, "Lower kitchen")

    told = laptop.get_by_role("alert")
    expect(told).to_contain_text("somebody changed this while you did")
    expect(told.get_by_role("row", name="Name")).to_contain_text("Upper kitchen")
    expect(laptop.get_by_label("Name", exact=True).first).to_have_value("Lower kitchen")
    with site.store.read() as s:
        stands = kitchen(s)
    assert stands is not None and stands.document["name"] == "Upper kitchen"

    laptop.get_by_role("button", name="Keep").first.click()

    expect(laptop.get_by_role("status")).to_be_visible()
    with site.store.read() as s:
        stands = kitchen(s)
    assert stands is not None and stands.document["name"] == "Lower kitchen"
    # What was written over is still there to go back to.
    laptop.goto("/changes")
    expect(laptop.locator("main")).to_contain_text("name")


def test_two_browsers_change_a_day_and_the_later_one_is_told(windows: Windows, site: Site) -> None:
    windows.watch.expect("status of 409")
    address = f"/days/{HOUSEHOLD.unplanned}/edit"
    phone, laptop = windows.open(address), windows.open(address, DESKTOP)

    for page, jars in ((phone, "9"), (laptop, "11")):
        page.get_by_label("Jars").first.fill(jars)
        page.get_by_role("button", name="Keep", exact=True).click()

    told = laptop.get_by_role("alert")
    expect(told).to_be_focused()
    expect(told.get_by_role("row", name="Recipe 1: Jars 11 9")).to_be_visible()
    expect(laptop.get_by_label("Jars").first).to_have_value("11")
    with site.store.read() as s:
        stands = day(s, HOUSEHOLD.unplanned)
    assert stands is not None and stands.document["order"][0]["jars"] == 9

    laptop.get_by_role("button", name="Keep", exact=True).click()
    expect(laptop.get_by_role("status")).to_be_visible()


def test_a_day_that_was_taken_off_the_list_meanwhile_is_not_lost_to_who_changed_it(
    windows: Windows,
) -> None:
    windows.watch.expect("status of 4")
    address = f"/days/{HOUSEHOLD.past}"
    phone, laptop = windows.open(address), windows.open(f"{address}/edit", DESKTOP)

    phone.get_by_role("button", name="Remove").click()
    expect(phone.get_by_role("button", name="Undo")).to_be_visible()
    laptop.get_by_label("Jars").first.fill("6")
    laptop.get_by_role("button", name="Keep", exact=True).click()

    expect(laptop.locator("h1")).to_be_visible()
    phone.get_by_role("button", name="Undo").click()
    phone.goto(address)
    expect(phone.locator("main")).to_contain_text("7")


def test_the_back_button_brings_back_what_was_typed(windows: Windows) -> None:
    page = windows.open("/days/new")
    page.get_by_label("Date").fill("2026-12-05")
    page.get_by_label("Jars").first.fill("9")
    page.locator("#order-1-recipe").select_option("carrots")

    page.get_by_role("link", name="Foods").first.click()
    page.go_back()

    expect(page.get_by_label("Date")).to_have_value("2026-12-05")
    expect(page.get_by_label("Jars").first).to_have_value("9")
    expect(page.locator("#order-1-recipe")).to_have_value("carrots")


def test_what_was_pasted_is_there_after_the_back_button(windows: Windows) -> None:
    page = windows.open("/recipes/new")
    page.get_by_label("The recipe").fill("Ridge soup\n2 cups carrots")

    page.get_by_role("link", name="Foods").first.click()
    page.go_back()

    expect(page.get_by_label("The recipe")).to_have_value("Ridge soup\n2 cups carrots")


def test_every_page_reads_the_same_with_scripts_off(windows: Windows) -> None:
    windows.watch.expect("status of 4")
    page = windows.open("/", PHONE, scripts=False)
    wrong = []
    for address in every():
        answer = page.goto(address)
        assert answer is not None
        if answer.status != STATUS.get(address, 200):
            wrong.append(f"{address}: {answer.status}")
        elif not page.locator("main h1").is_visible() or len(page.inner_text("main")) < 60:
            wrong.append(f"{address}: nothing to read")
        elif page.locator("form[action^='javascript'], a[href^='javascript']").count():
            wrong.append(f"{address}: needs scripts")
    assert wrong == []


def test_nothing_moves_for_who_asked_for_no_motion(windows: Windows) -> None:
    page = windows.open(f"/days/{HOUSEHOLD.planned}/plan", still=True)

    moving = page.evaluate(
        """() => [...document.querySelectorAll("*")].filter((one) => {
          const style = getComputedStyle(one);
          return style.animationName !== "none" || parseFloat(style.transitionDuration) > 0;
        }).map((one) => one.outerHTML.slice(0, 80))"""
    )

    assert moving == []
