"""A log written by hand is read line by line; every slip is told with its line and column."""

import csv
from io import StringIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.heat.log import EVENTS, Log
from stillroom.heat.readings import LARGEST_BYTES, read_log

RUN = "time,psi,event,note\n10:31,0,lid on,\n10:42,13,timing starts,\n11:07,13.5,,phone rang\n"


def log(folder: Path, text: str | bytes, *kinds: str) -> Log:
    file = folder / "run.csv"
    file.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    return read_log(file, kinds or ("pressure", "boil"))  # type: ignore[arg-type]  # names typed out


def told(folder: Path, text: str | bytes) -> str:
    """The one line that says what is wrong with a log."""
    with pytest.raises(InputError) as wrong:
        log(folder, text)
    assert "\n" not in str(wrong.value)
    return str(wrong.value)


def test_a_line_keeps_its_time_reading_event_and_note(tmp_path: Path) -> None:
    read = log(tmp_path, RUN)

    assert read.kind == "pressure"
    assert read.clock
    assert [(line.at, line.psi, line.event, line.note) for line in read.lines] == [
        (0.0, 0.0, "lid on", ""),
        (11 * 60.0, 13.0, "timing starts", ""),
        (36 * 60.0, 13.5, "", "phone rang"),
    ]


@pytest.mark.parametrize(
    ("first", "second", "seconds"),
    [
        ("0", "12.5", 750),
        ("10:42", "11:02", 1_200),
        ("10:42:15", "10:42:45", 30),
        ("11:55 am", "12:05 pm", 600),
        ("12:55 PM", "1:05 p.m.", 600),
        ("12:05 am", "1:05am", 3_600),
        ("2026-10-17T23:55", "2026-10-18T00:05", 600),
        ("2026-10-17 10:42:00", "2026-10-17 10:43:30", 90),
        # Two hours on the wall are one hour of heat where the clocks go forward in between.
        ("2027-03-14T01:30-07:00", "2027-03-14T03:30-06:00", 3_600),
    ],
)
def test_times_are_read_as_minutes_clock_or_date(
    first: str, second: str, seconds: float, tmp_path: Path
) -> None:
    read = log(tmp_path, f"time,psi\n{first},10\n{second},11\n")

    assert read.lines[1].at == seconds
    assert read.lines[1].time == second
    assert read.clock is (":" in first)


def test_kilopascals_are_read_as_pounds(tmp_path: Path) -> None:
    """1 psi is 6.894757 kPa (NIST SP 811, appendix B), so 75.842 kPa are 11 psi to four digits."""
    read = log(tmp_path, "time,kpa\n0,75.842\n1,0\n")

    assert read.lines[0].psi == pytest.approx(11.0, abs=5e-4)


def test_both_temperatures_are_read_alike(tmp_path: Path) -> None:
    fahrenheit = log(tmp_path, "time,temp_f\n0,212\n1,32\n", "temperature")
    celsius = log(tmp_path, "time,temp_c\n0,100\n1,0\n", "temperature")

    # 212 F and 100 C are one temperature by definition; the tolerance is rounding.
    for a, b in zip(fahrenheit.lines, celsius.lines, strict=True):
        assert a.kelvin == pytest.approx(b.kelvin, abs=1e-9)
    assert fahrenheit.lines[0].kelvin == pytest.approx(373.15)


def test_a_boil_is_yes_or_no(tmp_path: Path) -> None:
    read = log(tmp_path, "time,boil\n0,no\n5,yes\n10,Full\n")

    assert [line.boils for line in read.lines] == [False, True, True]


def test_an_event_may_stand_without_a_reading_and_beside_one_of_the_same_time(
    tmp_path: Path,
) -> None:
    read = log(tmp_path, "time,psi,event\n0,10,\n5,11,\n5,,heat off\n9,4,\n")

    assert [line.event for line in read.lines] == ["", "", "heat off", ""]
    assert len(read.read_off) == 3


