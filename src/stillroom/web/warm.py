"""What pages need, loaded once pages are served and before they are asked for.

A full run of Python's garbage collector over the tables, templates and libraries took 250 ms, and
no page was answered meanwhile. They are never garbage, so they are set aside once they are there.
"""

import gc
import threading
from pathlib import Path

from fastapi import FastAPI

from stillroom.processes import library
from stillroom.recipes.read import starter, starters
from stillroom.web.render import environment
from stillroom.web.words.catalogue import ENGLISH


def warm(app: FastAPI) -> threading.Thread:
    """Load in a thread of its own; the caller need not wait for it."""
    words = app.state.settings.words
    thread = threading.Thread(target=_load, args=(words,), name="warm", daemon=True)
    thread.start()
    return thread


def _load(words: Path) -> None:
    library.processes()
    for name in starters():
        starter(name)
    made = environment(ENGLISH, words)
    for name in made.list_templates():
        made.get_template(name)
    # The heat of a setting, which the page of a food draws.
    import stillroom.heat.steam  # noqa: F401

    gc.collect()
    gc.freeze()
