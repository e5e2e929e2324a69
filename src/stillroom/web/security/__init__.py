"""The doors: who may see these pages, from where, and what a request may do.

``install`` puts the gate around an application. By default it serves this computer only; opened
to the household, a device is let in once by a code and the household's passphrase.
docs/guides/open-to-the-household.md tells how, and what is not guarded against.
"""

from fastapi import FastAPI

from stillroom.store.engine import Store
from stillroom.web.security.doors import doors_of
from stillroom.web.security.gate import Gate
from stillroom.web.security.visitor import visitor, who
from stillroom.web.settings import Settings

__all__ = ["install", "visitor", "who"]


def install(app: FastAPI, store: Store, settings: Settings) -> None:
    """Put the gate around all that an application answers, faults included.

    Pages then find ``request.state.csrf``, and ask ``visitor(request)`` and ``who(request)``.

    Parameters
    ----------
    app : whose routes are guarded, those added later too
    store : an open store
    settings : to whom it is served
    """
    doors = doors_of(store, settings)
    app.state.doors = doors
    bare = app.build_middleware_stack
    # Middleware added in the usual way lies inside the answer to faults, which would go out bare.
    app.build_middleware_stack = lambda: Gate(bare(), doors)  # type: ignore[method-assign]
