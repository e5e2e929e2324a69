"""A browser, the small household served to it, and windows that are watched to the end."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.opening import Watch, Windows, browser
from tests.browser.serving import Site, served
from tests.household import NOW, filled


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests of one module run in one process: they share a browser and a server."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.xdist_group(item.path.stem))


# For a module, not for the session: Playwright keeps an event loop running in the main thread,
# and tests elsewhere run loops of their own there.
@pytest.fixture(scope="module")
def chrome() -> Iterator[Browser]:
    with browser() as started:
        yield started


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The pages of the small household."""
    path = tmp_path_factory.mktemp("household") / "store.sqlite3"
    path.write_bytes(filled())
    with served(path, NOW) as running:
        yield running


@pytest.fixture
def empty_site(tmp_path: Path) -> Iterator[Site]:
    """The pages of a household that has written nothing yet."""
    with served(tmp_path / "store.sqlite3", NOW) as running:
        yield running


def _windows(chrome: Browser, site: Site) -> Iterator[Windows]:
    watch = Watch(site.url)
    opened = Windows(chrome, site.url, watch)
    yield opened
    opened.close()
    assert watch.faults() == []


@pytest.fixture
def windows(chrome: Browser, site: Site) -> Iterator[Windows]:
    """Windows on the small household. A word in a console or a question to the outside fails."""
    yield from _windows(chrome, site)


@pytest.fixture
def empty_windows(chrome: Browser, empty_site: Site) -> Iterator[Windows]:
    """Windows on the empty household, watched as well."""
    yield from _windows(chrome, empty_site)
