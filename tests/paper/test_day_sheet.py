"""The day sheet, read back from its PDF: a plan made by hand goes in, printed text comes out."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.day.model import Break
from stillroom.day.plan import Plan
from stillroom.day.steps import CAUTIONS
from stillroom.paper.day_sheet import day_sheet, sheet_data
from stillroom.processes import library
from stillroom.processes.model import Process
from stillroom.units.clock import clock
from tests.paper.made import plan
from tests.paper.read_back import letters, pages

MARGIN = 24.0  # points: what a household printer leaves white


LARGE = plan(((75, 13), (10, None), (20, 15)) * 10, 8, lines=60, people=tuple("ABCDEFGH"))


def test_page_one_alone_tells_pressures_minutes_times_and_places() -> None:
    page = pages(day_sheet(plan()))[0]

    assert "Saturday 17 October 2026" in page
    assert "Test kitchen, 5,430 ft" in page
    assert "14 jars in 2 loads, 7:00 to 10:15" in page
    assert "13 lb" in page
    assert "75 min" in page
    assert "boil" in page
    assert "20 min" in page
    assert "8:05–9:20" in page
    assert page.count("7 pint Snap beans") == 2
    assert "1 1/4 in" in page
    assert "Guide 4 p. 4-8" in page


def test_page_one_says_how_good_the_plan_is_known_to_be() -> None:
    page = pages(day_sheet(plan()))[0]

    assert "no plan can finish before 9:40, 35 min earlier" in page


def test_every_page_carries_every_caution() -> None:
    for page in pages(day_sheet(plan())):
        for caution in CAUTIONS:
            assert caution in page


def test_a_small_day_takes_one_page_with_every_list_warning_and_step() -> None:
    day = plan()
    (page,) = pages(day_sheet(day))

    for entry in (*day.lists.buy, *day.lists.from_shelf, *day.lists.prep, *day.lists.liquids):
        assert entry.text in page
    for ware in (*day.lists.jars, *day.lists.lids):
        assert ware.text in page
    for warning in (*day.warnings, *day.lists.cautions):
        assert warning in page
    assert "8:05–9:20 1 canner 0: at 13 lb start timing 75 min" in page
    assert "7:20–7:30 1 Marit: Fill and load: Snap beans, canner 0" in page


def test_the_loads_are_numbered_in_the_drawing_and_in_the_table() -> None:
    """Minutes of the made-up loads are two digits, so a lone 1 or 2 is a load number."""
    page = pages(day_sheet(plan()))[0].split()

    assert page.count("1") >= 2
    assert page.count("2") >= 2


def test_a_usual_day_takes_two_pages() -> None:
    nine = plan(((75, 13), (10, None), (20, 15)) * 3, 3, lines=9)
    first, second = pages(day_sheet(nine))

    assert "load PRESSURE MINUTES" in first
    assert "lists and steps" in second
    for words in (*(entry.text for entry in nine.lists.buy), *nine.warnings):
        assert words in second


def test_a_day_too_large_for_page_one_has_its_drawing_there_and_its_loads_on_the_next() -> None:
    first, *others = pages(day_sheet(LARGE))

    assert "PRESSURE" not in first
    for person in LARGE.day.people:
        assert f" {person.name} " in first
    loads = [page for page in others if "PRESSURE" in page]
    assert sum(page.count("7 pint Snap beans") for page in loads) == len(LARGE.loads)


def test_names_without_type_are_spelled_in_latin_letters_and_that_is_told() -> None:
    """The spelling is that of the Unicode tables of Pinyin readings (from memory)."""
    page = " ".join(pages(day_sheet(plan(people=("梅", "Jonas"), title="борщ"))))

    assert "Mei: Unload: борщ" in page
    assert "Spelled in Latin letters, as the type has none of their own: Mei" in page
    assert "梅" not in page


def test_phases_are_told_by_word_as_well_as_by_pattern() -> None:
    first = pages(day_sheet(plan(((75, 13),), 1)))[0]

    for word in ("heat", "vent", "cool", "wait"):
        assert f" {word} " in first
    assert "heat, vent, come up process: load, minutes heat off: cool, wait" in first


def test_a_large_day_prints_every_load_and_every_line() -> None:
    text = " ".join(pages(day_sheet(LARGE)))

    for one in LARGE.loads:
        process = one.phase("process")
        at = f"at {one.psi} lb" if one.psi else "at a full boil"
        step = f"{one.number} {one.canner}: {at} start timing {one.minutes} min"
        assert f"{clock(process.start)}–{clock(process.end)} {step}" in text
        assert text.count(f"{clock(process.start)}–{clock(process.end)}") >= 2
    for n in range(1, 61):
        assert f"Snap beans: {n} lb, buy it" in text


@pytest.mark.parametrize("day", [plan(), LARGE], ids=["small", "large"])
def test_nothing_is_smaller_than_8_and_a_half_points(day: Plan) -> None:
    assert min(size for size, _, _ in letters(day_sheet(day))) >= 8.5


def test_pressure_and_minutes_are_the_largest_figures() -> None:
    printed = letters(day_sheet(plan()))
    largest = max(size for size, _, _ in printed)

    assert "".join(letter for size, letter, _ in printed if size == largest) == "137520"
    assert sorted({size for size, _, _ in printed})[-2] < largest


@pytest.mark.parametrize("day", [plan(), LARGE], ids=["small", "large"])
def test_the_same_plan_gives_the_same_bytes(day: Plan) -> None:
    assert day_sheet(day) == day_sheet(day)


def test_no_path_of_the_machine_is_in_the_sheet() -> None:
    sheet = day_sheet(plan())

    assert b"stillroom/paper" not in sheet
    assert b".typ" not in sheet


NAMES = [
    "#let x = 1 #pagebreak()",
    "$x^2$ *bold* _under_ `raw`",
    '<label> @ref "quoted" \\u{41} // not a comment /* nor this */',
    "Äpfel, ½ pint, żurek, борщ, αγγούρι",
    "// = heading - list + enum / term",
]


@pytest.mark.parametrize("name", NAMES)
def test_signs_of_the_typesetting_language_come_through_as_text(name: str) -> None:
    sheet = day_sheet(plan(title=name, name=name, people=(name, "Jonas")))
    page = " ".join(pages(sheet))

    assert f"7 pint {name}" in page
    assert f"{name}: 1 lb, buy it" in page
    assert f"{name}: Unload: {name}" in page


LONG = "very long name " * 13 + "tail."  # 200 characters
SOLID = "Donaudampfschifffahrt" * 10  # no place to break


@pytest.mark.parametrize("name", [LONG, SOLID], ids=["words", "one word"])
def test_names_of_200_characters_stay_on_the_paper(name: str) -> None:
    sheet = day_sheet(plan(title=name, name=name, people=(name, "Jonas"), canner_name=name))

    for _, _, (left, right, bottom, top) in letters(sheet):
        assert left >= MARGIN
        assert right <= 792 - MARGIN
        assert bottom >= 15
        assert top <= 612 - 15


WORDS = st.text(st.characters(codec="utf-8"), min_size=1, max_size=60)


@settings(max_examples=25)  # each is a sheet to set
@given(title=WORDS, person=WORDS, canner=WORDS)
def test_any_names_keep_figures_and_paper(title: str, person: str, canner: str) -> None:
    sheet = day_sheet(plan(title=title, people=(person, "Jonas"), canner_name=canner))

    text = " ".join(pages(sheet))
    for told in ("13 lb", "75 min", "boil", "20 min", "8:05–9:20", "Guide 4 p. 4-8"):
        assert told in text
    for _, _, (left, right, bottom, top) in letters(sheet):
        assert left >= MARGIN
        assert right <= 792 - MARGIN
        assert bottom >= 15
        assert top <= 612 - 15


def test_names_of_200_characters_are_told_in_full_where_they_matter() -> None:
    first, second = pages(day_sheet(plan(title=LONG)))[:2]

    assert f"7 pint {LONG}" in first
    assert f"{LONG}: 1 lb, buy it" in second


def test_a_line_break_in_a_name_does_not_break_the_line() -> None:
    assert "7 pint Snap beans" in pages(day_sheet(plan(title="Snap\n\n\tbeans")))[0]


def test_emoji_are_told_in_words() -> None:
    assert "7 pint Salsa (hot pepper)!" in pages(day_sheet(plan(title="Salsa \N{HOT PEPPER}!")))[0]


def test_a_canner_that_waits_for_hands_is_drawn_so() -> None:
    """The helper's loads are ready five minutes before anyone lifts them."""
    runs = [c["runs"] for c in sheet_data(plan())["canners"]]  # type: ignore[attr-defined] # JSON

    spans = runs[0][0]["spans"]
    held = next(s for s in spans if s["kind"] == "held")
    assert held["to"] - held["from"] == 5


