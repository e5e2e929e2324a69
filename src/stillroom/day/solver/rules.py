"""The rules a plan obeys, one function a rule, each saying what it ensures."""

from itertools import pairwise

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP, Problem, steps
from stillroom.day.solver.pins import add_pins
from stillroom.day.solver.variables import Hands, Variables, shares
from stillroom.processes.model import PRESSURE


def add_rules(problem: Problem, v: Variables) -> None:
    """All rules a plan obeys (docs/why/planner.md tells them in words)."""
    every_jar_goes_in_once(problem, v)
    a_load_shares_pressure_and_pack(problem, v)
    a_load_fits_its_canner(v)
    the_longest_published_time_rules(problem, v)
    hand_work_takes_its_time(problem, v)
    steps_follow_each_other(problem, v)
    a_canner_is_emptied_before_it_is_filled(problem, v)
    pots_made_once_come_first(problem, v)
    raw_food_does_not_stand_out(problem, v)
    filled_jars_do_not_wait_long(problem, v)
    burners_carry_what_they_can(problem, v)
    people_do_one_thing_at_a_time(problem, v)
    everybody_who_cuts_has_a_place(problem, v)
    heat_is_watched(problem, v)
    people_do_what_they_can(problem, v)
    add_pins(problem, v)
    the_day_ends_with_the_last_jar(problem, v)


def every_jar_goes_in_once(problem: Problem, v: Variables) -> None:
    """Jars of an order over all loads add up to the order."""
    for j, job in enumerate(problem.jobs):
        v.model.add(sum(s.jars[j] for s in v.slots if j in s.jars) == job.count)


def a_load_shares_pressure_and_pack(problem: Problem, v: Variables) -> None:
    """One pressure and one pack temperature a load; each order in it by one published row."""
    for s in v.slots:
        for j, has in s.has.items():
            v.model.add(s.jars[j] >= has)
            v.model.add(s.jars[j] <= s.most[j] * has)
            v.model.add(sum(by for (of, _), by in s.by.items() if of == j) == has)
            v.model.add_implication(has, s.used)
        for (j, w), by in s.by.items():
            job = problem.jobs[j]
            v.model.add_implication(by, s.family[job.family(job.ways[w])])
        v.model.add(sum(s.family.values()) == s.used)
        v.model.add(sum(s.has.values()) >= s.used)


def a_load_fits_its_canner(v: Variables) -> None:
    """Each jar takes its share of the canner's room; the shares add up to one at most."""
    for s in v.slots:
        room, share = shares(v.ways[s.canner])
        v.model.add(sum(share[j] * jars for j, jars in s.jars.items()) <= room * s.used)


def the_longest_published_time_rules(problem: Problem, v: Variables) -> None:
    """A load runs for the longest published time in it, and for no food much longer than its own.

    The same for the warming and the cool-down of its slowest jars and the heating of its slowest
    pot.
    """
    for s in v.slots:
        jobs = problem.jobs
        printed = [jobs[j].ways[w].process.minutes * by for (j, w), by in s.by.items()]
        v.model.add_max_equality(s.minutes, printed)
        v.model.add_max_equality(
            s.run, [steps(jobs[j].ways[w].process.minutes) * by for (j, w), by in s.by.items()]
        )
        v.model.add_max_equality(
            s.warming, [jobs[j].ways[w].warming * by for (j, w), by in s.by.items()]
        )
        v.model.add_max_equality(s.cool, [jobs[j].ways[w].cool * by for (j, w), by in s.by.items()])
        v.model.add_max_equality(s.pot_heat, [jobs[j].heat * has for j, has in s.has.items()])
        for (j, w), by in s.by.items():
            own = jobs[j].ways[w].process.minutes
            v.model.add(s.minutes <= own + problem.most_extra).only_enforce_if(by)


def hand_work_takes_its_time(problem: Problem, v: Variables) -> None:
    """Preparation is the work of the jars in the load, shared by the hands on it."""
    for s in v.slots:
        per_load = sum(
            problem.jobs[j].prep_tenths * jars
            for j, jars in s.jars.items()
            if not problem.jobs[j].make
        )
        _shared_work(problem, v, s.prep, per_load)
        filling = sum(problem.jobs[j].fill_tenths * jars for j, jars in s.jars.items())
        handling = s.fill.size - problem.load * s.used
        v.model.add(10 * STEP * handling >= filling)
        v.model.add(10 * STEP * handling <= filling + 10 * STEP - 1)
        for single in (s.fill, s.unload):
            v.model.add(sum(single.of_crew) == s.used)
    for j, batch in v.batches.items():
        job = problem.jobs[j]
        cutting = job.prep_tenths * job.count if job.ready is None else 0
        _shared_work(problem, v, batch.prep, cutting)
    for unload in v.unloads:
        v.model.add(sum(unload.of_crew) == 1)


