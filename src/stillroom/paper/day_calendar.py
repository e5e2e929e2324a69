"""The day as a calendar file (iCalendar): an event for each task and for what a canner asks."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from typing import TYPE_CHECKING, Final
from uuid import UUID, uuid5

from stillroom.day.plan import Load, Plan, Task
from stillroom.day.steps import CAUTIONS, jars_in_loads, of_canner
from stillroom.paper.day_sheet import breaks
from stillroom.paper.letters import one_line
from stillroom.paper.loads_told import inches

if TYPE_CHECKING:
    from icalendar import Event

# Chosen once at random. With it a day's events have the same names each time.
_NAMES: Final = UUID("6f5d0a0e-51c6-4a7c-9f0a-2a4b6f0c7f1d")

# Sequence numbers count minutes from here; they fit 31 bits until the year 6100.
_FIRST: Final = datetime(2020, 1, 1, tzinfo=UTC)

# A planned hour is not a timer: the canner decides when its phases begin.
_DECIDES: Final = {
    "vent": "Planned time. Start the 10 minutes when steam comes in a steady stream.",
    "process": (
        "Planned time. Start your own timer only when the gauge, the weight or the boil is there, "
        "and let it run in full."
    ),
    "cool": (
        "Planned time. Heat off only when your own timer has run in full; open only at zero "
        "pressure."
    ),
}


@dataclass(frozen=True, slots=True)
class _Entry:
    """An event before it is written: minutes after midnight, who is busy, whether to ring."""

    key: tuple[str, str]
    start: int
    end: int
    says: str
    where: str
    who: tuple[str, ...]
    groups: tuple[str, ...]
    more: tuple[str, ...]
    rings: bool


def day_calendar(plan: Plan, made: datetime) -> bytes:
    """The plan as an iCalendar file.

    Parameters
    ----------
    plan : any plan
    made : when the file is made, with its time zone

    Returns
    -------
    UTF-8 with CRLF line ends, lines of at most 75 octets. One event for each task and, for each
    load, for the vent (pressure only), the process and the cool-down. Times are local times of
    no zone, as a kitchen clock shows them. The name of an event (UID) follows from date, kitchen,
    work and recipe, so that a calendar takes a later file of the same day for a change; its
    SEQUENCE counts minutes and grows from file to file. The people of a task are its categories.
    A reminder rings at the start of each task, vent and process; none rings at the end of a
    process, because only the timer at the stove knows it.

    Source
    ------
    RFC 5545 (iCalendar), sections 3.1, 3.3.5 (form 1, local time), 3.6.1, 3.6.6, 3.8.7.4.
    """
    # Loaded only when a calendar is written.
    from icalendar import Calendar

    day = plan.day
    calendar = Calendar()
    calendar.add("prodid", "-//Stillroom//Canning day//EN")
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", f"Canning, {one_line(day.kitchen.name)}")
    calendar.add("x-wr-caldesc", f"{day.date.isoformat()}: {jars_in_loads(plan)}")
    seen: Counter[tuple[str, str]] = Counter()
    for entry in sorted(_entries(plan), key=lambda e: (e.start, e.end, e.key)):
        seen[entry.key] += 1
        uid = uuid5(
            _NAMES,
            "\n".join((day.date.isoformat(), day.kitchen.name, *entry.key, str(seen[entry.key]))),
        )
        calendar.add_component(_event(entry, plan, uid, made.astimezone(UTC)))
    return bytes(calendar.to_ical())


def _event(entry: _Entry, plan: Plan, uid: UUID, made: datetime) -> "Event":
    from icalendar import Alarm, Event

    def at(minutes: int) -> datetime:
        return datetime.combine(plan.day.date, time()) + timedelta(minutes=minutes)

    stamp = made.replace(microsecond=0)
    event = Event()
    event.add("uid", f"{uid}@stillroom")
    event.add("dtstamp", stamp)
    event.add("last-modified", stamp)
    event.add("sequence", max(0, int((stamp - _FIRST) / timedelta(minutes=1))))
    event.add("dtstart", at(entry.start))
    if entry.end > entry.start:
        event.add("dtend", at(entry.end))
    event.add("summary", entry.says)
    if entry.where:
        event.add("location", one_line(entry.where))
    event.add("description", "\n".join((*entry.more, *CAUTIONS)))
    event.add("categories", [one_line(name) for name in entry.groups])
    event.add("transp", "OPAQUE" if entry.who else "TRANSPARENT")
    if entry.rings:
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", entry.says)
        alarm.add("trigger", timedelta())
        event.add_component(alarm)
    return event


def _entries(plan: Plan) -> Iterator[_Entry]:
    loads = {load.number: load for load in plan.loads}
    for task in plan.tasks:
        yield _of_task(task, loads.get(task.load))
    for person in plan.day.people:
        for start, end in breaks(plan, person):
            yield _Entry(
                key=("Break", person.name),
                start=start,
                end=end,
                says=one_line(f"{person.name}: Break"),
                where="",
                who=(person.name,),
                groups=(person.name,),
                more=(),
                rings=False,
            )
    for load in plan.loads:
        for step in of_canner(load):
            what = step.what
            if step.phase == "cool":
                what = f"when your timer has run {load.minutes} min, {what}"
            yield _Entry(
                key=(step.phase, load.name),
                start=step.start,
                end=step.end,
                says=one_line(f"{load.canner}: {what} (load {load.number})"),
                where=load.canner,
                who=(),
                groups=(load.canner,),
                more=(_DECIDES[step.phase], *_told(load)),
                rings=step.phase != "cool",
            )


def _of_task(task: Task, load: Load | None) -> _Entry:
    number = f" (load {task.load})" if task.load else ""
    who = ", ".join(task.who) or task.where
    return _Entry(
        key=(task.name, task.recipe),
        start=task.start,
        end=task.end,
        says=one_line(": ".join(part for part in (who, task.name, task.recipe) if part) + number),
        where=task.where,
        who=task.who,
        groups=task.who or (task.where,),
        more=tuple(_told(load)) if load else (),
        rings=True,
    )


def _told(load: Load) -> Iterator[str]:
    """A load's jars, pressure and minutes, and where they were published."""
    for jars in load.jars:
        headspace = inches(jars.process.headspace_in)
        yield one_line(f"{jars.count} {jars.jar} {jars.title}, headspace {headspace} in")
    heat = f"{load.psi} lb" if load.psi else "boiling water"
    yield f"{heat}, {load.minutes} min: {load.rules.citation}"
