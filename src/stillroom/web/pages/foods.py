"""Foods: type a food, see the published process for this kitchen."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from stillroom.errors import InputError
from stillroom.store.household import household
from stillroom.units.elevation import parse_elevation
from stillroom.web.render import page
from stillroom.web.views.foods import Asked, ask, names, path_of
from stillroom.web.views.inside import inside

router = APIRouter()


@router.get("/foods", response_model=None)
def list_foods(request: Request, food: str = "", elevation: str = "") -> Response:
    """The list, or the way from a typed food to its own address."""
    if food.strip():
        return RedirectResponse(path_of(Asked(food.strip(), elevation=elevation.strip())), 303)
    return page(request, "foods/list.html", names=names(), elevation=elevation)


@router.get("/foods/{food:path}", response_model=None)
def one_food(
    request: Request,
    food: str,
    form: str = "",
    pack: str = "",
    jar: str = "",
    elevation: str = "",
) -> HTMLResponse:
    """One food: what to choose, and minutes and pounds for this kitchen."""
    asked = Asked(food.strip(), form, pack, jar, elevation)
    with request.app.state.store.read() as session:
        home = household(session)
    kitchen, own_feet = home.kitchen, home.elevation_ft
    if not elevation.strip() and own_feet is None:
        return page(request, "foods/where.html", asked=asked, wrong="", names=names())
    try:
        feet = (
            parse_elevation(elevation, "elevation")
            if elevation.strip() or own_feet is None
            else own_feet
        )
        answer = ask(asked, feet, kitchen.canners if kitchen else ())
    except InputError as wrong:
        return page(
            request, "foods/where.html", status=422, asked=asked, wrong=str(wrong), names=names()
        )
    drawn = [inside(feet, psi) for psi in answer.pressures]
    return page(
        request, "foods/food.html", food=answer, kitchen=kitchen, drawn=drawn, names=names()
    )
