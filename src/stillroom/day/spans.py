"""Spans of time as pairs of a start and an end, in one unit."""

from collections.abc import Iterable

from stillroom.day.problem import STEP, steps

Span = tuple[int, int]


def joined(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans that touch or overlap as one, in order; empty ones are left out.

    Examples
    --------
    >>> joined([(60, 90), (0, 30), (30, 40), (50, 50)])
    ((0, 40), (60, 90))
    """
    made: list[Span] = []
    for begin, end in sorted(span for span in spans if span[1] > span[0]):
        if made and begin <= made[-1][1]:
            made[-1] = (made[-1][0], max(end, made[-1][1]))
        else:
            made.append((begin, end))
    return tuple(made)


def without(spans: Iterable[Span], others: Iterable[Span]) -> tuple[Span, ...]:
    """What is left of spans outside others.

    Examples
    --------
    >>> without([(0, 60)], [(10, 20), (50, 90)])
    ((0, 10), (20, 50))
    """
    left: list[Span] = []
    barred = joined(others)
    for begin, end in joined(spans):
        at = begin
        for a, b in barred:
            if a < end and b > at:
                left.append((at, a))
                at = b
        left.append((at, end))
    return joined(left)


def on_steps(spans: Iterable[Span]) -> tuple[Span, ...]:
    """Spans in minutes, widened to whole five-minute steps.

    Examples
    --------
    >>> on_steps([(3, 11)])
    ((0, 15),)
    """
    return joined((a // STEP * STEP, steps(b) * STEP) for a, b in spans)
