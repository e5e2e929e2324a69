"""Days: the list, writing one down, and what is known of it before it is planned."""

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.errors import Conflict
from stillroom.store.days import StoredDay, add_day, change_day, plan_of, remove_day
from stillroom.store.household import household
from stillroom.web.clock import now
from stillroom.web.pages.days_parts import Sent, found
from stillroom.web.render import page
from stillroom.web.security import who
from stillroom.web.views import days_form as forms
from stillroom.web.views.days_at_once import at_once
from stillroom.web.views.days_choices import choices
from stillroom.web.views.days_differ import differing
from stillroom.web.views.days_form import Form
from stillroom.web.views.days_list import listed, started
from stillroom.web.views.days_news import news_of
from stillroom.web.views.days_rows import at_least, pressed
from stillroom.web.views.days_shown import shown
from stillroom.web.views.days_slips import Read, read, with_slips
from stillroom.web.work.desk import desk_of

router = APIRouter()


@router.get("/days", response_model=None)
def list_days(request: Request) -> Response:
    """Coming and past days."""
    with request.app.state.store.read() as session:
        days = listed(session, now(request).date())
        kitchen = household(session).kitchen
    return page(request, "days/list.html", days=days, kitchen=kitchen)


@router.get("/days/new", response_model=None)
def new_day(request: Request, like: str = "") -> Response:
    """An empty form, or one like a day that was."""
    desk_of(request).worker.warm()
    with request.app.state.store.read() as session:
        form = started(session, like, now(request).date())
    return _form(request, form)


@router.post("/days/new", response_model=None)
def add(request: Request, fields: Sent) -> Response:
    """Keep a new day, or show what is wrong with it."""
    form = forms.typed(fields)
    if changed := pressed(form, form.one("do")):
        return _form(request, changed)
    return _kept(request, form, None)


@router.get("/days/{key}", response_model=None)
def one_day(request: Request, key: str) -> Response:
    """A day: what is to be canned, what it takes, and its plan if there is one."""
    stored = found(request, key)
    desk = desk_of(request)
    desk.worker.warm()
    with request.app.state.store.read() as session:
        plan = plan_of(session, key)
        told = shown(stored, household(session), plan)
    return page(request, "days/day.html", day=told, news=news_of(desk, key, plan))


@router.get("/days/{key}/edit", response_model=None)
def edit(request: Request, key: str, look: int = 0) -> Response:
    """The form of a day; with ``look`` what is wrong with it is shown at once."""
    stored = found(request, key)
    form = forms.from_document(stored.document, stored.title)
    if not look:
        return _form(request, form, stored=stored)
    with request.app.state.store.read() as session:
        seen = read(form, household(session))
    return _form(request, with_slips(form, seen), stored=stored, seen=seen)


@router.post("/days/{key}/edit", response_model=None)
def rewrite(request: Request, key: str, fields: Sent) -> Response:
    """Keep the day as it stands in the form, or show what is wrong with it."""
    form = forms.typed(fields)
    # What was typed is not lost where somebody removed the day meanwhile.
    stored = found(request, key, removed=True)
    if changed := pressed(form, form.one("do")):
        return _form(request, changed, stored=stored)
    return _kept(request, form, stored)


@router.post("/days/draft", response_model=None)
def draft(request: Request, fields: Sent) -> Response:
    """What a form that is not sent yet would take: a part of the page, for its script."""
    with request.app.state.store.read() as session:
        seen = read(forms.typed(fields), household(session))
    return page(request, "days/at_once.html", at_once=seen.day and at_once(seen.day))


@router.post("/days/{key}/remove", response_model=None)
def remove(request: Request, key: str) -> Response:
    """Take a day off the list; the next page offers to undo it."""
    desk_of(request).worker.drop(key)
    with request.app.state.store.write() as session:
        number = remove_day(session, key, at=now(request), who=who(request))
    return RedirectResponse(f"/days?changed={number}", 303)


def _form(
    request: Request,
    form: Form,
    *,
    stored: StoredDay | None = None,
    seen: Read | None = None,
    version: int = 0,
    theirs: Form | None = None,
    status: int = 200,
) -> Response:
    """The form with what is known of it at once, and with what somebody else wrote meanwhile."""
    form = at_least(form, "order", 1)
    with request.app.state.store.read() as session:
        house = household(session)
        if house.kitchen and not house.kitchen.people:
            form = at_least(form, "helper", 1)
        seen = seen or read(form, house)
        offered = choices(session, house, form)
    return page(
        request,
        "days/edit.html",
        status=status,
        form=form,
        choices=offered,
        stored=stored,
        version=version or (stored.version if stored else 0),
        at_once=seen.day and at_once(seen.day),
        kitchen=house.kitchen,
        conflict=status == 409,
        differing=differing(form, theirs) if theirs else (),
        gone=theirs is None,
    )


def _title(request: Request, stored: StoredDay | None) -> str:
    """What the day is called now."""
    return found(request, stored.key).title if stored else ""


def _kept(request: Request, form: Form, stored: StoredDay | None) -> Response:
    with request.app.state.store.read() as session:
        seen = read(form, household(session))
    if seen.wrong:
        return _form(request, with_slips(form, seen), stored=stored, seen=seen, status=422)
    try:
        kept = _write(request, form, seen.document, stored)
    except Conflict as newer:
        theirs = (
            forms.from_document(newer.stands, _title(request, stored)) if newer.stands else None
        )
        return _form(
            request,
            form,
            stored=stored,
            seen=seen,
            version=newer.version,
            theirs=theirs,
            status=409,
        )
    if form.one("do") == "plan":
        desk_of(request).plan(kept.key)
        return RedirectResponse(f"/days/{kept.key}/plan", 303)
    return RedirectResponse(f"/days/{kept.key}?changed={kept.change}", 303)


def _write(
    request: Request, form: Form, document: dict[str, Any], stored: StoredDay | None
) -> StoredDay:
    signed: dict[str, Any] = {"at": now(request), "who": who(request)}
    title = form.one("title").strip()
    with request.app.state.store.write() as session:
        if stored is None:
            return add_day(session, document, title=title, **signed)
        version = forms.version(form)
        return change_day(session, stored.key, document, version=version, title=title, **signed)
