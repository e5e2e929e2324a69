"""Kitchen amounts as they are said: rounded to a spoon and cup set."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.units.amounts import COUNTS, Amount, parse_amount
from stillroom.units.speech import say, say_metric

ANY = st.builds(
    Amount,
    st.fractions(Fraction(1, 1000), 90_000, max_denominator=1000),
    st.sampled_from(["tsp", "g", *COUNTS]),
)


@pytest.mark.parametrize(
    ("exact", "text"),
    [
        ("336 tsp", "7 cups"),
        ("2.2 tsp", "2 1/4 tsp"),
        ("9 tsp", "3 Tbsp"),
        ("38 cups", "9 1/2 quarts"),
        ("2.95 tsp", "1 Tbsp"),  # rounding reaches the next measure
        ("14 Tbsp", "7/8 cup"),  # 14/16
        ("0.01 tsp", "1/8 tsp"),  # never said as nothing
        ("12 cups", "12 cups"),
        ("805 g", "1.8 lb"),  # 805 / 453.6 = 1.77
        ("14 lb", "14 lb"),
        ("5 oz", "5 oz"),
        ("3 g", "3 g"),
        ("5 cloves", "5 cloves"),
        ("1 head", "1 head"),
        ("0.7 leaf", "1/2 leaf"),
        ("3", "3"),
    ],
)
def test_an_amount_is_said_as_a_kitchen_says_it(exact: str, text: str) -> None:
    assert say(parse_amount(exact)) == text


def test_what_is_not_poured_stays_in_cups() -> None:
    assert say(parse_amount("21 cups"), poured=False) == "21 cups"
    assert say(parse_amount("21 cups")) == "5 1/4 quarts"


def test_grams_and_millilitres_are_said_on_request() -> None:
    # A US cup is 236.588 ml, a pound 453.592 g.
    assert say_metric(parse_amount("1 cup")) == "237 ml"
    assert say_metric(parse_amount("1 gallon")) == "3.79 l"
    assert say_metric(parse_amount("1 lb")) == "454 g"
    assert say_metric(parse_amount("5 lb")) == "2.27 kg"
    assert say_metric(parse_amount("1 tsp")) == "4.9 ml"


@given(ANY)
def test_rounding_up_never_goes_below_the_exact_amount(amount: Amount) -> None:
    assert parse_amount(say(amount, round_up=True)).value >= amount.value


@given(ANY, st.booleans(), st.booleans())
def test_what_is_said_reads_back_and_is_said_the_same_again(
    amount: Amount, round_up: bool, poured: bool
) -> None:
    text = say(amount, round_up=round_up, poured=poured)

    read = parse_amount(text)

    assert read.unit == amount.unit
    assert say(read, round_up=round_up, poured=poured) == text


@given(st.fractions(3, 100_000, max_denominator=1000))
def test_a_volume_of_a_tablespoon_or_more_is_said_within_a_sixth(teaspoons: Fraction) -> None:
    """The widest gap of a spoon set is from 1 to 1 1/3 Tbsp; half of it is a sixth of a Tbsp."""
    said = parse_amount(say(Amount(teaspoons, "tsp")))

    assert abs(said.value / teaspoons - 1) <= Fraction(1, 6)
