"""Small days solved by trying everything: every split into loads, every order of the work.

For a day without limits on waiting, some order of the tasks, each started as early as the tasks
before it in that order allow, gives an earliest finish (the list-scheduling theorem for regular
objectives). So all splits of jars into loads, all sequences of loads on canners, all hands for
the cutting and all task orders are tried. It knows the problem's plain data and nothing of the
model. All lengths must be multiples of five minutes, so that starts are too. Perishable food,
shifts and pots made once are left to the other tests.

Pins fit the same theorem: an earliest hour is a release, an hour to be done by drops an order of
work that misses it, a break is work placed before all else, and what goes in first is placed
first.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise, product

from stillroom.day.problem import STEP, Problem


@dataclass(frozen=True)
class Run:
    """One load with its jars fixed: lengths of its three pieces of hand work and of its run."""

    canner: int
    work: int
    pot: int
    fill: int
    heat: int
    closed: int
    not_before: int
    done_by: int
    first: bool


def earliest_finish(problem: Problem) -> int | None:
    """The least finish over all plans, or ``None`` where there is no way to place the jars."""
    best: int | None = None
    for loads in _splits(problem):
        for hands in product(range(1, problem.most_hands + 1), repeat=len(loads)):
            people = sum(len(c.names) for c in problem.crews)
            if max(hands, default=0) <= people:
                best = _try_orders(problem, loads, hands, people, best)
    return best if best is None or best <= problem.horizon else None


def _splits(problem: Problem) -> Iterator[list[Run]]:
    """Every way to put the jars into a sequence of loads on each canner."""
    slots = []
    for canner in range(len(problem.ovens)):
        most = sum(
            -(-job.count // way.capacity)
            for job in problem.jobs
            for way in job.ways
            if way.canner == canner
        )
        slots += [(canner, place) for place in range(most)]
    per_job = [list(_spread(problem, j, slots)) for j in range(len(problem.jobs))]
    seen = set()
    for choice in product(*per_job):
        loads = []
        for s, (canner, _) in enumerate(slots):
            inside = [(j, n[s]) for j, n in enumerate(choice) if n[s]]
            loads.append((canner, tuple(inside)))
        # Unused slots come last on a canner; a used slot after an empty one is the same plan.
        if any(not a[1] and b[1] and a[0] == b[0] for a, b in pairwise(loads)):
            continue
        used = tuple(load for load in loads if load[1])
        if used in seen:
            continue
        seen.add(used)
        runs = [_run(problem, canner, inside) for canner, inside in used]
        kept = [run for run in runs if run is not None]
        late = any(b.first and not a.first for a, b in pairwise(kept) if a.canner == b.canner)
        if len(kept) == len(runs) and not late:
            yield kept


def _spread(problem: Problem, j: int, slots: list[tuple[int, int]]) -> Iterator[tuple[int, ...]]:
    """Every way to spread a job's jars over the slots."""
    job = problem.jobs[j]
    limits = [
        min(job.count, next((w.capacity for w in job.ways if w.canner == canner), 0))
        for canner, _ in slots
    ]
    for counts in product(*(range(limit + 1) for limit in limits)):
        if sum(counts) == job.count:
            yield counts


