"""``stillroom start``: an invented day in a folder of the person's own, to try and edit."""

import argparse
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.errors import InputError

DEMO = Path(__file__).parent / "demo"


def run(arguments: argparse.Namespace) -> int:
    """Write the demo kitchen and day; files that are there stay unless ``--force``."""
    folder = Path(arguments.folder)
    files = sorted(DEMO.glob("*.toml"))
    there = [f.name for f in files if (folder / f.name).exists()]
    if there and not arguments.force:
        raise InputError(
            f"{folder}: {', '.join(there)} would be written over. Name another folder, "
            "or say --force to replace them."
        )
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for file in files:
            (folder / file.name).write_bytes(file.read_bytes())
    except OSError as wrong:
        raise InputError(f"{folder}: cannot be written ({wrong.strerror}).") from None
    print(f"Wrote {', '.join(f.name for f in files)} to {folder}: an invented kitchen and day.")
    print(f"Next: stillroom plan {folder / 'day.toml'}")
    return ANSWERED
