"""The pages over a real socket, from a thread of the test's own process."""

import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import uvicorn
from fastapi import FastAPI

from stillroom.store.engine import Store, open_store
from stillroom.web.app import create_app
from stillroom.web.settings import Settings
from stillroom.web.words.catalogue import LOCALE
from stillroom.web.work.desk import close_desk

_PATIENCE = 10.0


@dataclass(frozen=True, slots=True)
class Site:
    """Pages that are being served: where, from what, and of which store."""

    url: str
    app: FastAPI
    store: Store


@contextmanager
def served(path: Path, now: datetime, words: Path = LOCALE) -> Iterator[Site]:
    """Serve a store's file on a free port of this computer until the block ends."""
    bound = socket.socket()
    bound.bind(("127.0.0.1", 0))
    bound.listen(64)
    port = bound.getsockname()[1]
    store = open_store(path)
    app = create_app(store, Settings(port=port, household_port=port, now=lambda: now, words=words))
    server = uvicorn.Server(
        uvicorn.Config(
            app,
            log_config=None,
            access_log=False,
            server_header=False,
            ws="none",
            http="h11",
            timeout_graceful_shutdown=1,
        )
    )
    thread = threading.Thread(target=server.run, kwargs={"sockets": [bound]})
    thread.start()
    try:
        _begun(server, thread)
        yield Site(f"http://127.0.0.1:{port}", app, store)
    finally:
        for close in getattr(app.state, "on_stop", ()):
            close()
        server.should_exit = True
        close_desk(app)
        thread.join(_PATIENCE)
        bound.close()
        store.close()


def _begun(server: uvicorn.Server, thread: threading.Thread) -> None:
    end = time.monotonic() + _PATIENCE
    while not server.started:
        if not thread.is_alive() or time.monotonic() > end:
            raise RuntimeError("the pages are not served")
        time.sleep(0.01)
