"""The pages for each person, read back from their PDF."""

import re
from collections import Counter
from dataclasses import replace
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.day.model import Break
from stillroom.day.plan import Plan
from stillroom.day.steps import CAUTIONS
from stillroom.paper.letters import printable
from stillroom.paper.people_lists import HOT_WORK, people_data, people_lists
from stillroom.units.clock import clock
from tests.paper.made import plan
from tests.paper.read_back import letters, pages

DAY = plan(((75, 13), (20, None)) * 3, 3, people=("Marit", "Jonas", "Ada"))


def shared(day: Plan, *names: str) -> Plan:
    """The same day with every piece at the counter done by all of these together."""
    tasks = tuple(replace(t, who=names) if t.name == "Prepare" else t for t in day.tasks)
    return replace(day, tasks=tasks)


def told(page: str) -> Counter[str]:
    """The times that stand before a piece of work in a page's table, as "7:15–7:20 Prepare"."""
    return Counter(re.findall(r"\d+:\d\d–\d+:\d\d (?:Prepare|Fill and load|Unload)", page))


def wanted(day: Plan, name: str) -> Counter[str]:
    return Counter(f"{clock(t.start)}–{clock(t.end)} {t.name}" for t in day.tasks if name in t.who)


def test_every_task_stands_once_on_the_page_of_each_who_does_it_and_on_no_other() -> None:
    day = shared(DAY, "Marit", "Ada")

    read = pages(people_lists(day))

    assert len(read) == 3
    for person, page in zip(day.day.people, read, strict=True):
        assert page.startswith(f"{person.name} Saturday 17 October 2026")
        assert told(page) == wanted(day, person.name)
        assert wanted(day, person.name).total() > 0


def test_a_task_tells_load_jars_place_and_company() -> None:
    page = pages(people_lists(shared(DAY, "Marit", "Ada")))[0]

    assert "7:15–7:20 Prepare 1 Snap beans counter Ada" in page
    assert "7:20–7:30 Fill and load 1 ! HOT 7 pint Snap beans, headspace 1 1/4 in canner 0" in page
    assert "10:05–10:15 Unload 1 ! HOT Snap beans canner 0" in page


def test_hot_work_is_marked_and_its_cautions_stand_above_it() -> None:
    page = pages(people_lists(DAY))[0]

    hot = sum(1 for t in DAY.tasks if "Marit" in t.who and t.name in HOT_WORK)
    assert page.count("! HOT") == hot + len(HOT_WORK)
    for name, words in HOT_WORK.items():
        assert f"{name}: {words}" in page


def test_every_page_carries_every_caution() -> None:
    for page in pages(people_lists(DAY)):
        for caution in CAUTIONS:
            assert caution in page


def test_who_is_near_reads_what_pots_and_canners_ask_in_their_hours() -> None:
    late = replace(DAY.day.kitchen.people[2], hours=((9 * 60, 10 * 60),))
    people = (*DAY.day.kitchen.people[:2], late)
    kitchen = replace(DAY.day.kitchen, people=people)
    day = replace(DAY, day=replace(DAY.day, kitchen=kitchen))

    first, _, third = pages(people_lists(day))

    assert "8:05 1 canner 0: at 13 lb start timing 75 min" in first
    assert "7:10 1 burner 4: Heat and keep hot: Snap beans" in first
    assert "8:05 1 canner 0" not in third
    assert "9:20 1 canner 0: heat off" in third


def test_a_person_without_a_task_has_a_page_that_says_so() -> None:
    idle = tuple(replace(t, who=t.who and ("Jonas",)) for t in DAY.tasks)

    page = pages(people_lists(replace(DAY, tasks=idle)))[0]

    assert "no task in this plan; here 7:00 to 24:00" in page
    assert "! HOT" not in page


def test_a_break_stands_among_the_tasks_of_who_has_it_and_takes_no_time_of_work() -> None:
    """Half an hour from 9:00 for Marit and Ada; Ada comes at 9:10. Counted by hand."""
    late = replace(DAY.day.kitchen.people[2], hours=((9 * 60 + 10, 10 * 60),))
    kitchen = replace(DAY.day.kitchen, people=(*DAY.day.kitchen.people[:2], late))
    rest = Break(("Marit", "Ada"), 9 * 60, 9 * 60 + 30, "day.toml")
    day = replace(DAY, day=replace(DAY.day, kitchen=kitchen, breaks=(rest,)))

    first, second, third = pages(people_lists(day))

    assert "9:00–9:30 Break" in first
    assert "9:10–9:30 Break" in third
    assert "Break" not in second
    assert told(first) == wanted(DAY, "Marit")
    assert first.split("of work")[0] == pages(people_lists(DAY))[0].split("of work")[0]


def test_a_full_day_keeps_one_page_and_names_where_the_rest_stands() -> None:
    day = plan(((75, 13), (20, None)) * 3, 2, people=("Marit",))
    busy = plan(((75, 13), (20, None)) * 4, 2, people=("Marit",))

    (own,), (full,) = (pages(people_lists(d)) for d in (day, busy))

    assert "Pots and canners" in own
    assert "Pots and canners: the day sheet tells when." in full
    assert told(full) == wanted(busy, "Marit")


def test_more_than_a_page_holds_runs_on_with_the_name_at_its_head() -> None:
    day = plan(((75, 13), (20, None)) * 9, 9, people=("Marit",))

    first, *others = pages(people_lists(day))

    assert others
    assert all("what Marit does" in page for page in (first, others[0]))
    assert sum((told(page) for page in (first, *others)), Counter()) == wanted(day, "Marit")


def test_nothing_is_smaller_than_8_and_a_half_points() -> None:
    assert min(size for size, _, _ in letters(people_lists(DAY))) >= 8.5


def test_the_same_plan_gives_the_same_bytes() -> None:
    assert people_lists(DAY) == people_lists(DAY)


LONG = "very long name " * 13 + "tail."
SOLID = "Donaudampfschifffahrt" * 10


@pytest.mark.parametrize("name", [LONG, SOLID, "#pagebreak() *x* $y$"])
def test_long_and_odd_names_stay_on_the_paper(name: str) -> None:
    """24 points are what a household printer leaves white."""
    sheet = people_lists(plan(title=name, name=name, people=(name, "Jonas"), canner_name=name))

    for _, _, (left, right, bottom, top) in letters(sheet):
        assert left >= 24
        assert right <= 612 - 24
        assert bottom >= 15
        assert top <= 792 - 15


WORDS = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cc", "Cf", "Zl", "Zp"]),
    min_size=1,
    max_size=40,
)


@settings(max_examples=25)  # each is two sheets to set
@given(names=st.lists(WORDS, min_size=1, max_size=4, unique=True), title=WORDS)
def test_any_names_get_their_pages_and_all_their_tasks(names: list[str], title: str) -> None:
    day = plan(((75, 13), (20, None)) * 2, 2, title=title, people=tuple(names))

    read = pages(people_lists(day))
    data = people_data(day)["pages"]

    for name, page, facts, _ in zip(names, read, data, count(), strict=False):  # type: ignore[call-overload] # JSON
        assert facts["name"] == printable(name)
        assert Counter(f"{t['from']}–{t['to']} {t['what']}" for t in facts["tasks"]) == (
            wanted(day, name)
        )
        if not re.search(r"\d|Prepare|Fill|Unload", title + name):
            assert told(page) == wanted(day, name)
    assert len(read) == len(names)
