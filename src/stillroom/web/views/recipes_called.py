"""What a recipe is called where a day names it by its slug."""

import re
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


def titled(told: str, titles: Mapping[str, str]) -> str:
    """A line of a list with the recipes it is for, told by their titles.

    Examples
    --------
    >>> titled("water: 14 cups (ridge-beans, stew)", {"ridge-beans": "Ridge beans", "stew": "Stew"})
    'water: 14 cups (Ridge beans, Stew)'
    >>> titled("lids: 7 (of one lot)", {"stew": "Stew"})
    'lids: 7 (of one lot)'
    """

    def names(found: re.Match[str]) -> str:
        said = found.group(1).split(", ")
        if not all(one in titles for one in said):
            return found.group()
        return f"({', '.join(titles[one] for one in said)})"

    return re.sub(r"\(([^()]+)\)", names, told)
