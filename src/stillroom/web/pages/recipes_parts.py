"""What the pages of a recipe share: the recipe of an address."""

from fastapi import HTTPException, Request

from stillroom.web.views.recipes import Kept, kept


def found(request: Request, slug: str) -> Kept:
    """The recipe of an address, one's own or a starter.

    Raises
    ------
    HTTPException
        There is none; the page says so.
    """
    with request.app.state.store.read() as session:
        recipe = kept(session, slug)
    if recipe is None:
        raise HTTPException(404, f'There is no recipe "{slug}". It may have been removed.')
    return recipe


def own(request: Request, slug: str) -> Kept:
    """The household's own recipe of an address.

    Raises
    ------
    HTTPException
        There is none, or it is a starter, which nobody changes.
    """
    recipe = found(request, slug)
    if not recipe.own:
        raise HTTPException(404, f'There is no recipe of your own "{slug}".')
    return recipe
