"""Placing loads one after another, each as early as what stands already allows.

All times are five-minute steps.
"""

from stillroom.day.problem import STEP, Problem, Running, steps
from stillroom.day.solver.bench import (
    Bench,
    FirstBatch,
    FirstHands,
    FirstLoad,
    FirstPlan,
    Rule,
    burners_free,
    empty_bench,
    free_hands,
    take,
    take_burners,
    take_counter,
)


def place_all(problem: Problem, rule: Rule) -> FirstPlan | None:
    """The plan that a rule gives, or ``None`` where its last load does not end in time.

    Parameters
    ----------
    problem : a day in steps
    """
    bench = empty_bench(problem, rule)
    left = [job.count for job in problem.jobs]
    for running in problem.to_unload:
        if not _place_unload(bench, running):
            return None
    # Pots made once go on first: everything else can be done while they simmer.
    for j, job in enumerate(problem.jobs):
        if job.make and job.count and not _place_batch(bench, j):
            return None
    while any(left):
        if not _place_next(bench, left):
            return None
    ends = [load.unload[2] for load in bench.loads] + [end for *_, end in bench.unloads]
    ends += [steps(r.unload.end) for r in problem.running if r.unload]
    return FirstPlan(bench.loads, list(bench.batches.values()), bench.unloads, max(ends, default=0))


def _place_unload(bench: Bench, running: Running) -> bool:
    """The load is emptied as soon as somebody can."""
    problem = bench.problem
    oven = problem.ovens[running.canner]
    for start in range(running.open, problem.horizon - problem.unload + 1):
        crew = free_hands(bench, start, start + problem.unload, oven)
        if crew is not None:
            hands = (crew, start, start + problem.unload)
            take(bench, hands)
            bench.unloads.append(hands)
            bench.emptied[running.canner] = start + problem.unload
            return True
    return False


