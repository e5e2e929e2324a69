"""Rules of a plan, one function each."""

from collections.abc import Iterator
from itertools import chain, combinations

from ortools.sat.python import cp_model

from stillroom.loads.problem import Problem
from stillroom.loads.timing import starts
from stillroom.loads.variables import Slot, Variables

# Every set of families is asked to be reached from outside; above this many only single ones.
ALL_SUBSETS = 6


def add_rules(problem: Problem, v: Variables) -> None:
    """Everything a plan obeys, and its price."""
    every_jar_is_in_one_load(problem, v)
    for slot in v.slots:
        the_room_of_a_canner_holds(problem, v, slot)
        a_load_waits_for_its_jars(problem, v, slot)
        on_time_means_before_due(problem, v, slot)
    a_jar_is_on_time_or_late(problem, v)
    for k in range(len(problem.canners)):
        one_load_at_a_time(problem, v, k)
        loads_that_ended_had_time(problem, v, k)
        loads_follow_one_another(problem, v, k)
        setups_are_counted(problem, v, k)
        families_are_reached(problem, v, k)
        alike_loads_come_in_order(v, k)
    the_day_ends_with_its_last_load(problem, v)


def add_price(
    problem: Problem, v: Variables, *, below: int | None = None, at_least: int = 0
) -> None:
    """Minimise runtime, late jars, setups and makespan, each times its weight.

    Only plans that cost less than ``below`` are asked for; ``at_least`` is a bound known before.
    """
    weights = problem.weights
    terms: list[cp_model.LinearExprT] = list(v.cost)
    terms += [weights.runtime * slot.length * slot.present for slot in v.slots]
    if weights.late:
        terms += [weights.late * late for late in v.late.values()]
    if v.makespan is not None:
        terms.append(weights.makespan * v.makespan)
    price = sum(terms)
    if below is not None:
        v.model.add(price < below)
    if at_least > 0:
        v.model.add(price >= at_least)
    v.model.minimize(price)


def every_jar_is_in_one_load(problem: Problem, v: Variables) -> None:
    """The counts of a job over all loads add up to its jars."""
    for j, job in enumerate(problem.jobs):
        v.model.add(sum(slot.jars[j] for slot in v.of_job[j]) == job.count)


def the_room_of_a_canner_holds(problem: Problem, v: Variables, slot: Slot) -> None:
    """Sizes times counts are at most the canner's room, and 0 in a load that is not."""
    room = problem.canners[slot.canner].room
    v.model.add(sum(problem.jobs[j].size * n for j, n in slot.jars.items()) <= room * slot.present)


def a_load_waits_for_its_jars(problem: Problem, v: Variables, slot: Slot) -> None:
    """A timed load with a jar of a job starts at that job's release or later."""
    if slot.start is None or slot.timed is None:
        return
    first = slot.start.domain.min()
    for j, amount in slot.jars.items():
        release = problem.jobs[j].release
        if release <= first or isinstance(amount, int):
            continue
        if amount is slot.present:
            v.model.add(slot.start >= release).only_enforce_if(slot.timed)
        else:
            v.model.add(slot.start >= release).only_enforce_if(slot.timed, holds(v, amount))


def holds(v: Variables, amount: cp_model.IntVar) -> cp_model.IntVar:
    """A literal that is true where the count is 1 or more."""
    if amount.domain.max() == 1:
        return amount
    some = v.model.new_bool_var("")
    v.some.append((some, amount))
    v.model.add(amount >= 1).only_enforce_if(some)
    v.model.add(amount == 0).only_enforce_if(~some)
    return some


def on_time_means_before_due(problem: Problem, v: Variables, slot: Slot) -> None:
    """Jars count as on time only in a load that is timed and ends by their due time."""
    if slot.start is None or slot.timed is None:
        return
    for j, on_time in slot.on_time.items():
        due = problem.jobs[j].due
        assert due is not None
        if due not in slot.ended:
            slot.ended[due] = _ended(v, slot, due)
        v.model.add(on_time <= slot.jars[j])
        v.model.add_implication(holds(v, on_time), slot.ended[due])
    before: cp_model.IntVar | None = None
    for due in sorted(slot.ended):
        if before is not None:
            v.model.add_implication(before, slot.ended[due])
        before = slot.ended[due]


def _ended(v: Variables, slot: Slot, time: int) -> cp_model.IntVar:
    """A literal that is true where a load is timed and ends by this time."""
    assert slot.start is not None
    assert slot.timed is not None
    if slot.latest + slot.length <= time:
        return slot.timed
    ended = v.model.new_bool_var("")
    v.model.add_implication(ended, slot.timed)
    v.model.add(slot.start <= time - slot.length).only_enforce_if(ended)
    v.model.add(slot.start > time - slot.length).only_enforce_if(slot.timed, ~ended)
    return ended


