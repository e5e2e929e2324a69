"""What the pages of a recipe share: the recipe of an address."""

from fastapi import HTTPException, Request

from stillroom.web.views.recipes import Kept, kept


def found(request: Request, slug: str, *, removed: bool = False) -> Kept:
    """The recipe of an address, one's own or a starter; with ``removed`` one that was taken off
    the list, too.

    Raises
    ------
    HTTPException
        There is none; the page says so.
    """
    with request.app.state.store.read() as session:
        recipe = kept(session, slug, removed=removed)
    if recipe is None:
        raise HTTPException(404, f'There is no recipe "{slug}". It may have been removed.')
    return recipe


def own(request: Request, slug: str, *, removed: bool = False) -> Kept:
    """The household's own recipe of an address; ``removed`` as for ``found``.

    Raises
    ------
    HTTPException
        There is none, or it is a starter, which nobody changes.
    """
    recipe = found(request, slug, removed=removed)
    if not recipe.own:
        raise HTTPException(404, f'There is no recipe of your own "{slug}".')
    return recipe
