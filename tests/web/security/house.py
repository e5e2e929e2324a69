"""A house for the tests of its doors: a store, the whole application, a clock and who asks."""

import asyncio
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from fastapi import FastAPI
from fastapi.testclient import TestClient
from httpx2 import Response

from benchmarks.pages.household import kitchen_document
from stillroom.store import doors as kept
from stillroom.store.engine import Store, open_store
from stillroom.store.kitchens import save_kitchen
from stillroom.web.app import create_app
from stillroom.web.security import passphrase
from stillroom.web.security.doors import Doors
from stillroom.web.settings import Settings

PASSPHRASE = "ladle thimble orchard moss"
ADDRESS, PHONE, OTHER_PHONE = "192.168.1.20", "192.168.1.31", "192.168.1.32"
# Stands in the store; whoever reads it without having been let in has come through a hole.
SECRET_WORD = "Quillfeather"
OPEN = Settings(open_to_household=True, addresses=(ADDRESS,), names=("pantry.local",))
OPEN_HTTPS = replace(OPEN, https=True, household_port=8643)


@dataclass
class Clock:
    """A clock that tests set."""

    at: datetime = field(default_factory=lambda: datetime(2026, 11, 25, 12, tzinfo=UTC))

    def __call__(self) -> datetime:
        return self.at

    def go_on(self, by: timedelta) -> None:
        self.at += by


@dataclass
class House:
    """A store with one kitchen in it, served."""

    store: Store
    app: FastAPI
    clock: Clock
    settings: Settings

    @property
    def doors(self) -> Doors:
        doors = self.app.state.doors
        assert isinstance(doors, Doors)
        return doors

    def asks(self, base: str, peer: str) -> TestClient:
        """Somebody who asks under an address, from an address."""
        return TestClient(
            self.app,
            base_url=base,
            client=(peer, 50000),
            follow_redirects=False,
            raise_server_exceptions=False,
        )

    def here(self) -> TestClient:
        """A browser on this computer."""
        return self.asks("http://localhost:8642", "127.0.0.1")

    def phone(self, peer: str = PHONE) -> TestClient:
        """A phone in the household's network."""
        base = f"https://{ADDRESS}:8643" if self.settings.https else f"http://{ADDRESS}:8642"
        return self.asks(base, peer)

    def choose_passphrase(self, chosen: str) -> None:
        typed = {"passphrase": chosen, "again": chosen}
        assert send(self.here(), "/doors/passphrase", "/doors", **typed).status_code == 303

    def has_passphrase(self) -> None:
        """As if it had been chosen on the page."""
        with self.store.write() as session:
            kept.set_passphrase(session, _hashed(), at=self.clock())

    def new_code(self) -> str:
        assert send(self.here(), "/doors/code", "/doors").status_code == 303
        code = self.doors.code()
        assert code
        return code.text

    def paired(self, peer: str = PHONE, name: str = "Tablet") -> TestClient:
        """A phone that has been let in."""
        phone = self.phone(peer)
        answer = try_in(phone, self.new_code(), name=name)
        assert answer.status_code == 303, answer.text
        return phone


@contextmanager
def house(folder: Path, settings: Settings = OPEN) -> Iterator[House]:
    """A house in a folder; its clock starts at noon."""
    clock = Clock()
    path = folder / "store" / "stillroom.sqlite3"
    path.parent.mkdir(parents=True)
    path.write_bytes(_written())
    store = open_store(path)
    settings = replace(settings, now=clock)
    try:
        yield House(store, create_app(store, settings), clock, settings)
    finally:
        store.close()


@cache
def _written() -> bytes:
    """A store with the kitchen in it, made once: its steps take longer than most tests."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "stillroom.sqlite3"
        store = open_store(path)
        with store.write() as session:
            document = kitchen_document() | {"name": f"{SECRET_WORD} kitchen"}
            save_kitchen(session, document, version=0, at=Clock().at, who="a test")
        store.close()
        return path.read_bytes()


@cache
def _hashed() -> str:
    return asyncio.run(passphrase.hashed(PASSPHRASE, passphrase.hashing()))


def mark_on(page: str) -> str:
    """The mark in the first form of a page."""
    found = re.search(r'name="csrf" value="([^"]+)"', page)
    assert found, page
    return found[1]


def send(client: TestClient, path: str, from_page: str, **fields: str) -> Response:
    """Open a page and send its form, as a person does."""
    fields["csrf"] = mark_on(client.get(from_page).text)
    return client.post(path, data=fields)


def try_in(phone: TestClient, code: str, passphrase: str = PASSPHRASE, **fields: str) -> Response:
    """Type a code and a passphrase on the pairing page."""
    typed = {"code": code, "passphrase": passphrase, **fields}
    return send(phone, "/doors/pair", "/doors/pair", **typed)
