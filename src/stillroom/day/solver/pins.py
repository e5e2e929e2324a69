"""What the person pinned down, one function a pin, each saying what it ensures."""

from itertools import pairwise

from ortools.sat.python import cp_model

from stillroom.day.problem import Problem
from stillroom.day.solver.variables import Slot, Variables


def add_pins(problem: Problem, v: Variables) -> None:
    """All pins of the day. A canner kept for some jars is no rule here: other orders have no way
    through it.
    """
    an_order_waits_for_its_hour(problem, v)
    an_order_is_out_by_its_hour(problem, v)
    an_order_goes_in_first(problem, v)
    heat_is_off_by_the_day_s_hour(problem, v)


def an_order_waits_for_its_hour(problem: Problem, v: Variables) -> None:
    """No work on an order before its hour: neither cutting nor pot."""
    for s in v.slots:
        for j, has in s.has.items():
            earliest = problem.jobs[j].not_before
            if earliest:
                v.model.add(s.prep.start >= earliest).only_enforce_if(has)
    for j, batch in v.batches.items():
        if problem.jobs[j].ready is None:
            v.model.add(batch.prep.start >= problem.jobs[j].not_before)


def an_order_is_out_by_its_hour(problem: Problem, v: Variables) -> None:
    """Every load with jars of an order is unloaded by its hour."""
    for s in v.slots:
        for j, has in s.has.items():
            latest = problem.jobs[j].done_by
            if latest is not None:
                v.model.add(s.unload.end <= latest).only_enforce_if(has)


def an_order_goes_in_first(problem: Problem, v: Variables) -> None:
    """No canner takes other food before it, and no canner anywhere is filled before its first load.

    A load that holds some of it counts as its own, whatever else is in it.
    """
    first = [j for j, job in enumerate(problem.jobs) if job.first and job.count]
    if not first:
        return
    holds = [_holds(v, s, first) for s in v.slots]
    for (earlier, had), (later, has) in pairwise(zip(v.slots, holds, strict=True)):
        if earlier.canner == later.canner:
            v.model.add_implication(has, had)
    opening = v.model.new_int_var(0, problem.horizon, "first order goes in")
    leads = []
    for s, has in zip(v.slots, holds, strict=True):
        lead = v.model.new_bool_var("leads")
        leads.append(lead)
        v.model.add_implication(lead, has)
        v.model.add(opening == s.fill_start).only_enforce_if(lead)
        v.model.add(s.fill_start >= opening).only_enforce_if(s.used)
    v.model.add_exactly_one(leads)


def _holds(v: Variables, s: Slot, jobs: list[int]) -> cp_model.IntVar:
    """Whether a slot holds any jar of these orders."""
    holds = v.model.new_bool_var("holds a first order")
    inside = [s.has[j] for j in jobs if j in s.has]
    v.model.add_max_equality(holds, inside) if inside else v.model.add(holds == 0)
    return holds


def heat_is_off_by_the_day_s_hour(problem: Problem, v: Variables) -> None:
    """No canner and no pot made once is on heat after the hour; what cools may cool on."""
    latest = problem.heat_off_by
    if latest is None:
        return
    for s in v.slots:
        v.model.add(s.heat_off <= latest).only_enforce_if(s.used)
    for batch in v.batches.values():
        v.model.add(batch.empty <= latest)
