"""Files that only the owner may read: written whole or not at all."""

import os
import secrets
from pathlib import Path

_KEY_BYTES = 32


def form_key(folder: Path) -> bytes:
    """The key behind the marks in forms, made on first use.

    Raises
    ------
    OSError
        The folder cannot be written.
    """
    file = folder / "form.key"
    if not file.exists() or len(file.read_bytes()) != _KEY_BYTES:
        write_private(file, secrets.token_bytes(_KEY_BYTES))
    return file.read_bytes()


def write_private(file: Path, content: bytes) -> None:
    """Write a file of mode 0600 in a folder of mode 0700; one that was there is replaced whole."""
    file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    part = file.with_name(f"{file.name}.{secrets.token_hex(4)}.part")
    handle = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        part.replace(file)
    except BaseException:
        part.unlink(missing_ok=True)
        raise
