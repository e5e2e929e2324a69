"""A checker of solved days that shares no code with the model.

It walks minute by minute through what a solution says and complains of every rule broken:
DESIGN section 5. It knows only the problem's plain data.
"""

from stillroom.day.problem import Problem
from stillroom.day.solver.solution import Solution, SolvedLoad


def complaints(problem: Problem, solution: Solution) -> list[str]:
    """Every rule the solution breaks, in words; none when it keeps them all."""
    told: list[str] = []
    jobs, ovens = problem.jobs, problem.ovens

    placed = [0] * len(jobs)
    for load in solution.loads:
        oven = ovens[load.canner]
        label = f"load on {oven.name} at {load.fill.start}"
        room = 0.0
        families, longest, slowest_pot, warming, cool = set(), 0, 0, 0, 0
        prep_work, fill_work = 0, 0
        for j, w, count in load.jars:
            job, way = jobs[j], jobs[j].ways[w]
            placed[j] += count
            room += count / way.capacity
            families.add((way.process.psi, job.hot))
            longest = max(longest, way.process.minutes)
            slowest_pot = max(slowest_pot, job.heat)
            warming = max(warming, way.heat + way.come_up)
            cool = max(cool, way.cool)
            prep_work += 0 if job.make else job.prep_tenths * count
            fill_work += job.fill_tenths * count
            if way.canner != load.canner:
                told.append(f"{label}: {job.name} by a row of another canner")
            if count < 1:
                told.append(f"{label}: {job.name} with {count} jars")
        if room > 1 + 1e-9:
            told.append(f"{label}: overfull")
        if len(families) != 1:
            told.append(f"{label}: mixes pressure or pack {families}")
        for j, w, _ in load.jars:
            if longest > jobs[j].ways[w].process.minutes + problem.most_extra:
                told.append(f"{label}: {jobs[j].name} processed too long")
        hands = sum(load.prep.hands)
        if prep_work and (load.prep.end - load.prep.start) * hands * 10 < prep_work:
            told.append(f"{label}: preparation too short for its hands")
        if 10 * (load.fill.end - load.fill.start) < fill_work + 10 * problem.load:
            told.append(f"{label}: filling too short")
        if load.unload.end - load.unload.start != problem.unload:
            told.append(f"{label}: unloading has the wrong length")
        if not load.prep.end <= load.heat_start:
            told.append(f"{label}: heated before it is cut")
        if load.fill.start != load.heat_start + slowest_pot:
            told.append(f"{label}: hot food waits to be filled")
        if load.lid_on != load.fill.end:
            told.append(f"{label}: filled jars wait")
        run = warming + oven.vent + longest
        # What follows a process starts at the next five-minute mark, never before its end.
        if not run <= load.heat_off - load.lid_on < run + 5:
            told.append(f"{label}: heat is on {load.heat_off - load.lid_on} min, not {run}")
        if load.open - load.heat_off != cool + oven.wait:
            told.append(f"{label}: opened before or after its cool-down")
        if load.unload.start < load.open:
            told.append(f"{label}: unloaded before it may be opened")
        for j, _, _ in load.jars:
            job = jobs[j]
            if job.perishable and not job.make:
                meets = load.heat_start if job.hot else load.lid_on
                if meets - load.prep.start > problem.room_temperature_limit:
                    told.append(f"{label}: raw {job.name} stands out too long")
        for batch in solution.batches:
            if any(j == batch.job for j, _, _ in load.jars) and load.heat_start < batch.ready:
                told.append(f"{label}: filled before its pot is ready")
        told += _pins(problem, load, label)
    told += _first(problem, solution)
    for j, job in enumerate(jobs):
        if placed[j] != job.count:
            told.append(f"{job.name}: {placed[j]} jars placed of {job.count}")
    for batch in solution.batches:
        if batch.ready - batch.start != jobs[batch.job].make or batch.start != batch.prep.end:
            told.append(f"{jobs[batch.job].name}: its pot has the wrong length")

    for minute in range(problem.horizon + 1):
        told += _at(problem, solution, minute)
    latest = max((load.unload.end for load in solution.loads), default=0)
    if solution.finish != latest:
        told.append(f"finish {solution.finish} is not the last unloading {latest}")
    if solution.bound > solution.finish:
        told.append("the bound lies above the finish")
    return told