def _place_batch(bench: Bench, j: int) -> bool:
    problem, job = bench.problem, bench.problem.jobs[j]
    if job.ready is not None:
        nobody = (tuple(0 for _ in problem.crews), problem.now, problem.now)
        for t in range(max(problem.now, job.ready - job.make), problem.horizon):
            bench.burners[t] -= 1
        bench.batches[j] = FirstBatch(j, nobody, job.ready, problem.horizon)
        return True
    size = -(-job.prep_tenths * job.count // (10 * STEP))
    for start in range(job.not_before, problem.horizon):
        ready = start + size + job.make
        if ready >= problem.horizon:
            return False
        crew = free_hands(bench, start, start + size)
        if min(bench.counters[start : start + size], default=1) < 1:
            continue
        burner = all(bench.burners[t] > 0 for t in range(start + size, problem.horizon))
        watched = all(bench.there[t] for t in range(start + size, ready))
        if crew is not None and burner and watched:
            take_counter(bench, (crew, start, start + size))
            # The pot keeps its burner; how long is known when its last jar is filled.
            for t in range(start + size, problem.horizon):
                bench.burners[t] -= 1
            bench.batches[j] = FirstBatch(j, (crew, start, start + size), ready, problem.horizon)
            return True
    return False


def _place_next(bench: Bench, left: list[int]) -> bool:
    """Place one load: the first in the rule's order that can be placed at all."""
    problem = bench.problem
    # What goes in first is placed first; every other order then finds its canner taken.
    pinned = any(n and job.first for n, job in zip(left, problem.jobs, strict=True))
    choices = [
        (bench.rule.order(j, job, way, bench.emptied[way.canner]), j, w)
        for j, job in enumerate(problem.jobs)
        if left[j] and (job.first or not pinned)
        for w, way in enumerate(job.ways)
    ]
    for _, j, w in sorted(choices):
        load = _place(bench, _fill_up(bench, left, j, w))
        if load is None:
            continue
        bench.loads.append(load)
        bench.emptied[load.canner] = load.unload[2]
        for k, _, count in load.jars:
            left[k] -= count
            if problem.jobs[k].make and not left[k]:
                batch = bench.batches[k]
                last = max(o.fill[2] for o in bench.loads if any(of == k for of, _, _ in o.jars))
                batch.empty = max(batch.ready, last, problem.now)
                watched = all(bench.there[t] for t in range(batch.prep[2], batch.empty))
                if not watched or batch.empty > _heat_off_by(problem):
                    return False  # This rule would leave a pot on while nobody is there.
                for t in range(batch.empty, problem.horizon):
                    bench.burners[t] += 1
        return True
    return False


def _fill_up(bench: Bench, left: list[int], j: int, w: int) -> tuple[tuple[int, int, int], ...]:
    """A canner full of one order's jars, topped up with others that may share the load."""
    problem = bench.problem
    job, way = problem.jobs[j], problem.jobs[j].ways[w]
    most = problem.most_jars(job, way)
    if bench.rule.part < 1 or problem.jars_wait is not None:
        count = min(left[j], max(1, round(bench.rule.part * most)))
        return ((j, w, count),)
    count = min(left[j], most)
    jars = [(j, w, count)]
    room = 1 - count / way.capacity
    shortest = longest = way.process.minutes
    for k, other in enumerate(problem.jobs):
        if k == j or not left[k] or other.make or other.perishable:
            continue
        for x, its in enumerate(other.ways):
            fits = min(left[k], int(room * its.capacity + 1e-9))
            low = min(shortest, its.process.minutes)
            high = max(longest, its.process.minutes)
            same = its.canner == way.canner and other.family(its) == job.family(way)
            if same and fits and high - low <= problem.most_extra:
                jars.append((k, x, fits))
                room -= fits / its.capacity
                shortest, longest = low, high
                break
    return tuple(jars)


def _place(bench: Bench, jars: tuple[tuple[int, int, int], ...]) -> FirstLoad | None:
    """The earliest times for a load whose jars are chosen."""
    problem = bench.problem
    jobs, end = problem.jobs, problem.horizon
    j0, w0, _ = jars[0]
    canner = jobs[j0].ways[w0].canner
    oven = problem.ovens[canner]
    cutting = sum(jobs[j].prep_tenths * n for j, _, n in jars if not jobs[j].make)
    people = sum(len(crew.names) for crew in problem.crews)
    places = people if problem.counters is None else problem.counters
    cutters = min(bench.rule.cutters, people, problem.most_hands, places)
    size = -(-cutting // (10 * STEP * cutters))
    filling = sum(jobs[j].fill_tenths * n for j, _, n in jars)
    fill = -(-filling // (10 * STEP)) + problem.load
    if problem.jars_wait is not None and fill > problem.jars_wait:
        return None
    pot = max(jobs[j].heat for j, _, _ in jars)
    run = (
        max(jobs[j].ways[w].warming for j, w, _ in jars)
        + oven.vent
        + max(steps(jobs[j].ways[w].process.minutes) for j, w, _ in jars)
    )
    closed = max(jobs[j].ways[w].cool for j, w, _ in jars) + oven.wait
    ready = max((bench.batches[j].ready for j, _, _ in jars if jobs[j].make), default=0)
    raw = [
        jobs[j]
        for j, _, _ in jars
        if jobs[j].perishable and not jobs[j].make and jobs[j].heat_by is None
    ]
    limit = problem.room_temperature_limit
    not_before = max(jobs[j].not_before for j, _, _ in jars)
    due = min([end, *(d for j, _, _ in jars if (d := jobs[j].done_by) is not None)])
    opening = max(ready, bench.emptied[canner] - pot, _opening(bench, jars) - pot, not_before, 0)
    for heat in range(opening, end):
        lid = heat + pot + fill
        off = lid + run
        if any(
            (lid if not jobs[j].hot else heat) > by
            for j, _, _ in jars
            if (by := jobs[j].heat_by) is not None
        ):
            return None
        if off + closed + problem.unload > due or off > _heat_off_by(problem):
            return None
        if any(heat + pot < b and off + closed + problem.unload > a for a, b in oven.out):
            continue
        filler = free_hands(bench, heat + pot, lid, oven)
        if filler is None or not burners_free(bench, canner, heat, pot, lid, off):
            continue
        take(bench, (filler, heat + pot, lid))
        earliest = max((lid - limit if not job.hot else heat - limit for job in raw), default=0)
        cut = _latest_cut(bench, max(earliest, not_before), heat, size, cutters)
        unload = next(
            (
                (crew, u, u + problem.unload)
                for u in range(off + closed, due - problem.unload + 1)
                if not any(u + problem.unload > a and heat + pot < b for a, b in oven.out)
                and (crew := free_hands(bench, u, u + problem.unload, oven)) is not None
            ),
            None,
        )
        if cut is None or unload is None:
            take(bench, (filler, heat + pot, lid), give_back=True)
            continue
        take_counter(bench, cut)
        take(bench, unload)
        take_burners(bench, canner, heat, pot, lid, off)
        return FirstLoad(
            canner, jars, cut, heat, (filler, heat + pot, lid), off, off + closed, unload
        )
    return None


def _opening(bench: Bench, jars: tuple[tuple[int, int, int], ...]) -> int:
    """When the order pinned to be first went in; 0 for that order itself, or where none is."""
    jobs = bench.problem.jobs
    if any(jobs[j].first for j, _, _ in jars):
        return 0
    first = (load.fill[1] for load in bench.loads if any(jobs[j].first for j, _, _ in load.jars))
    return min(first, default=0)


def _heat_off_by(problem: Problem) -> int:
    return problem.horizon if problem.heat_off_by is None else problem.heat_off_by


def _latest_cut(
    bench: Bench, earliest: int, before: int, size: int, cutters: int
) -> FirstHands | None:
    """The latest stretch in which so many people can cut before the pot goes on."""
    for start in range(before - size, earliest - 1, -1):
        crew = free_hands(bench, start, start + size, wanted=cutters)
        if (
            crew is not None
            and min(bench.counters[start : start + size], default=cutters) >= cutters
        ):
            return (crew, start, start + size)
    return None
