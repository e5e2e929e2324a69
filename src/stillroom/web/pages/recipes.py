"""Recipes: the list, one recipe for so many jars, its jar drawn and its printed card."""

from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Query, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.kitchen import Kitchen
from stillroom.store.household import household
from stillroom.web.pages import recipes_change, recipes_judged, recipes_new
from stillroom.web.pages.recipes_parts import found
from stillroom.web.render import page
from stillroom.web.views.recipes import Kept, shelf
from stillroom.web.views.recipes_asked import Asked
from stillroom.web.views.recipes_card import card
from stillroom.web.views.recipes_jars import Jars, drawn, jars
from stillroom.web.views.recipes_reading import of_kept

router = APIRouter()
router.include_router(recipes_new.router)
router.include_router(recipes_change.router)
router.include_router(recipes_judged.router)


def _asked(
    jar: Annotated[str, Query(max_length=40)] = "",
    jars: Annotated[str, Query(max_length=20)] = "",
    order: Annotated[str, Query(max_length=2000)] = "",
    elevation: Annotated[str, Query(max_length=40)] = "",
) -> Asked:
    return Asked(jar, jars, order, elevation)


Question = Annotated[Asked, Depends(_asked)]


@router.get("/recipes", response_model=None)
def list_recipes(request: Request, words: Annotated[str, Query(max_length=200)] = "") -> Response:
    """Own recipes and starters, those that hold the words."""
    with request.app.state.store.read() as session:
        listed = shelf(session, words)
    return page(request, "recipes/list.html", shelf=listed, words=words)


@router.get("/recipes/{slug}", response_model=None)
def one_recipe(request: Request, slug: str, asked: Question) -> Response:
    """A recipe for so many jars; one that is not finished, with what it lacks."""
    recipe, kitchen, feet = _found(request, slug)
    if recipe.recipe is None:
        return page(request, "recipes/unfinished.html", kept=recipe, read=of_kept(recipe))
    told = jars(recipe.recipe, recipe.path, asked, kitchen, feet)
    return _jars_page(request, "recipes/view.html", recipe, told, kitchen)


@router.get("/recipes/{slug}/build", response_model=None)
def one_jar(request: Request, slug: str, asked: Question) -> Response:
    """One jar layer by layer, in an order of one's own."""
    recipe, kitchen, feet = _found(request, slug)
    if recipe.recipe is None:
        return RedirectResponse(recipe.path, 303)
    told = jars(recipe.recipe, f"{recipe.path}/build", asked, kitchen, feet)
    return _jars_page(request, "recipes/build.html", recipe, told, kitchen)


@router.get("/recipes/{slug}/jar.svg", response_model=None)
def figure(request: Request, slug: str, asked: Question) -> Response:
    """The jar drawn to scale, to keep or print."""
    told = _told(request, slug, asked)
    return Response(drawn(told.made), media_type="image/svg+xml")


@router.get("/recipes/{slug}/card.pdf", response_model=None)
def printed_card(request: Request, slug: str, asked: Question) -> Response:
    """The recipe card for this kitchen's elevation."""
    told = _told(request, slug, asked)
    name = {"Content-Disposition": f'inline; filename="{slug}-{told.jar}.pdf"'}
    return Response(card(told), media_type="application/pdf", headers=name)


@router.get("/recipes/{slug}/print", response_model=None)
def to_card(request: Request, slug: str) -> Response:
    """The way to what is printed: the card."""
    recipe = found(request, slug)
    return RedirectResponse(f"{recipe.path}/card.pdf{_query(request)}", 303)


def _query(request: Request) -> str:
    return f"?{request.url.query}" if request.url.query else ""


def _found(request: Request, slug: str) -> tuple[Kept, Kitchen | None, int | None]:
    recipe = found(request, slug)
    with request.app.state.store.read() as session:
        home = household(session)
    return recipe, home.kitchen, home.elevation_ft


def _told(request: Request, slug: str, asked: Asked) -> Jars:
    recipe, kitchen, feet = _found(request, slug)
    if recipe.recipe is None:
        raise HTTPException(422, f"This recipe is not finished. {recipe.wrong}")
    told = jars(recipe.recipe, recipe.path, asked, kitchen, feet)
    if told.wrong:
        raise told.wrong[0]
    return told


def _jars_page(
    request: Request, template: str, recipe: Kept, told: Jars, kitchen: Kitchen | None
) -> Response:
    status = 422 if told.wrong else 200
    return page(
        request, template, status=status, kept=recipe, told=told, kitchen=kitchen,
        wrong={one.place: str(one) for one in told.wrong},
    )  # fmt: skip
