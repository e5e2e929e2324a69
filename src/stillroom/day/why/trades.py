"""What a plan's trades cost: shared loads against loads kept apart, one aim against another.

Every figure is the difference of two solved plans; where the other plan is not proved the earliest,
the sentence says so.
"""

from collections.abc import Iterator
from dataclasses import replace

from stillroom.day.plan import Load, Plan
from stillroom.day.problem import Problem
from stillroom.day.solver import Control
from stillroom.day.solver.aims import measure
from stillroom.day.solver.solution import Solution
from stillroom.day.why.solved import Changed, solved, upto, upto_tidy
from stillroom.units.clock import lasting

# As far as a day file may let a food be processed beyond its own time.
MOST_EXTRA = 120


def trades(plan: Plan, seconds: float, control: Control) -> Iterator[str]:
    """A sentence for each trade that was solved, with so many seconds for each."""
    mixed = [load for load in plan.loads if _longer(load)]
    if mixed:
        yield from _kept_apart(plan, mixed, seconds, control)
    if plan.day.most_extra < MOST_EXTRA:
        yield from _mixed_more(plan, seconds, control)
    yield from _other_aim_first(plan, seconds, control)


def _longer(load: Load) -> dict[str, int]:
    """Minutes beyond its own published time of each food in a load that has any."""
    return {
        jars.title: load.minutes - jars.process.minutes
        for jars in load.jars
        if load.minutes > jars.process.minutes
    }


def _kept_apart(plan: Plan, mixed: list[Load], seconds: float, control: Control) -> Iterator[str]:
    named = "; ".join(f"{load.name} (load {load.number})" for load in mixed)
    apart = solved(replace(plan.day, most_extra=0), seconds, control, upto_tidy(plan.day))
    cost = "; ".join(
        f"{title} is processed {extra} min longer than published"
        for load in mixed
        for title, extra in _longer(load).items()
    )
    if control.stop.is_set():
        return
    if apart is None:
        yield (
            f"Mixing {named}: without it no plan was found in {seconds:g} s. The cost: {cost}, "
            "which changes taste only."
        )
        return
    later = plan.day.start + apart.solution.finish - plan.finish
    loads = len(apart.solution.loads) - len(plan.loads)
    yield (
        f"Mixing {named} {_saves(loads, later)}{_against(apart, seconds)}. The cost: {cost}, "
        "which changes taste only."
    )


def _mixed_more(plan: Plan, seconds: float, control: Control) -> Iterator[str]:
    """What foods beyond the minutes that the day allows would save."""
    aims = (*upto(plan.day), "extra processing", "hot hours")
    more = solved(
        replace(plan.day, most_extra=MOST_EXTRA), seconds, control, tuple(dict.fromkeys(aims))
    )
    if more is None:
        return
    earlier = plan.finish - plan.day.start - more.solution.finish
    longest = max((extra for _, extra in _extras(more.problem, more.solution)), default=0)
    if earlier <= 0 or longest <= plan.day.most_extra:
        if more.solution.optimal and earlier <= 0:
            yield "Letting foods share loads more freely (most_extra_minutes) saves no time."
        return
    cost = "; ".join(
        f"{title} is processed {extra} min longer than published"
        for title, extra in dict.fromkeys(_extras(more.problem, more.solution))
    )
    loads = len(plan.loads) - len(more.solution.loads)
    yield (
        f"Letting foods share loads more freely (most_extra_minutes = {longest}) "
        f"{_saves(loads, earlier)}{_against(more, seconds, 'this plan')}. The cost: {cost}, which "
        "changes taste only."
    )


def _extras(problem: Problem, solution: Solution) -> Iterator[tuple[str, int]]:
    for load in solution.loads:
        own = {j: problem.jobs[j].ways[w].process.minutes for j, w, _ in load.jars}
        longest = max(own.values())
        for j, minutes in own.items():
            if longest > minutes:
                yield problem.jobs[j].title, longest - minutes


def _other_aim_first(plan: Plan, seconds: float, control: Control) -> Iterator[str]:
    """The second aim before the first: what that gains and what it takes."""
    first, second = plan.day.aims[:2]
    values = {aim.aim: aim for aim in plan.reached}
    # A day is always solved for its finish too; where it is neither of the two it comes after them.
    aims = tuple(dict.fromkeys((second, first, "finish")))
    swapped = solved(plan.day, seconds, control, aims)
    if swapped is None or first not in values or second not in values:
        return
    gain = values[second].value - measure(swapped.problem, swapped.solution, second)
    loss = measure(swapped.problem, swapped.solution, first) - values[first].value
    proved = all(aim.proved for aim in swapped.solution.reached[:2])
    if gain > 0 and loss > 0:
        yield (
            f"{second.capitalize()} before {first}: {_told(gain, values[second].unit)} less of "
            f"{second}, {_told(loss, values[first].unit)} more of {first}"
            f"{'' if proved else f' (best found in {seconds:g} s)'}."
        )
    elif proved and gain <= 0:
        yield f"{second.capitalize()} before {first} would gain nothing."


def _told(amount: int, unit: str) -> str:
    return lasting(amount) if unit == "min" else f"{amount} {unit}"


def _saves(loads: int, minutes: int) -> str:
    """Loads and time saved, in words; a loss is called one."""
    told = [
        (amount > 0, words)
        for amount, words in (
            (loads, f"{abs(loads)} load{'s' if abs(loads) != 1 else ''}"),
            (minutes, lasting(abs(minutes))),
        )
        if amount
    ]
    saved = " and ".join(words for gain, words in told if gain)
    lost = " and ".join(words for gain, words in told if not gain)
    if saved and lost:
        return f"saves {saved} but costs {lost}"
    return f"saves {saved}" if saved else f"costs {lost}" if lost else "saves no load and no time"


def _against(changed: Changed, seconds: float, than: str = "") -> str:
    if than:
        return f" against {than}"
    if changed.solution.optimal:
        return ""
    return f" (against the best plan found without it in {seconds:g} s)"
