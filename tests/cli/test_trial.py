"""The invented household of ``stillroom serve --try``."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from stillroom.cli.trial import fill
from stillroom.store.days import days
from stillroom.store.engine import open_store
from stillroom.store.household import household


@pytest.mark.parametrize("weekday", range(7))
def test_its_day_is_a_saturday_ahead_that_can_be_read(weekday: int, tmp_path: Path) -> None:
    """21 September 2026 is a Monday; on a Saturday the next one is meant."""
    now = datetime(2026, 9, 21, 12, tzinfo=UTC) + timedelta(days=weekday)
    store = open_store(tmp_path / "trial.sqlite3")
    fill(store, now)

    with store.read() as session:
        (listed,) = days(session)
        home = household(session)
        day = home.day_of(listed.document)
    store.close()

    assert day.date == date(2026, 9, 26) if weekday < 5 else day.date == date(2026, 10, 3)
    assert home.kitchen is not None
    assert sum(order.count for order in day.orders) == 59
