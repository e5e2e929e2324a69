"""What makes a day impossible, and which change was found to make it possible."""

import time
from collections.abc import Callable
from dataclasses import replace

from stillroom.day.changes import from_hour, with_burner, with_canner, with_helper
from stillroom.day.model import Day
from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.pins import binding_pins
from stillroom.day.problem import Problem
from stillroom.day.solver import possible, solve
from stillroom.kitchen import Person
from stillroom.units.clock import clock

# Each change is tried for this many seconds: enough to find a plan where there is room for one.
TRY_SECONDS = 4.0
LAST_MINUTE = 24 * 60
# Whether a changed day was found to have a plan.
Opens = Callable[[Day], bool]


def explain(
    day: Day, problem: Problem, *, seconds: float, stopped: Callable[[], bool]
) -> Unplannable:
    """Why no plan keeps the rules within the hours, and what was tried and found to help.

    Only changes for which a plan was found are named; one that was not found in time is left
    out, never claimed. No further change is tried after ``seconds``, or once the person has
    ``stopped`` the search.
    """
    until = time.monotonic() + seconds

    def opens(changed: Day) -> bool:
        return time.monotonic() < until and not stopped() and _opens(changed)

    in_the_way = binding_pins(day, opens)
    if in_the_way:
        return in_the_way
    late = _finish(_longer(day))
    if late is None:
        because, mend = _without_hours(day, problem, opens), []
    else:
        because = [
            f"These orders, canners and hands need until about {clock(late)}; "
            f"the day ends at {clock(day.finish_by)}."
        ]
        mend = [f"End the day later, if whoever is there at its end can stay: at {clock(late)}."]
    mend += _tried(day, opens)
    if not mend:
        mend = [
            "Order fewer jars, or plan the orders on two days."
            if problem.burners
            else "Say in the kitchen file how many burners there are."
        ]
    return Unplannable(tuple(because), tuple(mend))


def _finish(day: Day) -> int | None:
    """When the day would end, minutes after midnight, or ``None`` where no plan was found."""
    problem = make_problem(day)
    if isinstance(problem, Unplannable):
        return None
    try:
        solution = solve(problem, TRY_SECONDS)
    except TimeoutError:
        return None
    return day.start + solution.finish if solution else None


def _opens(day: Day) -> bool:
    """Whether the changed day was found to have a plan."""
    problem = make_problem(day)
    return isinstance(problem, Problem) and possible(problem, TRY_SECONDS)


def _longer(day: Day) -> Day:
    """The same day to midnight, with everybody who is there at its end staying on."""
    people = tuple(_stay(p, day.finish_by) for p in day.kitchen.people)
    helpers = tuple(_stay(p, day.finish_by) for p in day.helpers)
    kitchen = replace(day.kitchen, people=people)
    return replace(day, finish_by=LAST_MINUTE, kitchen=kitchen, helpers=helpers)


def _stay(person: Person, until: int) -> Person:
    """Only who is there at the end stays on; whoever comes and goes keeps to their hours."""
    *earlier, (begin, end) = sorted(person.hours)
    if not begin <= until <= end:
        return person
    return replace(person, hours=(*earlier, (begin, LAST_MINUTE)))


def _tried(day: Day, opens: Opens) -> list[str]:
    """Single changes, each solved: an earlier start, a burner or canner more, a helper, fewer."""
    found = []
    for hours in (1, 2, 3):
        earlier = day.start - 60 * hours
        if earlier >= 0 and opens(from_hour(day, earlier)):
            found.append(f"Start at {clock(earlier)}, if whoever opens the day can come then.")
            break
    if opens(with_burner(day)):
        found.append("Add one burner: pots and canners need more at once than there are.")
    else:
        found += _another_canner(day, opens)
    if opens(with_helper(day)):
        found.append("Ask one helper more, for the whole day.")
    return found + _fewer(day, opens)


def _another_canner(day: Day, opens: Opens) -> list[str]:
    """For each kind of canner, one more of it and a burner for it, where that opens the day."""
    return [
        f"Add one {canner.method} canner, with a burner for it."
        for canner in {c.method: c for c in day.kitchen.canners}.values()
        if opens(with_canner(day, canner))
    ]


def _fewer(day: Day, opens: Opens) -> list[str]:
    """The first order whose halving opens the day, or else whose leaving does."""
    for i, order in enumerate(day.orders):
        half = order.count // 2
        if half and opens(_with_count(day, i, half)):
            return [f"Order only {half} jars of {order.recipe.title} instead of {order.count}."]
    for i, order in enumerate(day.orders):
        if len(day.orders) > 1 and opens(_with_count(day, i, 0)):
            return [f"Leave {order.count} jars of {order.recipe.title} for another day."]
    return []


def _with_count(day: Day, i: int, count: int) -> Day:
    """The same day with another number of jars of one order; of none, without the order."""
    changed = (
        replace(order, count=count) if i == k else order for k, order in enumerate(day.orders)
    )
    return replace(day, orders=tuple(order for order in changed if order.count))


def _without_hours(day: Day, problem: Problem, opens: Opens) -> list[str]:
    """What stands in the way even of a day to midnight."""
    because = []
    if not problem.burners and any(not o.own_plug for o in problem.ovens):
        because.append("The kitchen has no burner for a canner that needs one.")
    for order, job in zip(day.orders, problem.jobs, strict=True):
        if job.heat and not problem.burners:
            because.append(f"{job.title}: its pot needs a burner, and the kitchen has none.")
        shortest = min(
            problem.load
            + w.warming
            + problem.ovens[w.canner].vent
            + w.process.minutes
            + w.cool
            + problem.ovens[w.canner].wait
            + problem.unload
            for w in job.ways
        )
        if shortest > LAST_MINUTE - day.start:
            because.append(
                f"{order.recipe.title}: one load alone takes {shortest} minutes from the jars "
                "going in."
            )
    if not because and opens(_longer(with_burner(day))):
        because.append("Pots and canners need more burners at once than the kitchen has.")
    return because or [
        "No plan that keeps all rules was found even by midnight: raw food meets heat within two "
        "hours, somebody watches every canner on heat, people keep their hours, and hands do one "
        "thing at a time."
    ]
