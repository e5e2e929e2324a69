"""The household's clock: the server's own time zone, as plans are told."""

from datetime import datetime

from fastapi import Request


def now(request: Request) -> datetime:
    """This moment by the clock on the wall of the computer that serves, with its zone."""
    moment: datetime = request.app.state.settings.now()
    return moment.astimezone()
