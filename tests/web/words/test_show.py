"""Figures as a household writes them. Expected forms: Unicode CLDR (English, German)."""

from datetime import UTC, date, datetime

from stillroom.web.words.show import Shown

ENGLISH = Shown("en", "us")
GERMAN = Shown("de", "metric")


def test_numbers_carry_the_marks_of_the_language() -> None:
    assert ENGLISH.number(5430) == "5,430"
    assert GERMAN.number(5430) == "5.430"
    assert GERMAN.number(2.5) == "2,5"


def test_dates_are_written_in_the_language() -> None:
    when = date(2026, 10, 17)

    assert ENGLISH.day(when) == "Saturday 17 October 2026"
    assert GERMAN.day(when).startswith("Samstag")
    assert "Oktober 2026" in GERMAN.day(when)
    assert GERMAN.moment(datetime(2026, 10, 17, 9, 5, tzinfo=UTC)).endswith("09:05")


def test_elevation_is_metres_of_1959_feet_in_metric_units() -> None:
    """1 ft = 0.3048 m exactly (the international foot); 5,430 ft are 1,655.06 m."""
    assert ENGLISH.elevation(5430) == "5,430 ft"
    assert GERMAN.elevation(5430) == "1.655 m"


def test_printed_pounds_stay_and_a_conversion_stands_beside() -> None:
    """1 psi = 6,894.757 Pa (NIST SP 811, B.8); 11 lb are 75.8 kPa."""
    assert ENGLISH.pounds_beside(11) == ""
    assert GERMAN.pounds_beside(11) == "76 kPa"


def test_headspace_is_shown_in_the_eighths_of_a_ruler() -> None:
    """1/2 in = 1.27 cm."""
    assert ENGLISH.headspace(0.5) == "½ in"
    assert ENGLISH.headspace(1.25) == "1¼ in"
    assert GERMAN.headspace(0.5) == "½ in (1,3 cm)"


def test_temperature_is_fahrenheit_or_celsius() -> None:
    """Water boils at 373.124 K under one standard atmosphere: 212 °F, 100 °C."""
    assert ENGLISH.temperature(373.124) == "212 °F"
    assert GERMAN.temperature(373.124) == "100 °C"