def test_a_spreadsheets_ways_of_writing_are_understood(tmp_path: Path) -> None:
    """A byte order mark, Windows line ends, quotes, spaces, capitals, lines with commas alone."""
    text = '\ufeffTime , PSI,Event\r\n"10:31", 0,Lid-On\r\n,,\r\n10:40,13,"vent_start"\r\n'

    read = log(tmp_path, text)

    assert [(line.psi, line.event) for line in read.lines] == [(0, "lid on"), (13, "vent start")]


def test_timing_may_start_again(tmp_path: Path) -> None:
    """After a fall the rule asks for it."""
    text = "time,psi,event\n0,11,timing starts\n9,10,\n12,11,timing starts\n37,11,heat off\n"

    read = log(tmp_path, text)

    starts = [line.at / 60 for line in read.lines if line.event == "timing starts"]
    assert starts == [0, 12]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", ("run.csv: empty", "time,psi,event")),
        ("\n\n", ("run.csv: empty",)),
        ("time,psi\n", ("fewer than two readings",)),
        ("time,psi\n10:00,3\n", ("fewer than two readings",)),
        ("10:00,3\n10:05,4\n", ("line 1, column 1", '"10:00" is not a column', "Columns: time")),
        ("tmie,psi\n0,1\n1,2\n", ("line 1, column 1", '"tmie"', 'Did you mean "time"?')),
        ("time,psi,kpa\n0,1,7\n1,2,14\n", ("line 1", "psi and kpa")),
        ("time,event\n0,lid on\n", ("line 1", "psi, kpa, boil", "it has none")),
        ("time,temp_f\n0,200\n1,210\n", ("line 1", "psi, kpa, boil", "it has temp_f")),
        ("time,psi,psi\n0,1,1\n1,2,2\n", ("line 1", '"psi" heads two columns')),
        ("psi,event\n1,\n2,\n", ("line 1", "time")),
        ("time;psi\n0;1\n1;2\n", ("line 1", "no comma")),
        ("time,psi\n0,1\n1,2,3\n", ("line 3", "3 columns", "names 2")),
        ("time,psi\n0,1\n1,\n2,3\n", ("line 3, psi", "nothing is written")),
        ("time,psi\n0,1\n,2\n", ('line 3, time: "" is not a time', "12.5")),
        ("time,psi\n0,1\nnoon,2\n", ('line 3, time: "noon" is not a time',)),
        ("time,psi\n0,1\n25:00,2\n", ('line 3, time: "25:00"',)),
        ("time,psi\n10:00,1\n24:01,2\n", ('line 3, time: "24:01"',)),
        ("time,psi\n10:00,1\n10:60,2\n", ('line 3, time: "10:60"',)),
        ("time,psi\n1:00 pm,1\n13:00 pm,2\n", ('line 3, time: "13:00 pm"',)),
        ("time,psi\n2026-02-30T10:00,1\n", ('line 2, time: "2026-02-30T10:00"',)),
        ("time,psi\n-5,1\n0,2\n", ('line 2, time: "-5"',)),
        ("time,psi\n10:00,1\n25,2\n", ("line 3, time", "another way", "24-hour clock")),
        ("time,psi\n10:00,1\n10:00,2\n", ("line 3, time", "not later", "10:00")),
        ("time,psi\n12:55,1\n1:05,2\n", ("line 3, time", "not later", "am and pm")),
        ("time,psi\n0,1\n1500,2\n", ("line 3, time", "more than 24 hours")),
        ("time,psi\n0,13 lb\n1,13\n", ('line 2, psi: "13 lb" is not a number', "11.5")),
        ('time,psi\n0,"12,5"\n1,13\n', ('line 2, psi: "12,5" is not a number',)),
        ("time,psi\n0,nan\n1,13\n", ('line 2, psi: "nan" is not a number',)),
        ("time,psi\n0,1e1\n1,13\n", ('line 2, psi: "1e1" is not a number',)),
        ("time,psi\n0,-1\n1,13\n", ("line 2, psi: -1 does not fit", "0 to 30 psi")),
        ("time,psi\n0,76\n1,13\n", ("line 2, psi: 76 does not fit", "unit of the column")),
        ("time,kpa\n0,900\n1,13\n", ("line 2, kpa: 900 does not fit", "0 to 207 kPa")),
        ("time,boil\n0,maybe\n1,yes\n", ('line 2, boil: "maybe"', "yes", "no")),
        ("time,psi,event\n0,1,heat of\n1,2,\n", ("line 2, event", 'Did you mean "heat off"?')),
        ("time,psi,event\n0,1,phone\n1,2,\n", ("line 2, event", "column called note")),
        (
            "time,psi,event\n0,1,heat off\n1,2,heat off\n",
            ("line 3, event", "stands at 0 already", "line 2"),
        ),
        ('time,psi\n0,"1\n1,2\n', ("run.csv", "CSV")),
        (b"time,psi\n0,1\xff\n", ("byte 12 is not text", "plain text")),
        (b"PK\x03\x04\xff\xfe\x00", ("is not text", "not as a workbook")),
        (b"time,psi\n" + b"0,1\n" * 500_000, ("1 MB is too large",)),
    ],
)
def test_a_slip_in_a_log_is_told_with_line_and_column(
    text: str | bytes, words: tuple[str, ...], tmp_path: Path
) -> None:
    said = told(tmp_path, text)

    for word in words:
        assert word in said
    assert said.startswith("run.csv")


