"""Every route that an application answers, those inside included routers too."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from fastapi import FastAPI
from fastapi.routing import APIRouter
from starlette.routing import BaseRoute, Mount, Route


class Way(NamedTuple):
    """A method and a path that a request can take."""

    method: str
    path: str


def ways(app: FastAPI) -> list[Way]:
    """Every method and path but files below a mount, with something in each place of a path."""
    found = [
        Way(method, re.sub(r"\{\w+(?::\w+)?\}", "1", path))
        for path, methods in _walk(app.routes, "")
        for method in sorted(methods)
    ]
    assert len(found) == len(set(found))
    return found


def _walk(routes: list[BaseRoute], prefix: str) -> Iterator[tuple[str, set[str]]]:
    for route in routes:
        inside = getattr(route, "original_router", None)
        if isinstance(inside, APIRouter):
            below = route.include_context.prefix  # type: ignore[attr-defined]
            yield from _walk(inside.routes, prefix + below)
        elif isinstance(route, Route):
            yield prefix + route.path, route.methods or {"GET"}
        else:
            # A new kind of route must be thought about here.
            assert isinstance(route, Mount), route
            assert route.path == "/static", route.path