def test_idle_canners_are_named_not_drawn() -> None:
    data = sheet_data(plan(((20, 10),), 3))

    assert len(data["canners"]) == 1  # type: ignore[arg-type] # JSON
    assert data["idle"] == "canner 1, canner 2"


def test_a_canner_stands_on_its_burner_from_filling_until_the_heat_is_off() -> None:
    data = sheet_data(plan(((75, 13),), 1))

    standing = next(b for b in data["burners"] if b["name"] == "burner 1")  # type: ignore[attr-defined] # JSON
    assert (standing["tasks"][0]["from"], standing["tasks"][0]["to"]) == (7 * 60 + 20, 9 * 60 + 20)


def test_the_steps_run_by_the_clock() -> None:
    from_clock = [s["from"] for s in sheet_data(plan())["steps"]]  # type: ignore[attr-defined] # JSON

    minutes = [int(t.split(":")[0]) * 60 + int(t.split(":")[1]) for t in from_clock]
    assert all(a <= b for a, b in pairwise(minutes))


def test_what_must_not_be_forgotten_stands_beside_the_load() -> None:
    """Acid in every tomato jar, and no liquid on raw-packed meat (AIB-539 Guides 3 and 5)."""
    tomatoes, meat = (library.processes(f) for f in ("tomatoes", "strips, cubes or chunks of meat"))
    day = plan(((20, 10),))
    first = day.loads[0].jars[0]

    def care(process: Process, pack: str) -> object:
        jars = replace(first, pack=pack, process=process)
        loads = (replace(day.loads[0], jars=(jars,)),)
        return sheet_data(replace(day, loads=loads))["loads"][0]["care"]  # type: ignore[index] # JSON

    assert care(tomatoes[0], "hot") == "acid in every jar"
    assert care(meat[0], "raw") == "no liquid"
    assert care(meat[0], "hot") == ""


def test_a_break_is_drawn_in_its_persons_lane() -> None:
    day = plan()
    rest = Break(("Marit",), 8 * 60, 8 * 60 + 30, "day.toml")

    first = pages(day_sheet(replace(day, day=replace(day.day, breaks=(rest,)))))[0]

    assert first.count("break") == 2  # in the lane and in the legend
    assert "break" not in pages(day_sheet(day))[0]


def test_what_was_taken_for_granted_stands_under_take_care() -> None:
    """A line for each kind of canner, headed as on the terminal, and no box to tick."""
    told = sheet_data(replace(plan(), stand_ins=("canner 1: weight 13 lb",)))

    assert told["care"][-1] == (  # type: ignore[index]
        "Taken for what the kitchen file does not tell, canner 1: weight 13 lb"
    )
