"""The canners of the kitchen: each with a page of its own."""

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response
from starlette.exceptions import HTTPException

from stillroom.kitchen.checks import standings
from stillroom.store.household import household
from stillroom.store.kitchens import kitchen as stored_kitchen
from stillroom.web.clock import now
from stillroom.web.render import page
from stillroom.web.security import who
from stillroom.web.typed import Typed
from stillroom.web.views.canners import looked_at, taken_out
from stillroom.web.views.kitchen_form import Form, differences, form, keep
from stillroom.web.views.kitchen_parts import Part, canner_part, canners_of, care_part

router = APIRouter(prefix="/kitchen/canners")


@router.get("", response_model=None)
def list_canners() -> Response:
    """They are listed in the kitchen."""
    return RedirectResponse("/kitchen#canners", 303)


@router.get("/new", response_model=None)
def new_canner(request: Request) -> Response:
    """An empty form."""
    return _canner_page(request, 0)


@router.post("/new", response_model=None)
def add_canner(request: Request, typed: Typed) -> Response:
    """Keep another canner."""
    with request.app.state.store.read() as session:
        stored = stored_kitchen(session)
    number = len(canners_of(stored.document)) + 1 if stored else 1
    return _kept(request, canner_part(number), typed, new=True)


@router.get("/{number}", response_model=None)
def show_canner(request: Request, number: int) -> Response:
    """One canner and its check list."""
    _document(request, number)
    return _canner_page(request, number)


@router.post("/{number}", response_model=None)
def write_canner(request: Request, number: int, typed: Typed) -> Response:
    """Keep one canner."""
    _document(request, number)
    return _kept(request, canner_part(number), typed)


@router.post("/{number}/care", response_model=None)
def write_care(request: Request, number: int, typed: Typed) -> Response:
    """Keep when its parts were looked at."""
    return _kept(request, _care(_document(request, number), number), typed)


@router.post("/{number}/looked", response_model=None)
def looked_today(request: Request, number: int, typed: Typed) -> Response:
    """One part was looked at today."""
    was, check, at = typed.get("was", ""), typed.get("check", ""), now(request)
    with request.app.state.store.write() as session:
        change = looked_at(session, number, was, check, at=at, who=who(request))
    return RedirectResponse(f"/kitchen/canners/{number}?changed={change}", 303)


@router.post("/{number}/remove", response_model=None)
def remove_canner(request: Request, number: int, typed: Typed) -> Response:
    """Take a canner out."""
    was, at = typed.get("was", ""), now(request)
    with request.app.state.store.write() as session:
        change = taken_out(session, number, was, at=at, who=who(request))
    return RedirectResponse(f"/kitchen?changed={change}", 303)


def _kept(request: Request, part: Part, typed: Typed, *, new: bool = False) -> Response:
    with request.app.state.store.write() as session:
        kept = keep(session, part, typed, at=now(request), who=who(request))
    if isinstance(kept, Form):
        return _canner_page(request, 0 if new else part.canner, sent=kept)
    place = f"/kitchen/canners/{part.canner}" if part.inner else "/kitchen"
    return RedirectResponse(f"{place}?changed={kept.change}", 303)


def _document(request: Request, number: int) -> dict[str, object]:
    """The kitchen's document.

    Raises
    ------
    HTTPException
        There is no canner of that number.
    """
    with request.app.state.store.read() as session:
        stored = stored_kitchen(session)
    document = stored.document if stored else {}
    if not 1 <= number <= len(canners_of(document)):
        raise HTTPException(404)
    return document


def _care(document: dict[str, object], number: int) -> Part:
    canner = canners_of(document)[number - 1]
    care = canner.get("care")
    has_gasket = not (isinstance(care, dict) and care.get("gasket") is False)
    return care_part(number, str(canner.get("method", "")), has_gasket=has_gasket)


def _canner_page(request: Request, number: int, *, sent: Form | None = None) -> Response:
    """The page of one canner; 0 for one that is not written yet."""
    today = now(request).date()
    document = _document(request, number) if number else {}
    with request.app.state.store.read() as session:
        home = household(session)
    part = canner_part(number or 1)
    care = form(_care(document, number), document) if number else None
    about = form(part, document)
    if sent is not None and sent.part.inner:
        care = sent
    elif sent is not None:
        about = sent
    canner = home.kitchen.canners[number - 1] if home.kitchen and number else None
    return page(
        request,
        "kitchen/canner.html",
        status=sent.status if sent else 200,
        number=number,
        name=canners_of(document)[number - 1].get("name", "") if number else "",
        about=about,
        care=care,
        sent=sent,
        checks=standings(canner, today) if canner else (),
        differences=differences,
        today=today,
    )
