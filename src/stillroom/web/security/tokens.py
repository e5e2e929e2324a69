"""What lets a device in again, and the one-time code that lets it in first.

Source
------
Common practice: 256 random bits, of which only the hash is kept. A hash without salt or cost is
enough for what nobody can guess; a code of 39 bits holds for minutes and few tries.
"""

import hmac
import secrets
from datetime import timedelta
from hashlib import sha256

from starlette.datastructures import MutableHeaders

UNUSED = timedelta(days=90)  # A device that stays away longer is a stranger again.
SEEN_EVERY = timedelta(minutes=5)  # How often "last seen" is written down.
CODE_HOLDS = timedelta(minutes=10)
_COOKIE_SECONDS = 400 * 24 * 3600  # The longest that browsers keep one; the store decides.
# Without signs that look alike.
_SIGNS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
_CODE_SIGNS = 8


def new_token() -> str:
    """A token for one device."""
    return secrets.token_urlsafe(32)


def token_hash(token: str) -> str:
    """How a token is kept."""
    return sha256(token.encode("utf-8", "replace")).hexdigest()


def new_code() -> str:
    """A code for one pairing, as it is shown: "ABCD-2345"."""
    signs = "".join(secrets.choice(_SIGNS) for _ in range(_CODE_SIGNS))
    return f"{signs[:4]}-{signs[4:]}"


def code_hash(key: bytes, typed: str) -> str:
    """How a code is kept; however it was typed."""
    plain = "".join(sign for sign in typed.upper() if sign in _SIGNS)
    return hmac.digest(key, b"code " + plain.encode(), sha256).hex()


def cookie_name(*, secure: bool) -> str:
    """A browser takes ``__Host-`` only with Secure, from this host, for all paths."""
    return "__Host-stillroom" if secure else "stillroom"


def set_cookie(headers: MutableHeaders, token: str, *, secure: bool) -> None:
    """Give the browser its token. With an empty one, take it back."""
    seconds = _COOKIE_SECONDS if token else 0
    flags = f"Path=/; Max-Age={seconds}; HttpOnly; SameSite=Lax{'; Secure' if secure else ''}"
    headers.append("set-cookie", f"{cookie_name(secure=secure)}={token}; {flags}")
