"""From the solver's minutes to loads and tasks that name people, burners and clock times."""

from collections.abc import Iterable
from dataclasses import dataclass

from stillroom.day.model import Day
from stillroom.day.plan import Jars, Load, Phase, Task
from stillroom.day.problem import Problem
from stillroom.day.solver.solve import Solution, SolvedLoad, Work


@dataclass(frozen=True, slots=True)
class _Span:
    """A stretch of one burner's day: whose it is, and whether it carries a canner."""

    owner: str
    start: int
    end: int
    canner: bool


def timetable(
    day: Day, problem: Problem, solution: Solution
) -> tuple[tuple[Load, ...], tuple[Task, ...]]:
    """Loads in the order they start, and every task with its people and place.

    Parameters
    ----------
    day, problem, solution : what was asked, what was solved, what was found

    Returns
    -------
    loads and tasks in minutes after midnight. People of a crew are told apart here: whoever has
    worked least so far takes the next piece.
    """
    solved = sorted(solution.loads, key=lambda s: (s.fill.start, s.canner))
    burners = _burners(problem, solution, solved)
    loads = tuple(_load(day, problem, s, number, burners) for number, s in enumerate(solved, 1))
    tasks = _tasks(day, problem, solution, solved, burners)
    return loads, tuple(sorted(tasks, key=lambda t: (t.start, t.end, t.name)))


def _load(day: Day, problem: Problem, s: SolvedLoad, number: int, burners: dict[str, str]) -> Load:
    oven = problem.ovens[s.canner]
    jars = tuple(
        Jars(
            problem.jobs[j].name,
            problem.jobs[j].title,
            problem.jobs[j].jar,
            count,
            problem.jobs[j].ways[w].process,
        )
        for j, w, count in s.jars
    )
    minutes = max(j.process.minutes for j in jars)
    at = day.start + s.lid_on - problem.load
    phases = []
    for name, length in (
        ("load", problem.load),
        ("heat", oven.heat),
        ("vent", oven.vent),
        ("come-up", oven.come_up),
        ("process", minutes),
        ("cool", s.cool),
        ("wait", oven.wait),
    ):
        if length:
            phases.append(Phase(name, at, at + length))
            at += length
    phases.append(Phase("unload", day.start + s.unload.start, day.start + s.unload.end))
    return Load(
        number=number,
        canner=oven.name,
        method=oven.method,
        psi=jars[0].process.psi,
        minutes=minutes,
        burner=burners.get(f"canner {number}", "own plug"),
        jars=jars,
        phases=tuple(phases),
    )


def _burners(problem: Problem, solution: Solution, solved: list[SolvedLoad]) -> dict[str, str]:
    """A burner for every canner and pot; canners choose first, among those that carry one."""
    spans = []
    for number, s in enumerate(solved, 1):
        if not problem.ovens[s.canner].own_plug:
            spans.append(_Span(f"canner {number}", s.fill.start, s.heat_off, True))
        if any(problem.jobs[j].heat for j, _, _ in s.jars):
            spans.append(_Span(f"pot {number}", s.heat_start, s.lid_on, False))
    spans += [_Span(f"batch {b.job}", b.start, b.empty, False) for b in solution.batches]
    placed = _place(sorted(spans, key=lambda s: s.start), problem)
    return {span.owner: placed.get(span.owner, "the burner that is free") for span in spans}


# Far more than a day's pots ever need; a kitchen beyond it is served by moving a pot once.
MOST_TRIES = 20_000


def _place(spans: list[_Span], problem: Problem) -> dict[str, str]:
    """One burner a span for as long as it lasts; canners on those that carry one.

    At every moment there are burners enough, but rarely no pot can keep one all the while. Then
    that pot is left out here, and the cook moves it once to the burner that is free.
    """
    taken: list[list[_Span]] = [[] for _ in range(problem.burners)]
    names: dict[str, str] = {}
    tries = 0

    def place(at: int, may_skip: bool) -> bool:
        nonlocal tries
        tries += 1
        if at == len(spans):
            return True
        if tries > MOST_TRIES:
            return False
        span = spans[at]
        carries = list(range(problem.burners))
        for n in carries[: problem.canner_burners] if span.canner else carries[::-1]:
            if all(other.end <= span.start for other in taken[n]):
                taken[n].append(span)
                names[span.owner] = f"burner {n + 1}"
                if place(at + 1, may_skip):
                    return True
                taken[n].pop()
                del names[span.owner]
        return may_skip and place(at + 1, may_skip)

    if not place(0, may_skip=False):
        tries = 0
        place(0, may_skip=True)
    return names


def _tasks(
    day: Day,
    problem: Problem,
    solution: Solution,
    solved: list[SolvedLoad],
    burners: dict[str, str],
) -> list[Task]:
    hands: list[tuple[str, str, Work, str, int]] = []
    tasks: list[Task] = []
    for number, s in enumerate(solved, 1):
        titles = _titles(problem, (j for j, _, _ in s.jars))
        cut = _titles(problem, (j for j, _, _ in s.jars if not problem.jobs[j].make))
        canner = problem.ovens[s.canner].name
        hands.append(("Prepare", cut, s.prep, "counter", number))
        hands.append(("Fill and load", titles, s.fill, canner, number))
        hands.append(("Unload", titles, s.unload, canner, number))
        pot = burners.get(f"pot {number}")
        if pot:
            start, end = day.start + s.heat_start, day.start + s.lid_on
            tasks.append(Task("Heat and keep hot", titles, (), pot, start, end, number))
    for batch in solution.batches:
        title = problem.jobs[batch.job].title
        hands.append(("Prepare", title, batch.prep, "counter", 0))
        start, end = day.start + batch.start, day.start + batch.empty
        where = burners[f"batch {batch.job}"]
        tasks.append(Task("Cook and keep hot", title, (), where, start, end, 0))
    return tasks + _with_people(day, problem, hands)


def _titles(problem: Problem, jobs: Iterable[int]) -> str:
    return " + ".join(dict.fromkeys(problem.jobs[j].title for j in jobs))


def _with_people(
    day: Day, problem: Problem, hands: list[tuple[str, str, Work, str, int]]
) -> list[Task]:
    free_from = {name: 0 for crew in problem.crews for name in crew.names}
    worked = dict.fromkeys(free_from, 0)
    tasks = []
    for name, recipe, work, where, number in sorted(hands, key=lambda h: h[2].start):
        if work.end == work.start:
            continue
        who: list[str] = []
        for crew, wanted in zip(problem.crews, work.hands, strict=True):
            idle = [p for p in crew.names if free_from[p] <= work.start]
            who += sorted(idle, key=lambda p: worked[p])[:wanted]
        for person in who:
            free_from[person] = work.end
            worked[person] += work.end - work.start
        start, end = day.start + work.start, day.start + work.end
        tasks.append(Task(name, recipe, tuple(who), where, start, end, number))
    return tasks
