"""The printed day sheet: page one for the fridge door, then the lists and the steps."""

from collections.abc import Iterator

from stillroom.day.plan import Load, Plan, Task
from stillroom.day.steps import CAUTIONS, TAKEN_FOR, jars_in_loads, likely, proof, steps
from stillroom.kitchen import Person
from stillroom.paper.letters import printable, respelled
from stillroom.paper.loads_told import care, inches
from stillroom.paper.typeset import typeset
from stillroom.recipes.wording import titled
from stillroom.units.clock import clock

_METHODS = {
    "boiling-water": "boiling water",
    "dial-gauge": "dial gauge",
    "weighted-gauge": "weighted gauge",
}

# How a phase is drawn: phases that ask the same of a person look alike.
_DRAWN = {
    "load": "load",
    "heat": "heat",
    "vent": "heat",
    "come-up": "heat",
    "process": "process",
    "cool": "cool",
    "wait": "cool",
    "unload": "load",
}


def day_sheet(plan: Plan) -> bytes:
    """The day sheet as a PDF, US Letter, landscape.

    Parameters
    ----------
    plan : any plan; a usual day takes two pages, a large one more

    Returns
    -------
    bytes of the PDF, the same for the same plan. Nothing on it is smaller than 8.5 pt, and all of
    it reads in black and white.

    Raises
    ------
    typst.TypstError
        The layout itself is wrong; no plan causes it.

    Source
    ------
    The plan alone; pressures and minutes are the published ones it carries.
    """
    return typeset("day_sheet.typ", "sheet", sheet_data(plan))


