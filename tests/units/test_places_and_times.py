"""Elevations, clock times and jar sizes as people write them."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.units.clock import clock, parse_clock
from stillroom.units.elevation import HIGHEST_FT, parse_elevation
from stillroom.units.jars import FLUID_OUNCES, SIZES, parse_jar, quarts


@pytest.mark.parametrize(
    ("text", "feet"),
    [("5,430 ft", 5430), ("5430ft", 5430), ("5 430 feet", 5430), ("-20 ft", -20), ("0 m", 0),
     ("1655 m", 5430), ("1,655.5 metres", 5432), ("1000.0 ft", 1000), ("1000.5 ft", 1001),
     ("-0.5 ft", 0), ("5200'", 5200)],
)  # fmt: skip
def test_elevations_come_out_in_whole_feet_rounded_up(text: str, feet: int) -> None:
    """1,655 m / 0.3048 = 5,429.8 ft; 1,655.5 m = 5,431.4 ft."""
    assert parse_elevation(text) == feet


@pytest.mark.parametrize(
    "text", ["", "high", "5200", "5200 yd", "ft", "5.2.0 ft", "1e3 ft", "٣ ft m"]
)
def test_what_is_no_elevation_is_told_with_an_example(text: str) -> None:
    with pytest.raises(InputError, match="5200 ft"):
        parse_elevation(text)


def test_an_elevation_above_any_town_asks_for_the_unit() -> None:
    with pytest.raises(InputError, match="unit"):
        parse_elevation(f"{HIGHEST_FT + 1} ft")


@given(st.integers(0, 60_000))
def test_tenths_of_metres_never_cross_a_foot_downwards(tenths: int) -> None:
    """Against an independent unit library: the answer is the next whole foot, never one below."""
    text = f"{tenths / 10} m"
    exact = pint.Quantity(tenths / 10, "metre").to("foot").magnitude

    feet = parse_elevation(text)

    assert exact - 1e-6 <= feet < exact + 1


def test_clock_times_read_and_write_back() -> None:
    assert all(parse_clock(clock(m)) == m for m in range(1441))


@pytest.mark.parametrize("text", ["7.30", "25:00", "7:60", "noon", "24:01", "", "7:5"])
def test_what_is_no_clock_time_is_told(text: str) -> None:
    with pytest.raises(InputError, match="clock time"):
        parse_clock(text)


@pytest.mark.parametrize(
    ("text", "jar"),
    [("quarts", "quart"), ("Pint jars", "pint"), ("half pint", "half-pint"), ("8 oz", "half-pint"),
     ("24 ounce", "1.5-pint"), ("QT", "quart"), ("1-1/2 pint", "1.5-pint"), ("4oz", "4 oz")],
)  # fmt: skip
def test_jar_sizes_are_read_as_people_say_them(text: str, jar: str) -> None:
    assert parse_jar(text) == jar


def test_every_size_reads_as_itself_and_grows_along_the_list() -> None:
    assert [parse_jar(size) for size in SIZES] == list(SIZES)
    assert sorted(FLUID_OUNCES.values()) == list(FLUID_OUNCES.values())
    assert quarts("quart") == 1.0


def test_an_unknown_size_lists_the_sizes_and_the_nearest() -> None:
    with pytest.raises(InputError) as wrong:
        parse_jar("qart")

    assert 'Did you mean "quart"?' in str(wrong.value)
    assert "half-gallon" in str(wrong.value)
