"""A burner for everything on heat: canners never move, pots move only where nothing else is left."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.day.burners import Span, Stand, place


def test_a_pot_leaves_the_canner_burners_to_the_canners() -> None:
    """Two burners, the first carries canners: the pot takes the second though it comes first."""
    spans = [Span("pot", 0, 30, False), Span("canner", 10, 40, True)]

    assert place(spans, 2, 1) == {"pot": (Stand(2, 0, 30),), "canner": (Stand(1, 10, 40),)}


def test_a_pot_moves_only_when_nothing_else_is_left() -> None:
    """Burner 1 is the canners' 0-20 and 40-60; burner 2 another pot's 20-40: the third pot moves."""
    spans = [
        Span("early canner", 0, 20, True),
        Span("late canner", 40, 60, True),
        Span("short pot", 20, 40, False),
        Span("long pot", 0, 60, False),
    ]

    placed = place(spans, 2, 1)

    assert placed["long pot"] == (Stand(2, 0, 60),)
    assert placed["short pot"] == (Stand(1, 20, 40),)
    crowded = [*spans[:2], Span("first pot", 0, 40, False), Span("next pot", 30, 60, False)]
    moved = place([s for s in crowded if s.owner != "early canner"], 2, 1)
    assert sum(len(stands) for stands in moved.values()) == 3


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
        assert all(a.end == b.start for a, b in zip(stands, stands[1:], strict=False))
        if span.canner:
            assert len(stands) == 1
            assert stands[0].burner <= canner_burners
    stands = [s for of_owner in placed.values() for s in of_owner]
    for minute in range(81):
        there = [s.burner for s in stands if s.start <= minute < s.end]
        assert len(there) == len(set(there))
        assert all(1 <= burner <= burners for burner in there)
