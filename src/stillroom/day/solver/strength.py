"""What the rules imply, said again so that the solver proves sooner; no plan is lost by it."""

from fractions import Fraction
from itertools import pairwise
from math import ceil

from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.variables import Slot, Variables


def add_strength(problem: Problem, v: Variables) -> None:
    """All of it."""
    a_canner_s_loads_add_up(problem, v)
    hands_bound_the_day(problem, v)
    canners_alike_are_filled_in_order(problem, v)


def a_canner_s_loads_add_up(problem: Problem, v: Variables) -> None:
    """From its first filling on, a canner needs the sum of its loads before the finish."""
    for canner, oven in enumerate(problem.ovens):
        slots: list[Slot] = [s for s in v.slots if s.canner == canner]
        if not slots:
            continue
        busy = sum(
            s.fill.size
            + (oven.vent + oven.wait + problem.unload) * s.used
            + s.warming
            + s.run
            + s.cool
            for s in slots
        )
        v.model.add(slots[0].fill_start + busy <= v.finish)


def hands_bound_the_day(problem: Problem, v: Variables) -> None:
    """All cutting and filling is done before the last lid goes on, and that load still runs.

    So is all unloading but for one load a canner. Implied by the other rules; said once as a sum,
    it lets the solver prove a bound on days where hands are short.
    """
    if not v.slots:
        return
    people = sum(len(crew.names) for crew in problem.crews)
    last_lid = v.model.new_int_var(0, problem.horizon, "last lid")
    v.model.add_max_equality(last_lid, [s.lid_on for s in v.slots])
    # Every jar is cut for exactly once, wherever it goes.
    cutting = sum(job.prep_tenths * job.count for job in problem.jobs if job.ready is None)
    filling = sum(s.fill.size for s in v.slots)
    ovens = {s.canner for s in v.slots}
    unloading = problem.unload * (sum(s.used for s in v.slots) - len(ovens))
    v.model.add(cutting + 10 * STEP * (filling + unloading) <= 10 * STEP * people * last_lid)
    v.model.add(last_lid >= least_time_of_hands(problem, len(ovens)))
    shortest = min(problem.closed(way) for job in problem.jobs for way in job.ways)
    v.model.add(v.finish >= last_lid + shortest + problem.unload)


def canners_alike_are_filled_in_order(problem: Problem, v: Variables) -> None:
    """Of canners that differ in nothing but their names, an earlier one has no fewer loads.

    Every plan has a twin that keeps this; leaving the others out spares the solver the search.
    """
    loads = {
        canner: sum(s.used for s in v.slots if s.canner == canner)
        for canner in range(len(problem.ovens))
    }
    for group in problem.alike:
        for earlier, later in pairwise(group):
            v.model.add(loads[earlier] >= loads[later])


def least_time_of_hands(problem: Problem, canners: int) -> int:
    """Steps that everybody there needs together for what comes before the last lid.

    That is all cutting and filling, the lowering of every load, and the unloading of all but one
    load a canner. There are no fewer loads than hold the jars, were every canner the largest.
    """
    jobs = [job for job in problem.jobs if job.count]
    room = sum((Fraction(j.count, max(w.capacity for w in j.ways)) for j in jobs), Fraction())
    loads = ceil(room)
    tenths = sum(job.prep_tenths * job.count for job in jobs if job.ready is None)
    tenths += sum(job.fill_tenths * job.count for job in jobs)
    handling = problem.load * loads + problem.unload * max(0, loads - canners)
    left = tenths + 10 * STEP * handling
    for step in range(problem.horizon):
        if left <= 0:
            return step
        left -= (
            10
            * STEP
            * sum(
                len(crew.names) * (not any(a <= step < b for a, b in crew.away))
                - sum(n for a, b, n in crew.taken if a <= step < b)
                for crew in problem.crews
            )
        )
    return problem.horizon
