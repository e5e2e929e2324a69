"""A page for each person: what to do, when, where and with whom, with boxes to tick."""

from collections.abc import Iterator
from fractions import Fraction

from stillroom.day.plan import Load, Plan, Task
from stillroom.day.steps import Step, of_canner
from stillroom.kitchen import Person
from stillroom.paper.day_sheet import breaks, sheet_data
from stillroom.paper.letters import printable
from stillroom.paper.loads_told import care, inches
from stillroom.paper.typeset import typeset
from stillroom.units.clock import clock
from stillroom.units.speech import counted

# Work at heat and what burns there. Common practice, from memory; that a canner is opened only at
# zero pressure, with the lid away from the face, stands in AIB-539 Guide 1, too.
HOT_WORK = {
    "Fill and load": "hot food, jars and water scald. Dry cloths, funnel and jar lifter at hand.",
    "Unload": (
        "open at zero pressure only, the lid lifted away from you: steam burns. Jars upright, "
        "onto a cloth, out of the draft."
    ),
}


def people_lists(plan: Plan) -> bytes:
    """A page for each person as a PDF, US Letter, upright.

    Parameters
    ----------
    plan : any plan; a person with very many tasks takes a second page

    Returns
    -------
    bytes of the PDF, the same for the same plan, in the order of the plan's people. Nothing on it
    is smaller than 8.5 pt, and all of it reads in black and white. Under the tasks stands what
    pots and canners ask of whoever is near: in the person's hours where the page holds it, else
    for the loads the person fills or unloads.

    Source
    ------
    The plan alone; pressures and minutes are the published ones it carries.
    """
    return typeset("people_lists.typ", "sheet", people_data(plan))


def people_data(plan: Plan) -> dict[str, object]:
    """What the pages say, as plain data for the layout: the day sheet's, and ``pages``.

    Each page has ``name``, ``hours``, ``counts``, ``drawn`` (the person's lane), ``tasks``,
    ``calls`` (of pots and canners by themselves; ``own`` where the person fills or unloads) and
    ``hot`` (cautions for the work on the page).
    """
    return {
        **sheet_data(plan),
        "portrait": True,
        "pages": [_page(plan, person) for person in plan.day.people],
    }


def _page(plan: Plan, person: Person) -> dict[str, object]:
    tasks = [task for task in plan.tasks if person.name in task.who]
    loads = {load.number: load for load in plan.loads}
    own = {task.load for task in tasks if task.name in HOT_WORK}
    rests = breaks(plan, person)
    minutes = sum(task.end - task.start for task in tasks)
    start = plan.start // 60 * 60
    end = max(-(-plan.finish // 60) * 60, start + 60)
    return {
        "name": printable(person.name),
        "hours": " and ".join(f"{clock(a)} to {clock(b)}" for a, b in person.hours),
        "counts": _counts(len(tasks), minutes),
        "drawn": {
            "hours": [
                {"from": max(a, start), "to": min(b, end)}
                for a, b in person.hours
                if a < end and b > start
            ],
            "tasks": [
                {
                    "what": task.name,
                    "recipe": printable(task.recipe),
                    "load": task.load,
                    "from": task.start,
                    "to": task.end,
                }
                for task in tasks
            ],
            "breaks": [{"from": a, "to": b} for a, b in rests],
        },
        "tasks": [
            row
            for _, row in sorted(
                (
                    *((task.start, _task(person, task, loads.get(task.load))) for task in tasks),
                    *((a, _break(a, b)) for a, b in rests),
                ),
                key=lambda timed: timed[0],
            )
        ],
        "calls": [
            {
                "from": clock(step.start),
                "who": printable(step.who),
                "what": printable(step.what),
                "load": step.load,
                "own": step.load in own,
            }
            for step in _calls(plan)
            if any(a <= step.start < b for a, b in person.hours)
        ],
        "hot": [
            f"{name}: {words}"
            for name, words in HOT_WORK.items()
            if any(task.name == name for task in tasks)
        ],
    }


def _counts(tasks: int, minutes: int) -> str:
    if not tasks:
        return "no task in this plan"
    hours = f"{minutes // 60} h " if minutes >= 60 else ""
    return f"{counted(Fraction(tasks), 'task')}, {hours}{minutes % 60} min of work"


def _task(person: Person, task: Task, load: Load | None) -> dict[str, object]:
    filling = load if load and task.name == "Fill and load" else None
    return {
        "from": clock(task.start),
        "to": clock(task.end),
        "what": printable(task.name),
        "recipe": printable(task.recipe),
        "load": task.load,
        "where": printable(task.where),
        "with": ", ".join(printable(name) for name in task.who if name != person.name),
        "hot": task.name in HOT_WORK,
        "jars": list(_jars(filling)) if filling else [],
    }


def _break(start: int, end: int) -> dict[str, object]:
    blank = {"recipe": "", "load": 0, "where": "", "with": "", "hot": False, "jars": []}
    return {**blank, "from": clock(start), "to": clock(end), "what": "Break"}


def _jars(load: Load) -> Iterator[str]:
    for jars in load.jars:
        minded = ", ".join(care(jars))
        headspace = inches(jars.process.headspace_in)
        told = f"{jars.count} {jars.jar} {jars.title}, headspace {headspace} in"
        yield printable(f"{told}, {minded}" if minded else told)


def _calls(plan: Plan) -> list[Step]:
    """What happens by itself and wants somebody at its start, by the clock."""
    pots = [
        Step(t.start, t.end, t.where, f"{t.name}: {t.recipe}", t.load)
        for t in plan.tasks
        if not t.who
    ]
    canners = [step for load in plan.loads for step in of_canner(load)]
    return sorted((*pots, *canners), key=lambda s: (s.start, s.end, s.load))
