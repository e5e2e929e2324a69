"""The store loses nothing that it told as kept: many writers, killed writers, full disks."""

import json
import os
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from stillroom.errors import InputError
from stillroom.store.changes import changes
from stillroom.store.engine import Store, open_store, usual_path
from stillroom.store.kitchens import kitchen, save_kitchen
from tests.store.made import BY, KITCHEN

BEGINNING = """
import os, resource, signal, sys
from datetime import UTC, datetime
from pathlib import Path
from stillroom.errors import InputError
from stillroom.store.engine import open_store
from stillroom.store.kitchens import kitchen, save_kitchen
from stillroom.store.recipes import add_recipe

def count_up(store, times):
    for _ in range(times):
        with store.write() as session:
            was = kitchen(session)
            save_kitchen(
                session, {"count": was.document["count"] + 1}, version=was.version,
                at=datetime.now(UTC), who="",
            )
        yield was.document["count"] + 1

path = Path(sys.argv[1])
"""


def started(code: str, *arguments: str | Path) -> subprocess.Popen[str]:
    """Another process that has the store open."""
    return subprocess.Popen(
        [sys.executable, "-c", BEGINNING + code, *map(str, arguments)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=os.environ | {"PYTHONPATH": os.pathsep.join(p for p in sys.path if p)},
    )


def said_by(code: str, *arguments: str | Path) -> list[str]:
    out, err = (process := started(code, *arguments)).communicate(timeout=60)
    assert process.returncode == 0, err
    return out.splitlines()


def counting(store: Store) -> None:
    with store.write() as session:
        save_kitchen(session, {"count": 0}, version=0, **BY)


def counted(store: Store) -> int:
    with store.read() as session:
        stored = kitchen(session)
        assert stored
        return int(stored.document["count"])


def one_more(store: Store) -> None:
    """Read, add one, write: what loses updates where two may read the same state."""
    with store.write() as session:
        stored = kitchen(session)
        assert stored
        document = {"count": stored.document["count"] + 1}
        save_kitchen(session, document, version=stored.version, **BY)


def test_two_hundred_updates_by_eight_threads_and_another_process_all_count(store: Store) -> None:
    counting(store)
    other = started("store = open_store(path)\nfor _ in count_up(store, 50): pass", store.path)

    with ThreadPoolExecutor(8) as pool:
        list(pool.map(lambda _: one_more(store), range(150)))
    _, complaint = other.communicate(timeout=60)

    assert other.returncode == 0, complaint
    assert counted(store) == 200
    with store.read() as session:
        assert len(changes(session, 500)) == 201


def test_a_reader_sees_one_state_throughout_and_does_not_wait(store: Store) -> None:
    counting(store)

    with store.read() as reading:
        before = kitchen(reading)
        one_more(store)
        reading.expire_all()
        assert kitchen(reading) == before

    assert counted(store) == 1


def test_readers_do_not_wait_for_a_writer_that_takes_long(store: Store) -> None:
    counting(store)

    with store.write() as writing:
        save_kitchen(writing, {"count": 7}, version=1, **BY)
        assert counted(store) == 0

    assert counted(store) == 7


def test_what_goes_wrong_in_the_middle_leaves_nothing_behind(store: Store) -> None:
    counting(store)

    with pytest.raises(ZeroDivisionError), store.write() as session:
        save_kitchen(session, {"count": 7}, version=1, **BY)
        _ = 1 / 0

    assert counted(store) == 0


def test_a_reading_session_cannot_write(store: Store) -> None:
    with pytest.raises(InputError, match="cannot be written"), store.read() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)


def test_a_write_within_a_write_is_told_instead_of_waiting_for_itself(store: Store) -> None:
    counting(store)

    with pytest.raises(RuntimeError, match="a write within a write"), store.write():
        one_more(store)

    one_more(store)
    assert counted(store) == 1


def test_many_sessions_at_once_are_served(store: Store) -> None:
    """More threads than a web server of this framework has (40)."""
    counting(store)
    together = threading.Barrier(45)

    def look(_: int) -> int:
        with store.read() as session:
            stored = kitchen(session)
            together.wait(30)
            assert stored
            return int(stored.document["count"])

    with ThreadPoolExecutor(45) as pool:
        assert list(pool.map(look, range(45))) == [0] * 45


