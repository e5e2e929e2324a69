"""An invented household to try the kitchen screen with."""

import tomllib
from datetime import datetime, timedelta
from typing import Any

from stillroom.cli.start import DEMO
from stillroom.store.days import add_day
from stillroom.store.engine import Store
from stillroom.store.kitchens import save_kitchen

WHO = "invented household"
TITLE = "Autumn Saturday (invented)"
_SATURDAY = 5


def fill(store: Store, at: datetime) -> None:
    """Write the kitchen and day of ``stillroom start`` into an empty store.

    The day is the Saturday after ``at``, so that it lies ahead.
    """
    day = _read("day.toml")
    del day["kitchen"]
    day["date"] = at.date() + timedelta(days=(_SATURDAY - at.weekday()) % 7 or 7)
    with store.write() as session:
        save_kitchen(session, _read("kitchen.toml"), version=0, at=at, who=WHO)
        add_day(session, day, at=at, who=WHO, title=TITLE)


def _read(name: str) -> dict[str, Any]:
    return tomllib.loads((DEMO / name).read_text(encoding="utf-8"))
