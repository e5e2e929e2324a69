"""Every page that is read, as addresses with the names of one household filled in."""

import re
from collections.abc import Iterable, Mapping
from urllib.parse import quote

from fastapi import APIRouter
from fastapi.routing import APIRoute

_PART = re.compile(r"\{(\w+)(?::\w+)?\}")
# Routes that answer with a file to keep.
FILES = (".pdf", ".ics", ".svg", ".json", "/certificate", "/print", "/news")


def page_routes(routers: Iterable[APIRouter]) -> list[str]:
    """The route of every page, in the order of the rooms."""
    return [
        route.path
        for router in routers
        for route in router.routes
        if isinstance(route, APIRoute)
        and "GET" in (route.methods or ())
        and not route.path.endswith(FILES)
    ]


def addresses(routes: Iterable[str], names: Mapping[str, Iterable[str]]) -> list[str]:
    """Addresses of routes, one for each name that a part of the route may have.

    Parameters
    ----------
    routes : such as "/recipes/{slug}/check"
    names : by the part's name, such as {"slug": ["carrots"]}

    Raises
    ------
    LookupError
        A route has a part that ``names`` does not tell.

    Examples
    --------
    >>> addresses(["/foods", "/foods/{food:path}"], {"food": ["snap beans"]})
    ['/foods', '/foods/snap%20beans']
    """
    made: dict[str, None] = {}
    for route in routes:
        filled = [route]
        for match in _PART.finditer(route):
            if match[1] not in names:
                raise LookupError(f"{route}: nothing is told to stand for {{{match[1]}}}")
            filled = [
                address.replace(match[0], quote(name))
                for address in filled
                for name in names[match[1]]
            ]
        made.update(dict.fromkeys(filled))
    return list(made)