def sheet_data(plan: Plan) -> dict[str, object]:
    """What the sheet says, as plain data for the layout.

    Parameters
    ----------
    plan : any plan

    Returns
    -------
    texts as a person reads them, and spans ``from`` and ``to`` in minutes after midnight for
    what is drawn. Keys: heading (``date kitchen elevation counts times proof``), drawing
    (``from to hours canners people burners rests idle``), ``loads``, ``lists``, ``steps``, ``care``
    (this plan's warnings and what it took for granted), ``cautions`` (any day's).

    Source
    ------
    The plan alone.
    """
    day, kitchen = plan.day, plan.day.kitchen
    start = plan.start // 60 * 60
    end = max(-(-plan.finish // 60) * 60, start + 60)
    busy = {load.canner for load in plan.loads}
    return {
        "date": f"{day.date:%A} {day.date.day} {day.date:%B %Y}",
        "kitchen": printable(kitchen.name),
        "elevation": f"{kitchen.elevation_ft:,} ft",
        "counts": jars_in_loads(plan),
        "times": f"{clock(plan.start)} to {clock(plan.finish)}",
        "proof": f"{proof(plan)} {likely(plan)}",
        "from": start,
        "to": end,
        "hours": [{"at": at, "text": clock(at)} for at in range(start, end + 1, 60)],
        "canners": [
            {
                "name": printable(canner.name),
                "kind": _METHODS[canner.method],
                "runs": [_run(load) for load in plan.loads if load.canner == canner.name],
            }
            for canner in kitchen.canners
            if canner.name in busy
        ],
        "people": [
            {
                "name": printable(person.name),
                "hours": [
                    {"from": max(a, start), "to": min(b, end)}
                    for a, b in person.hours
                    if a < end and b > start
                ],
                "tasks": [_task(task) for task in plan.tasks if person.name in task.who],
                "breaks": [{"from": a, "to": b} for a, b in breaks(plan, person)],
            }
            for person in day.people
        ],
        "burners": list(_burners(plan)),
        "rests": any(breaks(plan, person) for person in day.people),
        "idle": ", ".join(printable(c.name) for c in kitchen.canners if c.name not in busy),
        "loads": [_load(load) for load in plan.loads],
        "lists": [
            {"title": title, "lines": [printable(text) for text in texts]}
            for title, texts in _lists(plan)
            if texts
        ],
        "steps": [
            {
                "from": clock(step.start),
                "to": clock(step.end),
                "who": printable(step.who),
                "what": printable(step.what),
                "load": step.load,
            }
            for step in steps(plan)
        ],
        # A day's warnings hold the cautions of its lists already: told once.
        "care": [printable(text) for text in dict.fromkeys(_care_of_the_day(plan))],
        "cautions": list(CAUTIONS),
    }


def breaks(plan: Plan, person: Person) -> list[tuple[int, int]]:
    """A person's breaks while they are there and the day runs, in minutes after midnight."""
    end = max(-(-plan.finish // 60) * 60, plan.start // 60 * 60 + 60)
    there = [(max(a, plan.start // 60 * 60), min(b, end)) for a, b in person.hours]
    rests = [(rest.start, rest.end) for rest in plan.day.breaks if person.name in rest.who]
    cut = [(max(a, c), min(b, d)) for a, b in there for c, d in rests]
    return sorted((a, b) for a, b in cut if a < b)


def _care_of_the_day(plan: Plan) -> Iterator[str]:
    yield from plan.warnings
    yield from plan.lists.cautions
    for line in plan.stand_ins:
        yield f"{TAKEN_FOR}, {line}"
    spelled = respelled(_names(plan))
    if spelled:
        yield f"Spelled in Latin letters, as the type has none of their own: {', '.join(spelled)}"


def _names(plan: Plan) -> Iterator[str]:
    kitchen = plan.day.kitchen
    yield kitchen.name
    yield from (canner.name for canner in kitchen.canners)
    yield from (person.name for person in plan.day.people)
    yield from (jars.title for load in plan.loads for jars in load.jars)


def _run(load: Load) -> dict[str, object]:
    spans = [
        {"kind": _DRAWN[p.name], "name": p.name, "from": p.start, "to": p.end} for p in load.phases
    ]
    if load.held:
        lifted = load.phases[-1].start
        spans.append({"kind": "held", "name": "held", "from": lifted - load.held, "to": lifted})
    return {
        "load": load.number,
        "minutes": load.minutes,
        "heat": f"{load.psi} lb" if load.psi else "boil",
        "spans": spans,
    }


def _task(task: Task) -> dict[str, object]:
    return {
        "what": task.name,
        "recipe": printable(task.recipe),
        "load": task.load,
        "from": task.start,
        "to": task.end,
    }


def _burners(plan: Plan) -> Iterator[dict[str, object]]:
    """Lanes of what stands on each burner: pots, and canners until their heat goes off."""
    canners = [_standing(plan, load) for load in plan.loads if load.burner != "own plug"]
    pots = [task for task in plan.tasks if not task.who]
    lanes: dict[str, list[Task]] = {}
    for task in sorted((*canners, *pots), key=lambda t: (t.start, t.load)):
        lanes.setdefault(task.where, []).append(task)
    for name in sorted(lanes, key=lambda n: (len(n), n)):  # "burner 10" after "burner 9"
        yield {"name": name, "tasks": [_task(task) for task in lanes[name]]}


def _standing(plan: Plan, load: Load) -> Task:
    """A canner on its burner, from the first jar filled until its heat goes off."""
    filling = [t.start for t in plan.tasks if (t.name, t.load) == ("Fill and load", load.number)]
    start, end = min((*filling, load.start)), load.phase("process").end
    return Task("Canner", load.canner, (), load.burner, start, end, load.number)


def _load(load: Load) -> dict[str, object]:
    process = load.phase("process")
    return {
        "number": load.number,
        "canner": printable(load.canner),
        "burner": load.burner,
        "jars": [
            {
                "count": f"{jars.count} {jars.jar}",
                "title": printable(jars.title),
                "headspace": f"{inches(jars.process.headspace_in)} in",
            }
            for jars in load.jars
        ],
        "care": ", ".join(dict.fromkeys(c for jars in load.jars for c in care(jars))),
        "psi": str(load.psi) if load.psi else "",
        "minutes": str(load.minutes),
        "from": clock(process.start),
        "to": clock(process.end),
        "published": list(dict.fromkeys(jars.process.citation for jars in load.jars)),
    }


def _lists(plan: Plan) -> Iterator[tuple[str, list[str]]]:
    titles = {jars.recipe: jars.title for load in plan.loads for jars in load.jars}
    lists = plan.lists
    wares = (*lists.jars, *lists.lids, *lists.bands)
    for head, lines in (
        ("Make first", [made.short for made in lists.first]),
        ("Buy", [entry.text for entry in lists.buy]),
        ("From the shelf", [entry.text for entry in lists.from_shelf]),
        ("Prepare", [entry.text for entry in lists.prep]),
        ("Liquids", [entry.text for entry in lists.liquids]),
        ("Jars, lids and bands", [entry.text for entry in wares]),
    ):
        yield head, [titled(line, titles) for line in lines]
