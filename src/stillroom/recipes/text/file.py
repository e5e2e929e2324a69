"""A recipe in a file: plain text, a saved page, or our own recipe file."""

from pathlib import Path

from stillroom.errors import InputError
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.text.page import read_paste


def read_paste_file(path: Path, *, base: str = "") -> Pasted:
    """A recipe file, read."""
    try:
        return read_paste(path.read_bytes().decode("utf-8-sig"), base=base)
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