def test_a_column_of_temperature_must_be_a_canners(tmp_path: Path) -> None:
    for text in ("time,temp_f\n0,400\n1,2\n", "time,temp_c\n0,212\n1,2\n"):
        with pytest.raises(InputError, match=r"line 2, temp_[fc]: \d+ does not fit.*unit"):
            log(tmp_path, text, "temperature")


def test_a_file_that_is_not_there_or_is_no_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        read_log(tmp_path / "other.csv", ("pressure",))
    with pytest.raises(InputError, match="this is a folder"):
        read_log(tmp_path, ("pressure",))
    with pytest.raises(InputError, match="cannot be a file name"):
        read_log(Path("a\0b"), ("pressure",))


def test_a_log_just_small_enough_is_read(tmp_path: Path) -> None:
    """86,400 seconds are a day: a line a second would be larger, one in three seconds is read."""
    lines = "".join(f"{n / 20:.2f},10\n" for n in range(28_800))
    assert len(lines) < LARGEST_BYTES

    assert len(log(tmp_path, "time,psi\n" + lines).lines) == 28_800


@given(
    st.lists(
        st.tuples(
            st.integers(1, 90),
            st.integers(0, 300),
            st.sampled_from(["", "", "", "shared note, with comma", 'a "quoted" one']),
        ),
        min_size=2,
        max_size=30,
    ),
    st.permutations(EVENTS),
)
def test_every_line_that_was_written_is_read(
    tmp_path_factory: pytest.TempPathFactory,
    lines: list[tuple[int, int, str]],
    events: list[str],
) -> None:
    folder = tmp_path_factory.mktemp("log")
    written, minute = [], 0
    for number, (pause, tenths, note) in enumerate(lines):
        minute += pause
        event = events[number] if number < len(events) else ""
        if minute <= 24 * 60:
            written.append([str(minute), f"{tenths / 10:g}", event, note])
    if len(written) < 2:
        return
    page = StringIO()
    csv.writer(page).writerows([["time", "psi", "event", "note"], *written])

    read = log(folder, page.getvalue())

    assert [[line.time, f"{line.psi:g}", line.event, line.note] for line in read.lines] == written


@given(st.binary(max_size=300))
def test_any_bytes_are_read_or_told(tmp_path_factory: pytest.TempPathFactory, raw: bytes) -> None:
    folder = tmp_path_factory.mktemp("bytes")
    try:
        log(folder, b"time,psi,event\n0,10,\n5,11,heat off\n" + raw)
    except InputError as wrong:
        assert str(wrong).startswith("run.csv")
