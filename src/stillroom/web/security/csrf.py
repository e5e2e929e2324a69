"""The mark in every form that proves it came from these pages.

A mark is bound to who asked for the page and holds as long as the key file does, so a form left
open overnight still sends. It looks different each time, so that a compressed page does not give
it away letter by letter.
"""

import hmac
import secrets
from base64 import urlsafe_b64decode, urlsafe_b64encode
from binascii import Error
from hashlib import sha256

FIELD = "csrf"
HEADER = "x-stillroom"  # What a script of ours adds; another site's page cannot without asking.


def mark(key: bytes, holder: str) -> str:
    """A mark for the forms of one holder: a device, this computer, a stranger's address."""
    pad = secrets.token_bytes(sha256().digest_size)
    return urlsafe_b64encode(pad + _mixed(pad, _proof(key, holder))).decode()


def is_mark(key: bytes, holder: str, told: str) -> bool:
    """Whether a mark was made for this holder with this key."""
    try:
        raw = urlsafe_b64decode(told.encode())
    except (Error, UnicodeEncodeError):
        return False
    half = sha256().digest_size
    if len(raw) != 2 * half:
        return False
    return hmac.compare_digest(_mixed(raw[:half], raw[half:]), _proof(key, holder))


def _proof(key: bytes, holder: str) -> bytes:
    return hmac.digest(key, b"form of " + holder.encode(), sha256)


def _mixed(one: bytes, other: bytes) -> bytes:
    return bytes(a ^ b for a, b in zip(one, other, strict=True))
