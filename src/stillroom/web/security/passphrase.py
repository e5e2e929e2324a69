"""The household's passphrase: what it must be, and its argon2id hash."""

import unicodedata

import anyio
from anyio import CapacityLimiter, to_thread

LEAST, MOST = 10, 200
_DIFFERENT = 5
AT_ONCE = 2  # Each hash takes 64 MiB for its moment.


def hashing() -> CapacityLimiter:
    """The room for hashes: two at a time."""
    return anyio.CapacityLimiter(AT_ONCE)


def as_typed(passphrase: str) -> str:
    """One spelling for what looks the same; phones like to add a space at the end."""
    return unicodedata.normalize("NFC", passphrase).strip()


def is_too_short(passphrase: str) -> bool:
    """Whether it is shorter than is taken."""
    return len(as_typed(passphrase)) < LEAST


def is_too_plain(passphrase: str) -> bool:
    """Whether it is a row of few signs, or one that counts."""
    plain = as_typed(passphrase).lower()
    return len(set(plain)) < _DIFFERENT or plain in "0123456789012345678901234567890"


async def hashed(passphrase: str, room: CapacityLimiter) -> str:
    """Its argon2id hash, made in a thread.

    Source
    ------
    argon2-cffi's default is the second recommended option of RFC 9106: 64 MiB, 3 passes, 4 lanes.
    """

    def work() -> str:
        from argon2 import PasswordHasher

        return PasswordHasher().hash(as_typed(passphrase))

    return await to_thread.run_sync(work, limiter=room)


async def fits(kept: str, passphrase: str, room: CapacityLimiter) -> bool:
    """Whether a passphrase is the one that was hashed."""

    def work() -> bool:
        from argon2 import PasswordHasher
        from argon2.exceptions import Argon2Error, InvalidHashError

        try:
            return PasswordHasher().verify(kept, as_typed(passphrase)[:MOST])
        except (Argon2Error, InvalidHashError):
            return False

    return await to_thread.run_sync(work, limiter=room)