def loads_that_ended_had_time(problem: Problem, v: Variables, k: int) -> None:
    """Up to each due time a canner had time for all loads that ended by then, and their setups.

    This follows from the other rules; the linear relaxation does not see it by itself, and would
    put every jar on time.
    """
    slots = [slot for slot in v.of_canner[k] if slot.ended and slot.start is not None]
    windows = problem.canners[k].windows
    for time in sorted({due for slot in slots for due in slot.ended}):
        inside = []
        begin = time
        for slot in slots:
            own = [due for due in slot.ended if due <= time]
            if own:
                setup = problem.least_setup[k][slot.family]
                inside.append((slot.length + setup) * slot.ended[max(own)])
                begin = min(begin, slot.start.domain.min() - setup)  # type: ignore[union-attr]
        room = sum(max(0, min(b, time) - max(a, begin)) for a, b in windows)
        v.model.add(sum(inside) <= room)


def a_jar_is_on_time_or_late(problem: Problem, v: Variables) -> None:
    """Of a job with a due time the jars that are on time in no load are late."""
    if not problem.weights.late:
        return
    for j, job in enumerate(problem.jobs):
        if job.due is not None:
            v.late[j] = v.model.new_int_var(0, job.count, "")
            in_time = [slot.on_time[j] for slot in v.of_job[j] if j in slot.on_time]
            v.model.add(v.late[j] + sum(in_time) == job.count)


def one_load_at_a_time(problem: Problem, v: Variables, k: int) -> None:
    """Loads, each with the shortest setup there is, do not overlap, nor the canner's closed time.

    The setup that the order really asks for is added by ``loads_follow_one_another``.
    """
    spans = []
    for slot in v.of_canner[k]:
        if slot.start is None or slot.timed is None:
            continue
        setup = problem.least_setup[k][slot.family]
        spans.append(
            v.model.new_optional_interval_var(
                slot.start - setup,
                slot.length + setup,
                slot.start + slot.length,
                slot.timed,
                "",
            )
        )
    if len(spans) > 1:
        v.model.add_no_overlap(spans)


def loads_follow_one_another(problem: Problem, v: Variables, k: int) -> None:
    """The timed loads of a canner form a chain; each starts after the one before and the setup.

    Where late loads need no times, those without stand behind the chain.
    """
    slots = [slot for slot in v.of_canner[k] if slot.start is not None]
    if not slots:
        return
    state = problem.canners[k].state
    model = v.model
    none = model.new_bool_var("")
    v.idle[k] = none
    arcs: list[cp_model.ArcT] = [(0, 0, none)]
    for i, slot in enumerate(slots):
        assert slot.timed is not None
        arcs.append((i + 1, i + 1, ~slot.timed))
        model.add_implication(none, ~slot.timed)
        closing = model.new_bool_var("")
        arcs.append((i + 1, 0, closing))
        v.next[k, i + 1, 0] = closing
        if v.free_late:
            # A last load with nobody in time is taken among those without times.
            model.add(sum(slot.on_time.values()) >= 1).only_enforce_if(closing)
        opening = model.new_bool_var("")
        arcs.append((0, i + 1, opening))
        v.next[k, 0, i + 1] = opening
        _start_in_window(problem, v, slot, problem.setup(state, slot.family), opening)
        for h, before in enumerate(slots):
            if h == i or before.start is None or slot.start is None:
                continue
            kept = v.keep_order and slot.fixed is not None and before.fixed is not None
            if kept and h + 1 != i:
                continue  # Kept loads stand first, in their order: the next kept one is h + 1.
            gap = before.length + problem.setup(before.family, slot.family)
            if before.start.domain.min() + gap > slot.latest:
                continue
            follows = model.new_bool_var("")
            arcs.append((h + 1, i + 1, follows))
            v.next[k, h + 1, i + 1] = follows
            model.add(slot.start >= before.start + gap).only_enforce_if(follows)
            _start_in_window(problem, v, slot, gap - before.length, follows)
    model.add_circuit(arcs)


def _start_in_window(
    problem: Problem, v: Variables, slot: Slot, setup: int, when: cp_model.IntVar
) -> None:
    """The setup before a load lies in the same window as the load."""
    if setup <= problem.least_setup[slot.canner][slot.family] or slot.start is None:
        return
    spans = starts(
        problem.canners[slot.canner],
        setup,
        slot.length,
        slot.start.domain.min(),
        slot.latest + slot.length,
    )
    if spans:
        domain = cp_model.Domain.from_intervals([list(s) for s in spans])
        v.model.add_linear_expression_in_domain(slot.start, domain).only_enforce_if(when)
    else:
        v.model.add(when == 0)


