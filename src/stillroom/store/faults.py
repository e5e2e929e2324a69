"""What the database complains of, in words that say what to do."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from stillroom.errors import StoreFault

# By SQLite's name of its result code, or what that begins with: sqlite.org/rescode.html.
_SAID = {
    "SQLITE_FULL": "the disk is full. Nothing was changed. Make room and try again.",
    "SQLITE_READONLY": "cannot be written. Check who may write to the file and its folder.",
    "SQLITE_CANTOPEN": "cannot be opened. Check the name, and who may write to its folder.",
    "SQLITE_PERM": "cannot be opened. Check who may read and write it.",
    "SQLITE_BUSY": "another program has been writing for long. Nothing was changed; try again.",
    "SQLITE_NOTADB": "this is no Stillroom store. Name another file.",
    "SQLITE_CORRUPT": "the file is damaged. Take the last copy or export you have.",
    "SQLITE_IOERR": "the disk gave an error. Nothing was changed. Check the disk.",
    "SQLITE_TOOBIG": "that is too large to keep. Make it shorter.",
}


@contextmanager
def told_plainly(path: Path) -> Iterator[None]:
    """Turn what a person can mend into a ``StoreFault`` that names the store's file."""
    try:
        yield
    except DBAPIError as wrong:
        code = str(getattr(wrong.orig, "sqlite_errorname", ""))
        for begins, said in _SAID.items():
            if code.startswith(begins):
                raise StoreFault(str(path), said) from wrong
        raise
    except OSError as wrong:
        if wrong.filename is None or Path(str(wrong.filename)) not in (path, *path.parents):
            raise
        raise StoreFault(str(path), f"cannot be opened ({wrong.strerror}).") from wrong
