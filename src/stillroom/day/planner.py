"""Plan a day: the one function that a page and a command call."""

from collections.abc import Iterator
from dataclasses import replace

from stillroom.day.impossible import explain
from stillroom.day.lengths import stand_ins
from stillroom.day.model import Day
from stillroom.day.needs import day_lists
from stillroom.day.orders import Unplannable, make_problem
from stillroom.day.plan import Load, Plan
from stillroom.day.problem import Problem, Way
from stillroom.day.replan.settle import settle
from stillroom.day.replan.status import Status
from stillroom.day.risk import Pot, spread
from stillroom.day.solver import Control, solve
from stillroom.day.solver.solution import Solution
from stillroom.day.timetable import timetable
from stillroom.heat.durations import TooWeak
from stillroom.processes import library, reading_notes
from stillroom.units.clock import clock

# Minutes; jars that stand ready in their canner for longer are worth a word (our own choice).
LONG_HELD = 30


def plan_day(
    day: Day, *, time_limit: float = 20.0, control: Control | None = None
) -> Plan | Unplannable:
    """Loads, timetable and lists for a day, or why there can be none and what would help.

    Parameters
    ----------
    day : orders, kitchen and hours
    time_limit : seconds for the solver; where there is no plan, as long again to find what helps
    control : who follows the search, may end it, and the seed of its dice

    Returns
    -------
    Plan : optimal, or feasible with a bound that no plan can beat
    Unplannable : reasons, and changes each of which was solved and found to help

    Raises
    ------
    InputError
        A jar that no canner for its food can hold.
    TimeoutError
        No plan was found, and none proved impossible, within the limit or until the search was
        ended.
    """
    problem = make_problem(day)
    if isinstance(problem, Unplannable):
        return problem
    solution = solve(problem, time_limit, control)
    if solution is None:
        stopped = control.stop.is_set if control else lambda: False
        return explain(day, problem, seconds=time_limit, stopped=stopped)
    return _plan(day, problem, solution)


def plan_from(
    day: Day, status: Status, *, time_limit: float = 20.0, control: Control | None = None
) -> Plan | Unplannable:
    """The rest of a day that is under way: nothing that runs is moved, nothing done is undone.

    Parameters
    ----------
    day : as its file says
    status : how it stands (``replan.read_status``)
    time_limit, control : as for ``plan_day``

    Returns
    -------
    Plan : running and coming loads, with those that are done beside them
    Unplannable : reasons; what to change is for the person to see

    Raises
    ------
    InputError
        A status that contradicts itself, the plan it names or the day file.
    TimeoutError
        As ``plan_day``.
    """
    settled = settle(day, status)
    if isinstance(settled, Unplannable):
        return settled
    solution = solve(settled.problem, time_limit, control)
    if solution is None:
        return Unplannable(
            (
                f"What is left at {clock(status.now)} cannot be done by {clock(day.finish_by)} "
                "with what is under way left as it is.",
            ),
            ("Write a later finish_by, leave out an order, or take out a pin, and plan again.",),
        )
    plan = _plan(day, settled.problem, solution, status.now)
    return replace(
        plan, now=status.now, done=settled.done, warnings=(*settled.taken, *plan.warnings)
    )


def _plan(day: Day, problem: Problem, solution: Solution, now: int = 0) -> Plan:
    loads, tasks = timetable(day, problem, solution)
    needed = day_lists(day)
    warnings = [*_warnings(loads), *_of_the_fire(problem, solution), *needed.cautions]
    return Plan(
        day=day,
        optimal=solution.optimal,
        start=min(t.start for t in tasks),
        finish=day.start + solution.finish,
        bound=day.start + solution.bound,
        likely=spread(
            loads,
            tasks,
            tuple(Pot(job.title, job.make) for job in problem.jobs if job.make),
            now=now,
        ),
        seconds=solution.seconds,
        loads=loads,
        tasks=tasks,
        lists=needed,
        warnings=tuple(dict.fromkeys(warnings)),
        stand_ins=stand_ins(_not_told(problem, solution)),
        reached=solution.reached,
        stopped=solution.stopped,
    )


def _used(problem: Problem, solution: Solution) -> Iterator[Way]:
    """The published rows that the plan's loads follow, with what the heat model says of them."""
    for load in solution.loads:
        for j, w, _ in load.jars:
            yield problem.jobs[j].ways[w]


def _not_told(problem: Problem, solution: Solution) -> Iterator[tuple[str, tuple[str, ...]]]:
    for way in _used(problem, solution):
        if way.times:
            yield problem.ovens[way.canner].name, way.times.stand_ins


def _of_the_fire(problem: Problem, solution: Solution) -> Iterator[str]:
    """What the heat model warns of, and where it had no answer."""
    for way in _used(problem, solution):
        if isinstance(way.times, TooWeak):
            yield f"{way.times.why} The plan takes the published {way.warming} min for warming."
        elif way.times:
            yield from way.times.warnings


def _warnings(loads: tuple[Load, ...]) -> Iterator[str]:
    """What the person must know of this plan beyond its figures."""
    if any(load.method == "dial-gauge" for load in loads):
        yield "Dial gauge: use it only if it was tested this year (AIB-539 Guide 1)."
    for load in loads:
        sizes = {j.jar for j in load.jars}
        if len(sizes) > 1:
            yield (
                f"Load {load.number} mixes jar sizes: check that they stand upright in the "
                f"{load.canner} before you count on it (the room they take is an estimate)."
            )
        if load.held >= LONG_HELD:
            lifted = load.phases[-1].start
            yield (
                f"Load {load.number}: its jars are ready at {clock(lifted - load.held)}, and hands "
                f"are free to lift them only at {clock(lifted)}. Ask somebody to lift them out "
                "when they are ready: in a hot canner they go on cooking, and food that cools "
                "slowly can spoil (common practice)."
            )
        for jars in load.jars:
            extra = load.minutes - jars.process.minutes
            if extra:
                yield (
                    f"Load {load.number}: {jars.title} is processed {extra} min longer than "
                    "published, with the load. That changes taste and texture only."
                )
            fact = library.product(jars.process.food, jars.process.form)
            if fact and fact.acid:
                yield f"{jars.title}, acid: {fact.acid}."
            if jars.process.minutes < 10 and jars.process.psi is None:
                yield (
                    f"{jars.title}: sterile jars, boiled 10 min and 1 min more for each 1,000 ft "
                    "above 1,000 ft, because its process is under 10 min."
                )
            if jars.jar != jars.process.jar:
                yield (
                    f"{jars.title}: {jars.jar} jars take the {jars.process.jar} row, "
                    "the next larger printed size."
                )
            for note in reading_notes(jars.process):
                yield f"{jars.title}: {note[0].lower()}{note[1:]}"
