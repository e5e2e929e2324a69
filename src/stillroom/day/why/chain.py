"""The chain through a plan that holds its finish: each link could not begin before the last ended.

Read off the finished plan, from its last jar backwards.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from stillroom.day.plan import Load, Plan, Task


@dataclass(frozen=True, slots=True)
class Link:
    """A stretch of the chain, in minutes after midnight: what goes on, and what it keeps busy.

    ``holds`` is the canner, the people, the burner or the pot that the next link waits for.
    """

    start: int
    end: int
    what: str
    holds: str


Step = tuple[Link, "Task | Load"]


def chain(plan: Plan) -> tuple[Link, ...]:
    """The links in the order they happen; each begins as the one before ends, the last ends the
    plan.

    Of several chains the one that reaches furthest back is told.
    """
    known: dict[tuple[str, int, str], tuple[Link, ...]] = {}

    def back(at: Task | Load) -> tuple[Link, ...]:
        key = ("load", at.number, "") if isinstance(at, Load) else (at.name, at.load, at.recipe)
        if key not in known:
            known[key] = ()
            before = [(*back(earlier), link) for link, earlier in _ended(plan, at)]
            known[key] = min(before, key=lambda links: links[0].start, default=())
        return known[key]

    ends = [t for t in plan.tasks if t.name == "Unload" and t.end == plan.finish]
    return min(((*back(last), _work(last)) for last in ends), key=lambda links: links[0].start)


def binds(links: tuple[Link, ...]) -> tuple[tuple[str, int], ...]:
    """Minutes of the chain by what they keep busy, most first."""
    minutes: dict[str, int] = {}
    for link in links:
        minutes[link.holds] = minutes.get(link.holds, 0) + link.end - link.start
    return tuple(sorted(minutes.items(), key=lambda held: (-held[1], held[0])))


def _ended(plan: Plan, at: Task | Load) -> Iterator[Step]:
    if isinstance(at, Load):
        filling = _task(plan, at.number, "Fill and load")
        if filling:
            yield from _held_filling(plan, at, filling)
        return
    if at.name == "Unload":
        load = _load(plan, at.load)
        if load.phases[-2].end == at.start:
            yield _run(plan, load), load
    if at.who:
        yield from _hands(plan, at)
    else:
        yield from _held_pot(plan, _load(plan, at.load), at.start)


def _held_filling(plan: Plan, load: Load, filling: Task) -> Iterator[Step]:
    for other in plan.loads:
        if other.canner == load.canner and other.end == filling.start:
            unload = _task(plan, other.number, "Unload")
            if unload:
                yield _work(unload), unload
    yield from _hands(plan, filling)
    for other in plan.loads:
        if other.burner == load.burner != "own plug":
            off = other.phase("process").end
            if off == filling.start:
                fill = _task(plan, other.number, "Fill and load")
                begun = fill.start if fill else other.start
                what = f"load {other.number} on heat ({other.name})"
                yield Link(begun, off, what, other.burner), other
    pot = _pot(plan, load.number)
    if pot:
        yield Link(pot.start, filling.start, f"{pot.name}: {pot.recipe}", pot.where), pot
    else:
        yield from _held_pot(plan, load, filling.start)


def _held_pot(plan: Plan, load: Load, begun: int) -> Iterator[Step]:
    """What the pot, or the filling where there is none, waited for."""
    cut = _task(plan, load.number, "Prepare")
    if cut and cut.end == begun:
        yield _work(cut), cut
    for once in plan.tasks:
        if once.load or once.who or once.recipe not in load.name:
            continue
        cutting = next(
            (t for t in plan.tasks if not t.load and t.who and t.recipe == once.recipe), None
        )
        if cutting and cutting.end == once.start:
            what = f"{once.recipe}: pot made once"
            yield Link(once.start, begun, what, "pot made once"), cutting


def _hands(plan: Plan, at: Task) -> Iterator[Step]:
    """Other work that its people ended just then, where nobody else could have begun sooner."""
    if _somebody_idle(plan, at):
        return
    for other in plan.tasks:
        if other.end == at.start and set(other.who) & set(at.who) and other.end > other.start:
            yield _work(other), other


def _somebody_idle(plan: Plan, at: Task) -> bool:
    """Whether a person who may do this work had nothing to do the minute before."""
    minute = at.start - 1
    busy = {who for t in plan.tasks if t.start <= minute < t.end for who in t.who}
    busy |= {who for b in plan.day.breaks if b.start <= minute < b.end for who in b.who}
    load = next((x for x in plan.loads if x.number == at.load), None)
    barred = {"lifting"} if at.name in ("Fill and load", "Unload") else set()
    if barred and load and load.psi:
        barred.add("pressure canner")
    return any(
        person.name not in busy
        and not barred & set(person.leaves)
        and any(a <= minute < b for a, b in person.hours)
        for person in plan.day.people
    )


def _work(task: Task) -> Link:
    number = f" (load {task.load})" if task.load else ""
    return Link(task.start, task.end, f"{task.name}: {task.recipe}{number}", " and ".join(task.who))


def _run(plan: Plan, load: Load) -> Link:
    """A load from its filling until it may be opened."""
    filling = _task(plan, load.number, "Fill and load")
    begun = filling.start if filling else load.start
    return Link(begun, load.phases[-2].end, f"load {load.number}: {load.name}", load.canner)


def _task(plan: Plan, number: int, name: str) -> Task | None:
    return next((t for t in plan.tasks if t.load == number and t.name == name), None)


def _pot(plan: Plan, number: int) -> Task | None:
    return next((t for t in plan.tasks if t.load == number and not t.who), None)


def _load(plan: Plan, number: int) -> Load:
    return next(load for load in plan.loads if load.number == number)