def _shared_work(
    problem: Problem, v: Variables, hands: Hands, tenths: cp_model.LinearExprT
) -> None:
    """Length times hands covers the work, to the next step."""
    most = min(problem.most_hands, sum(len(c.names) for c in problem.crews))
    choices = [v.model.new_bool_var(f"{n} hands") for n in range(1, most + 1)]
    v.model.add(sum(choices) == hands.present)
    v.model.add(sum(hands.of_crew) == sum(n * c for n, c in enumerate(choices, 1)))
    for n, chosen in enumerate(choices, 1):
        step = 10 * STEP * n
        v.model.add(step * hands.size >= tenths).only_enforce_if(chosen)
        v.model.add(step * hands.size <= tenths + step - 1).only_enforce_if(chosen)
    if not isinstance(hands.present, int):
        v.model.add(hands.size == 0).only_enforce_if(~hands.present)


def steps_follow_each_other(problem: Problem, v: Variables) -> None:
    """Prepared, then heated, then filled at once, then processed, cooled, and unloaded."""
    for s in v.slots:
        oven = problem.ovens[s.canner]
        v.model.add(s.prep.end <= s.heat_start)
        v.model.add(s.fill_start == s.heat_start + s.pot_heat)
        v.model.add(s.fill.start == s.fill_start)
        v.model.add(s.lid_on == s.fill.end)
        v.model.add(s.heat_off == s.lid_on + s.warming + oven.vent * s.used + s.run)
        v.model.add(s.open == s.heat_off + s.cool + oven.wait * s.used)
        v.model.add(s.unload.start >= s.open)
    for r, unload in zip(problem.to_unload, v.unloads, strict=True):
        v.model.add(unload.start >= r.open)


def a_canner_is_emptied_before_it_is_filled(problem: Problem, v: Variables) -> None:
    """Loads of one canner follow in order of their slots; unused slots come last.

    None is in it while it is out.
    """
    for s in v.slots:
        for start, end in problem.ovens[s.canner].out:
            before = v.model.new_bool_var("before it is out")
            v.model.add(s.unload.end <= start).only_enforce_if(s.used, before)
            v.model.add(s.fill_start >= end).only_enforce_if(s.used, ~before)
        for r, unload in zip(problem.to_unload, v.unloads, strict=True):
            if r.canner == s.canner:
                v.model.add(s.fill_start >= unload.end).only_enforce_if(s.used)
    for earlier, later in pairwise(v.slots):
        if earlier.canner != later.canner:
            continue
        v.model.add_implication(later.used, earlier.used)
        v.model.add(later.fill_start >= earlier.unload.end).only_enforce_if(later.used)


def pots_made_once_come_first(problem: Problem, v: Variables) -> None:
    """A pot goes on when its food is cut, is ready after its minutes, and stays hot until empty."""
    for j, batch in v.batches.items():
        begun = problem.jobs[j].ready
        if begun is None:
            v.model.add(batch.start == batch.prep.end)
            v.model.add(batch.ready == batch.start + problem.jobs[j].make)
        else:
            v.model.add(batch.start == max(problem.now, begun - problem.jobs[j].make))
            v.model.add(batch.ready == begun)
            v.model.add(batch.empty >= batch.start)
            v.model.add(batch.empty >= problem.jobs[j].kept_hot)
        v.model.add(batch.empty >= batch.ready)
        for s in v.slots:
            if j in s.has:
                v.model.add(s.heat_start >= batch.ready).only_enforce_if(s.has[j])
                v.model.add(batch.empty >= s.lid_on).only_enforce_if(s.has[j])


def raw_food_does_not_stand_out(problem: Problem, v: Variables) -> None:
    """Raw perishable food meets heat within two hours of the first cut.

    In a raw pack heat begins with the lid going on, in a hot pack with the pot.
    """
    limit = problem.room_temperature_limit
    for s in v.slots:
        for j, has in s.has.items():
            job = problem.jobs[j]
            if job.perishable and not job.make:
                meets_heat = s.heat_start if job.hot else s.lid_on
                if job.heat_by is None:
                    v.model.add(meets_heat - s.prep.start <= limit).only_enforce_if(has)
                else:
                    v.model.add(meets_heat <= job.heat_by).only_enforce_if(has)
    for j, batch in v.batches.items():
        if problem.jobs[j].perishable:
            v.model.add(batch.prep.size <= limit)


def filled_jars_do_not_wait_long(problem: Problem, v: Variables) -> None:
    """From the first jar that is filled to the lid going on no longer than the person allows."""
    if problem.jars_wait is not None:
        for s in v.slots:
            v.model.add(s.fill.size <= problem.jars_wait)


