"""Serving the pages: sockets, certificate, and an end within a second of Ctrl-C."""

import asyncio
import contextlib
import logging
import os
import signal
import socket
import ssl
from collections.abc import Callable, Generator, Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from types import FrameType
from typing import Any

import uvicorn
from fastapi import FastAPI

from stillroom.errors import InputError
from stillroom.web.settings import Settings

_TRIED_AFTER = 20  # Ports tried after one that is taken.
_LOOPBACK, _EVERYWHERE = "127.0.0.1", "0.0.0.0"
_HEADER_BYTES = 32 * 1024
_AT_ONCE = 200
_GRACE_SECONDS = 0.6  # For pages under way; a form that is half sent does not hold up the end.


@dataclass(frozen=True, slots=True)
class Listening:
    """Sockets that are bound, and the settings with the ports that were free.

    ``for_household`` is None where this computer's socket serves the household, too.
    """

    settings: Settings
    for_this_computer: socket.socket
    for_household: socket.socket | None = None


def listen(settings: Settings) -> Listening:
    """Take the ports: the wished one, or the next that is free.

    Over HTTPS the household gets a port of its own, so that this computer needs no certificate.

    Raises
    ------
    InputError
        No port near the wished one is free.
    """
    if not settings.open_to_household:
        here = _bound(_LOOPBACK, settings.port)
        return Listening(_on(settings, here, here), here)
    if not settings.https:
        here = _bound(_EVERYWHERE, settings.port)
        return Listening(_on(settings, here, here), here)
    here = _bound(_LOOPBACK, settings.port)
    theirs = _bound(_EVERYWHERE, here.getsockname()[1] + 1)
    return Listening(_on(settings, here, theirs), here, theirs)


def _on(settings: Settings, here: socket.socket, theirs: socket.socket) -> Settings:
    ports = here.getsockname()[1], theirs.getsockname()[1]
    return replace(settings, port=ports[0], household_port=ports[1])


def _bound(host: str, wished: int) -> socket.socket:
    # 0 asks the system for any free port.
    for port in range(wished, min(wished + _TRIED_AFTER, 65535) + 1 if wished else 1):
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name == "posix":
            # A port just left is taken again at once; elsewhere the flag would let two share it.
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind((host, port))
            made.listen(128)
        except OSError as wrong:
            made.close()
            if isinstance(wrong, PermissionError):
                raise InputError(
                    f"--port {port}: this computer does not let you take it. Ports from 1024 on "
                    "are free to take."
                ) from None
        else:
            return made
    raise InputError(
        f"--port {wished}: it and the {_TRIED_AFTER} after it are taken. Name another."
    )


def serve(app: FastAPI, listening: Listening, *, begun: Callable[[], None]) -> None:
    """Serve until Ctrl-C or SIGTERM.

    Parameters
    ----------
    app : its ``state.on_stop``, if any, is a list of functions that end open streams
    listening : from ``listen``
    begun : called once pages are answered
    """
    with contextlib.suppress(KeyboardInterrupt):
        asyncio.run(_serve(app, listening, begun))


async def _serve(app: FastAPI, listening: Listening, begun: Callable[[], None]) -> None:
    servers = [(_Server(_config(app)), listening.for_this_computer)]
    if listening.for_household:
        files = _certificate(listening.settings, app.state.doors.folder)
        # One application, one beginning and end: the first server's.
        servers.append((_Server(_config(app, files, "off")), listening.for_household))
    with _ended_by_signals([server for server, _ in servers], app):
        running = [asyncio.create_task(server.serve(sockets=[bound])) for server, bound in servers]
        while not all(server.started for server, _ in servers):
            if any(task.done() for task in running):
                break
            await asyncio.sleep(0.01)
        else:
            begun()
        await asyncio.gather(*running)


def _certificate(settings: Settings, folder: Path) -> dict[str, Any]:
    from stillroom.web.security.certificate import certificate

    files = certificate(folder, settings.addresses, settings.names, settings.now())
    return {"ssl_certfile": files.chain, "ssl_keyfile": files.key}


def _config(
    app: FastAPI, certificate: dict[str, Any] | None = None, lifespan: str = "auto"
) -> uvicorn.Config:
    return uvicorn.Config(
        app,
        log_config=None,
        access_log=False,  # A code stands in the address of its page.
        server_header=False,
        # A go-between's word about who asks is not believed: docs/guides/open-to-the-household.md.
        proxy_headers=False,
        forwarded_allow_ips="",
        ws="none",
        http="h11",
        loop="asyncio",
        lifespan=lifespan,  # type: ignore[arg-type]
        limit_concurrency=_AT_ONCE,
        h11_max_incomplete_event_size=_HEADER_BYTES,
        timeout_keep_alive=20,
        timeout_graceful_shutdown=_GRACE_SECONDS,  # type: ignore[arg-type]  # any number of seconds
        ssl_version=ssl.PROTOCOL_TLS_SERVER,
        **(certificate or {}),
    )


class _Server(uvicorn.Server):
    """One of ours is ended by ``_ended_by_signals``, so that two can end together."""

    @contextlib.contextmanager
    def capture_signals(self) -> Generator[None, None, None]:
        """Leave signals alone."""
        yield


@contextlib.contextmanager
def _ended_by_signals(
    servers: Iterable[uvicorn.Server], app: FastAPI
) -> Generator[None, None, None]:
    """The first Ctrl-C closes streams and ends the servers; the second does not wait."""

    told = logging.getLogger("uvicorn.error")
    told.addFilter(_is_worth_telling)

    def end(number: int, frame: FrameType | None) -> None:
        for close in getattr(app.state, "on_stop", ()):
            close()
        for server in servers:
            server.force_exit = server.should_exit
            server.should_exit = True

    wanted = (signal.SIGINT, signal.SIGTERM)
    before = {number: signal.signal(number, end) for number in wanted}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
        told.removeFilter(_is_worth_telling)


def _is_worth_telling(record: logging.LogRecord) -> bool:
    """Not that a request was cut off at the end: whoever pressed Ctrl-C wanted that."""
    wrong = record.exc_info[1] if record.exc_info else None
    is_cut_off = isinstance(wrong, asyncio.CancelledError)
    return not is_cut_off and not str(record.msg).startswith("Cancel %s running task")
