"""What the page before did, told on this one with a way back: ``?changed=ID``."""

from fastapi import Request
from starlette.concurrency import run_in_threadpool

from stillroom.store.changes import StoredChange, change
from stillroom.web.render import language
from stillroom.web.views.changes import Translate, told
from stillroom.web.words import catalogue


async def offered(request: Request) -> None:
    """Set ``request.state.undo`` where the address names a change: for every page's router."""
    said = request.query_params.get("changed", "")
    if request.method == "GET" and said.isascii() and said.isdecimal() and len(said) < 16:
        request.state.undo = await run_in_threadpool(_offer, request, int(said))


def _offer(request: Request, number: int) -> dict[str, object] | None:
    with request.app.state.store.read() as session:
        made = change(session, number)
    return strip(request, made) if made else None


def strip(request: Request, made: StoredChange) -> dict[str, object]:
    """The words of the strip, and the change to undo; None as its number where it was undone."""
    return {"what": told(made, translate(request)), "id": None if made.undone_at else made.id}


def translate(request: Request) -> Translate:
    """What turns words of the catalogue into the household's language."""
    folder = request.app.state.settings.words
    return catalogue.translations(language(request), folder).gettext