def _run(problem: Problem, canner: int, inside: tuple[tuple[int, int], ...]) -> Run | None:
    """The load's lengths, or ``None`` where the jars may not share it."""
    jobs = problem.jobs
    ways = {j: next(w for w in jobs[j].ways if w.canner == canner) for j, _ in inside}
    if sum(n / ways[j].capacity for j, n in inside) > 1 + 1e-9:
        return None
    if len({(ways[j].process.psi, jobs[j].hot) for j, _ in inside}) != 1:
        return None
    minutes = max(ways[j].process.minutes for j, _ in inside)
    if any(minutes > ways[j].process.minutes + problem.most_extra for j, _ in inside):
        return None
    oven = problem.ovens[canner]
    fill = sum(jobs[j].fill_tenths * n for j, n in inside) + 10 * problem.load
    return Run(
        canner=canner,
        work=sum(jobs[j].prep_tenths * n for j, n in inside),
        pot=max(jobs[j].heat for j, _ in inside),
        fill=-(-fill // (10 * STEP)) * STEP,
        heat=max(ways[j].heat + ways[j].come_up for j, _ in inside) + oven.vent + minutes,
        closed=max(ways[j].cool for j, _ in inside) + oven.wait,
        not_before=max(jobs[j].not_before for j, _ in inside),
        done_by=min(
            problem.horizon if (due := jobs[j].done_by) is None else due for j, _ in inside
        ),
        first=any(jobs[j].first for j, _ in inside),
    )


def _try_orders(
    problem: Problem, loads: list[Run], hands: tuple[int, ...], people: int, best: int | None
) -> int | None:
    """All orders of cutting, running and unloading that keep each load's own order."""
    pinned = any(load.first for load in loads)

    def place(
        done: tuple[int, ...],
        work: list[tuple[int, int, int]],
        burners: list[tuple[int, int, bool]],
        ends: list[int],
        opened: dict[int, int],
    ) -> None:
        nonlocal best
        if best is not None and max(ends, default=0) >= best:
            return
        if all(stage == 3 for stage in done):
            best = max(ends)
            return
        for k, stage in enumerate(done):
            if stage == 3 or (stage and ends[k] > loads[k].done_by):
                continue
            step = (*done[:k], stage + 1, *done[k + 1 :])
            run = loads[k]
            if stage == 0:
                length = -(-run.work // (10 * STEP * hands[k])) * STEP
                start = _free(work, hands[k], people, run.not_before, length)
                place(
                    step,
                    [*work, (start, start + length, hands[k])] if length else work,
                    burners,
                    [*ends[:k], start + length, *ends[k + 1 :]],
                    opened,
                )
            elif stage == 1:
                before = [i for i in range(k) if loads[i].canner == run.canner]
                if any(done[i] < 3 for i in before):
                    continue
                emptied = max((ends[i] for i in before), default=0)
                own_plug = problem.ovens[run.canner].own_plug
                gone_in = [i for i, at in opened.items() if loads[i].first]
                if pinned and not run.first and not gone_in:
                    continue
                opening = min((opened[i] for i in gone_in), default=0) if not run.first else 0
                start = max(ends[k], emptied - run.pot, opening - run.pot)
                while True:
                    lid = start + run.pot + run.fill
                    spans = [(start, lid, False)] if run.pot else []
                    if not own_plug:
                        spans.append((start + run.pot, lid + run.heat, True))
                    filled = _free(work, 1, people, start + run.pot, run.fill)
                    if filled == start + run.pot and _burners_hold(problem, burners, spans):
                        break
                    start += STEP
                place(
                    step,
                    [*work, (lid - run.fill, lid, 1)],
                    burners + spans,
                    [*ends[:k], lid + run.heat + run.closed, *ends[k + 1 :]],
                    {**opened, k: start + run.pot},
                )
            else:
                start = _free(work, 1, people, ends[k], problem.unload)
                if start + problem.unload > run.done_by:
                    continue
                place(
                    step,
                    [*work, (start, start + problem.unload, 1)],
                    burners,
                    [*ends[:k], start + problem.unload, *ends[k + 1 :]],
                    opened,
                )

    breaks = [span for crew in problem.crews for span in crew.taken]
    place((0,) * len(loads), breaks, [], [0] * len(loads), {})
    return best


def _free(work: list[tuple[int, int, int]], need: int, people: int, after: int, length: int) -> int:
    """The first minute from which enough people are free for so long."""
    start = after
    while any(
        sum(n for a, b, n in work if a <= minute < b) + need > people
        for minute in range(start, start + length, STEP)
    ):
        start += STEP
    return start


def _burners_hold(
    problem: Problem, taken: list[tuple[int, int, bool]], more: list[tuple[int, int, bool]]
) -> bool:
    spans = taken + more
    for a, _, _ in spans:
        at = [canner for x, y, canner in spans if x <= a < y]
        if len(at) > problem.burners or sum(at) > problem.canner_burners:
            return False
    return True
