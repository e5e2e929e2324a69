"""Which methods an address takes, over all routers: what a 405 has to name."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from fastapi import APIRouter
from starlette.routing import Route, compile_path


@dataclass(frozen=True, slots=True)
class Ways:
    """The addresses of routers, as patterns, and the methods of each."""

    patterns: tuple[tuple[re.Pattern[str], frozenset[str]], ...]

    def methods(self, path: str) -> str:
        """Every method of an address, as the header Allow lists them (RFC 9110, section 10.2.1)."""
        found = [methods for pattern, methods in self.patterns if pattern.match(path)]
        return ", ".join(sorted(frozenset().union(*found)))


def ways(routers: Iterable[tuple[str, APIRouter]]) -> Ways:
    """The ways of routers, each below its prefix.

    Starlette itself names the methods of the first route that fits and forgets the others.
    """
    return Ways(
        tuple(
            (compile_path(prefix + route.path)[0], frozenset(route.methods or ()))
            for prefix, router in routers
            for route in router.routes
            if isinstance(route, Route)
        )
    )
