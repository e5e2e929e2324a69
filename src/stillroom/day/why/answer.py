"""Everything that explains a plan, in one value."""

from dataclasses import dataclass

from stillroom.day.plan import Plan
from stillroom.day.solver import Control
from stillroom.day.why.chain import Link, binds, chain
from stillroom.day.why.more import more
from stillroom.day.why.trades import trades

# Each other day is solved for so many seconds: enough for a household's day, and said beside
# what was not proved.
SECONDS = 4.0


@dataclass(frozen=True, slots=True)
class Why:
    """The chain that holds the finish, minutes by what it keeps busy, trades, and what more buys.

    ``trades`` and ``more`` are whole sentences, each the difference of two solved plans.
    """

    links: tuple[Link, ...]
    binds: tuple[tuple[str, int], ...]
    trades: tuple[str, ...]
    more: tuple[str, ...]


def why(plan: Plan, *, seconds: float = SECONDS, control: Control | None = None) -> Why:
    """What binds a plan, what its trades cost and what more would buy.

    Parameters
    ----------
    plan : any plan; of one made during the day only the chain is told
    seconds : for each other day that is solved
    control : its ``stop`` ends the solving; what was found by then is told
    """
    control = control or Control()
    links = chain(plan)
    if plan.now is not None:
        # What could have been otherwise this morning is no help at noon.
        return Why(links, binds(links), (), ())
    return Why(
        links,
        binds(links),
        tuple(trades(plan, seconds, control)),
        tuple(more(plan, seconds, control)),
    )
