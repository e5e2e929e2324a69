"""Every page there is, as addresses of the small household."""

import re
from dataclasses import asdict
from urllib.parse import quote

from fastapi.routing import APIRoute

from stillroom.web.app import PAGES
from tests.household import HOUSEHOLD

_PART = re.compile(r"\{(\w+)(?::\w+)?\}")
# Addresses beside the plain one of a route: other states of the page worth a look.
ALSO = (
    "/foods?elevation=5430+ft",
    "/foods/tomatoes",
    "/foods/snap%20beans?form=pieces&pack=hot&jar=pint",
    "/foods/snap%20beans?form=pieces&jar=half-gallon",
    "/foods/pumpkin%20butter",
    "/foods/beans?elevation=very+high",
    "/no-such-page",
)
# Routes that answer with a file to keep.
FILES = (".pdf", ".ics", ".svg", ".crt", ".pem")
# What a part of an address stands for, by the part's name in the route.
_PARTS: dict[str, tuple[str, ...]] = {"food": ("snap beans",)}


def page_routes() -> list[str]:
    """The route of every page that is read, in the order of the rooms."""
    return [
        route.path
        for router in PAGES
        for route in router.routes
        if isinstance(route, APIRoute)
        and "GET" in (route.methods or ())
        and not route.path.endswith(FILES)
    ]


def addresses() -> list[str]:
    """One or more addresses of each route, and those of ``ALSO``."""
    made = [address for route in page_routes() for address in _filled(route)]
    return list(dict.fromkeys([*made, *ALSO]))


def _filled(route: str) -> list[str]:
    made = [route]
    for match in _PART.finditer(route):
        values = _values(match[1], route)
        made = [one.replace(match[0], quote(value)) for one in made for value in values]
    return made


def _values(part: str, route: str) -> tuple[str, ...]:
    known = asdict(HOUSEHOLD)
    if part == "slug":
        return (*(known[kind] for kind in ("own", "barred", "unfinished")), "carrots")
    if part == "key":
        return tuple(known[kind] for kind in ("planned", "past", "unplanned", "impossible"))
    if part not in _PARTS:
        raise LookupError(f"{route}: name a value for {{{part}}} in {__name__}")
    return _PARTS[part]
