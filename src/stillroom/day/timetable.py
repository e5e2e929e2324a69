"""From the solver's minutes to loads and tasks that name people, burners and clock times."""

from collections.abc import Iterable
from itertools import count

from stillroom.day.burners import Span, Stand, place
from stillroom.day.lengths import of_load
from stillroom.day.model import Day
from stillroom.day.plan import Jars, Load, Phase, Task
from stillroom.day.problem import Done, Problem
from stillroom.day.solver.solution import Solution, SolvedLoad, Work
from stillroom.heat.durations import Times
from stillroom.units.jars import SIZES

# Name, recipe, when, where, load, who does it where that is known already, and the order of a pot
# made once.
Hand = tuple[str, str, Work, str, int, tuple[str, ...], int]


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
    fresh = count(problem.last_number + 1)
    numbered = [(s.number or next(fresh), s) for s in solved]
    burners = _burners(problem, solution, numbered)
    loads = tuple(_load(day, problem, s, number, burners) for number, s in numbered)
    tasks = _tasks(day, problem, solution, numbered, burners)
    return loads, tuple(sorted(tasks, key=lambda t: (t.start, t.end, t.name)))


def _load(
    day: Day, problem: Problem, s: SolvedLoad, number: int, burners: dict[str, tuple[Stand, ...]]
) -> Load:
    oven = problem.ovens[s.canner]
    jars = tuple(
        Jars(
            problem.jobs[j].name,
            problem.jobs[j].title,
            problem.jobs[j].jar,
            count,
            "hot" if problem.jobs[j].hot else "raw",
            problem.jobs[j].ways[w].process,
            problem.jobs[j].order,
        )
        for j, w, count in s.jars
    )
    minutes = max(j.process.minutes for j in jars)
    ways = [problem.jobs[j].ways[w] for j, w, _ in s.jars]
    slowest, last = max(ways, key=lambda w: w.warming), max(ways, key=lambda w: w.cool)
    stands = burners.get(f"canner {number}")
    # A load under way keeps its burner, and its name once the heat is off.
    known = next((r.burner for r in problem.running if r.number == number), 0)
    burner = known or (stands[0].burner if stands else 0)
    at = day.start + s.lid_on - problem.load
    phases = []
    for name, length in (
        ("load", problem.load),
        ("heat", slowest.heat),
        ("vent", oven.vent),
        ("come-up", slowest.come_up),
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
        burner=f"burner {burner}" if burner else "own plug",
        jars=jars,
        phases=tuple(phases),
        lengths=of_load(oven.method, max((j.jar for j in jars), key=SIZES.index), slowest, last),
        warming=slowest.times if isinstance(slowest.times, Times) else None,
        cooling=last.times if isinstance(last.times, Times) else None,
    )


def _burners(
    problem: Problem, solution: Solution, solved: list[tuple[int, SolvedLoad]]
) -> dict[str, tuple[Stand, ...]]:
    """The stands of every canner and pot, by owner, in minutes from the start."""
    spans = []
    for r in problem.running:
        for owner, burner, start, end in (
            (f"canner {r.number}", r.burner, r.fill.start, r.heat_off),
            (f"pot {r.number}", r.pot_burner, r.heat_start, r.fill.end),
        ):
            if burner and end > problem.now:
                heavy = owner.startswith("canner")
                spans.append(Span(owner, max(start, problem.now), end, heavy, burner))
    for number, s in solved:
        if s.number:
            continue
        if not problem.ovens[s.canner].own_plug:
            spans.append(Span(f"canner {number}", s.fill.start, s.heat_off, True))
        if any(problem.jobs[j].heat for j, _, _ in s.jars):
            spans.append(Span(f"pot {number}", s.heat_start, s.lid_on, False))
    spans += [
        Span(f"batch {b.job}", b.start, b.empty, False, problem.jobs[b.job].burner)
        for b in solution.batches
    ]
    return place(spans, problem.burners, problem.canner_burners)


