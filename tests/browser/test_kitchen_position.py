"""A device's own altitude in the kitchen's form: typed for the person, never sent by itself."""

import pytest

from tests.browser.opening import Windows

# Chromium under test tells no altitude of its own; a phone's receiver does.
_DEVICE = "navigator.geolocation.getCurrentPosition = (found, failed) => {}; 0"


def _device(answer: str) -> str:
    return _DEVICE.replace("{}", "{" + answer + "}")


@pytest.mark.parametrize(
    ("answer", "value", "told"),
    [
        (
            "found({coords: {altitude: 1655.4, altitudeAccuracy: 11.2}})",
            "1655 m",
            "1655 m above sea level, give or take 12 m",
        ),
        (
            "found({coords: {altitude: 1655.4, altitudeAccuracy: null}})",
            "1655 m",
            "does not know how far off",
        ),
        ("found({coords: {altitude: null, altitudeAccuracy: null}})", "", "Type it in"),
        ("failed({code: 1})", "", "gave no position"),
    ],
)
def test_what_the_device_says_is_typed_in_and_told_with_its_doubt(
    empty_windows: Windows, answer: str, value: str, told: str
) -> None:
    page = empty_windows.open("/kitchen")
    page.evaluate(_device(answer))

    page.get_by_role("button", name="Use this device's position").click()

    assert page.get_by_label("Elevation").input_value() == value
    assert told in page.locator("[data-told]").inner_text()
    assert "can be off by more than a band" in page.locator(".position").inner_text()


def test_without_scripts_no_button_is_there_that_does_nothing(empty_windows: Windows) -> None:
    page = empty_windows.open("/kitchen", scripts=False)

    assert not page.get_by_text("Use this device's position").is_visible()
