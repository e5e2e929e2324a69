"""Prices as a shop writes them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.units.amounts import parse_amount
from stillroom.units.prices import money, parse_price


@pytest.mark.parametrize(
    ("said", "amount", "cost"),
    [
        ("1.29 per lb", "10 lb", "12.90"),
        ("$3.99 per 5 lb", "2 1/2 lb", "2.00"),  # 1.995, to the next cent
        ("2 a quart", "1 gallon", "8.00"),
        ("0.75 each", "3", "2.25"),
        ("0.60/head", "2 heads", "1.20"),
        ("4 for 2 lb 8 oz", "5 lb", "8.00"),
    ],
)
def test_a_price_times_an_amount(said: str, amount: str, cost: str) -> None:
    assert money(parse_price(said, "prices").of(parse_amount(amount))) == cost


@pytest.mark.parametrize(
    "said", ["", "1.29", "per lb", "cheap per lb", "1.29 per", "-1 per lb", "1.29 per 0 lb",
             "1.299 per lb", "1.29 per armful", "9999999 per lb", "1 per lb per day"],
)  # fmt: skip
def test_what_is_no_price_is_told_with_an_example(said: str) -> None:
    with pytest.raises(InputError, match=r"line 3: .* is not a price.*\"1.29 per lb\""):
        parse_price(said, "line 3")


def test_a_price_by_the_pound_tells_nothing_of_heads() -> None:
    with pytest.raises(ValueError, match="head is not sold by g"):
        parse_price("1 per lb", "prices").of(parse_amount("2 heads"))


@given(st.text(max_size=30))
def test_any_text_is_a_price_or_a_plain_error(text: str) -> None:
    try:
        assert parse_price(text, "prices").money >= 0
    except InputError as wrong:
        assert "is not a price" in str(wrong)


def test_a_sum_is_told_to_the_cent_and_never_below() -> None:
    assert money(Fraction(1, 3)) == "0.34"
    assert money(Fraction(123_456_789, 100)) == "1,234,567.89"
