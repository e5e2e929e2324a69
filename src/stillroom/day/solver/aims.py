"""What a good day is: each aim as the solver sees it, and as it is measured in a plan."""

from collections.abc import Callable

from ortools.sat.python import cp_model

from stillroom.day.problem import STEP, Problem
from stillroom.day.solver.solution import Solution
from stillroom.day.solver.variables import Variables

PIECES = "pieces"
MINUTES = "min"


def unit(aim: str) -> str:
    """What an aim is counted in."""
    return PIECES if aim == "tidy work" else MINUTES


def per_unit(aim: str) -> int:
    """Minutes (or pieces) in one unit of the aim's expression in the model."""
    return 1 if aim in ("extra processing", "tidy work") else STEP


def expression(problem: Problem, v: Variables, aim: str) -> cp_model.LinearExpr:
    """What the solver makes small for an aim, with the variables it needs.

    Raises
    ------
    KeyError
        No such aim.
    """
    parts: dict[str, Callable[[], list[cp_model.LinearExprT]]] = {
        "finish": lambda: [v.finish],
        "hot hours": lambda: _on_heat(problem, v),
        "waiting": lambda: _waiting(v),
        "extra processing": lambda: _extra(problem, v),
        "tidy work": lambda: [
            hands for s in v.slots for h in (s.prep, s.fill, s.unload) for hands in h.of_crew
        ],
    }
    # A day that only waits for what is under way has nothing to add up.
    return cp_model.LinearExpr.sum([*parts[aim](), 0 * v.finish])


def _on_heat(problem: Problem, v: Variables) -> list[cp_model.LinearExprT]:
    """Each canner from filling to heat off, each pot from going on to empty."""
    total: list[cp_model.LinearExprT] = []
    for s in v.slots:
        oven = problem.ovens[s.canner]
        total += [s.fill.size, s.warming, oven.vent * s.used, s.run]
        if not any(problem.jobs[j].heat for j in s.has):
            continue
        hot = v.model.new_int_var(0, problem.horizon, "pot on heat")
        v.model.add(hot >= s.pot_heat + s.fill.size).only_enforce_if(s.pot)
        total.append(hot)
    return total + [batch.empty - batch.start for batch in v.batches.values()]


def _waiting(v: Variables) -> list[cp_model.LinearExprT]:
    """Cut food that waits for its pot, hot pots that wait to be emptied, jars to be lifted out."""
    cut: list[cp_model.LinearExprT] = [s.heat_start - s.prep.end for s in v.slots]
    pots: list[cp_model.LinearExprT] = [b.empty - b.ready for b in v.batches.values()]
    jars: list[cp_model.LinearExprT] = [s.unload.start - s.open for s in v.slots]
    return cut + pots + jars


def _extra(problem: Problem, v: Variables) -> list[cp_model.LinearExprT]:
    """Minutes beyond its own published time, for each order in each load."""
    total: list[cp_model.LinearExprT] = []
    for s in v.slots:
        if len(s.by) < 2:
            continue
        for (j, w), by in s.by.items():
            own = problem.jobs[j].ways[w].process.minutes
            extra = v.model.new_int_var(0, problem.most_extra, "extra")
            v.model.add(extra >= s.minutes - own).only_enforce_if(by)
            total.append(extra)
    return total


def measure(problem: Problem, solution: Solution, aim: str) -> int:
    """What a plan reaches of an aim, in minutes or pieces.

    Parameters
    ----------
    problem : in minutes or steps; only published minutes and pots are read
    """
    # What is under way is as it is: an aim counts what is still to be done.
    loads = [load for load in solution.loads if not load.number]
    batches, jobs = solution.batches, problem.jobs
    if aim == "finish":
        return solution.finish
    if aim == "hot hours":
        pots = (s for s in loads if any(jobs[j].heat for j, _, _ in s.jars))
        return (
            sum(s.heat_off - s.fill.start for s in loads)
            + sum(s.lid_on - s.heat_start for s in pots)
            + sum(b.empty - b.start for b in batches)
        )
    if aim == "waiting":
        return sum(s.heat_start - s.prep.end + s.unload.start - s.open for s in loads) + sum(
            b.empty - b.ready for b in batches
        )
    if aim == "extra processing":
        return sum(_longer(problem, s.jars) for s in loads)
    return sum(sum(work.hands) for s in loads for work in (s.prep, s.fill, s.unload))


def _longer(problem: Problem, jars: tuple[tuple[int, int, int], ...]) -> int:
    own = [problem.jobs[j].ways[w].process.minutes for j, w, _ in jars]
    return sum(max(own) - minutes for minutes in own)
