"""Tokens, sentences and clauses: nothing of a text is lost on the way."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.recipes.text.sentences import LONGEST, chunks, clauses, sentences
from stillroom.recipes.text.tokens import tokens


@given(st.text())
def test_tokens_joined_are_the_text(text: str) -> None:
    row = tokens(text)

    assert "".join(token.text for token in row) == text
    assert [token.start for token in row] == [
        sum(len(before.text) for before in row[:place]) for place in range(len(row))
    ]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("1 1/2", [Fraction(3, 2)]),
        ("1-1/2", [Fraction(3, 2)]),
        ("1½", [Fraction(3, 2)]),
        ("2 ⅓", [Fraction(7, 3)]),
        ("3/4", [Fraction(3, 4)]),
        ("1⁄2", [Fraction(1, 2)]),
        ("0.25", [Fraction(1, 4)]),
        (".5", [Fraction(1, 2)]),
        ("1,250", [Fraction(1250)]),
        ("2-3", [Fraction(2), Fraction(3)]),
        ("1/0", []),
        ("12345678901", []),
    ],
)
def test_numbers_as_cards_write_them(text: str, values: list[Fraction]) -> None:
    assert [token.value for token in tokens(text) if token.sort == "number"] == values


def test_a_digit_of_another_script_is_no_number() -> None:
    assert [token.sort for token in tokens("٣")] == ["sign"]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Leave 1/4 in. headspace. Process 35 min. Cool.", 3),
        ("2 c. sugar", 1),
        ("Boil 5 min. 1 T lemon juice per pt.", 2),
        ("Add 2 tsp. salt to each qt. Seal.", 2),
        ("Is it done? Yes! Cool.", 3),
        ("1.5 lb pears", 1),
        ("", 0),
    ],
)
def test_a_period_behind_an_abbreviation_ends_no_sentence(text: str, count: int) -> None:
    assert len(sentences(text)) == count


@given(st.text(alphabet="ab .,;\n!1", max_size=3000))
def test_sentences_keep_every_letter_and_stay_short(text: str) -> None:
    made = sentences(text)

    assert "".join("".join(made).split()) == "".join(text.split())
    assert all(0 < len(one) <= LONGEST for one in made)


def test_a_long_run_without_spaces_is_cut() -> None:
    assert [len(piece) for piece in chunks("a" * 1500, 600)] == [600, 600, 300]


def test_clauses_part_at_then() -> None:
    assert clauses("Boil 2 min, then cool; drain") == ["Boil 2 min", "cool", "drain"]
