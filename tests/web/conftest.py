"""A household served to this computer, as a test client sees it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi.testclient import TestClient

from stillroom.store.engine import Store, open_store
from stillroom.web.app import create_app
from stillroom.web.settings import Settings


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """An empty store."""
    made = open_store(tmp_path / "stillroom.sqlite3")
    yield made
    made.close()


@pytest.fixture
def client(store: Store) -> Iterator[TestClient]:
    """A browser on the serving computer, which follows no redirect by itself."""
    settings = Settings()
    address = f"http://localhost:{settings.port}"
    with TestClient(
        create_app(store, settings),
        base_url=address,
        headers={"Origin": address},
        client=("127.0.0.1", 50000),
        follow_redirects=False,
    ) as made:
        yield made
