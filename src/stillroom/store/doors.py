"""Who may come in: the passphrase, devices, pairing codes, and tries at the door.

Everything that must not happen twice is decided inside one write transaction.
"""

from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from stillroom.store.tables import AttemptRow, DeviceRow, PairingRow, PassphraseRow


@dataclass(frozen=True, slots=True)
class StoredDevice:
    """A device that was let in."""

    id: int
    name: str
    created_at: datetime
    seen_at: datetime


def passphrase_hash(s: Session) -> str | None:
    """The hash of the household's passphrase; None where none was chosen."""
    row = s.get(PassphraseRow, 1)
    return row.hash if row else None


def set_passphrase(s: Session, hashed: str, *, at: datetime) -> None:
    """Take a new passphrase. Every device and every open code ends with the old one."""
    s.merge(PassphraseRow(id=1, hash=hashed, changed_at=at))
    s.execute(update(DeviceRow).where(DeviceRow.revoked_at.is_(None)).values(revoked_at=at))
    s.execute(delete(PairingRow))


def open_pairing(s: Session, code_hash: str, *, at: datetime, holds: timedelta) -> None:
    """Take a new code; codes shown before it end."""
    s.execute(delete(PairingRow))
    s.add(PairingRow(code_hash=code_hash, created_at=at, expires_at=at + holds, used_at=None))


def is_pairing_open(s: Session, code_hash: str, *, at: datetime) -> bool:
    """Whether a code was shown, is not used and not too old."""
    row = s.get(PairingRow, code_hash)
    return row is not None and row.used_at is None and at < row.expires_at


def admit(
    s: Session, code_hash: str, passphrase: str, token_hash: str, *, name: str, at: datetime
) -> StoredDevice | None:
    """Let a device in and use the code up, or None where something changed meanwhile.

    Parameters
    ----------
    s : a writing session: of two tries with one code the first wins
    code_hash : of the code
    passphrase : the hash that the typed passphrase was found to fit
    token_hash : of the device's new token
    name : of the device
    at : now
    """
    if passphrase_hash(s) != passphrase or not is_pairing_open(s, code_hash, at=at):
        return None
    s.execute(update(PairingRow).where(PairingRow.code_hash == code_hash).values(used_at=at))
    row = DeviceRow(name=name, token_hash=token_hash, created_at=at, seen_at=at, revoked_at=None)
    s.add(row)
    s.flush()
    return _device(row)


def device_of(
    s: Session, token_hash: str, *, at: datetime, unused: timedelta
) -> StoredDevice | None:
    """The device that holds a token; None where it was revoked or stayed away too long."""
    row = s.scalars(select(DeviceRow).where(DeviceRow.token_hash == token_hash)).one_or_none()
    if row is None or row.revoked_at is not None or row.seen_at + unused <= at:
        return None
    return _device(row)


def seen(s: Session, device: int, *, at: datetime) -> None:
    """Write down that a device was here."""
    s.execute(
        update(DeviceRow)
        .where(DeviceRow.id == device, DeviceRow.revoked_at.is_(None))
        .values(seen_at=at)
    )


def devices(s: Session, *, at: datetime, unused: timedelta) -> tuple[StoredDevice, ...]:
    """Devices that may come in, the one seen last first."""
    rows = s.scalars(
        select(DeviceRow)
        .where(DeviceRow.revoked_at.is_(None), DeviceRow.seen_at > at - unused)
        .order_by(DeviceRow.seen_at.desc(), DeviceRow.id.desc())
    )
    return tuple(_device(row) for row in rows)


def revoke(s: Session, device: int, *, at: datetime) -> bool:
    """Let a device in no more; whether there was one."""
    # No other number is one that SQLite knows.
    row = s.get(DeviceRow, device) if 0 < device < 2**63 else None
    if row is None or row.revoked_at is not None:
        return False
    row.revoked_at = at
    return True


def tries(s: Session, where: str, *, since: datetime) -> tuple[datetime, ...]:
    """When somebody tried, in order; "" stands for everywhere."""
    asked = select(AttemptRow.at).where(AttemptRow.at > since).order_by(AttemptRow.at)
    return tuple(s.scalars(asked.where(AttemptRow.where == where) if where else asked))


def tried(s: Session, where: str, *, at: datetime, forget: datetime) -> None:
    """Write a try down, before its outcome is known; those before ``forget`` go."""
    s.execute(delete(AttemptRow).where(AttemptRow.at <= forget))
    s.add(AttemptRow(where=where, at=at))


def forgive(s: Session, where: str) -> None:
    """Forget the tries from an address that has proved itself."""
    s.execute(delete(AttemptRow).where(AttemptRow.where == where))


def _device(row: DeviceRow) -> StoredDevice:
    return StoredDevice(row.id, row.name, row.created_at, row.seen_at)