@pytest.mark.parametrize("after", [1, 7, 20])
def test_a_writer_that_is_killed_loses_nothing_it_told_as_kept(store: Store, after: int) -> None:
    counting(store)
    process = started(
        "for n in count_up(open_store(path), 10**6): print(n, flush=True)", store.path
    )
    assert process.stdout

    for line in process.stdout:
        if int(line) >= after:
            break
    process.send_signal(signal.SIGKILL)
    told = [int(line), *(int(more) for more in process.stdout if more.endswith("\n"))]
    process.wait(30)
    process.communicate()

    # It may have been killed between keeping the last one and telling of it.
    assert counted(store) in (told[-1], told[-1] + 1)
    with store.read() as session:
        recorded = changes(session, 10_000)
        assert recorded[0].after["document"] == {"count": counted(store)}
        assert len(recorded) == counted(store) + 1
        assert session.connection().exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"


def test_a_writer_killed_in_the_middle_of_its_work_leaves_nothing_half_done(store: Store) -> None:
    """Its changes are larger than SQLite's memory for them: they are in the log on the disk."""
    counting(store)
    code = """
with open_store(path).write() as session:
    for n in range(60):
        add_recipe(session, {"title": f"r{n}", "notes": "x" * 100_000}, "",
                   at=datetime.now(UTC), who="")
    print(Path(f"{path}-wal").stat().st_size, flush=True)
    os.kill(os.getpid(), signal.SIGKILL)
"""
    process = started(code, store.path)
    out, _ = process.communicate(timeout=60)

    assert process.returncode == -signal.SIGKILL
    assert int(out) > 1_000_000
    one_more(store)
    assert counted(store) == 1
    with store.read() as session:
        assert [c.kind for c in changes(session)] == ["kitchen", "kitchen"]


def test_a_full_disk_is_told_and_nothing_kept_is_lost(store: Store) -> None:
    """SQLite answers SQLITE_FULL when a file may not grow, as when the disk is full."""
    counting(store)
    code = """
from sqlalchemy import event
store = open_store(path)
@event.listens_for(store._engine, "connect")
def narrow(connection, entry):
    connection.execute("PRAGMA max_page_count = 120")
store._engine.dispose()
kept = 0
try:
    for n in range(100):
        with store.write() as session:
            add_recipe(session, {"title": f"r{n}", "notes": "x" * 20_000}, "",
                       at=datetime.now(UTC), who="")
        kept += 1
except InputError as wrong:
    print(kept, wrong)
"""
    (said,) = said_by(code, store.path)

    kept, _, message = said.partition(" ")
    assert "the disk is full. Nothing was changed." in message
    assert 2 < int(kept) < 100
    with store.read() as session:
        assert len([c for c in changes(session, 500) if c.kind == "recipe"]) == int(kept)
    one_more(store)
    assert counted(store) == 1


def test_a_disk_that_takes_no_more_is_told_and_nothing_kept_is_lost(store: Store) -> None:
    """The system's own limit on a file's size stands in for a failing disk (setrlimit(2))."""
    code = """
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, 400_000))
store = open_store(path)
kept = 0
try:
    for n in range(100):
        with store.write() as session:
            add_recipe(session, {"title": f"r{n}", "notes": "x" * 20_000}, "",
                       at=datetime.now(UTC), who="")
        kept += 1
except InputError as wrong:
    print(kept, wrong)
"""
    (said,) = said_by(code, store.path)

    kept, _, message = said.partition(" ")
    assert "the disk" in message
    assert 2 < int(kept) < 100
    with store.read() as session:
        assert len(changes(session, 500)) == int(kept)


