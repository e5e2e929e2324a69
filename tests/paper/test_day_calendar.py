"""The calendar file, read back by a parser that did not write it (``vobject``)."""

import re
from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta, timezone
from typing import Any

import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st

from stillroom.day.model import Break
from stillroom.day.plan import Plan
from stillroom.day.steps import CAUTIONS, of_canner, steps
from stillroom.paper.day_calendar import day_calendar
from tests.paper.made import plan

MADE = datetime(2026, 10, 16, 20, 0, tzinfo=UTC)
LATER = MADE + timedelta(minutes=1)


def events(file: bytes) -> list[Any]:
    """The file's events."""
    return list(vobject.readOne(file.decode("utf-8")).contents["vevent"])


def at(day: Plan, minutes: int) -> datetime:
    """A clock time of the plan as a date and time of no zone."""
    return datetime.combine(day.day.date, time()) + timedelta(minutes=minutes)


def spans(file: bytes) -> Counter[tuple[datetime, datetime]]:
    return Counter((e.dtstart.value, e.dtend.value) for e in events(file))


def test_every_task_and_every_moment_of_a_canner_is_one_event_at_its_time() -> None:
    day = plan(((75, 13), (20, None)) * 3, 3)

    read = spans(day_calendar(day, MADE))

    assert read == Counter((at(day, s.start), at(day, s.end)) for s in steps(day))
    assert read.total() == len(day.tasks) + sum(len(list(of_canner(x))) for x in day.loads)


def test_times_have_no_zone() -> None:
    """RFC 5545 3.3.5, form 1: neither a Z nor a TZID; the stamp of making is UTC (3.8.7.2)."""
    file = day_calendar(plan(), MADE).decode()

    assert set(re.findall(r"^DTSTART.*$", file, re.M)) == set(
        re.findall(r"^DTSTART:\d{8}T\d{6}\r$", file, re.M)
    )
    assert set(re.findall(r"^DTSTAMP.*$", file, re.M)) == {"DTSTAMP:20261016T200000Z\r"}
    assert "TZID" not in file


def test_a_time_past_midnight_falls_on_the_next_day() -> None:
    day = plan()
    late = replace(day, tasks=(replace(day.tasks[0], start=24 * 60 - 10, end=24 * 60 + 20),))

    assert (datetime(2026, 10, 17, 23, 50), datetime(2026, 10, 18, 0, 20)) in spans(
        day_calendar(late, MADE)
    )


def test_the_stamp_of_making_is_told_in_utc_from_any_zone() -> None:
    there = timezone(timedelta(hours=-6))

    assert day_calendar(plan(), MADE.astimezone(there)) == day_calendar(plan(), MADE)


def test_the_people_of_a_task_are_its_categories_and_stand_in_its_title() -> None:
    day = plan()
    prepare = next(t for t in day.tasks if t.name == "Prepare")
    both = replace(prepare, who=("Marit", "Jonas, jr."))
    file = day_calendar(replace(day, tasks=(both,)), MADE)

    (event,) = (e for e in events(file) if "Prepare" in e.summary.value)
    assert event.summary.value == "Marit, Jonas, jr.: Prepare: Snap beans (load 1)"
    assert event.categories.value == ["Marit", "Jonas, jr."]
    assert event.location.value == "counter"


def test_only_hands_are_busy() -> None:
    """RFC 5545 3.8.2.7: a pot or a canner by itself leaves the hour free."""
    day = plan()

    busy = [e.transp.value for e in events(day_calendar(day, MADE))]

    assert busy.count("OPAQUE") == sum(1 for task in day.tasks if task.who)


def test_a_reminder_rings_at_the_start_of_all_but_the_cool_down() -> None:
    """The end of a process is told by the timer at the stove, not by a calendar."""
    for event in events(day_calendar(plan(), MADE)):
        alarms = event.contents.get("valarm", [])
        if "heat off" in event.summary.value:
            assert alarms == []
            assert "when your timer has run" in event.summary.value
        else:
            (alarm,) = alarms
            assert alarm.action.value == "DISPLAY"
            assert alarm.trigger.value == timedelta()
            assert alarm.description.value == event.summary.value


def test_a_process_says_that_the_canner_decides_and_where_it_is_published() -> None:
    (event,) = (
        e for e in events(day_calendar(plan(), MADE)) if "start timing 75" in e.summary.value
    )

    told = event.description.value
    assert event.summary.value == "canner 0: at 13 lb start timing 75 min (load 1)"
    assert "Start your own timer only when" in told
    assert "7 pint Snap beans, headspace 1 1/4 in" in told
    assert "13 lb, 75 min: USDA AIB-539 (edition read: 1994), Guide 4 p. 4-8" in told
    assert all(caution in told for caution in CAUTIONS)


