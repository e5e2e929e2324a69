"""Recipes: edit one, copy a starter, remove one."""

from fastapi import APIRouter, Request
from fastapi.responses import RedirectResponse, Response

from stillroom.errors import Conflict
from stillroom.store.recipes import add_recipe, change_recipe, remove_recipe
from stillroom.web.clock import now
from stillroom.web.pages.recipes_parts import found, own
from stillroom.web.render import page
from stillroom.web.security import who
from stillroom.web.typed import Typed
from stillroom.web.views.foods import names
from stillroom.web.views.recipes import Kept
from stillroom.web.views.recipes_form import RecipeForm, conflicting, sent, shown

router = APIRouter()


@router.get("/recipes/{slug}/edit", response_model=None)
def edit(request: Request, slug: str) -> Response:
    """The form of a recipe; a starter is copied first."""
    recipe = found(request, slug)
    if not recipe.own:
        return RedirectResponse(recipe.path, 303)
    return _form(request, recipe, shown(recipe.document, recipe.version), 200)


@router.post("/recipes/{slug}/edit", response_model=None)
def write(request: Request, slug: str, typed: Typed) -> Response:
    """Judge what was typed, or keep it; it is not lost where somebody removed the recipe."""
    recipe = own(request, slug, removed=True)
    form = sent(typed, recipe.document)
    do = typed.get("do", "keep")
    if do == "check" or (form.wrong and do != "unfinished"):
        return _form(request, recipe, form, 422 if form.wrong else 200)
    try:
        with request.app.state.store.write() as session:
            made = change_recipe(
                session, slug, form.document, version=form.version,
                at=now(request), who=who(request),
            )  # fmt: skip
    except Conflict as wrong:
        return _form(request, recipe, conflicting(form, wrong), 409)
    return RedirectResponse(f"/recipes/{slug}?changed={made.change}", 303)


@router.post("/recipes/{slug}/copy", response_model=None)
def copy(request: Request, slug: str) -> Response:
    """A recipe of one's own from a starter, or from another, to be edited."""
    recipe = found(request, slug)
    with request.app.state.store.write() as session:
        made = add_recipe(
            session, recipe.document, recipe.source_text, at=now(request), who=who(request)
        )
    return RedirectResponse(f"/recipes/{made.slug}/edit?changed={made.change}", 303)


@router.post("/recipes/{slug}/remove", response_model=None)
def remove(request: Request, slug: str) -> Response:
    """Take a recipe off the list; the next page offers it back."""
    own(request, slug)
    with request.app.state.store.write() as session:
        change = remove_recipe(session, slug, at=now(request), who=who(request))
    return RedirectResponse(f"/recipes?changed={change}", 303)


def _form(request: Request, recipe: Kept, form: RecipeForm, status: int) -> Response:
    return page(
        request, "recipes/edit.html", status=status, kept=recipe, form=form, wrong=form.wrong,
        names=names(),
    )  # fmt: skip
