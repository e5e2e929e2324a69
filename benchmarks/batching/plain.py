"""The plain baseline: loads by canner and place, no strengthening, the solver's own searches.

Each canner has as many places as jobs that may go into it. A job takes one place; a place has a
start, a time and a family. Nothing is done about places that are alike, nor about bounds. Only
for problems in which every job is one jar, as in the published instances.
"""

import time
from dataclasses import dataclass

from ortools.sat.python import cp_model

from stillroom.loads.problem import Problem
from stillroom.loads.result import Found, Load, Result, Status


@dataclass(frozen=True, slots=True)
class _Place:
    used: cp_model.IntVar
    start: cp_model.IntVar
    end: cp_model.IntVar
    family: cp_model.IntVar
    jars: dict[int, cp_model.IntVar]


def solve_plain(problem: Problem, time_limit: float, workers: int, seed: int) -> Result:
    """The plain model's answer within the limit."""
    begun = time.monotonic()
    model = cp_model.CpModel()
    terms: list[cp_model.LinearExprT] = []
    late = [model.new_bool_var("") for _ in problem.jobs]
    canners = [_canner(problem, model, k, late, terms) for k in range(len(problem.canners))]
    for j in range(len(problem.jobs)):
        model.add_exactly_one(p.jars[j] for places in canners for p in places if j in p.jars)
    terms += [problem.weights.late * x for x in late]
    model.minimize(sum(terms))
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = max(time_limit - (time.monotonic() - begun), 0.01)
    solver.parameters.num_workers = workers
    solver.parameters.random_seed = seed
    status = solver.solve(model)
    seconds = time.monotonic() - begun
    bound = max(0, round(solver.best_objective_bound))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        none = Status.INFEASIBLE if status == cp_model.INFEASIBLE else Status.UNKNOWN
        return Result(none, None, bound, seconds, (), ())
    loads = tuple(
        Load(
            k,
            solver.value(p.start),
            solver.value(p.end),
            tuple((j, 1) for j, here in p.jars.items() if solver.value(here)),
        )
        for k, places in enumerate(canners)
        for p in places
        if solver.value(p.used)
    )
    objective = round(solver.objective_value)
    known = Status.OPTIMAL if status == cp_model.OPTIMAL else Status.FEASIBLE
    found = (Found(seconds, objective, "plain"),)
    return Result(known, objective, bound, seconds, loads, found)


def _canner(
    problem: Problem,
    model: cp_model.CpModel,
    k: int,
    late: list[cp_model.IntVar],
    terms: list[cp_model.LinearExprT],
) -> list[_Place]:
    oven, jobs, end = problem.canners[k], problem.jobs, problem.horizon
    eligible = [j for j, job in enumerate(jobs) if k in job.canners]
    places: list[_Place] = []
    for _ in eligible:
        place = _Place(
            model.new_bool_var(""),
            model.new_int_var(0, end, ""),
            model.new_int_var(0, end, ""),
            model.new_int_var(0, problem.families - 1, ""),
            {j: model.new_bool_var("") for j in eligible},
        )
        length = model.new_int_var(0, end, "")
        model.add(place.end == place.start + length)
        model.add(length == 0).only_enforce_if(~place.used)
        model.add(sum(jobs[j].size * x for j, x in place.jars.items()) <= oven.room)
        model.add_bool_or(place.jars.values()).only_enforce_if(place.used)
        for j, x in place.jars.items():
            model.add_implication(x, place.used)
            model.add(place.family == jobs[j].family).only_enforce_if(x)
            model.add(place.start >= jobs[j].release).only_enforce_if(x)
            model.add(length >= jobs[j].least).only_enforce_if(x)
            model.add(length <= jobs[j].most).only_enforce_if(x)
            due = jobs[j].due
            if due is not None:
                model.add(place.end <= due).only_enforce_if(x, ~late[j])
        _setup(problem, model, k, places[-1] if places else None, place, terms)
        terms.append(problem.weights.runtime * length)
        if problem.weights.makespan:
            raise ValueError("the plain baseline knows no makespan")
        places.append(place)
    return places


def _setup(
    problem: Problem,
    model: cp_model.CpModel,
    k: int,
    before: _Place | None,
    place: _Place,
    terms: list[cp_model.LinearExprT],
) -> None:
    """The setup before a place, its price, and the window that both lie in."""
    oven = problem.canners[k]
    families = range(problem.families)
    setup = model.new_int_var(0, problem.horizon, "")
    price = model.new_int_var(0, 10**9, "")
    if before is None:
        rows = [
            (f, problem.setup(oven.state, f), problem.setup_price(oven.state, f)) for f in families
        ]
        model.add_allowed_assignments([place.family, setup, price], rows).only_enforce_if(
            place.used
        )
    else:
        model.add_implication(place.used, before.used)
        table = [
            (f, g, problem.setup(f, g), problem.setup_price(f, g))
            for f in families
            for g in families
        ]
        model.add_allowed_assignments(
            [before.family, place.family, setup, price], table
        ).only_enforce_if(place.used)
        model.add(place.start >= before.end + setup).only_enforce_if(place.used)
    terms.append(price)
    windows = [model.new_bool_var("") for _ in oven.windows]
    model.add(sum(windows) == 1).only_enforce_if(place.used)
    for inside, (a, b) in zip(windows, oven.windows, strict=True):
        model.add(place.start - setup >= a).only_enforce_if(inside)
        model.add(place.end <= b).only_enforce_if(inside)
