"""Band edges in metres, and that no text makes the readers of elevations and clocks fail."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.processes import lookup
from stillroom.units.clock import parse_clock
from stillroom.units.elevation import parse_elevation

# The last foot of every band that AIB-539 prints (Guide 1, selecting the processing time).
EDGES = (1000, 2000, 3000, 4000, 6000, 8000)
FOOT = Fraction("0.3048")  # metres, exactly (international foot)


def metres(exact: Fraction) -> str:
    """An exact length as decimal text, with four places so that no dot can mean thousands."""
    ten_thousandths = exact * 10_000
    assert ten_thousandths.denominator == 1
    whole, part = divmod(ten_thousandths.numerator, 10_000)
    return f"{whole}.{part:04d} m"


@pytest.mark.parametrize("edge", EDGES)
def test_the_exact_metres_of_a_band_s_last_foot_stay_in_that_band(edge: int) -> None:
    assert parse_elevation(metres(edge * FOOT)) == edge


@pytest.mark.parametrize("edge", EDGES)
def test_a_tenth_of_a_millimetre_more_is_the_next_foot_and_so_the_next_band(edge: int) -> None:
    assert parse_elevation(metres(edge * FOOT + Fraction("0.0001"))) == edge + 1


def test_beans_change_pressure_at_the_printed_edge_in_feet_and_in_metres() -> None:
    """AIB-539 Guide 4 p. 4-8, dial gauge: 11 lb to 2,000 ft, 12 lb to 4,000, 13 to 6,000, 14."""

    def pounds(elevation: str) -> int | None:
        answer = lookup("snap beans", jar="pint", method="dial-gauge", elevation=elevation)
        return answer.processes[0].psi

    told = [pounds(f"{edge} ft") for edge in (2000, 2001, 4000, 4001, 6000, 6001)]
    # 2,000 ft is 609.6 m, 4,000 ft 1,219.2 m and 6,000 ft 1,828.8 m.
    in_metres = ("609.6 m", "609.7 m", "1219.2 m", "1219.3 m", "1828.8 m", "1828.9 m")

    assert told == [11, 12, 12, 13, 13, 14]
    assert [pounds(text) for text in in_metres] == told


def test_the_dead_sea_is_in_the_lowest_band() -> None:
    answer = lookup("snap beans", jar="pint", method="dial-gauge", elevation="-430 m")

    assert [p.psi for p in answer.processes] == [11]


@given(st.integers(0, 20_000), st.integers(0, 20_000))
def test_more_feet_never_read_as_fewer(one: int, other: int) -> None:
    assert (parse_elevation(f"{one} ft") <= parse_elevation(f"{other} ft")) == (one <= other)


TEXTS = st.text(alphabet=st.sampled_from("0123456789.,:' -+ftm½²٣\n"), max_size=14) | st.text()


@given(TEXTS)
def test_any_text_is_an_elevation_or_gets_a_message_that_quotes_it(text: str) -> None:
    try:
        assert parse_elevation(text, "--elevation") <= 20_000
    except InputError as wrong:
        assert str(wrong).startswith("--elevation: ")
        assert text in str(wrong)


@given(TEXTS)
def test_any_text_is_a_clock_time_or_gets_a_message_that_quotes_it(text: str) -> None:
    try:
        assert 0 <= parse_clock(text, "start") <= 24 * 60
    except InputError as wrong:
        assert str(wrong).startswith("start: ")
        assert text in str(wrong)
