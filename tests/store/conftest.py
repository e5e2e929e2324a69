"""An empty store for each test, and documents to keep in it."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from stillroom.store.engine import Store, open_store


@pytest.fixture(scope="session")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The file of an empty store, to copy: making one takes its steps anew."""
    path = tmp_path_factory.mktemp("empty") / "store.sqlite3"
    open_store(path).close()
    return path


@pytest.fixture
def store(empty: Path, tmp_path: Path) -> Iterator[Store]:
    path = tmp_path / "stillroom.sqlite3"
    shutil.copy(empty, path)
    store = open_store(path)
    yield store
    store.close()
