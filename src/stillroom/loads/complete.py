"""From a solution whose late loads have no times to a whole plan.

Timed loads keep their order. Late ones go where the change of family costs least, behind the
timed ones or into gaps between them, as long as no jar that was on time becomes late.
"""

from collections import defaultdict
from collections.abc import Sequence

from stillroom.loads.construct import canner_cost
from stillroom.loads.problem import Problem
from stillroom.loads.result import Load
from stillroom.loads.timing import Jars, Placed, family_of, length_of, time_in_order

# Chains of late loads are moved about so many times at most before the order is taken as it is.
MOVES = 400


def complete(
    problem: Problem, timed: Sequence[Load], untimed: Sequence[Placed]
) -> list[Load] | None:
    """A whole plan with these loads; ``None`` where some load found no room."""
    early: dict[int, list[Load]] = defaultdict(list)
    late: dict[int, list[Jars]] = defaultdict(list)
    for load in timed:
        early[load.canner].append(load)
    for k, jars in untimed:
        late[k].append(jars)
    loads: list[Load] = []
    for k in range(len(problem.canners)):
        order = [load.jars for load in sorted(early[k], key=lambda load: load.start)]
        made = order_canner(problem, k, order, late[k])
        if made is None:
            return None
        placed = time_in_order(problem, k, made)
        if placed is None:
            return None
        loads += placed
    return loads


def order_canner(
    problem: Problem, canner: int, order: list[Jars], more: Sequence[Jars]
) -> list[Jars] | None:
    """An order of all loads of one canner that costs little; ``None`` where one has no room."""
    by_family: dict[int, list[Jars]] = defaultdict(list)
    for jars in sorted(more, key=lambda jars: -length_of(problem, jars)):
        by_family[family_of(problem, jars)].append(jars)
    for jars in [jars for f in sorted(by_family) for jars in by_family[f]]:
        made = _put(problem, canner, order, [jars])
        if made is None:
            return None
        order = made
    return improve_order(problem, canner, order)


def improve_order(problem: Problem, canner: int, order: list[Jars]) -> list[Jars]:
    """Move runs of up to three loads to where they cost less until none does."""
    known = canner_cost(problem, canner, order)
    if known is None:
        return order
    cost = (known.own, known.end)
    moves = 0
    better = True
    while better and moves < MOVES:
        better = False
        for length in (1, 2, 3):
            for i in range(len(order) - length + 1):
                moved = _put(
                    problem, canner, order[:i] + order[i + length :], order[i : i + length]
                )
                after = canner_cost(problem, canner, moved) if moved is not None else None
                if after is not None and moved is not None and (after.own, after.end) < cost:
                    order, cost = moved, (after.own, after.end)
                    moves += 1
                    better = True
    return order


def _put(problem: Problem, canner: int, order: list[Jars], run: list[Jars]) -> list[Jars] | None:
    """The order with a run of loads put in where it costs least, rather later than earlier."""
    best: tuple[int, int, int] | None = None
    chosen = None
    for at in range(len(order), -1, -1):
        made = order[:at] + run + order[at:]
        cost = canner_cost(problem, canner, made)
        if cost is not None and (best is None or (cost.own, cost.end, -at) < best):
            best, chosen = (cost.own, cost.end, -at), made
    return chosen
