"""When a canner's parts were looked at, and what of it is due."""

from datetime import date
from pathlib import Path

import pytest

from stillroom.errors import InputError
from stillroom.kitchen import Canner, Care, kitchen_from, read_kitchen
from stillroom.kitchen.checks import State, checks, open_checks, standings
from stillroom.toml_file import table_of

DIAL = Canner("big", "dial-gauge", {"quart": 7})
KITCHEN = """
name = "Ridge"
elevation = "900 ft"
burners = 4
[[canner]]
name = "big"
method = "dial-gauge"
holds = { quart = 7 }
[canner.care]
"""


def _kitchen(tmp_path: Path, care: str) -> Path:
    path = tmp_path / "kitchen.toml"
    path.write_text(KITCHEN + care)
    return path


def _document(care: dict[str, object], method: str = "dial-gauge") -> dict[str, object]:
    canner = {"name": "big", "method": method, "holds": {"quart": 7}, "care": care}
    return {"name": "Ridge", "elevation": "900 ft", "burners": 4, "canner": [canner]}


def _states(canner: Canner, today: date) -> dict[str, State]:
    return {s.check.check: s.state for s in standings(canner, today)}


def test_a_file_and_a_document_tell_the_same_care(tmp_path: Path) -> None:
    path = _kitchen(tmp_path, "gauge_tested = 2026-06-01\ngauge_reads_high = 0.5\ngasket = false\n")
    written = {"gauge_tested": "2026-06-01", "gauge_reads_high": 0.5, "gasket": False}

    from_file = read_kitchen(path).canners[0].care
    from_document = kitchen_from(table_of(_document(written), "kitchen")).canners[0].care

    assert from_file == from_document
    assert from_file == Care(date(2026, 6, 1), 0.5, has_gasket=False)


def test_a_slip_in_the_care_is_told_with_line_and_key(tmp_path: Path) -> None:
    path = _kitchen(tmp_path, 'gauge_tested = "in June"\n')

    with pytest.raises(InputError, match=r"kitchen\.toml, line 10, canner\[1\]\.care\.gauge_test"):
        read_kitchen(path)


@pytest.mark.parametrize(
    ("care", "method", "said"),
    [
        ({"gauge_tested": "2026-06-01"}, "weighted-gauge", "no such part"),
        ({"gasket_checked": "2026-06-01"}, "boiling-water", "no such part"),
        ({"gasket": False, "gasket_checked": "2026-06-01"}, "dial-gauge", "no gasket"),
        ({"gauge_reads_high": 1}, "dial-gauge", "when that was tested"),
        ({"gauge_tested": "2026-06-01", "gauge_reads_high": 6}, "dial-gauge", "from -5 to 5"),
        ({"vent_cheked": "2026-06-01"}, "dial-gauge", "vent_checked"),
    ],
)
def test_care_that_cannot_be_is_refused_at_its_place(
    care: dict[str, object], method: str, said: str
) -> None:
    with pytest.raises(InputError, match=said) as wrong:
        kitchen_from(table_of(_document(care, method), "kitchen"))

    assert wrong.value.place.startswith("canner[1].care.")


def test_a_dial_gauge_is_due_a_year_after_its_test_per_usda_guide_1() -> None:
    """AIB-539 Guide 1: dial gauges are checked for accuracy each year."""
    tested = Canner("big", "dial-gauge", {"quart": 7}, care=Care(gauge_tested=date(2025, 7, 1)))

    assert _states(tested, date(2026, 5, 31))["gauge_tested"] is State.DONE
    assert _states(tested, date(2026, 6, 30))["gauge_tested"] is State.SOON
    assert _states(tested, date(2026, 7, 1))["gauge_tested"] is State.DUE
    assert _states(tested, date(2025, 6, 30))["gauge_tested"] is State.AHEAD


def test_a_gauge_off_by_more_than_a_pound_is_replaced_however_lately_it_was_tested() -> None:
    """AIB-539 Guide 1, 1994 edition (from memory): off by more than 1 lb is replaced."""
    today = date(2026, 8, 1)
    of = {
        off: Canner("big", "dial-gauge", {"quart": 7}, care=Care(today, off))
        for off in (1.0, 1.5, -2.0)
    }

    assert [_states(c, today)["gauge_tested"] for c in of.values()] == [
        "done",
        "replace",
        "replace",
    ]


def test_a_canner_is_asked_only_for_parts_it_has() -> None:
    today = date(2026, 8, 1)
    clamped = Canner("old", "weighted-gauge", {"quart": 7}, care=Care(has_gasket=False))

    assert list(_states(clamped, today)) == ["vent_checked", "plug_checked", "rack_checked"]
    assert list(_states(Canner("pot", "boiling-water", {}), today)) == ["rack_checked"]
    assert len(_states(DIAL, today)) == len(checks())


def test_what_is_gravest_is_told_first() -> None:
    today = date(2026, 8, 1)
    bad = Canner("bad", "dial-gauge", {}, care=Care(today, 2, True, *(4 * [date(2024, 1, 1)])))

    assert [s.state for s in open_checks([bad], today)] == ["replace", *(4 * ["due"])]


def test_a_leap_days_check_is_due_on_the_last_of_february() -> None:
    of_leap_day = Canner("pot", "boiling-water", {}, care=Care(rack_checked=date(2024, 2, 29)))

    (standing,) = standings(of_leap_day, date(2024, 3, 1))

    assert standing.due == date(2025, 2, 28)


def test_every_check_names_where_it_stands_or_that_it_is_common_practice() -> None:
    for check in checks():
        assert check.citation
        assert (check.status == "common practice") == ("common practice" in check.citation)
        assert check.check in Care.__slots__
