"""Opening the store: one SQLite file in WAL mode, many readers, one writer at a time.

Python's own handling of transactions lost three of four concurrent updates without an error. So
transactions are begun here: ``BEGIN IMMEDIATE`` before anything is read that a write rests on.
"""

import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.orm import Session
from sqlalchemy.pool import ConnectionPoolEntry

from stillroom.errors import InputError
from stillroom.store.faults import told_plainly
from stillroom.store.migrate import migrate

# Milliseconds to wait for another process that writes; within this one writers queue.
_PATIENCE = 10_000
_WRITES = "stillroom_writes"


def usual_path() -> Path:
    """Where the store is when no other file is named: the folder for a person's own data."""
    above = os.environ.get("XDG_DATA_HOME", "")
    folder = Path(above) if Path(above).is_absolute() else Path.home() / ".local" / "share"
    return folder / "stillroom" / "stillroom.sqlite3"


class Store:
    """An open store. ``read`` and ``write`` give a session for as long as their block lasts."""

    def __init__(self, path: Path, engine: Engine) -> None:
        self.path = path
        self._engine = engine
        self._writing = engine.execution_options(**{_WRITES: True})
        # SQLite's waiting is by sleep and luck; a lock is first come, first served.
        self._turn = threading.Lock()
        self._writer = 0

    @contextmanager
    def read(self) -> Iterator[Session]:
        """A session that sees one state of the store throughout and cannot write."""
        with told_plainly(self.path), Session(self._engine, expire_on_commit=False) as session:
            yield session

    @contextmanager
    def write(self) -> Iterator[Session]:
        """A session whose changes are kept when the block ends, all of them or none.

        Raises
        ------
        InputError
            The disk is full, the file may not be written, another program writes on and on.
        """
        if self._writer == threading.get_ident():
            raise RuntimeError("a write within a write of the same thread would wait for itself")
        with (
            told_plainly(self.path),
            self._turn,
            Session(self._writing, expire_on_commit=False) as session,
            session.begin(),
        ):
            self._writer = threading.get_ident()
            try:
                # The write lock before the first read.
                session.connection()
                yield session
            finally:
                self._writer = 0

    def close(self) -> None:
        """Close every connection; the last one folds the log back into the file."""
        self._engine.dispose()


def open_store(path: Path) -> Store:
    """The store in a file, made or brought to its newest form where needed.

    Raises
    ------
    InputError
        The file cannot be opened or written, is no store, or was written by a newer Stillroom.
    """
    if "\0" in str(path):
        raise InputError(f"{str(path)!r}: this cannot be opened as a file. Write another name.")
    with told_plainly(path):
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        # What a household writes is its own: no other user of the computer reads it.
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
        address = URL.create("sqlite", database=str(path.absolute()))
        engine = create_engine(address, pool_size=10, max_overflow=50)
        event.listen(engine, "connect", _connected)
        event.listen(engine, "begin", _begun)
        try:
            migrate(engine, path)
            _log_ahead(engine)
        except BaseException:
            engine.dispose()
            raise
    return Store(path, engine)


def _connected(connection: sqlite3.Connection, entry: ConnectionPoolEntry) -> None:
    # Python begins no transaction by itself: ``_begun`` does.
    connection.isolation_level = None
    connection.execute(f"PRAGMA busy_timeout = {_PATIENCE}")
    # What was told as kept stays kept when the power fails.
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA foreign_keys = ON")


def _log_ahead(engine: Engine) -> None:
    """Readers and the writer do not wait for each other; the file itself remembers it."""
    pooled = engine.raw_connection()
    try:
        pooled.cursor().execute("PRAGMA journal_mode = WAL")
    finally:
        pooled.close()


def _begun(connection: Connection) -> None:
    writes = connection.get_execution_options().get(_WRITES, False)
    connection.exec_driver_sql(f"PRAGMA query_only = {'OFF' if writes else 'ON'}")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")
