"""Solve a day: the person's aims one after another, each with the ones before it held."""

import time
from dataclasses import replace

from ortools.sat.python import cp_model

from stillroom.day.aims import Reached
from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.aims import expression, measure, per_unit, unit
from stillroom.day.solver.bench import FirstPlan
from stillroom.day.solver.first import first_plan, varied_plan
from stillroom.day.solver.hint import hint_first_plan
from stillroom.day.solver.improve import improve
from stillroom.day.solver.read import read_plan
from stillroom.day.solver.rules import add_rules
from stillroom.day.solver.search import Control, found, search
from stillroom.day.solver.solution import Solution, from_first
from stillroom.day.solver.strength import add_strength
from stillroom.day.solver.variables import Variables, make_variables

# Of the time there is, the first aim may take so much; what it leaves goes to the others.
FIRST_SHARE = 0.75
# What comes after the finish is a courtesy: each aim gets so much of the solver's own measure of
# work (a second or two of a household's computer), and no more than its share of the time.
COURTESY = 0.25

# From so many possible loads on, a day is first improved part by part, for so many seconds.
BIG, IMPROVE_SECONDS = 26, 2.0
# From so many on, looking at the whole brings little but a bound: parts get most of the time.
HUGE, HUGE_SHARE = 50, 0.8


def solve(problem: Problem, time_limit: float, control: Control | None = None) -> Solution | None:
    """The day's plan, or ``None`` where the rules leave none within the hours.

    Parameters
    ----------
    problem : the day, in whole minutes
    time_limit : seconds for all aims together
    control : who follows the search and may end it

    Raises
    ------
    TimeoutError
        The limit passed, or the search was ended, before any plan was found and none was proved
        impossible.
    ValueError
        The model itself is wrong: a fault of this program.
    """
    control = control or Control()
    until = time.monotonic() + time_limit
    problem = problem.in_steps()
    first = first_plan(problem)
    if first:
        latest = first.finish
        control.news("first plan", latest, 0)
        if problem.aims[0] == "finish":
            first = _improved(problem, first, time_limit, control)
            latest = first.finish
            # No plan worth having ends later than one that is there already.
            problem = replace(problem, horizon=latest)
    v = make_variables(problem)
    if not _loads_enough(problem, v):
        return None
    _add_all(problem, v)
    if first:
        hint_first_plan(problem, v, *first.parts)
    return _aim_by_aim(problem, v, first, until, control)


def _improved(problem: Problem, first: FirstPlan, time_limit: float, control: Control) -> FirstPlan:
    """A big day's first plan made better part by part, before the whole is looked at."""
    slots = len(make_variables(replace(problem, horizon=first.finish)).slots)
    if slots < BIG:
        return first
    seconds = HUGE_SHARE * time_limit if slots >= HUGE else min(IMPROVE_SECONDS, time_limit / 4)
    until = time.monotonic() + seconds
    first = varied_plan(problem, first, control.seed)
    control.news("finish", first.finish, 0)
    return improve(problem, first, until, control)


def _aim_by_aim(
    problem: Problem, v: Variables, first: FirstPlan | None, until: float, control: Control
) -> Solution | None:
    """Minimise each aim in turn and hold what it reached."""
    best: cp_model.CpSolver | None = None
    bounds: dict[str, int] = {}
    for n, aim in enumerate(problem.aims):
        left = until - time.monotonic()
        if best and (left <= 0 or control.stop.is_set()):
            break
        wanted = expression(problem, v, aim)
        v.model.minimize(wanted)
        others = len(problem.aims) - n - 1
        share = FIRST_SHARE if not n and others else 1 / (others + 1)
        courtesy = n > problem.aims.index("finish")
        solver, status = search(
            v.model,
            left * share,
            control,
            aim=aim,
            finish=v.finish,
            most_work=COURTESY if courtesy else None,
        )
        if status == cp_model.INFEASIBLE:
            return None
        bounds[aim] = max(0, round(solver.best_objective_bound)) if _tried(status) else 0
        if not found(status):
            if best is None:
                return _without_search(problem, first, bounds, control)
            continue
        best = solver
        _hold(v, solver, wanted)
    assert best is not None
    loads, batches = read_plan(problem, v, best)
    finish = max(load.unload.end for load in loads)
    seconds = time.monotonic() - control.begun
    bound = min(finish, STEP * bounds.get("finish", 0))
    made = Solution(False, finish, bound, seconds, loads, batches, (), control.stop.is_set())
    return told(problem, made, bounds)


def _tried(status: cp_model.CpSolverStatus) -> bool:
    return bool(status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.UNKNOWN))


def _hold(v: Variables, solver: cp_model.CpSolver, wanted: cp_model.LinearExpr) -> None:
    """From here on no worse in this aim, and start from the plan that is there."""
    v.model.add(wanted <= round(solver.objective_value))
    v.model.clear_hints()  # type: ignore[no-untyped-call]  # the solver ships it without types
    for index, value in enumerate(solver.response_proto.solution):
        v.model.add_hint(v.model.get_int_var_from_proto_index(index), value)


def _without_search(
    problem: Problem, first: FirstPlan | None, bounds: dict[str, int], control: Control
) -> Solution:
    """The first plan, where the solver found none in its time."""
    seconds = time.monotonic() - control.begun
    if first is None:
        raise TimeoutError(f"no plan was found in {seconds:.3g} s")
    made = from_first(problem, *first.parts, bound=bounds.get("finish", 0), seconds=seconds)
    return told(problem, replace(made, stopped=control.stop.is_set()), bounds)


def told(problem: Problem, made: Solution, bounds: dict[str, int]) -> Solution:
    """The plan with what it reaches of each aim; optimal if so proved up to the finish."""
    reached = tuple(
        Reached(
            aim,
            value := measure(problem, made, aim),
            min(value, per_unit(aim) * bounds.get(aim, 0)),
            unit(aim),
        )
        for aim in problem.aims
    )
    upto = reached[: problem.aims.index("finish") + 1]
    return replace(made, reached=reached, optimal=all(aim.proved for aim in upto))


def possible(problem: Problem, time_limit: float) -> bool:
    """Whether a plan was found at all within the limit; no care is taken for a good one."""
    problem = problem.in_steps()
    if first_plan(problem):
        return True
    v = make_variables(problem)
    if not _loads_enough(problem, v):
        return False
    _add_all(problem, v)
    return found(search(v.model, time_limit, Control())[1])


def _loads_enough(problem: Problem, v: Variables) -> bool:
    """Whether the loads that the hours can hold would take every jar, whatever else binds."""
    return all(
        sum(s.most.get(j, 0) for s in v.slots) >= job.count for j, job in enumerate(problem.jobs)
    )


def _add_all(problem: Problem, v: Variables) -> None:
    add_rules(problem, v)
    add_strength(problem, v)
