"""The command itself, as a process: who hears it, what it says, and how it ends."""

import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from http.client import HTTPConnection, HTTPSConnection
from pathlib import Path

import pytest

from benchmarks.pages.household import kitchen_document
from stillroom.cli import main
from stillroom.store.days import add_day
from stillroom.store.engine import open_store
from stillroom.store.kitchens import save_kitchen
from stillroom.web.security.headers import ALWAYS
from stillroom.web.serve import listen
from stillroom.web.settings import Settings
from tests.household import day_document
from tests.web.security.house import mark_on

LONG = 60.0  # Longer than a start takes on a machine that is busy with other work.


@dataclass
class Running:
    """A ``stillroom serve`` and what it has said so far."""

    process: subprocess.Popen[str]
    said: str
    folder: Path

    @property
    def port(self) -> int:
        found = re.search(r"http://localhost:(\d+)/", self.said)
        assert found, self.said
        return int(found[1])

    def end(self, by: signal.Signals = signal.SIGINT) -> float:
        """Seconds from the signal to the end."""
        begun = time.monotonic()
        self.process.send_signal(by)
        self.process.wait(LONG)
        return time.monotonic() - begun


@contextmanager
def running(folder: Path, *options: str) -> Iterator[Running]:
    """The command with a store of its own, once it has said that it is there."""
    command = [sys.executable, "-m", "stillroom", "serve", "--no-browser", *options]
    if "--try" not in options:
        command += ["--store", str(folder / "stillroom.sqlite3")]
    with (folder / "errors").open("w") as errors:
        process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=errors, text=True)
        assert process.stdout
        try:
            said = ""
            while "Ctrl-C" not in said:
                line = process.stdout.readline()
                assert line, (folder / "errors").read_text()
                said += line
            yield Running(process, said, folder)
        finally:
            process.kill()
            process.wait()
            process.stdout.close()


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    with running(tmp_path_factory.mktemp("plain"), "--port", "0") as one:
        yield one


