"""The audit proves the shipped tables and catches each kind of fault it promises to catch."""

import pytest

from stillroom.processes import library
from stillroom.processes.audit import audit, faults
from stillroom.processes.model import Process


@pytest.fixture
def beans() -> list[Process]:
    """Snap beans, all bands: quarts 25 minutes, pints 20 (AIB-539 Guide 4)."""
    return list(library.processes("snap beans"))


def test_shipped_tables_are_whole_and_counted() -> None:
    counts = audit()

    # reference/processes README: about 1,450 rows; 37 withheld groups.
    assert counts.rows == 1450
    assert counts.withheld == 37


def test_a_missing_band_is_a_fault(beans: list[Process]) -> None:
    short = [r for r in beans if not (r.method == "dial-gauge" and r.from_ft == 2001)]

    assert any("bands" in fault for fault in faults(short))


def test_minutes_that_fall_with_altitude_are_a_fault(beans: list[Process]) -> None:
    wrong = [r._replace(minutes=r.minutes - 5) if r.from_ft == 4001 else r for r in beans]

    assert any("minutes fall" in fault for fault in faults(wrong))


def test_a_pressure_that_does_not_rise_is_a_fault(beans: list[Process]) -> None:
    wrong = [r._replace(psi=12) if r.from_ft == 4001 else r for r in beans]

    assert any("pressure does not rise" in fault for fault in faults(wrong))


def test_a_larger_jar_that_takes_less_time_is_a_fault(beans: list[Process]) -> None:
    wrong = [r._replace(minutes=15) if r.jar == "quart" else r for r in beans]

    assert any("quart takes less time" in fault for fault in faults(wrong))


def test_a_row_printed_twice_is_a_fault(beans: list[Process]) -> None:
    assert any("printed twice" in f or "bands" in f for f in faults([*beans, beans[0]]))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"jar": "bucket"}, "no jar size"),
        ({"method": "oven"}, "no method"),
        ({"pack": "cold"}, "no pack"),
        ({"psi": None}, "pressure and method disagree"),
        ({"read_in": ()}, "names no place or no reading"),
        ({"status": "guessed"}, "status"),
        ({"minutes": 0}, "0 min"),
    ],
)
def test_a_broken_cell_is_a_fault(
    beans: list[Process], change: dict[str, object], told: str
) -> None:
    wrong = [beans[0]._replace(**change), *beans[1:]]  # type: ignore[arg-type] # any one field

    assert any(told in fault for fault in faults(wrong))
