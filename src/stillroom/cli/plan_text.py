"""The plan for a person at the stove: the timetable drawn, then told by the clock, then lists."""

from collections.abc import Callable, Sequence
from textwrap import fill

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from stillroom.day.plan import Load, Plan
from stillroom.day.steps import CAUTIONS, TAKEN_FOR, jars_in_loads, likely, proof, steps, threat
from stillroom.units.clock import clock

# One sign a phase, told apart in black and white; the legend under the drawing names them.
SIGNS = {
    "load": "▏",
    "heat": "░",
    "vent": "░",
    "come-up": "░",
    "process": "█",
    "cool": "▒",
    "wait": "▒",
    "held": "·",
    "unload": "▕",
}
MARGIN = 16


def show(plan: Plan) -> None:
    """Draw the whole plan on the terminal."""
    width = max(60, min(Console().width, 132))
    console = Console(highlight=False, width=width)
    _heading(console, plan)
    console.print(Text("\n".join(drawing(plan, width)), no_wrap=True))
    _loads(console, plan)
    _clock_list(console, plan)
    _bullets(console, "What this plan reaches, most wanted first", [r.told for r in plan.reached])
    _lists(console, plan)
    _warnings(console, plan)


def _heading(console: Console, plan: Plan) -> None:
    kitchen = plan.day.kitchen
    when = f"{plan.day.date:%A} {plan.day.date.day} {plan.day.date:%B %Y}"
    console.print(f"{when}, {kitchen.name}, {kitchen.elevation_ft:,} ft", markup=False)
    console.print(
        f"[bold]{jars_in_loads(plan)}, "
        f"{clock(plan.start)} to {clock(plan.finish)}.[/bold] {proof(plan)}"
    )
    console.print(f"{likely(plan)}")
    console.print(f"{threat(plan)}\n", markup=False)


def drawing(plan: Plan, width: int) -> list[str]:
    """The timetable as lines of signs: canners first, then people; one column a few minutes."""
    start = plan.start // 60 * 60
    span = -(-(plan.finish - start) // 60) * 60
    room = max(width - MARGIN - 2, 24)
    column = next(c for c in (5, 10, 15, 20, 30, 60) if span // c <= room or c == 60)

    def at(minutes: int) -> int:
        return (minutes - start) // column

    cells = span // column + 1
    lines = [" " * MARGIN + _hours(start, span, column)]
    for canner in plan.day.kitchen.canners:
        row = [" "] * cells
        for load in plan.loads:
            if load.canner == canner.name:
                _draw_load(row, load, at)
        lines.append(f"{canner.name[: MARGIN - 2]:<{MARGIN}}" + "".join(row).rstrip())
    for person in plan.day.people:
        row = [" "] * cells
        for task in plan.tasks:
            if person.name in task.who:
                _fill(row, at(task.start), at(task.end), "─")
                label = f"{task.name[0].lower()}{task.load or ''}"
                _write(row, at(task.start), at(task.end), label)
        lines.append(f"{person.name[: MARGIN - 2]:<{MARGIN}}" + "".join(row).rstrip())
    lines.append("")
    lines.append("█ process  ░ heat, vent, come-up  ▒ cool and wait  · waits to be unloaded")
    lines.append(
        f"p prepare  f fill and load  u unload  (number: the load)  one sign: {column} min"
    )
    return lines


def _hours(start: int, span: int, column: int) -> str:
    row = [" "] * (span // column + 6)
    step = 60 if 60 // column >= 6 else 120
    for minutes in range(0, span + 1, step):
        _write(row, minutes // column, len(row), clock(start + minutes))
    return "".join(row).rstrip()


def _draw_load(row: list[str], load: Load, at: Callable[[int], int]) -> None:
    for phase in load.phases:
        _fill(row, at(phase.start), at(phase.end), SIGNS[phase.name])
    ready, lifted = load.phases[-2].end, load.phases[-1].start
    _fill(row, at(ready), at(lifted), SIGNS["held"])
    process = load.phase("process")
    middle = (at(process.start) + at(process.end)) // 2
    _write(row, middle, len(row), str(load.number))


def _fill(row: list[str], begin: int, end: int, sign: str) -> None:
    for place in range(begin, min(max(end, begin + 1 if sign == "─" else end), len(row))):
        row[place] = sign


def _write(row: list[str], begin: int, end: int, text: str) -> None:
    for place, sign in enumerate(text[: max(end - begin, 0)], begin):
        if place < len(row):
            row[place] = sign


def _loads(console: Console, plan: Plan) -> None:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, title="Loads", title_justify="left")
    for name in ("", "pressure", "minutes", "timed", "canner", "jars"):
        right = name in ("pressure", "minutes")
        table.add_column(name, justify="right" if right else "left", no_wrap=name != "jars")
    for load in plan.loads:
        process = load.phase("process")
        table.add_row(
            str(load.number),
            Text(f"{load.psi} lb" if load.psi else "boiling", style="bold"),
            Text(str(load.minutes), style="bold"),
            f"{clock(process.start)}-{clock(process.end)}",
            Text(load.canner),
            Text("\n".join(f"{j.count} {j.jar} {j.title}" for j in load.jars)),
        )
    console.print(table)
    published: dict[str, list[str]] = {}
    for load in plan.loads:
        published.setdefault(load.rules.citation, []).append(str(load.number))
    _bullets(
        console,
        "Published in",
        [f"load {', '.join(numbers)}: {place}" for place, numbers in published.items()],
    )


def _clock_list(console: Console, plan: Plan) -> None:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, title="By the clock", title_justify="left")
    for name in ("from", "to", "who", "what"):
        table.add_column(name, justify="right" if name in ("from", "to") else "left")
    for step in steps(plan):
        table.add_row(clock(step.start), clock(step.end), Text(step.who), Text(step.told))
    console.print(table)


def _lists(console: Console, plan: Plan) -> None:
    lists = plan.lists
    for title, entries in (
        ("Make first", lists.first),
        ("Buy", lists.buy),
        ("From the shelf", lists.from_shelf),
        ("Prepare", lists.prep),
        ("Liquids", lists.liquids),
        ("Jars", lists.jars),
        ("Lids and bands", (*lists.lids, *lists.bands)),
    ):
        _bullets(console, title, [entry.text for entry in entries])
    _bullets(console, "Cost", lists.cost.lines if lists.cost else ())


def _warnings(console: Console, plan: Plan) -> None:
    _bullets(console, TAKEN_FOR, plan.stand_ins)
    _bullets(console, "Take care", [*plan.warnings, *CAUTIONS])


def _bullets(console: Console, title: str, lines: Sequence[str]) -> None:
    if not lines:
        return
    console.print(f"[bold]{title}[/bold]")
    for line in lines:
        told = fill(line, console.width - 1, initial_indent=" - ", subsequent_indent="   ")
        console.print(Text(told))
    console.print()
