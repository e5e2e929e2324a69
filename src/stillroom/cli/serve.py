"""``stillroom serve``: the kitchen screen, for this computer or for the household."""

import argparse
import logging
import os
import sys
import threading
import webbrowser
from pathlib import Path
from tempfile import TemporaryDirectory

from stillroom.cli import ANSWERED
from stillroom.errors import InputError


def run(arguments: argparse.Namespace) -> int:
    """Serve until Ctrl-C."""
    if not arguments.trial:
        return _serve(arguments, Path(arguments.store) if arguments.store else None)
    if arguments.store or arguments.open_to_household:
        raise InputError(
            "--try shows an invented household on this computer alone, in a store that goes when "
            "it ends. Leave out --store and --open-to-household, or --try."
        )
    with TemporaryDirectory(prefix="stillroom-") as folder:
        return _serve(arguments, Path(folder) / "stillroom.sqlite3")


def _serve(arguments: argparse.Namespace, path: Path | None) -> int:
    if not 0 <= arguments.port <= 65535:
        raise InputError(f"--port {arguments.port}: ports go from 1 to 65535; 0 takes any.")
    if arguments.https and not arguments.open_to_household:
        raise InputError(
            "--https is for devices of the household: say --open-to-household as well. "
            "This computer alone needs no certificate."
        )
    from stillroom.store.engine import open_store, usual_path
    from stillroom.web.app import create_app
    from stillroom.web.security.addresses import own_addresses, own_names
    from stillroom.web.serve import listen, serve
    from stillroom.web.settings import Settings
    from stillroom.web.warm import warm
    from stillroom.web.work.desk import close_desk

    logging.basicConfig(level=logging.WARNING, format="%(levelname)s: %(message)s")
    is_open = arguments.open_to_household
    wished = Settings(
        open_to_household=is_open,
        https=arguments.https,
        port=arguments.port,
        addresses=own_addresses() if is_open else (),
        names=own_names() if is_open else (),
    )
    path = path or usual_path()
    store = open_store(path)
    try:
        if arguments.trial:
            from stillroom.cli.trial import fill

            fill(store, wished.now())
        listening = listen(wished)
        settings = listening.settings
        if wished.port not in (0, settings.port):
            print(
                f"Port {wished.port} is taken by another program; {settings.port} is used instead.",
                file=sys.stderr,
            )
        app = create_app(store, settings)
        here = f"http://localhost:{settings.port}/"

        def begun() -> None:
            household = settings.household_url if is_open else ""
            has_passphrase = app.state.doors.has_passphrase()
            _say(here, household, path, has_passphrase, https=settings.https)
            if is_open and not household:
                print("This computer is in no private network: no device will find it.", flush=True)
            if not arguments.no_browser:
                _show(here)
            warm(app)

        try:
            serve(app, listening, begun=begun)
        finally:
            close_desk(app)
    finally:
        store.close()
    return ANSWERED


def _say(here: str, household: str, path: Path, has_passphrase: bool, *, https: bool) -> None:
    """Where the pages are, for whom, and what is missing. Flushed: it may go to a file."""
    lines = [f"Stillroom is at {here}  (this computer only)", f"It keeps what you write in {path}"]
    if household:
        lines[0] = f"Stillroom is at {here}  (this computer)"
        lines.insert(1, f"The household finds it at {household}/  once let in: {here}doors")
        if not has_passphrase:
            lines.append(f"No device can be let in yet: choose a passphrase at {here}doors")
        if not https:
            lines.append(
                "Over plain HTTP, whoever listens in on the network can read everything. "
                "Start with --https, and they cannot."
            )
    print("\n".join([*lines, "Ctrl-C ends it."]), flush=True)


def _show(here: str) -> None:
    """Open the person's own browser, where there is a screen to open it on."""
    on_a_screen = sys.platform in ("win32", "darwin") or any(
        os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY")
    )
    if on_a_screen:
        # It may wait for a slow browser; the pages must not wait with it.
        threading.Thread(target=webbrowser.open, args=(here,), daemon=True).start()
