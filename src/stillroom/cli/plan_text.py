"""The plan for a person at the stove: the timetable drawn, then told by the clock, then lists."""

from collections.abc import Iterable, Iterator, Sequence

from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

from stillroom.day.plan import Load, Plan
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
    console = Console(highlight=False, soft_wrap=False)
    width = min(console.width, 132)
    console = Console(highlight=False, width=width)
    _heading(console, plan)
    console.print(Text("\n".join(drawing(plan, width)), no_wrap=True))
    _loads(console, plan)
    _clock_list(console, plan)
    _lists(console, plan)
    _warnings(console, plan)


def _heading(console: Console, plan: Plan) -> None:
    kitchen = plan.day.kitchen
    jars = sum(j.count for load in plan.loads for j in load.jars)
    when = f"{plan.day.date:%A} {plan.day.date.day} {plan.day.date:%B %Y}"
    console.print(f"[bold]{when}[/bold], {kitchen.name}, {kitchen.elevation_ft:,} ft")
    console.print(
        f"[bold]{jars} jars in {len(plan.loads)} loads, "
        f"{clock(plan.start)} to {clock(plan.finish)}.[/bold] {proof(plan)}\n"
    )


def proof(plan: Plan) -> str:
    """How good the plan is known to be, in one sentence."""
    if plan.optimal:
        return "Optimal: no plan under these rules and durations finishes earlier."
    gap = plan.finish - plan.bound
    return (
        f"Feasible: no plan can finish before {clock(plan.bound)}, "
        f"{gap} min earlier than this one. More --time-limit may close the gap."
    )


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
    lines.append(f"p prepare  f fill and load  u unload  (number: the load)  one sign: {column} min")
    return lines


def _hours(start: int, span: int, column: int) -> str:
    row = [" "] * (span // column + 6)
    step = 60 if 60 // column >= 6 else 120
    for minutes in range(0, span + 1, step):
        _write(row, minutes // column, len(row), clock(start + minutes))
    return "".join(row).rstrip()


def _draw_load(row: list[str], load: Load, at: "Callable[[int], int]") -> None:
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
    for name in ("", "canner", "jars", "pressure", "minutes", "timed", "published in"):
        right = name in ("pressure", "minutes")
        table.add_column(name, justify="right" if right else "left", no_wrap=name == "timed")
    for load in plan.loads:
        process = load.phase("process")
        table.add_row(
            str(load.number),
            load.canner,
            "\n".join(f"{j.count} {j.jar} {j.title}" for j in load.jars),
            Text(f"{load.psi} lb" if load.psi else "boiling", style="bold"),
            Text(str(load.minutes), style="bold"),
            f"{clock(process.start)}-{clock(process.end)}",
            load.rules.place,
        )
    console.print(table)


def _clock_list(console: Console, plan: Plan) -> None:
    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, title="By the clock", title_justify="left")
    for name in ("from", "to", "who", "what"):
        table.add_column(name, justify="right" if name in ("from", "to") else "left")
    for start, end, who, what in steps(plan):
        table.add_row(clock(start), clock(end) if end != start else "", who, what)
    console.print(table)


def steps(plan: Plan) -> list[tuple[int, int, str, str]]:
    """Everything that happens, by the clock: (from, to, who, what), minutes after midnight."""
    told = [
        (t.start, t.end, ", ".join(t.who) or t.where, _task_line(t.name, t.recipe, t.where, t.load))
        for t in plan.tasks
    ]
    for load in plan.loads:
        told += _canner_steps(load)
    return sorted(told, key=lambda s: (s[0], s[1]))


def _task_line(name: str, recipe: str, where: str, load: int) -> str:
    place = f", {where}" if name in ("Fill and load", "Unload") else ""
    return f"{name}: {recipe}" + (f" (load {load}{place})" if load else "")


def _canner_steps(load: Load) -> Iterator[tuple[int, int, str, str]]:
    who = load.canner
    process = load.phase("process")
    if load.psi:
        vent = load.phase("vent")
        yield vent.start, vent.end, who, f"Load {load.number}: vent steam 10 min, then close the vent"
        yield (
            process.start,
            process.end,
            who,
            f"Load {load.number}: at {load.psi} lb start timing {load.minutes} min",
        )
    else:
        yield (
            process.start,
            process.end,
            who,
            f"Load {load.number}: at a full boil start timing {load.minutes} min",
        )
    cool = load.phase("cool")
    told = "heat off, let it cool by itself; open when the wait is over"
    yield process.end, load.phases[-2].end, who, f"Load {load.number}: {told}"
    del cool


def _lists(console: Console, plan: Plan) -> None:
    lists = plan.lists
    for title, entries in (
        ("Buy", lists.buy),
        ("From the shelf", lists.from_shelf),
        ("Prepare", lists.prep),
        ("Liquids", lists.liquids),
        ("Jars", lists.jars),
        ("Lids and bands", (*lists.lids, *lists.bands)),
    ):
        _bullets(console, title, [entry.text for entry in entries])


def _warnings(console: Console, plan: Plan) -> None:
    _bullets(console, "Take care", [*plan.warnings, *CAUTIONS])


CAUTIONS = (
    "Pressure drops below the target at any moment: bring it back up and time the full process "
    "again from the start (published advice).",
    "A boil that stops: bring it back and time the full process again from the start.",
    "Never force a canner to cool or open it under pressure. Steam burns.",
    "Times between heat-up and opening are planning figures; the gauge, the weight and the boil "
    "decide when timing starts.",
    "Follow your canner's manual. Your local extension office answers what is unclear here.",
)


def _bullets(console: Console, title: str, lines: Sequence[str] | Iterable[str]) -> None:
    lines = list(lines)
    if not lines:
        return
    console.print(f"[bold]{title}[/bold]")
    for line in lines:
        table = Table.grid(padding=(0, 1))
        table.add_row(" -", Text(line))
        console.print(table)
    console.print()
