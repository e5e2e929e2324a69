"""The plan of a day: begun, followed, stopped, shown, asked about, made anew, printed."""

from fastapi import APIRouter, HTTPException, Request
from fastapi.responses import JSONResponse, RedirectResponse, Response

from stillroom.errors import InputError
from stillroom.store.days import plan_file, plan_of
from stillroom.store.household import household
from stillroom.web.clock import now
from stillroom.web.pages.days_parts import Sent, found
from stillroom.web.render import page
from stillroom.web.views.days_asked import asked_of
from stillroom.web.views.days_form import typed
from stillroom.web.views.days_news import news_of
from stillroom.web.views.days_now import NowForm, now_form, status_of
from stillroom.web.views.days_plan import shown_plan
from stillroom.web.work.desk import desk_of

router = APIRouter()

_FILES = {
    "print.pdf": ("pdf", "application/pdf", "{key}-day-sheet.pdf"),
    "people.pdf": ("people", "application/pdf", "{key}-people.pdf"),
    "calendar.ics": ("calendar", "text/calendar; charset=utf-8", "{key}.ics"),
}
_NONE = "This day has no plan yet, so there is nothing to print."
_OLD = (
    "The day, the kitchen, a recipe or a published table was changed since this was planned: "
    "minutes and pounds may be others. The plan's page offers to plan anew, and the old sheets."
)


@router.post("/days/{key}/plan", response_model=None)
def begin(request: Request, key: str, fields: Sent) -> Response:
    """Begin to plan; the next page follows it."""
    found(request, key)
    patience = typed(fields).one("patience")
    seconds = {"long": 90.0}.get(patience, 20.0)
    try:
        desk_of(request).plan(key, seconds)
    except InputError:
        # The day's form is where it is mended, and says what is wrong beside its fields.
        return RedirectResponse(f"/days/{key}/edit?look=1", 303)
    return RedirectResponse(f"/days/{key}/plan", 303)


@router.get("/days/{key}/plan", response_model=None)
def show_plan(request: Request, key: str, zoom: str = "") -> Response:
    """The plan, or how far it is, or why there is none."""
    stored = found(request, key)
    desk = desk_of(request)
    # From here plans are asked for, and asked about: the solver is to be ready by then.
    desk.worker.warm()
    with request.app.state.store.read() as session:
        plan = plan_of(session, key)
    news = news_of(desk, key, plan)
    told = shown_plan(plan, zoom) if plan and "infeasible" not in plan.answer else None
    return page(
        request,
        "days/plan.html",
        stored=stored,
        plan=None if news.planning else told,
        news=news,
        asked=asked_of(desk, stored, plan) if plan and told else None,
        zoom=zoom,
    )


@router.get("/days/{key}/plan/news.json", response_model=None)
def tell_news(request: Request, key: str) -> Response:
    """How far the plan is, for the page's script; ``rest`` until which question waits."""
    found(request, key)
    desk = desk_of(request)
    with request.app.state.store.read() as session:
        plan = plan_of(session, key)
    news = news_of(desk, key, plan)
    waiting = sum(not task.over for task in desk.worker.tasks(key))
    told = {**news.json(), "waiting": waiting}
    return JSONResponse(told, headers={"Cache-Control": "no-store"})


@router.post("/days/{key}/stop", response_model=None)
def stop(request: Request, key: str) -> Response:
    """End the search with the best plan so far."""
    desk_of(request).stop(key)
    return RedirectResponse(f"/days/{key}/plan", 303)


@router.post("/days/{key}/what-if", response_model=None)
def what_if(request: Request, key: str, fields: Sent) -> Response:
    """Begin to find what a change would bring."""
    found(request, key)
    desk_of(request).what_if(key, typed(fields).one("change"))
    return RedirectResponse(f"/days/{key}/plan#what-if", 303)


@router.post("/days/{key}/why", response_model=None)
def why(request: Request, key: str) -> Response:
    """Begin to find why the plan is as it is."""
    found(request, key)
    desk_of(request).why(key)
    return RedirectResponse(f"/days/{key}/plan#why", 303)


@router.get("/days/{key}/now", response_model=None)
def how_it_stands(request: Request, key: str) -> Response:
    """The form of a day under way: the time, and what did not go as planned."""
    found(request, key)
    with request.app.state.store.read() as session:
        plan = plan_of(session, key)
    if plan is None or "infeasible" in plan.answer:
        # Its own page says that there is none, and offers to make one.
        return RedirectResponse(f"/days/{key}/plan", 303)
    return _now(request, key, now_form(plan, now(request)))


@router.post("/days/{key}/now", response_model=None)
def plan_the_rest(request: Request, key: str, fields: Sent) -> Response:
    """Plan what is left of the day from how it stands."""
    found(request, key)
    with request.app.state.store.read() as session:
        plan = plan_of(session, key)
    if plan is None or "infeasible" in plan.answer:
        # Its own page says that there is none, and offers to make one.
        return RedirectResponse(f"/days/{key}/plan", 303)
    form = typed(fields)
    try:
        desk_of(request).rest(key, status_of(form))
    except InputError as wrong:
        told = now_form(plan, now(request), form, wrong)
        return _now(request, key, told, status=422)
    return RedirectResponse(f"/days/{key}/plan", 303)


def _now(request: Request, key: str, form: NowForm, status: int = 200) -> Response:
    stored = found(request, key)
    with request.app.state.store.read() as session:
        kitchen = household(session).kitchen
    return page(request, "days/now.html", status=status, stored=stored, form=form, kitchen=kitchen)


@router.get("/days/{key}/print.pdf", response_model=None)
def print_sheet(request: Request, key: str, old: bool = False) -> Response:
    """The day sheet; of a plan that is out of date only where that is asked for."""
    return _file(request, key, "print.pdf", old)


@router.get("/days/{key}/people.pdf", response_model=None)
def print_people(request: Request, key: str, old: bool = False) -> Response:
    """A sheet for each person; else as the day sheet."""
    return _file(request, key, "people.pdf", old)


@router.get("/days/{key}/calendar.ics", response_model=None)
def calendar(request: Request, key: str, old: bool = False) -> Response:
    """The day as a calendar file; else as the day sheet."""
    return _file(request, key, "calendar.ics", old)


def _file(request: Request, key: str, asked: str, old: bool) -> Response:
    name, kind, saved_as = _FILES[asked]
    found(request, key)
    with request.app.state.store.read() as session:
        content, plan = plan_file(session, key, name), plan_of(session, key)
    if content is None or plan is None:
        raise HTTPException(404, _NONE)
    if not (plan.current or old):
        raise HTTPException(409, _OLD)
    shown = "attachment" if asked.endswith(".ics") else "inline"
    called = saved_as.format(key=key if plan.current else f"{key}-old")
    disposition = f'{shown}; filename="{called}"'
    return Response(content, media_type=kind, headers={"Content-Disposition": disposition})
