"""Recipes: one judged line by line, and what changes to it would do."""

from typing import Annotated

from fastapi import APIRouter, HTTPException, Query, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.recipes.model import Recipe
from stillroom.web.render import page
from stillroom.web.typed import Typed
from stillroom.web.views.recipes import Kept, kept
from stillroom.web.views.recipes_judged import Changed, changed, judged, unchanged

router = APIRouter()


@router.get("/recipes/{slug}/check", response_model=None)
def check(request: Request, slug: str, jar: Annotated[str, Query(max_length=40)] = "") -> Response:
    """The verdict, and what was found beside the lines it concerns."""
    found = _found(request, slug)
    if found.recipe is None:
        return RedirectResponse(found.path, 303)
    told = judged(found.recipe, f"{found.path}/check", jar)
    return page(request, "recipes/check.html", kept=found, told=told)


@router.get("/recipes/{slug}/compare", response_model=None)
def compare(request: Request, slug: str) -> Response:
    """The recipe in a box, to be changed for trial."""
    found = _found(request, slug)
    if found.recipe is None:
        return RedirectResponse(found.path, 303)
    return _compared(request, found, found.recipe, unchanged(found.recipe))


@router.post("/recipes/{slug}/compare", response_model=None)
def try_changes(request: Request, slug: str, typed: Typed) -> Response:
    """What each change does. Nothing is kept."""
    found = _found(request, slug)
    if found.recipe is None:
        return RedirectResponse(found.path, 303)
    return _compared(request, found, found.recipe, changed(found.recipe, typed))


def _found(request: Request, slug: str) -> Kept:
    with request.app.state.store.read() as session:
        found = kept(session, slug)
    if found is None:
        raise HTTPException(404, f'There is no recipe "{slug}". It may have been removed.')
    return found


def _compared(request: Request, found: Kept, recipe: Recipe, told: Changed) -> Response:
    status = 422 if told.wrong else 200
    wrong = {"lines": told.wrong} if told.wrong else {}
    return page(
        request, "recipes/compare.html", status=status, kept=found, recipe=recipe, told=told,
        wrong=wrong,
    )  # fmt: skip