def test_a_later_file_of_a_changed_plan_updates_and_doubles_nothing() -> None:
    """Every hour, person, place and number of the day changes; names (UID) stay."""
    day = plan(((75, 13), (20, None)) * 3, 3)
    tasks = [
        replace(task, start=task.start + 30, end=task.end + 35, who=task.who and ("Ada",))
        for task in day.tasks
    ]
    loads = [
        replace(
            load,
            canner="other",
            number=load.number + 4,
            phases=tuple(replace(p, start=p.start + 30, end=p.end + 30) for p in load.phases),
        )
        for load in day.loads
    ]
    moved = replace(day, tasks=tuple(tasks), loads=tuple(loads))

    first, second = (events(day_calendar(p, m)) for p, m in ((day, MADE), (moved, LATER)))

    uids = [e.uid.value for e in first]
    assert len(set(uids)) == len(uids)
    assert {e.uid.value for e in second} == set(uids)
    assert max(int(e.sequence.value) for e in first) < min(int(e.sequence.value) for e in second)


def test_days_and_kitchens_do_not_share_names() -> None:
    day = plan()
    other = replace(day, day=replace(day.day, date=day.day.date + timedelta(days=1)))
    elsewhere = plan(name="Another kitchen")

    names = [{e.uid.value for e in events(day_calendar(p, MADE))} for p in (day, other, elsewhere)]

    assert len(set().union(*names)) == sum(len(n) for n in names)


def test_the_file_is_whole_by_the_rules_of_another_library() -> None:
    """``vobject`` asks for what each component must hold, and how often."""
    assert vobject.readOne(day_calendar(plan(), MADE).decode()).validate(raiseException=True)


ODD = st.text(st.characters(codec="utf-8", exclude_characters="\N{NULL}"), min_size=1, max_size=90)


@given(person=ODD, title=ODD, kitchen=ODD)
def test_any_name_keeps_to_the_lines_of_the_standard_and_comes_back(
    person: str, title: str, kitchen: str
) -> None:
    """RFC 5545 3.1: CRLF, 75 octets, folds between letters; 3.3.11: escapes; no control signs."""
    day = plan(((75, 13),), 1, title=title, name=kitchen, people=(person,))
    file = day_calendar(day, MADE)

    lines = file.split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert lines[-2:] == [b"END:VCALENDAR", b""]
    for line in lines:
        assert len(line) <= 75
        assert not re.search(rb"[\x00-\x08\x0a-\x1f\x7f]", line)
        line.decode("utf-8")
    assert spans(file) == Counter((at(day, s.start), at(day, s.end)) for s in steps(day))
    summaries = [" ".join(e.summary.value.split()) for e in events(file)]
    wanted = f"{person}: Unload: {title} (load 1)"
    assert " ".join("".join(c for c in wanted if _shown(c)).split()) in summaries


def _shown(sign: str) -> bool:
    return sign.isspace() or not re.match(r"[\x00-\x1f\x7f-\x9f]", sign)


@pytest.mark.parametrize("name", ["a;b", "a,b", "a\\b", "a\\nb", 'a"b', "a:b", "BEGIN:VEVENT"])
def test_signs_that_the_standard_escapes_come_back(name: str) -> None:
    (event,) = (
        e
        for e in events(day_calendar(plan(((75, 13),), 1, people=(name,)), MADE))
        if "Unload" in e.summary.value
    )

    assert event.summary.value.startswith(f"{name}: Unload")
    assert event.categories.value == [name]


def test_a_break_is_an_event_of_its_own_that_rings_for_nobody() -> None:
    day = plan()
    rest = Break(("Marit",), 12 * 60, 12 * 60 + 30, "day.toml")
    file = day_calendar(replace(day, finish=13 * 60, day=replace(day.day, breaks=(rest,))), MADE)

    (event,) = (e for e in events(file) if "Break" in e.summary.value)
    assert event.summary.value == "Marit: Break"
    assert event.dtstart.value == datetime(2026, 10, 17, 12, 0)
    assert event.transp.value == "OPAQUE"
    assert "valarm" not in event.contents


def test_work_without_a_recipe_or_a_place_is_told_without_gaps() -> None:
    day = plan()
    wash = replace(day.tasks[0], name="Wash jars", recipe="", where="", load=0, who=("Ada",))

    (event,) = (
        e
        for e in events(day_calendar(replace(day, tasks=(wash,)), MADE))
        if "Wash" in e.summary.value
    )

    assert event.summary.value == "Ada: Wash jars"
    assert "location" not in event.contents
