"""One server for the benchmark: the pages of a store, or one bare page of the same framework.

Run by ``benchmarks.pages``: ``python -m benchmarks.pages.server STORE`` or ``... --bare``. Prints
the port once pages are answered. Each answer carries how long it took within the server.
"""

import sys
import time
from collections.abc import MutableMapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from fastapi import FastAPI, Request
from fastapi.responses import HTMLResponse

from benchmarks.pages.household import TODAY
from stillroom.store.engine import open_store
from stillroom.web.app import create_app
from stillroom.web.serve import listen, serve
from stillroom.web.settings import Settings
from stillroom.web.warm import warm

HEADER = b"x-took"


class Timed:
    """An application that tells with each answer the milliseconds from question to answer."""

    def __init__(self, app: FastAPI) -> None:
        self._app = app
        self.state = app.state

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer as the application does, with one header more."""
        begun = time.perf_counter()

        async def timed(message: MutableMapping[str, Any]) -> None:
            if message["type"] == "http.response.start":
                took = f"{1000 * (time.perf_counter() - begun):.3f}".encode()
                message["headers"] = [*message["headers"], (HEADER, took)]
            await send(message)

        await self._app(scope, receive, timed)


def bare() -> FastAPI:
    """One route and one line of HTML: the least this framework does for a page."""
    app = FastAPI(openapi_url=None)

    @app.get("/", response_model=None)
    def show(request: Request) -> HTMLResponse:
        return HTMLResponse("<!doctype html><title>Bare</title><p>Bare")

    return app


def main() -> None:
    """Serve until ended."""
    listening = listen(Settings(port=0, household_port=0))
    port = listening.settings.port

    def begun() -> None:
        sys.stdout.write(f"{port}\n")
        sys.stdout.flush()

    if sys.argv[1] == "--bare":
        serve(Timed(bare()), listening, begun=begun)  # type: ignore[arg-type]
        return
    store = open_store(Path(sys.argv[1]))
    app = create_app(store, replace(listening.settings, now=lambda: TODAY))

    def begun_warm() -> None:
        warm(app)
        begun()

    serve(Timed(app), listening, begun=begun_warm)  # type: ignore[arg-type]
    store.close()


if __name__ == "__main__":
    main()
