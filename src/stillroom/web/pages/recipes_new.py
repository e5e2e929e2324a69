"""Recipes: a paste read line by line, judged, settled and kept."""

import tomllib
from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import UploadFile

from stillroom.errors import Conflict, InputError
from stillroom.recipes.read import recipe_from
from stillroom.recipes.text.file import text_of
from stillroom.store.recipes import StoredRecipe, add_recipe, change_recipe
from stillroom.toml_file import table_of
from stillroom.web.clock import now
from stillroom.web.pages.recipes_parts import own
from stillroom.web.render import page
from stillroom.web.security import who
from stillroom.web.views.foods import names
from stillroom.web.views.recipes import Kept
from stillroom.web.views.recipes_asked import at
from stillroom.web.views.recipes_keep import document_of, unfinished_of
from stillroom.web.views.recipes_paste import Paste, of_document, typed
from stillroom.web.views.recipes_reading import Reading, reading

router = APIRouter()


async def _form(request: Request) -> dict[str, str]:
    """The fields; of a file its text, under "file", its name under "named", and under "unread" why
    it is no text."""
    said: dict[str, str] = {}
    async with request.form(max_files=1, max_fields=2000, max_part_size=2_000_000) as form:
        for name, value in form.multi_items():
            if not isinstance(value, UploadFile):
                said[name] = value
            elif value.filename:
                said["named"] = value.filename
                try:
                    said["file"] = text_of(await value.read(), value.filename)
                except InputError as wrong:
                    said["unread"] = str(wrong)
    return said


Form = Annotated[dict[str, str], Depends(_form)]


@router.get("/recipes/new", response_model=None)
def new(request: Request) -> Response:
    """An empty form."""
    return _page(request, Paste(), None)


@router.post("/recipes/new", response_model=None)
def read_new(request: Request, form: Form) -> Response:
    """Read what was pasted; or keep it, as a recipe or unfinished."""
    if "unread" in form:
        return _page(request, typed(form), None, (at("file", form["unread"]),), status=422)
    if form.get("named", "").lower().endswith(".toml"):
        return _keep_file(request, form)
    return _answer(request, _pasted(form), form.get("do", ""), None)


@router.get("/recipes/{slug}/paste", response_model=None)
def again(request: Request, slug: str) -> Response:
    """The paste of a recipe once more, to go on settling it."""
    old = own(request, slug)
    paste = of_document(old.document, old.source_text, old.version)
    try:
        read = reading(paste)
    except InputError as wrong:
        return _page(request, paste, None, (wrong,), old, status=422)
    return _page(request, read.paste, read, (), old)


@router.post("/recipes/{slug}/paste", response_model=None)
def read_again(request: Request, slug: str, form: Form) -> Response:
    """Read, or keep, a paste that belongs to a recipe."""
    old = own(request, slug, removed=True)
    return _answer(request, _pasted(form), form.get("do", ""), old)


def _pasted(form: dict[str, str]) -> Paste:
    return typed(form | {"text": form["file"]} if form.get("file") else form)


def _answer(request: Request, paste: Paste, do: str, old: Kept | None) -> Response:
    try:
        read = reading(paste)
    except InputError as wrong:
        return _page(request, paste, None, (at("text", str(wrong)),), old, status=422)
    if old is not None and old.recipe is not None:
        # What was kept as a recipe is changed in its own form; its paste is only read again.
        return _page(request, read.paste, read, (), old)
    document, wrong_fields = document_of(read)
    if do == "unfinished" or (do == "keep" and document):
        try:
            return _kept(request, read, document if do == "keep" else unfinished_of(read), old)
        except Conflict as wrong:
            paste = replace(read.paste, version=wrong.version)
            return _page(request, paste, read, (at("text", str(wrong)),), old, status=409)
    # Reading is no mistake: what is open is told beside its line, and only keeping needs it.
    status, told = (422, wrong_fields) if do == "keep" else (200, ())
    return _page(request, read.paste, read, told, old, status=status, ready=bool(document))


def _kept(
    request: Request, read: Reading, document: dict[str, object], old: Kept | None
) -> Response:
    text, at_, by = read.paste.text, now(request), who(request)
    with request.app.state.store.write() as session:
        if old is None:
            made = add_recipe(session, document, text, at=at_, who=by)
        else:
            made = change_recipe(
                session, old.slug, document, version=read.paste.version, source_text=text,
                at=at_, who=by,
            )  # fmt: skip
    return _there(made)


def _keep_file(request: Request, form: dict[str, str]) -> Response:
    """One of our recipe files is kept as it is, if it can be read."""
    try:
        document = tomllib.loads(form["file"])
        recipe_from(table_of(document, "recipe"), "recipe")
    except (InputError, ValueError) as wrong:
        told = at("file", f"{form['named']}: {wrong}")
        return _page(request, typed(form), None, (told,), status=422)
    with request.app.state.store.write() as session:
        return _there(add_recipe(session, document, "", at=now(request), who=who(request)))


def _there(made: StoredRecipe) -> Response:
    return RedirectResponse(f"/recipes/{made.slug}?changed={made.change}", 303)


def _page(
    request: Request,
    paste: Paste,
    read: Reading | None,
    wrong: tuple[InputError, ...] = (),
    old: Kept | None = None,
    *,
    status: int = 200,
    ready: bool = False,
) -> Response:
    if read and not ready and not wrong:
        ready = bool(document_of(read)[0])
    return page(
        request, "recipes/new.html", status=status, paste=paste, read=read, old=old, ready=ready,
        names=names(), wrong={one.place: str(one) for one in wrong},
    )  # fmt: skip
