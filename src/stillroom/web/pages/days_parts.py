"""What the pages of a day share: the form that was sent, the day of an address."""

from typing import Annotated

from fastapi import Depends, HTTPException, Request

from stillroom.store.days import StoredDay, day


async def _sent(request: Request) -> list[tuple[str, str]]:
    """The fields of a form as pairs; several of one name for what is ticked."""
    # Leaving the block closes what was sent as a file.
    async with request.form() as form:
        return [(name, value) for name, value in form.multi_items() if isinstance(value, str)]


Sent = Annotated[list[tuple[str, str]], Depends(_sent)]


def found(request: Request, key: str, *, removed: bool = False) -> StoredDay:
    """The day of an address; with ``removed`` one that was taken off the list, too.

    Raises
    ------
    HTTPException
        There is none; the page says so.
    """
    with request.app.state.store.read() as session:
        stored = day(session, key, removed=removed)
    if stored is None:
        raise HTTPException(404, "There is no such day. It may have been removed.")
    return stored
