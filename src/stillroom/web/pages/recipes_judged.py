"""Recipes: one judged line by line, and what changes to it would do."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.recipes.model import Recipe
from stillroom.web.pages.recipes_parts import found
from stillroom.web.render import page
from stillroom.web.typed import Typed
from stillroom.web.views.recipes import Kept
from stillroom.web.views.recipes_judged import Changed, changed, judged, unchanged

router = APIRouter()


@router.get("/recipes/{slug}/check", response_model=None)
def check(request: Request, slug: str, jar: Annotated[str, Query(max_length=40)] = "") -> Response:
    """The verdict, and what was found beside the lines it concerns."""
    kept = found(request, slug)
    if kept.recipe is None:
        return RedirectResponse(kept.path, 303)
    told = judged(kept.recipe, f"{kept.path}/check", jar)
    return page(request, "recipes/check.html", kept=kept, told=told)


@router.get("/recipes/{slug}/compare", response_model=None)
def compare(request: Request, slug: str) -> Response:
    """The recipe in a box, to be changed for trial."""
    kept = found(request, slug)
    if kept.recipe is None:
        return RedirectResponse(kept.path, 303)
    return _compared(request, kept, kept.recipe, unchanged(kept.recipe))


@router.post("/recipes/{slug}/compare", response_model=None)
def try_changes(request: Request, slug: str, typed: Typed) -> Response:
    """What each change does. Nothing is kept."""
    kept = found(request, slug)
    if kept.recipe is None:
        return RedirectResponse(kept.path, 303)
    return _compared(request, kept, kept.recipe, changed(kept.recipe, typed))


def _compared(request: Request, kept: Kept, recipe: Recipe, told: Changed) -> Response:
    status = 422 if told.wrong else 200
    wrong = {"lines": told.wrong} if told.wrong else {}
    return page(
        request, "recipes/compare.html", status=status, kept=kept, recipe=recipe, told=told,
        wrong=wrong,
    )  # fmt: skip
