"""Kitchen: where it stands, its canners and their care, its people, what is on hand."""

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response
from starlette.exceptions import HTTPException

from stillroom.store.household import household
from stillroom.store.settings import set_setting
from stillroom.web.clock import now
from stillroom.web.render import language, page, units
from stillroom.web.security import who
from stillroom.web.typed import Typed
from stillroom.web.views.kitchen import shown
from stillroom.web.views.kitchen_form import Form, differences, keep
from stillroom.web.views.kitchen_parts import FIRST_PART, PARTS, Part
from stillroom.web.words import catalogue

router = APIRouter()


@router.get("/kitchen", response_model=None)
def show_kitchen(request: Request, elevation: str = "") -> Response:
    """The whole kitchen; a newcomer's short form, with what they said elsewhere, else."""
    return kitchen_page(request, elevation=elevation)


@router.post("/kitchen", response_model=None)
def write_first(request: Request, typed: Typed) -> Response:
    """Keep the newcomer's short form."""
    return keep_part(request, FIRST_PART, typed)


@router.post("/kitchen/shown", response_model=None)
def choose_shown(request: Request, typed: Typed) -> Response:
    """Units and language of all pages."""
    spoken = catalogue.known(typed.get("language", ""), request.app.state.settings.words)
    with request.app.state.store.write() as session:
        set_setting(session, "units", "metric" if typed.get("units") == "metric" else "us")
        set_setting(session, "language", spoken)
    return RedirectResponse("/kitchen/shown", 303)


@router.get("/kitchen/shown", response_model=None)
def show_shown(request: Request) -> Response:
    """The page with units and language open."""
    return kitchen_page(request, opened="shown")


@router.get("/kitchen/{part}", response_model=None)
def show_part(request: Request, part: str) -> Response:
    """The page with one part open."""
    return kitchen_page(request, opened=_part(part).name)


@router.post("/kitchen/{part}", response_model=None)
def write_part(request: Request, part: str, typed: Typed) -> Response:
    """Keep one part."""
    return keep_part(request, _part(part), typed)


def _part(name: str) -> Part:
    if name not in PARTS:
        raise HTTPException(404)
    return PARTS[name]


def keep_part(request: Request, part: Part, typed: Typed) -> Response:
    """Keep a form and go back to the page, or show it with what is wrong."""
    with request.app.state.store.write() as session:
        kept = keep(session, part, typed, at=now(request), who=who(request))
    if isinstance(kept, Form):
        return kitchen_page(request, sent=kept)
    return RedirectResponse(f"/kitchen?changed={kept.change}", 303)


def kitchen_page(
    request: Request, *, opened: str = "", elevation: str = "", sent: Form | None = None
) -> Response:
    """The page, with one part open or with a form that was not kept."""
    with request.app.state.store.read() as session:
        kitchen = shown(
            household(session),
            now(request).date(),
            opened=opened,
            elevation=elevation,
            sent=sent,
        )
    return page(
        request,
        "kitchen/kitchen.html",
        status=sent.status if sent else 200,
        kitchen=kitchen,
        sent=sent,
        differences=differences,
        languages=catalogue.languages(request.app.state.settings.words),
        spoken=language(request),
        units=units(request),
    )
