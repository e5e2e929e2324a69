"""Letting in and keeping out: what the pages at the door and the gate do with the store."""

from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from anyio import CapacityLimiter, to_thread

from stillroom.errors import InputError, StillroomError
from stillroom.store import doors as kept
from stillroom.store.engine import Store
from stillroom.web.security import limits, passphrase, tokens
from stillroom.web.security.keys import form_key
from stillroom.web.security.visitor import Visitor
from stillroom.web.settings import Settings


class TryLater(StillroomError):
    """Too many tries; ``seconds`` until the next is taken."""

    def __init__(self, seconds: int) -> None:
        super().__init__(f"Too many tries. Wait {seconds} seconds.")
        self.seconds = seconds


@dataclass(frozen=True, slots=True)
class Code:
    """A pairing code as it is shown at this computer, and until when it holds."""

    text: str
    until: datetime


@dataclass(slots=True)
class Doors:
    """One server's doors: its store, its key, and the code that is on its screen."""

    store: Store
    settings: Settings
    key: bytes
    hashing: CapacityLimiter = field(default_factory=passphrase.hashing)
    shown: Code | None = None

    @property
    def folder(self) -> Path:
        """Where keys and certificates lie."""
        return self.settings.data or self.store.path.parent

    def now(self) -> datetime:
        """The server's clock."""
        return self.settings.now()

    def has_passphrase(self) -> bool:
        """Whether the household has chosen one."""
        with self.store.read() as session:
            return kept.passphrase_hash(session) is not None

    def devices(self) -> tuple[kept.StoredDevice, ...]:
        """Devices that may come in."""
        with self.store.read() as session:
            return kept.devices(session, at=self.now(), unused=tokens.UNUSED)

    def code(self) -> Code | None:
        """The code on the screen while it can still be used."""
        if self.shown is None:
            return None
        hashed = tokens.code_hash(self.key, self.shown.text)
        with self.store.read() as session:
            is_open = kept.is_pairing_open(session, hashed, at=self.now())
        return self.shown if is_open else None

    def new_code(self) -> Code:
        """A code for one device, in place of the one before.

        Raises
        ------
        InputError
            There is no passphrase to ask the device for.
        """
        if not self.has_passphrase():
            raise InputError("Choose a passphrase first: a device is asked for it.")
        at = self.now()
        made = Code(tokens.new_code(), at + tokens.CODE_HOLDS)
        with self.store.write() as session:
            hashed = tokens.code_hash(self.key, made.text)
            kept.open_pairing(session, hashed, at=at, holds=tokens.CODE_HOLDS)
        self.shown = made
        return made

    def revoke(self, device: int) -> bool:
        """Let a device in no more."""
        with self.store.write() as session:
            return kept.revoke(session, device, at=self.now())

    async def choose_passphrase(self, typed: str) -> None:
        """Take a new passphrase; every device must be paired again."""
        hashed = await passphrase.hashed(typed, self.hashing)
        await to_thread.run_sync(self._take, hashed)

    def _take(self, hashed: str) -> None:
        with self.store.write() as session:
            kept.set_passphrase(session, hashed, at=self.now())
        self.shown = None

    async def pair(self, code: str, typed: str, name: str, address: str) -> str | None:
        """A token for a device that knows code and passphrase; None where either is wrong.

        Raises
        ------
        TryLater
            Too many tries from this address, or from all together.
        """
        seconds = await to_thread.run_sync(self._count, address)
        if seconds:
            raise TryLater(seconds)
        hashed = tokens.code_hash(self.key, code)
        wanted = await to_thread.run_sync(self._wanted, hashed)
        # A wrong code costs the attacker a try and this computer no hash.
        if wanted is None or not await passphrase.fits(wanted, typed, self.hashing):
            return None
        return await to_thread.run_sync(self._admit, hashed, wanted, name, address)

    def _count(self, address: str) -> int:
        """Write the try down before it is made, so that many at once cannot slip through."""
        at = self.now()
        since = at - limits.WINDOW
        with self.store.write() as session:
            one, everybody = (kept.tries(session, where, since=since) for where in (address, ""))
            seconds = limits.seconds_to_wait(one, everybody, at)
            if not seconds:
                kept.tried(session, address, at=at, forget=since)
        return seconds

    def _wanted(self, code: str) -> str | None:
        """The passphrase's hash, if the code is good."""
        with self.store.read() as session:
            is_open = kept.is_pairing_open(session, code, at=self.now())
            return kept.passphrase_hash(session) if is_open else None

    def _admit(self, code: str, wanted: str, name: str, address: str) -> str | None:
        token = tokens.new_token()
        hashed = tokens.token_hash(token)
        with self.store.write() as session:
            device = kept.admit(session, code, wanted, hashed, name=name, at=self.now())
            if device is None:
                return None
            kept.forgive(session, address)
        return token

    def recognise(self, token: str) -> tuple[Visitor, bool] | None:
        """The device that holds a token, and whether this visit was written down.

        The visit is written down now and then, not at each of a page's files.
        """
        at = self.now()
        with self.store.read() as session:
            found = kept.device_of(session, tokens.token_hash(token), at=at, unused=tokens.UNUSED)
        if found is None:
            return None
        is_noted = at - found.seen_at >= tokens.SEEN_EVERY
        if is_noted:
            with self.store.write() as session:
                kept.seen(session, found.id, at=at)
        return Visitor("device", f"device {found.id}", found.name, found.id), is_noted


def doors_of(store: Store, settings: Settings) -> Doors:
    """The doors of a server; its key lies beside the store unless ``settings.data`` says else."""
    return Doors(store, settings, form_key(settings.data or store.path.parent))
