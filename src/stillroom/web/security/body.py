"""What a request may carry, counted while it comes in."""

import asyncio

from starlette.types import Message, Receive

FORM_BYTES = 1_000_000
UPLOAD_BYTES = 2_000_000
STRANGERS_BYTES = 16_000  # A code, a passphrase and a name.
SECONDS = 30.0


class TooLarge(Exception):
    """More came than is taken."""


class TooSlow(Exception):
    """It did not come in time."""


class Gone(Exception):
    """The asker left in the middle."""


async def read_body(
    receive: Receive, length: str | None, limit: int, seconds: float = SECONDS
) -> bytes:
    """The whole body, at most ``limit`` bytes within ``seconds``.

    Parameters
    ----------
    receive : of the request
    length : what the request says of its length, if anything; not believed, only heard
    limit : bytes
    seconds : from the first byte to the last

    Raises
    ------
    TooLarge
        As soon as it is known, before the rest is read.
    TooSlow
        A body that trickles.
    Gone
        The connection was closed.
    """
    if length is not None and length.isdecimal() and int(length) > limit:
        raise TooLarge
    try:
        async with asyncio.timeout(seconds):
            return await _all_of(receive, limit)
    except TimeoutError:
        raise TooSlow from None


async def _all_of(receive: Receive, limit: int) -> bytes:
    body = bytearray()
    more = True
    while more:
        message = await receive()
        if message["type"] != "http.request":
            raise Gone
        body += message.get("body", b"")
        more = message.get("more_body", False)
        if len(body) > limit:
            raise TooLarge
    return bytes(body)


def again(body: bytes, receive: Receive) -> Receive:
    """The body as if it had not been read; after it, whatever comes."""
    told = False

    async def replay() -> Message:
        nonlocal told
        if told:
            return await receive()
        told = True
        return {"type": "http.request", "body": body, "more_body": False}

    return replay


def without_body(receive: Receive) -> Receive:
    """For a request that only reads: what it carries is dropped as it comes."""

    async def drop() -> Message:
        message = await receive()
        if message["type"] == "http.request":
            return {"type": "http.request", "body": b"", "more_body": message.get("more_body")}
        return message

    return drop
