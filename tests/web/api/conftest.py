"""A household asked by a program."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.web.api.asking import Asker, asker


@pytest.fixture
def empty(tmp_path: Path) -> Iterator[Asker]:
    """Nothing is written yet."""
    with asker(tmp_path, empty=True) as made:
        yield made


@pytest.fixture
def home(tmp_path: Path) -> Iterator[Asker]:
    """The small invented household."""
    with asker(tmp_path) as made:
        yield made
