"""The timetable as shapes: canners, people and burners as rows, hours across.

A phase is told by its shape (rising, full, falling), its pattern and its word. Everything drawn
here is told by the clock, too, in the list below the drawing.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final

# Pixels a minute: the whole day at a glance, as it is read, and near.
SCALES: Final = {"day": 1.15, "": 3.0, "near": 5.0}
HEIGHT: Final = 60
_TOP, _LOW, _FOOT = 4, 14, 42
# Pixels that a letter takes of a word within a shape, and of a smaller one below it.
_LETTER: Final = 7.6
_SMALL: Final = 6.0
_WORDS: Final = {
    "load": "load", "heat": "heat", "vent": "vent", "come-up": "up", "cool": "cool",
    "wait": "wait", "held": "held", "unload": "out",
}  # fmt: skip
_TASKS: Final = {"Prepare": "prepare", "Fill and load": "fill", "Unload": "unload"}

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Mark:
    """One shape: ``points`` of a polygon, the kind that gives it its pattern, and its words."""

    kind: str
    points: str
    x: float
    width: float
    inside: str
    below: str
    title: str


@dataclass(frozen=True, slots=True)
class Row:
    """A canner, a person or a burner."""

    name: str
    kind: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Timetable:
    """The drawing. ``hours`` are places and clock times; ``now`` is a place, -1 where none."""

    width: int
    hours: tuple[tuple[float, str], ...]
    rows: tuple[Row, ...]
    now: float
    height: int = HEIGHT


def clock_of(iso: str) -> str:
    """The clock time of an ISO local time.

    Examples
    --------
    >>> clock_of("2026-10-17T07:05:00")
    '7:05'
    """
    return iso[11:16].removeprefix("0")


def minute_of(iso: str, day: date) -> int:
    """Minutes after the midnight that began the day."""
    at = datetime.fromisoformat(iso)
    return (at.date() - day).days * 24 * 60 + at.hour * 60 + at.minute


class _Ruler:
    """From ISO times to places on the drawing."""

    def __init__(self, plan: Json, scale: float) -> None:
        self.day = datetime.fromisoformat(plan["day_start"]).date()
        self.scale = scale
        self.start = minute_of(plan["start"], self.day) // 60 * 60
        self.end = max(-(-minute_of(plan["finish"], self.day) // 60) * 60, self.start + 60)

    def place(self, iso: str) -> float:
        minute = min(max(minute_of(iso, self.day), self.start), self.end)
        return round((minute - self.start) * self.scale, 1)

    @property
    def hours(self) -> Iterator[tuple[float, str]]:
        step = 60 if self.scale * 60 >= 60 else 120
        for minute in range(self.start, self.end + 1, step):
            yield round((minute - self.start) * self.scale, 1), f"{minute // 60}:00"


def timetable(plan: Json, zoom: str = "") -> Timetable:
    """The drawing of a plan's document.

    Parameters
    ----------
    plan : as ``day.told.plan_json`` has it, with what the worker ``said`` of it
    zoom : a key of ``SCALES``; any other is taken as ""
    """
    ruler = _Ruler(plan, SCALES.get(zoom, SCALES[""]))
    said = plan.get("said", {})
    rows = [
        *_canner_rows(plan, said, ruler),
        *_people_rows(plan, said, ruler),
        *_burner_rows(plan, ruler),
    ]
    return Timetable(
        round((ruler.end - ruler.start) * ruler.scale),
        tuple(ruler.hours),
        tuple(rows),
        ruler.place(plan["now"]) if plan.get("now") else -1.0,
    )


def _canner_rows(plan: Json, said: Json, ruler: _Ruler) -> Iterator[Row]:
    used = dict.fromkeys(load["canner"] for load in plan["loads"])
    for name in dict.fromkeys([*(n for n in said.get("canners", ()) if n in used), *used]):
        marks = [m for load in plan["loads"] if load["canner"] == name for m in _run(load, ruler)]
        yield Row(name, "canner", tuple(marks))


def _run(load: Json, ruler: _Ruler) -> Iterator[Mark]:
    phases = load["phases"]
    for phase in phases:
        yield _phase(load, phase["name"], phase["start"], phase["end"], ruler)
    ready, lifted = phases[-2]["end"], phases[-1]["start"]
    if lifted > ready:
        yield _phase(load, "held", ready, lifted, ruler)


def _phase(load: Json, name: str, start: str, end: str, ruler: _Ruler) -> Mark:
    x, right = ruler.place(start), ruler.place(end)
    inside = below = ""
    if name == "process":
        psi = load["pressure_psi"]
        heat = f"{psi} lb" if psi else "boil"
        minutes, number = f"{load['process_minutes']} min", f"{load['number']}"
        inside = _fitting(right - x, f"{number}: {minutes}, {heat}", f"{number}: {minutes}", number)
        below = _fitting(right - x, f"process {heat}", "process", heat, letter=_SMALL)
    else:
        below = _fitting(right - x, _WORDS.get(name, name), letter=_SMALL)
    title = f"Load {load['number']}, {name}: {clock_of(start)} to {clock_of(end)}"
    return Mark(name, _shape(name, x, right), x, right - x, inside, below, title)


def _shape(name: str, x: float, right: float) -> str:
    """The corners of a phase: heat rises, the process stands full, what cools falls."""
    left_top, right_top = {
        "heat": (_FOOT - 6, _LOW + 8),
        "vent": (_LOW + 8, _LOW + 8),
        "come-up": (_LOW + 8, _TOP),
        "process": (_TOP, _TOP),
        "cool": (_TOP, _FOOT - 12),
        "wait": (_FOOT - 12, _FOOT - 12),
        "held": (_FOOT - 6, _FOOT - 6),
    }.get(name, (_LOW, _LOW))
    return f"{x},{left_top} {right},{right_top} {right},{_FOOT} {x},{_FOOT}"


def _fitting(width: float, *words: str, letter: float = _LETTER) -> str:
    """The first of the words that fits, or ""."""
    return next((word for word in words if len(word) * letter <= width), "")


def _people_rows(plan: Json, said: Json, ruler: _Ruler) -> Iterator[Row]:
    known = {person["name"]: person for person in said.get("people", ())}
    names = dict.fromkeys([*known, *(who for task in plan["tasks"] for who in task["who"])])
    for name in names:
        person = known.get(name, {"hours": [], "breaks": []})
        work = [task for task in plan["tasks"] if name in task["who"]]
        marks = [
            *_away(person["hours"], ruler),
            *(_span("break", a, b, "break", f"Break: {_from_to(a, b)}", ruler)
              for a, b in person["breaks"]),
            *(_task(task, ruler) for task in work),
        ]  # fmt: skip
        yield Row(name, "person", tuple(mark for mark in marks if mark.width > 0))


def _away(hours: Iterable[tuple[str, str]], ruler: _Ruler) -> Iterator[Mark]:
    """When a person is not there."""
    left = 0.0
    whole = (ruler.end - ruler.start) * ruler.scale
    spans = sorted((ruler.place(a), ruler.place(b)) for a, b in hours)
    for start, end in [*spans, (whole, whole)] if spans else []:
        if start > left:
            yield _box("away", left, start, "", "away", "Not there")
        left = max(left, end)


def _task(task: Json, ruler: _Ruler) -> Mark:
    word = _TASKS.get(task["name"], task["name"].lower())
    number = str(task["load"] or "")
    x, right = ruler.place(task["start"]), ruler.place(task["end"])
    title = f"{task['name']}, {task['recipe']}" + (f" (load {number})" if number else "")
    kind = word if word in _TASKS.values() else "pot"
    # What belongs to no one load has no number: a short word stands in its place.
    short = number or {"prepare": "cut", "pot": "pot"}.get(kind, word)
    inside = _fitting(right - x, f"{word} {number}".strip(), short)
    return _box(kind, x, right, inside, "", f"{title}: {_from_to(task['start'], task['end'])}")


def _burner_rows(plan: Json, ruler: _Ruler) -> Iterator[Row]:
    """Pots, and canners from the first jar filled until their heat goes off."""
    lanes: dict[str, list[Mark]] = {}
    filled = {t["load"]: t["start"] for t in plan["tasks"] if t["name"] == "Fill and load"}
    for task in plan["tasks"]:
        if not task["who"]:
            lanes.setdefault(task["where"], []).append(_task(task, ruler))
    for load in plan["loads"]:
        if load["burner"] == "own plug":
            continue
        off = next(p["end"] for p in load["phases"] if p["name"] == "process")
        on = min(load["phases"][0]["start"], filled.get(load["number"], "9"))
        words = f"{load['canner']} {load['number']}"
        title = f"{load['canner']}, load {load['number']}: {_from_to(on, off)}"
        lanes.setdefault(load["burner"], []).append(_span("canner", on, off, words, title, ruler))
    for name in sorted(lanes, key=lambda n: (len(n), n)):
        yield Row(name, "burner", tuple(sorted(lanes[name], key=lambda mark: mark.x)))


def _span(kind: str, start: str, end: str, words: str, title: str, ruler: _Ruler) -> Mark:
    x, right = ruler.place(start), ruler.place(end)
    number = words.rpartition(" ")[2] if kind == "canner" else ""
    return _box(kind, x, right, _fitting(right - x, words, number), "", title)


def _box(kind: str, x: float, right: float, inside: str, below: str, title: str) -> Mark:
    points = f"{x},{_TOP + 6} {right},{_TOP + 6} {right},{_FOOT} {x},{_FOOT}"
    fitting = _fitting(right - x, below, letter=_SMALL) if below else ""
    return Mark(kind, points, x, right - x, inside, fitting, title)


def _from_to(start: str, end: str) -> str:
    return f"{clock_of(start)} to {clock_of(end)}"
