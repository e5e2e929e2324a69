"""``stillroom export``: all that the household recorded, to keep or to carry elsewhere."""

import argparse
import json
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.errors import InputError
from stillroom.store.engine import open_store, usual_path
from stillroom.store.transfer import Counts, counts, export_document


def run(arguments: argparse.Namespace) -> int:
    """Print the document, or how much there is of what."""
    path = Path(arguments.store) if arguments.store else usual_path()
    if not path.exists():
        raise InputError(f"{path}: there is no store yet. Name another file with --store.")
    store = open_store(path)
    try:
        with store.read() as session:
            if arguments.json:
                print(json.dumps(export_document(session)))
            else:
                print(f"{path} holds {told(counts(session))}.")
                print("To write it all to a file: stillroom export --json > stillroom.json")
    finally:
        store.close()
    return ANSWERED


def told(held: Counts) -> str:
    """Counts in words.

    Examples
    --------
    >>> told(Counts(kitchens=1, recipes=2, days=1, plans=0, changes=4, settings=1))
    '1 kitchen, 2 recipes, 1 day, 0 plans, 4 changes and 1 setting'
    """
    words = [
        f"{count} {word if count == 1 else word + 's'}"
        for count, word in (
            (held.kitchens, "kitchen"),
            (held.recipes, "recipe"),
            (held.days, "day"),
            (held.plans, "plan"),
            (held.changes, "change"),
            (held.settings, "setting"),
        )
    ]
    return f"{', '.join(words[:-1])} and {words[-1]}"
