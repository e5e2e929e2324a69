"""``stillroom import``: an export back into an empty store, with nothing changed."""

import argparse
import json
import sys
from pathlib import Path
from typing import Any

from stillroom.cli import ANSWERED
from stillroom.cli.export import told
from stillroom.errors import InputError
from stillroom.store.engine import open_store, usual_path
from stillroom.store.transfer import import_document


def run(arguments: argparse.Namespace) -> int:
    """Read the document first; a store is opened only for one that can be read."""
    name = "standard input" if arguments.file == "-" else Path(arguments.file).name
    document = _document(_raw(arguments.file), name)
    path = Path(arguments.store) if arguments.store else usual_path()
    store = open_store(path)
    try:
        with store.write() as session:
            taken = import_document(session, document, name)
    finally:
        store.close()
    print(f"{path} now holds {told(taken)}.")
    return ANSWERED


def _raw(file: str) -> bytes:
    if file == "-":
        return sys.stdin.buffer.read()
    try:
        return Path(file).read_bytes()
    except OSError as wrong:
        raise InputError(f"{file}: cannot be read ({wrong.strerror}).") from None
    except ValueError:
        raise InputError(f"{file!r}: this cannot be a file name. Write another.") from None


def _document(raw: bytes, name: str) -> dict[str, Any]:
    try:
        # Any Unicode will do: some shells write UTF-16 where a program's output goes to a file.
        document = json.loads(raw)
    except (ValueError, RecursionError) as wrong:
        raise InputError(f"{name}: this is no JSON document ({wrong}).") from None
    if not isinstance(document, dict):
        raise InputError(f"{name}: this is no export, which is one JSON object.")
    return document