def _pins(problem: Problem, load: SolvedLoad, label: str) -> list[str]:
    """What one load breaks of the person's pins and of what people leave to others."""
    told = []
    oven = problem.ovens[load.canner]
    for j, _, _ in load.jars:
        job = problem.jobs[j]
        if min(load.prep.start, load.heat_start) < job.not_before:
            told.append(f"{label}: {job.name} before its hour")
        if job.done_by is not None and load.unload.end > job.done_by:
            told.append(f"{label}: {job.name} after its hour")
    if problem.jars_wait is not None and load.lid_on - load.fill.start > problem.jars_wait:
        told.append(f"{label}: filled jars wait too long")
    if problem.heat_off_by is not None and load.heat_off > problem.heat_off_by:
        told.append(f"{label}: on heat after the day's hour")
    if any(load.fill.start < b and a < load.unload.end for a, b in oven.out):
        told.append(f"{label}: in a canner that is out")
    pressure = oven.method != "boiling-water"
    for c, crew in enumerate(problem.crews):
        barred = "lifting" in crew.leaves or (pressure and "pressure canner" in crew.leaves)
        if barred and (load.fill.hands[c] or load.unload.hands[c]):
            told.append(f"{label}: handled by who leaves it to others")
    return told


def _first(problem: Problem, solution: Solution) -> list[str]:
    """Loads that go in before the order pinned to be first."""
    first = {j for j, job in enumerate(problem.jobs) if job.first}
    if not first:
        return []
    own = [s for s in solution.loads if any(j in first for j, _, _ in s.jars)]
    others = [s for s in solution.loads if s not in own]
    opening = min(s.fill.start for s in own)
    told = [f"load at {s.fill.start} goes in before the first" for s in others
            if s.fill.start < opening]  # fmt: skip
    told += [
        f"canner {s.canner} takes other food before the first"
        for s in others
        if any(o.canner == s.canner and o.fill.start > s.fill.start for o in own)
    ]
    return told


def _at(problem: Problem, solution: Solution, minute: int) -> list[str]:
    """Resources at one minute."""
    told = []

    def on(start: int, end: int) -> bool:
        return start <= minute < end

    canners, all_burners, watched = 0, 0, False
    cutting = sum(sum(x.prep.hands) * on(x.prep.start, x.prep.end) for x in solution.loads)
    cutting += sum(sum(b.prep.hands) * on(b.prep.start, b.prep.end) for b in solution.batches)
    if problem.counters is not None and cutting > problem.counters:
        told.append(f"minute {minute}: more hands at the counter than places")
    busy: list[int] = [0] * len(problem.ovens)
    at_work = [0] * len(problem.crews)
    for load in solution.loads:
        own_plug = problem.ovens[load.canner].own_plug
        busy[load.canner] += on(load.fill.start, load.unload.end)
        if on(load.fill.start, load.heat_off) and not own_plug:
            canners += 1
            all_burners += 1
        if any(problem.jobs[j].heat for j, _, _ in load.jars):
            all_burners += on(load.heat_start, load.lid_on)
        watched |= on(load.heat_start, load.heat_off)
        for work in (load.prep, load.fill, load.unload):
            for c, hands in enumerate(work.hands):
                at_work[c] += hands * on(work.start, work.end)
    for batch in solution.batches:
        all_burners += on(batch.start, batch.empty)
        watched |= on(batch.start, batch.empty)
        for c, hands in enumerate(batch.prep.hands):
            at_work[c] += hands * on(batch.prep.start, batch.prep.end)
    there = [
        0 if any(on(a, b) for a, b in crew.away) else len(crew.names) for crew in problem.crews
    ]
    at_work = [
        n + sum(k for a, b, k in crew.taken if on(a, b))
        for n, crew in zip(at_work, problem.crews, strict=True)
    ]
    canners += sum(on(a, b) for a, b, canner in problem.taken_burners if canner)
    all_burners += sum(on(a, b) for a, b, _ in problem.taken_burners)
    if canners > problem.canner_burners or all_burners > problem.burners:
        told.append(f"minute {minute}: too many burners")
    if any(n > 1 for n in busy):
        told.append(f"minute {minute}: two loads in one canner")
    if any(n > people for n, people in zip(at_work, there, strict=True)):
        told.append(f"minute {minute}: more hands than people")
    if watched and not any(there):
        told.append(f"minute {minute}: something on heat and nobody there")
    for load in solution.loads:
        pressure = problem.ovens[load.canner].method != "boiling-water"
        minds = [
            n and not (pressure and "pressure canner" in crew.leaves)
            for n, crew in zip(there, problem.crews, strict=True)
        ]
        if on(load.heat_start, load.heat_off) and not any(minds):
            told.append(f"minute {minute}: nobody there who answers for a canner on heat")
    return told