@pytest.fixture(scope="module")
def secured(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    options = ("--port", "0", "--open-to-household", "--https")
    with running(tmp_path_factory.mktemp("secured"), *options) as one:
        yield one


def test_it_says_where_it_is_and_answers_there(plain: Running) -> None:
    connection = HTTPConnection("127.0.0.1", plain.port, timeout=LONG)

    connection.request("GET", "/doors")
    answer = connection.getresponse()

    assert answer.status == 200
    assert b"open to this computer only" in answer.read()
    assert "this computer only" in plain.said
    assert str(plain.folder / "stillroom.sqlite3") in plain.said
    assert answer.headers.get("server") is None
    connection.close()


def _listeners(pid: int) -> set[tuple[str, int]]:
    """IPv4 and IPv6 sockets on which a process listens, as Linux tells it in /proc."""
    own = set()
    for entry in Path(f"/proc/{pid}/fd").iterdir():
        try:
            held = re.fullmatch(r"socket:\[(\d+)\]", str(entry.readlink()))
        except OSError:
            continue
        own |= {held[1]} if held else set()
    found = set()
    for table in ("tcp", "tcp6"):
        for line in Path(f"/proc/{pid}/net/{table}").read_text().splitlines()[1:]:
            part = line.split()
            if part[3] == "0A" and part[9] in own:
                address, port = part[1].split(":")
                found.add((address, int(port, 16)))
    return found


@pytest.mark.skipif(not Path("/proc/self/net/tcp").exists(), reason="asks Linux")
def test_by_default_it_listens_on_this_computer_alone(plain: Running) -> None:
    """0100007F is 127.0.0.1 as /proc/net/tcp writes it (proc(5))."""
    assert _listeners(plain.process.pid) == {("0100007F", plain.port)}


@pytest.mark.skipif(not Path("/proc/self/net/tcp").exists(), reason="asks Linux")
def test_over_https_only_the_secured_port_is_open_to_the_household(secured: Running) -> None:
    assert _listeners(secured.process.pid) == {
        ("0100007F", secured.port),
        ("00000000", secured.port + 1),
    }


def _asked(one: Running, raw: bytes) -> bytes:
    """What comes back for bytes sent as they are, until the other side closes."""
    with socket.create_connection(("127.0.0.1", one.port), timeout=LONG) as connection:
        got = b""
        with suppress(OSError):
            connection.sendall(raw)
        try:
            while part := connection.recv(65536):
                got += part
        except ConnectionResetError:
            pass
        return got


def test_an_endless_chunked_body_is_cut_off(plain: Running) -> None:
    """The server answers and closes long before the 50 MB that are on their way."""
    head = (
        f"POST /doors/code HTTP/1.1\r\nHost: localhost:{plain.port}\r\nX-Stillroom: 1\r\n"
        "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
    ).encode()
    chunk = b"10000\r\n" + b"x" * 0x10000 + b"\r\n"
    sent, got = 0, b""
    with socket.create_connection(("127.0.0.1", plain.port), timeout=LONG) as connection:
        connection.sendall(head)
        try:
            while sent < 50_000_000:
                connection.sendall(chunk)
                sent += len(chunk)
        except OSError:
            pass
        with suppress(OSError):
            got = connection.recv(65536)

    # What the two systems hold in between is a few MB; the answer may be lost with the connection.
    assert sent < 20_000_000
    assert not got or got.startswith(b"HTTP/1.1 413")


def test_huge_headers_are_refused(plain: Running) -> None:
    raw = f"GET / HTTP/1.1\r\nHost: localhost:{plain.port}\r\nX: ".encode() + b"x" * 200_000

    assert b" 200 " not in _asked(plain, raw).partition(b"\r\n")[0]


@pytest.mark.parametrize("path", ["/static/../app.py", "/static/css/../../app.py", "//etc/passwd"])
def test_a_path_that_no_client_tidied_leads_nowhere(plain: Running, path: str) -> None:
    raw = f"GET {path} HTTP/1.1\r\nHost: localhost:{plain.port}\r\nConnection: close\r\n\r\n"

    got = _asked(plain, raw.encode())

    assert got.startswith(b"HTTP/1.1 404"), got[:200]
    assert b"create_app" not in got


def test_a_request_without_a_host_or_of_another_is_refused(plain: Running) -> None:
    for host in ("", "Host: elsewhere.example\r\n", "Host: localhost\r\n"):
        got = _asked(plain, f"GET / HTTP/1.1\r\n{host}Connection: close\r\n\r\n".encode())
        assert got.split(b" ")[1] in (b"400", b"421"), got[:100]


def test_a_forwarded_address_is_not_believed(secured: Running) -> None:
    """uvicorn would by default take it from a loopback peer, and rewrite who asks."""
    raw = (
        f"GET /foods HTTP/1.1\r\nHost: localhost:{secured.port}\r\nConnection: close\r\n"
        "X-Forwarded-For: 192.168.1.9\r\nX-Forwarded-Proto: https\r\n\r\n"
    )

    assert _asked(secured, raw.encode()).startswith(b"HTTP/1.1 401")


def _trusting(one: Running) -> ssl.SSLContext:
    context = ssl.create_default_context(cafile=one.folder / "https" / "authority.crt")
    context.verify_flags |= ssl.VERIFY_X509_STRICT
    return context


def test_https_holds_for_who_trusts_the_authority(secured: Running) -> None:
    connection = HTTPSConnection(
        "127.0.0.1", secured.port + 1, context=_trusting(secured), timeout=LONG
    )

    connection.request("GET", "/doors/trust")
    answer = connection.getresponse()

    assert answer.status == 200
    assert answer.headers["content-security-policy"] == ALWAYS["content-security-policy"]
    connection.close()


def test_https_is_refused_by_who_does_not(secured: Running) -> None:
    connection = HTTPSConnection("127.0.0.1", secured.port + 1, timeout=LONG)

    with pytest.raises(ssl.SSLCertVerificationError):
        connection.request("GET", "/doors/trust")
    connection.close()


def test_old_tls_is_not_spoken(secured: Running) -> None:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.check_hostname, context.verify_mode = False, ssl.CERT_NONE
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.maximum_version = ssl.TLSVersion.TLSv1_2
    with (
        socket.create_connection(("127.0.0.1", secured.port + 1), timeout=LONG) as raw,
        context.wrap_socket(raw) as spoken,
    ):
        # 1.2 with forward secrecy is the oldest.
        assert spoken.version() == "TLSv1.2"
        cipher = spoken.cipher()
        assert cipher
        assert "ECDHE" in cipher[0]


def test_it_says_what_is_missing_before_a_device_can_come(secured: Running) -> None:
    assert "choose a passphrase" in secured.said


def test_ctrl_c_ends_it_within_a_second_while_connections_are_open(tmp_path: Path) -> None:
    """Browsers hold connections open, and one of them is in the middle of a form."""
    options = ("--port", "0", "--open-to-household", "--https")
    with running(tmp_path, *options) as one, ExitStack() as held:
        reached = ("127.0.0.1", one.port)
        idle = [held.enter_context(socket.create_connection(reached)) for _ in range(5)]
        connection = HTTPConnection(*reached, timeout=LONG)
        held.callback(connection.close)
        connection.request("GET", "/doors")
        page = connection.getresponse().read().decode()
        half = (
            f"POST /doors/passphrase HTTP/1.1\r\nHost: localhost:{one.port}\r\n"
            f"Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 900\r\n\r\n"
            f"csrf={mark_on(page)}"
        )
        idle[0].sendall(half.encode())
        time.sleep(0.2)

        seconds = one.end()

        # A second is meant; a busy machine takes longer. A server that waits would never end.
        assert seconds < 8
        assert one.process.returncode == 0
        assert (tmp_path / "errors").read_text() == ""


def _children(pid: int) -> list[int]:
    """Those that any of its threads has started."""
    told = [file.read_text() for file in Path(f"/proc/{pid}/task").glob("*/children")]
    return [int(child) for child in " ".join(told).split()]


@pytest.mark.skipif(not Path("/proc/self/net/tcp").exists(), reason="asks Linux")
def test_ctrl_c_ends_a_plan_that_is_being_made(tmp_path: Path) -> None:
    """A terminal sends Ctrl-C to the solver's process as well."""
    store = open_store(tmp_path / "stillroom.sqlite3")
    at = datetime(2026, 10, 14, tzinfo=UTC)
    document = day_document("2026-10-24", "18:00", ("applesauce", 70, "pint"))
    with store.write() as session:
        save_kitchen(session, kitchen_document(), version=0, at=at, who="a test")
        key = add_day(session, document, at=at, who="a test", title="invented").key
    store.close()
    with running(tmp_path, "--port", "0") as one:
        connection = HTTPConnection("127.0.0.1", one.port, timeout=LONG)
        headers = {"x-stillroom": "1", "content-type": "application/json"}
        connection.request("POST", f"/api/days/{key}/plan", '{"seconds": 60}', headers)
        answer = connection.getresponse()
        assert answer.status == 202, answer.read()
        connection.close()
        end = time.monotonic() + LONG
        while not (children := _children(one.process.pid)):
            assert time.monotonic() < end
            time.sleep(0.05)
        time.sleep(2)

        for child in children:
            os.kill(child, signal.SIGINT)
        assert one.end() < 8

        assert (tmp_path / "errors").read_text() == ""
        # The last to go is multiprocessing's own tracker, which sees that its parent has gone.
        while any(Path(f"/proc/{child}").exists() for child in children):
            assert time.monotonic() < end
            time.sleep(0.05)


@pytest.mark.skipif(os.name != "posix", reason="sent to a process by its id")
def test_a_polite_kill_ends_it_as_well(tmp_path: Path) -> None:
    with running(tmp_path, "--port", "0") as one:
        assert one.end(signal.SIGTERM) < 8
        assert one.process.returncode == 0


def test_a_taken_port_gives_way_to_the_next_and_it_is_said(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]

        with running(tmp_path, "--port", str(port)) as one:
            assert one.port > port
            assert f"Port {port} is taken" in (tmp_path / "errors").read_text()


def test_two_servers_never_share_a_port() -> None:
    first = listen(Settings(port=0))
    second = listen(Settings(port=first.settings.port))

    assert second.settings.port != first.settings.port
    for one in (first, second):
        assert one.for_this_computer.getsockname() == ("127.0.0.1", one.settings.port)
        one.for_this_computer.close()


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (["--https"], "--open-to-household"),
        (["--port", "99999"], "--port 99999"),
        (["--port", "-1"], "--port -1"),
    ],
)
def test_a_call_that_makes_no_sense_is_told(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, options: list[str], told: str
) -> None:
    status = main(["serve", "--no-browser", "--store", str(tmp_path / "s.sqlite3"), *options])

    assert status == 2
    assert told in capsys.readouterr().err


def test_a_file_that_is_no_store_is_told(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    file = tmp_path / "notes.txt"
    file.write_text("not a store, but long enough to be looked at as one" * 40)

    assert main(["serve", "--no-browser", "--store", str(file)]) == 2
    assert str(file) in capsys.readouterr().err


def test_a_trial_shows_an_invented_household_and_leaves_nothing_behind(tmp_path: Path) -> None:
    with running(tmp_path, "--try", "--port", "0") as trial:
        connection = HTTPConnection("localhost", trial.port)
        connection.request("GET", "/days")
        page = connection.getresponse().read().decode()
        connection.close()
        kept = Path(trial.said.split("keeps what you write in ")[1].splitlines()[0])
        there = kept.exists()
        trial.end()

    assert "Autumn Saturday (invented)" in page
    assert there
    assert not kept.parent.exists()


@pytest.mark.parametrize("beside", [["--store", "x.sqlite3"], ["--open-to-household"]])
def test_a_trial_has_no_store_of_ones_own_and_no_devices(
    beside: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["serve", "--try", *beside]) == 2
    assert "Leave out --store and --open-to-household" in capsys.readouterr().err
