"""Pages are made ready in a thread of its own, and what was loaded is no work for the collector."""

import gc
from datetime import UTC, datetime
from pathlib import Path

from stillroom.store.engine import open_store
from stillroom.web.app import create_app
from stillroom.web.settings import Settings
from stillroom.web.warm import warm


def test_what_pages_need_is_set_aside_from_garbage(tmp_path: Path) -> None:
    store = open_store(tmp_path / "store.sqlite3")
    app = create_app(store, Settings(now=lambda: datetime(2026, 10, 14, tzinfo=UTC)))
    before = gc.get_freeze_count()

    try:
        warm(app).join(60)
        after = gc.get_freeze_count()
    finally:
        gc.unfreeze()
        store.close()

    # The process tables alone are more than a thousand rows.
    assert after - before > 1_000
