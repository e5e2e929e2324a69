"""What a recipe is called where a day names it by its slug."""

from collections.abc import Mapping

from stillroom.recipes.read import starter, starters


def called(slug: object, titles: Mapping[str, str]) -> str:
    """The title of a recipe: the household's own, else a starter's; the slug as words for neither.

    Parameters
    ----------
    slug : what an order names
    titles : of the household's own recipes, by slug

    Examples
    --------
    >>> called("ridge-beans", {"ridge-beans": "Ridge beans"}), called("dilled-beans", {})
    ('Ridge beans', 'Dilled beans')
    >>> called("long-gone", {})
    'long gone'
    """
    name = str(slug or "")
    if name in titles:
        return titles[name]
    return starter(name).title if name in starters() else name.replace("-", " ")
