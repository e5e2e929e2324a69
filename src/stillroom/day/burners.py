"""Which canner and which pot stands on which burner."""

from dataclasses import dataclass

# Tries before a pot is let move: far more than a household's day needs.
MOST_TRIES = 20_000


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch for which something needs a burner; canners need one that carries them.

    ``on`` is the burner it stands on already, 0 where that is open.
    """

    owner: str
    start: int
    end: int
    canner: bool
    on: int = 0


@dataclass(frozen=True, slots=True)
class Stand:
    """A burner, counted from one, and how long something stands on it."""

    burner: int
    start: int
    end: int


def place(spans: list[Span], burners: int, canner_burners: int) -> dict[str, tuple[Stand, ...]]:
    """A burner for every span, one for as long as it lasts wherever that can be.

    Parameters
    ----------
    spans : never more at once than there are burners, nor more canners than burners for them
    burners, canner_burners : the first ``canner_burners`` of the burners carry canners

    Returns
    -------
    stands by owner. A canner never moves. Where no other way is left a pot has several stands:
    the cook moves it, and the sheet says when and where to.
    """
    ordered = sorted(spans, key=lambda s: (s.start, s.end))
    settled = _settle(ordered, burners, canner_burners)
    if settled is not None:
        return {owner: (stand,) for owner, stand in settled.items()}
    heavy = _settle([s for s in ordered if s.canner], burners, canner_burners)
    if heavy is None:
        raise ValueError("more canners on heat at once than burners that carry one")
    stands: dict[str, tuple[Stand, ...]]
    stands = {owner: (stand,) for owner, stand in heavy.items()}
    for pot in (s for s in ordered if not s.canner):
        taken = [stand for of_owner in stands.values() for stand in of_owner]
        stands[pot.owner] = tuple(_moved(pot, taken, burners))
    return stands


def _settle(spans: list[Span], burners: int, canner_burners: int) -> dict[str, Stand] | None:
    """One burner a span without a move, or ``None``. Pots try the burners canners cannot use."""
    taken: list[list[Span]] = [[] for _ in range(burners)]
    found: dict[str, Stand] = {}
    tries = 0

    def settle(at: int) -> bool:
        nonlocal tries
        tries += 1
        if at == len(spans):
            return True
        if tries > MOST_TRIES:
            return False
        span = spans[at]
        choices = range(canner_burners) if span.canner else range(burners - 1, -1, -1)
        if span.on:
            choices = range(span.on - 1, span.on)
        for n in choices:
            if all(other.end <= span.start for other in taken[n]):
                taken[n].append(span)
                found[span.owner] = Stand(n + 1, span.start, span.end)
                if settle(at + 1):
                    return True
                taken[n].pop()
        return False

    return found if settle(0) else None


def _moved(pot: Span, taken: list[Stand], burners: int) -> list[Stand]:
    """The pot from burner to burner, each time to the one that stays free longest."""
    stands: list[Stand] = []
    at = pot.start
    while at < pot.end:
        until, burner = max((_free_until(n, at, pot.end, taken), -n) for n in range(1, burners + 1))
        if until == at:
            raise ValueError("more on the burners at once than there are burners")
        stands.append(Stand(-burner, at, until))
        at = until
    return stands


def _free_until(burner: int, at: int, end: int, taken: list[Stand]) -> int:
    """How long from now the burner is free; now itself where it is taken."""
    later = [s for s in taken if s.burner == burner and s.end > at]
    return min([end, *(max(s.start, at) for s in later)])