def setups_are_counted(problem: Problem, v: Variables, k: int) -> None:
    """How often a load of one family follows one of another, and what that costs.

    Every load but the first has one before it, and every load but the last one after it.
    """
    model = v.model
    state = problem.canners[k].state
    slots = v.of_canner[k]
    families = sorted({slot.family for slot in slots})
    if not families:
        return
    used = model.new_bool_var("")
    v.used[k] = used
    for slot in slots:
        model.add_implication(slot.present, used)
    timed = [slot for slot in slots if slot.start is not None]
    direct: dict[tuple[int, int], list[cp_model.IntVar]] = {}
    for (canner, h, i), literal in v.next.items():
        if canner == k and i:
            before = timed[h - 1].family if h else -1
            direct.setdefault((before, timed[i - 1].family), []).append(literal)
    for f in families:
        v.first[k, f], v.last[k, f] = model.new_bool_var(""), model.new_bool_var("")
        number = sum(slot.present for slot in slots if slot.family == f)
        v.number[k, f] = number
        most = sum(1 for slot in slots if slot.family == f)
        for g in families:
            v.step[k, g, f] = model.new_int_var(0, most, "")
            taken = direct.get((g, f), [])
            if v.free_late:
                model.add(v.step[k, g, f] >= sum(taken))
            else:
                model.add(v.step[k, g, f] == sum(taken))
            v.cost.append(problem.setup_price(g, f) * v.step[k, g, f])
        opening = direct.get((-1, f), [])
        if v.free_late:
            model.add(v.first[k, f] >= sum(opening))
        else:
            model.add(v.first[k, f] == sum(opening))
        v.cost.append(problem.setup_price(state, f) * v.first[k, f])
    for f in families:
        model.add(v.first[k, f] + sum(v.step[k, g, f] for g in families) == v.number[k, f])
        model.add(v.last[k, f] + sum(v.step[k, f, g] for g in families) == v.number[k, f])
    model.add(sum(v.first[k, f] for f in families) == used)
    model.add(sum(v.last[k, f] for f in families) == used)


def families_are_reached(problem: Problem, v: Variables, k: int) -> None:
    """A set of families with loads in it is entered from outside it, or the canner begins in it.

    Without this a canner's families could each go round by themselves and never pay for a change.
    """
    families = [f for f in range(problem.families) if (k, f) in v.first]
    there: dict[int, cp_model.IntVar] = {}
    for f in families:
        there[f] = v.there[k, f] = v.model.new_bool_var("")
        for slot in v.of_canner[k]:
            if slot.family == f:
                v.model.add_implication(slot.present, there[f])
    for inside in _sets(families):
        entered = [v.first[k, f] for f in inside]
        entered += [v.step[k, g, f] for f in inside for g in families if g not in inside]
        for f in inside:
            v.model.add(sum(entered) >= there[f])
    if v.free_late:
        _untimed_are_reached(problem, v, k, families)


def _untimed_are_reached(problem: Problem, v: Variables, k: int, families: list[int]) -> None:
    """The same for the loads behind the last timed one, entered from its family."""
    slots = v.of_canner[k]
    timed = [slot for slot in slots if slot.start is not None]
    arcs = [(h, i, literal) for (canner, h, i), literal in v.next.items() if canner == k]
    if not timed:
        return
    there = {f: v.model.new_bool_var("") for f in families}
    v.behind.update({(k, f): literal for f, literal in there.items()})
    for slot in slots:
        if slot.timed is None:
            v.model.add_implication(slot.present, there[slot.family])
        else:
            v.model.add_bool_or(~slot.present, slot.timed, there[slot.family])
    for inside in _sets(families):
        begins = [literal for h, i, literal in arcs if not i and timed[h - 1].family in inside]
        opened = [literal for h, i, literal in arcs if not h and timed[i - 1].family in inside]
        crossed = [
            literal
            for h, i, literal in arcs
            if h and i and timed[h - 1].family not in inside and timed[i - 1].family in inside
        ]
        entered = [v.first[k, f] for f in inside]
        entered += [v.step[k, g, f] for f in inside for g in families if g not in inside]
        ways = sum(entered) + sum(begins) - sum(opened) - sum(crossed)
        for f in inside:
            v.model.add(ways >= there[f])


def _sets(families: list[int]) -> Iterator[tuple[int, ...]]:
    most = len(families) - 1 if len(families) <= ALL_SUBSETS else 1
    return chain.from_iterable(combinations(families, n) for n in range(1, most + 1))


def alike_loads_come_in_order(v: Variables, k: int) -> None:
    """Of the loads that one job may lead on a canner the first are used, and fuller ones first."""
    before: Slot | None = None
    for slot in v.of_canner[k]:
        if before is not None and slot.lead is not None and slot.lead == before.lead:
            v.model.add_implication(slot.present, before.present)
            if slot.start is not None and slot.timed is slot.present and before.start is not None:
                v.model.add(before.start <= slot.start).only_enforce_if(slot.present)
        before = slot


def the_day_ends_with_its_last_load(problem: Problem, v: Variables) -> None:
    """The makespan is at or after the end of every load."""
    if v.makespan is None:
        return
    for slot in v.slots:
        if slot.start is not None:
            v.model.add(v.makespan >= slot.start + slot.length).only_enforce_if(slot.present)