def burners_carry_what_they_can(problem: Problem, v: Variables) -> None:
    """Pots and canners on burners at any moment are no more than the burners there are."""
    canners, pots = [], []
    for s in v.slots:
        if not problem.ovens[s.canner].own_plug:
            canners.append(_span(problem, v, s.fill_start, s.heat_off, s.used))
        for j, has in s.has.items():
            if problem.jobs[j].heat:
                v.model.add_implication(has, s.pot)
        pots.append(_span(problem, v, s.heat_start, s.lid_on, s.pot))
    pots += [_span(problem, v, batch.start, batch.empty, None) for batch in v.batches.values()]
    for start, end, canner in problem.taken_burners:
        taken = v.model.new_fixed_size_interval_var(start, end - start, "taken")
        (canners if canner else pots).append(taken)
    v.model.add_cumulative(canners, [1] * len(canners), problem.canner_burners)
    v.model.add_cumulative([*canners, *pots], [1] * len(canners + pots), problem.burners)


def _span(
    problem: Problem,
    v: Variables,
    start: cp_model.IntVar,
    end: cp_model.IntVar,
    present: cp_model.IntVar | None,
) -> cp_model.IntervalVar:
    size = v.model.new_int_var(0, problem.horizon, "span")
    if present is None:
        return v.model.new_interval_var(start, size, end, "span")
    return v.model.new_optional_interval_var(start, size, end, present, "span")


def people_do_one_thing_at_a_time(problem: Problem, v: Variables) -> None:
    """Hands of a crew at work at any moment are no more than its people who are there."""
    work: list[Hands] = [h for s in v.slots for h in (s.prep, s.fill, s.unload)]
    work += [*(batch.prep for batch in v.batches.values()), *v.unloads]
    for c, crew in enumerate(problem.crews):
        away = [
            v.model.new_fixed_size_interval_var(start, end - start, "away")
            for start, end in crew.away
        ]
        taken = [
            v.model.new_fixed_size_interval_var(start, end - start, "taken")
            for start, end, _ in crew.taken
        ]
        v.model.add_cumulative(
            [*(h.interval for h in work), *away, *taken],
            [
                *(h.of_crew[c] for h in work),
                *[len(crew.names)] * len(away),
                *(n for _, _, n in crew.taken),
            ],
            len(crew.names),
        )


def everybody_who_cuts_has_a_place(problem: Problem, v: Variables) -> None:
    """Hands that prepare food at any moment are no more than the places at the counter."""
    if problem.counters is None:
        return
    cutting = [s.prep for s in v.slots] + [batch.prep for batch in v.batches.values()]
    taken = [
        v.model.new_fixed_size_interval_var(start, end - start, "taken")
        for start, end, _ in problem.taken_counters
    ]
    v.model.add_cumulative(
        [*(hands.interval for hands in cutting), *taken],
        [*(sum(hands.of_crew) for hands in cutting), *(n for *_, n in problem.taken_counters)],
        problem.counters,
    )


def heat_is_watched(problem: Problem, v: Variables) -> None:
    """Somebody who answers for it is there while a canner or a pot made once is on heat."""
    for s in v.slots:
        pressure = problem.ovens[s.canner].method in PRESSURE
        _never_in(v, _span(problem, v, s.heat_start, s.heat_off, s.used), problem.nobody(pressure))
    for batch in v.batches.values():
        _never_in(v, _span(problem, v, batch.start, batch.empty, None), problem.nobody())


def _never_in(
    v: Variables, span: cp_model.IntervalVar, barred: tuple[tuple[int, int], ...]
) -> None:
    if barred:
        empty = [v.model.new_fixed_size_interval_var(a, b - a, "nobody") for a, b in barred]
        v.model.add_no_overlap([span, *empty])


def people_do_what_they_can(problem: Problem, v: Variables) -> None:
    """Who leaves lifting, or pressure canners, to others neither fills nor unloads them."""
    for s in v.slots:
        for c, crew in enumerate(problem.crews):
            if not crew.handles(problem.ovens[s.canner]):
                v.model.add(s.fill.of_crew[c] == 0)
                v.model.add(s.unload.of_crew[c] == 0)
    for r, unload in zip(problem.to_unload, v.unloads, strict=True):
        for c, crew in enumerate(problem.crews):
            if not crew.handles(problem.ovens[r.canner]):
                v.model.add(unload.of_crew[c] == 0)


def the_day_ends_with_the_last_jar(problem: Problem, v: Variables) -> None:
    """The finish is when the last load is unloaded."""
    for s in v.slots:
        v.model.add(v.finish >= s.unload.end).only_enforce_if(s.used)
    for unload in v.unloads:
        v.model.add(v.finish >= unload.end)
    for r in problem.running:
        if r.unload:
            v.model.add(v.finish >= steps(r.unload.end))
