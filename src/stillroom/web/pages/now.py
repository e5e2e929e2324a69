"""Now: the first page."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse

from stillroom.web.clock import now
from stillroom.web.render import page
from stillroom.web.views.foods import names
from stillroom.web.views.now import shown

router = APIRouter()


@router.get("/", response_model=None)
def show_now(request: Request) -> HTMLResponse:
    """What matters today; a newcomer's first steps."""
    moment = now(request)
    with request.app.state.store.read() as session:
        today = shown(session, moment)
    return page(request, "now/now.html", now=today, moment=moment, names=names())