# The right to write is the system's to refuse; its own administrator is refused nothing.
AS_NOBODY = """
open_store(Path(sys.argv[2]) / "first.sqlite3").close()
if os.geteuid() == 0:
    os.setgid(65534)
    os.setuid(65534)
try:
    store = open_store(path)
    with store.write() as session:
        save_kitchen(session, {}, version=0, at=datetime.now(UTC), who="")
except InputError as wrong:
    print(wrong)
"""


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="rights as of POSIX")
@pytest.mark.parametrize("new", [True, False])
def test_a_folder_that_may_not_be_written_is_told_plainly(store: Store, new: bool) -> None:
    counting(store)
    store.close()
    with TemporaryDirectory() as made, TemporaryDirectory() as scratch:
        folder = Path(made)
        asked = folder / "new" / "s.sqlite3" if new else folder / "s.sqlite3"
        if not new:
            shutil.copy(store.path, asked)
            asked.chmod(0o444)
        folder.chmod(0o555)

        (said,) = said_by(AS_NOBODY, asked, scratch)

        folder.chmod(0o755)
    assert said.startswith(f"{asked}: cannot be opened (Permission denied).")


def test_what_is_no_store_is_refused_and_stays_as_it_is(tmp_path: Path) -> None:
    text, other, cut = tmp_path / "text", tmp_path / "other", tmp_path / "cut"
    text.write_text("Beans, 14 pints\n" * 100, encoding="utf-8")
    with sqlite3.connect(other) as connection:
        connection.execute("CREATE TABLE alembic_version (version_num TEXT)")
    connection.close()
    cut.write_bytes(b"SQLite format 3\0" + bytes(50))

    for path in (text, other, cut):
        before = path.read_bytes()
        with pytest.raises(InputError, match=rf"{path.name}: this is no Stillroom store\."):
            open_store(path)
        assert path.read_bytes() == before


def test_a_store_of_a_newer_stillroom_is_refused_plainly(store: Store) -> None:
    counting(store)
    store.close()
    with sqlite3.connect(store.path) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0999'")
    connection.close()

    with pytest.raises(InputError, match=r"written by a newer Stillroom \(step 0999; .* Update"):
        open_store(store.path)


def test_a_name_that_no_file_can_have_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")

    for path in (tmp_path, tmp_path / "file" / "store", Path("/proc/none/store"), tmp_path / "a\0"):
        with pytest.raises(InputError, match="cannot be"):
            open_store(path)


def test_signs_that_addresses_use_are_fine_in_a_file_name(tmp_path: Path) -> None:
    path = tmp_path / "a?mode=ro&x=%20#y ü.sqlite3"

    open_store(path).close()

    assert {file.name for file in tmp_path.iterdir()} == {path.name}


def test_no_other_user_reads_the_store(tmp_path: Path) -> None:
    path = tmp_path / "own" / "deep" / "store.sqlite3"
    store = open_store(path)
    counting(store)

    for file in path.parent.iterdir():
        assert stat.S_IMODE(file.stat().st_mode) == 0o600, file
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    store.close()


def test_eight_threads_may_open_a_new_store_at_once(tmp_path: Path) -> None:
    path = tmp_path / "store.sqlite3"

    with ThreadPoolExecutor(8) as pool:
        stores = list(pool.map(lambda _: open_store(path), range(8)))

    counting(stores[0])
    assert [counted(store) for store in stores] == [0] * 8
    for store in stores:
        store.close()


def test_a_store_that_is_up_to_date_opens_without_the_tool_for_steps(store: Store) -> None:
    """It takes longer to load than a page may take to come."""
    code = "open_store(path).close(); print('alembic' in sys.modules)"

    assert said_by(code, store.path) == ["False"]
    assert said_by(code, store.path.with_name("new.sqlite3")) == ["True"]


def test_the_usual_file_is_in_the_folder_for_a_persons_own_data(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """XDG Base Directory Specification 0.8: a relative path is passed over."""
    monkeypatch.setenv("HOME", str(tmp_path))
    for said, folder in (
        (str(tmp_path / "data"), tmp_path / "data"),
        ("data", tmp_path / ".local" / "share"),
        ("", tmp_path / ".local" / "share"),
    ):
        monkeypatch.setenv("XDG_DATA_HOME", said)
        assert usual_path() == folder / "stillroom" / "stillroom.sqlite3"


def test_documents_are_kept_as_json_that_other_programs_read(store: Store) -> None:
    with store.write() as session:
        save_kitchen(session, KITCHEN, version=0, **BY)

    connection = sqlite3.connect(store.path)
    (said,) = connection.execute("SELECT document FROM kitchen").fetchone()
    connection.close()

    assert json.loads(said) == KITCHEN