def _tasks(
    day: Day,
    problem: Problem,
    solution: Solution,
    solved: list[tuple[int, SolvedLoad]],
    burners: dict[str, tuple[Stand, ...]],
) -> list[Task]:
    hands: list[Hand] = []
    tasks: list[Task] = []

    def pot(
        owner: str, name: str, recipe: str, number: int, order: int = 0, on: int | None = None
    ) -> None:
        for move, stand in enumerate(burners.get(owner, ())):
            told = f"Move the pot here: {name[0].lower()}{name[1:]}" if move else name
            # A pot that is on heat already is told from when it went on.
            begun = stand.start if move or on is None else min(on, stand.start)
            start, end = day.start + begun, day.start + stand.end
            tasks.append(
                Task(told, recipe, (), f"burner {stand.burner}", start, end, number, order)
            )

    for number, s in solved:
        titles = _titles(problem, (j for j, _, _ in s.jars))
        cut = _titles(problem, (j for j, _, _ in s.jars if not problem.jobs[j].make))
        canner = problem.ovens[s.canner].name
        cutters, fillers, lifters = s.who or ((), (), ())
        hands.append(("Prepare", cut, s.prep, "counter", number, cutters, 0))
        for over, what in () if s.number else _cut_before(problem, s):
            work = Work((), over.start, over.end)
            hands.append(("Prepare", what, work, "counter", number, over.who, 0))
        hands.append(("Fill and load", titles, s.fill, canner, number, fillers, 0))
        hands.append(("Unload", titles, s.unload, canner, number, lifters, 0))
        on = s.heat_start if s.number else None
        pot(f"pot {number}", "Heat and keep hot", titles, number, on=on)
    for batch in solution.batches:
        job = problem.jobs[batch.job]
        hands.append(("Prepare", job.title, batch.prep, "counter", 0, (), job.order))
        for over in job.cut:
            work = Work((), over.start, over.end)
            hands.append(("Prepare", job.title, work, "counter", 0, over.who, job.order))
        on = None if job.ready is None else job.ready - job.make
        pot(f"batch {batch.job}", "Cook and keep hot", job.title, 0, job.order, on)
    return tasks + _with_people(day, problem, hands)


def _cut_before(problem: Problem, s: SolvedLoad) -> Iterable[tuple[Done, str]]:
    """Cutting that was done for the load's jars before now, with what was cut in one go."""
    together: dict[Done, list[int]] = {}
    for j, _, _ in s.jars:
        for cut in () if problem.jobs[j].make else problem.jobs[j].cut:
            together.setdefault(cut, []).append(j)
    return [(cut, _titles(problem, jobs)) for cut, jobs in together.items()]


def _titles(problem: Problem, jobs: Iterable[int]) -> str:
    return " + ".join(dict.fromkeys(problem.jobs[j].title for j in jobs))


def _with_people(day: Day, problem: Problem, hands: list[Hand]) -> list[Task]:
    busy: dict[str, list[Work]] = {name: [] for crew in problem.crews for name in crew.names}
    worked = dict.fromkeys(busy, 0)
    tasks = []
    # Who is at work already, or must follow a pot on heat, stays at it; the others are told apart
    # after them.
    in_order = sorted(hands, key=lambda hand: (not hand[5], hand[2].start))
    for name, recipe, work, where, number, known, order in in_order:
        if work.end == work.start:
            continue
        who: list[str] = list(known)
        for crew, wanted in () if known else zip(problem.crews, work.hands, strict=True):
            idle = [
                p
                for p in crew.names
                if all(b.end <= work.start or b.start >= work.end for b in busy[p])
            ]
            who += sorted(idle, key=lambda p: worked[p])[:wanted]
        for person in who:
            busy.setdefault(person, []).append(work)
            worked[person] = worked.get(person, 0) + work.end - work.start
        start, end = day.start + work.start, day.start + work.end
        tasks.append(Task(name, recipe, tuple(who), where, start, end, number, order))
    return tasks
