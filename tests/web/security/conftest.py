"""Houses open to the household, and closed."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from stillroom.web.settings import Settings
from tests.web.security.house import OPEN_HTTPS, House, house


@pytest.fixture
def closed(tmp_path: Path) -> Iterator[House]:
    """Served to this computer only."""
    with house(tmp_path / "closed", Settings()) as made:
        yield made


@pytest.fixture
def opened(tmp_path: Path) -> Iterator[House]:
    """Open to the household over plain HTTP, with a passphrase."""
    with house(tmp_path) as made:
        made.has_passphrase()
        yield made


@pytest.fixture
def opened_https(tmp_path: Path) -> Iterator[House]:
    """Open to the household over HTTPS, with a passphrase."""
    with house(tmp_path, OPEN_HTTPS) as made:
        made.has_passphrase()
        yield made
