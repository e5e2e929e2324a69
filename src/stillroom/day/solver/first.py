"""A first plan by a rule a person would use: whichever canner is free takes the longest food next.

The solver starts from it, so that a plan is there at once even on a day too large to search
through; it is the answer itself where the solver had no time at all. For a big day the rule is
tried with many small changes of mind. All times are five-minute steps.
"""

import random
from math import inf

from stillroom.day.problem import Job, Problem, Way
from stillroom.day.solver.bench import FirstPlan, Rule
from stillroom.day.solver.placing import place_all

# So many changes of mind for a big day: the largest take about a second.
TRIES = 60


def first_plan(problem: Problem) -> FirstPlan | None:
    """The best of a few plans by simple rules, or ``None`` where none of them ends in time.

    Parameters
    ----------
    problem : a day in steps (``Problem.in_steps``)
    """
    rules = [Rule(_longest_first), Rule(_most_work_first), Rule(_as_written)]
    if any(job.done_by is not None for job in problem.jobs):
        rules.append(Rule(_due_first))
    return _best([place_all(problem, rule) for rule in rules])


def varied_plan(problem: Problem, plan: FirstPlan, seed: int, tries: int = TRIES) -> FirstPlan:
    """The best of many plans by rules drawn at random, or the one given where none is better.

    Parameters
    ----------
    problem : a day in steps
    plan : one that is there
    seed, tries : of the dice, and how many rules to draw
    """
    dice = random.Random(seed)
    best = plan
    for _ in range(tries):
        # What ends later than the best is given up on the way.
        made = place_all(problem, _drawn(problem, dice))
        best = made if made and made.finish < best.finish else best
    return best


def _drawn(problem: Problem, dice: random.Random) -> Rule:
    """Long loads first and empty canners first, each more or less, with a whim for each order."""
    whims = [dice.uniform(0, 40) * dice.random() for _ in problem.jobs]
    empty = dice.uniform(0, 1.5)

    def order(j: int, job: Job, way: Way, emptied: int) -> tuple[float, ...]:
        return (empty * emptied - problem.closed(way) + whims[j], emptied)

    return Rule(order, cutters=dice.choice((1, 1, 2)), part=dice.choice((1.0, 1.0, 0.5)))


def _best(made: list[FirstPlan | None]) -> FirstPlan | None:
    plans = [plan for plan in made if plan]
    return min(plans, key=lambda plan: plan.finish, default=None)


def _longest_first(j: int, job: Job, way: Way, emptied: int) -> tuple[float, ...]:
    return (emptied, -way.process.minutes)


def _most_work_first(j: int, job: Job, way: Way, emptied: int) -> tuple[float, ...]:
    return (emptied, -(job.prep_tenths + job.fill_tenths) * way.capacity)


def _as_written(j: int, job: Job, way: Way, emptied: int) -> tuple[float, ...]:
    return (emptied,)


def _due_first(j: int, job: Job, way: Way, emptied: int) -> tuple[float, ...]:
    return (emptied, inf if job.done_by is None else job.done_by)
