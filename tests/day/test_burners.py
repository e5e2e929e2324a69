"""A burner for everything on heat: canners stay, pots move only where nothing else is left."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.day.burners import Span, Stand, place


def test_a_pot_leaves_the_canner_burners_to_the_canners() -> None:
    """Two burners, the first carries canners: the pot takes the second though it comes first."""
    spans = [Span("pot", 0, 30, False), Span("canner", 10, 40, True)]

    assert place(spans, 2, 1) == {"pot": (Stand(2, 0, 30),), "canner": (Stand(1, 10, 40),)}


def test_a_pot_moves_only_when_nothing_else_is_left() -> None:
    """Burner 1 carries canners 0-20 and 40-60, so the first pot stands on burner 2 from 0 to 40.

    The second pot, 30-60, has burner 1 until 40 and burner 2 from then on.
    """
    spans = [
        Span("early canner", 0, 20, True),
        Span("late canner", 40, 60, True),
        Span("first pot", 0, 40, False),
        Span("second pot", 30, 60, False),
    ]

    placed = place(spans, 2, 1)

    assert placed["first pot"] == (Stand(2, 0, 40),)
    assert placed["second pot"] == (Stand(1, 30, 40), Stand(2, 40, 60))


def test_more_canners_than_burners_for_them_is_a_fault_of_the_caller() -> None:
    with pytest.raises(ValueError, match="more canners"):
        place([Span("a", 0, 10, True), Span("b", 5, 15, True)], 2, 1)


@st.composite
def crowds(draw: st.DrawFn) -> tuple[list[Span], int, int]:
    """Spans that fit at every moment, on four burners of which two carry canners."""
    spans: list[Span] = []
    for n in range(draw(st.integers(0, 10))):
        start = draw(st.integers(0, 50))
        span = Span(f"{n}", start, start + draw(st.integers(1, 30)), draw(st.booleans()))
        more = [*spans, span]
        at_once = [[s for s in more if s.start <= t < s.end] for t in range(span.start, span.end)]
        if all(len(s) <= 4 and sum(x.canner for x in s) <= 2 for s in at_once):
            spans.append(span)
    return spans, 4, 2


@given(crowds())
def test_every_moment_is_covered_and_no_burner_is_doubled(
    crowd: tuple[list[Span], int, int],
) -> None:
    spans, burners, canner_burners = crowd

    placed = place(spans, burners, canner_burners)

    for span in spans:
        stands = placed[span.owner]
        assert stands[0].start == span.start
        assert stands[-1].end == span.end
        assert all(a.end == b.start for a, b in pairwise(stands))
        if span.canner:
            assert len(stands) == 1
            assert stands[0].burner <= canner_burners
    every = [s for of_owner in placed.values() for s in of_owner]
    for minute in range(81):
        there = [s.burner for s in every if s.start <= minute < s.end]
        assert len(there) == len(set(there))
        assert all(1 <= burner <= burners for burner in there)
