"""What a request may carry, and whose page may send it."""

import asyncio
import sqlite3

import pytest
from sqlalchemy.exc import OperationalError
from starlette.datastructures import Headers
from starlette.types import Message, Receive

from stillroom.store.faults import told_plainly
from stillroom.web.security import body, csrf
from stillroom.web.security.hosts import Host
from stillroom.web.security.origin import is_foreign
from tests.web.security.house import House, mark_on

HOST = Host("localhost", 8642)


def _sent(*parts: bytes, then: Message | None = None) -> tuple[Receive, list[int]]:
    """A body in parts, and how many of them were asked for."""
    asked = [0]

    async def receive() -> Message:
        n = asked[0]
        asked[0] += 1
        if n < len(parts):
            more = n + 1 < len(parts) or then is not None
            return {"type": "http.request", "body": parts[n], "more_body": more}
        return then or {"type": "http.disconnect"}

    return receive, asked


def test_a_body_within_the_limit_is_read_whole() -> None:
    receive, _ = _sent(b"ab", b"", b"cde")

    assert asyncio.run(body.read_body(receive, None, 5)) == b"abcde"


def test_a_body_is_counted_as_it_comes_and_no_further() -> None:
    """Chunked, without a length: the fourth part of ten is the one too many."""
    receive, asked = _sent(*[b"x" * 100] * 10)

    with pytest.raises(body.TooLarge):
        asyncio.run(body.read_body(receive, None, 350))

    assert asked == [4]


def test_a_body_that_says_it_is_too_large_is_not_read_at_all() -> None:
    receive, asked = _sent(b"x")

    with pytest.raises(body.TooLarge):
        asyncio.run(body.read_body(receive, "351", 350))

    assert asked == [0]


def test_a_body_that_lies_about_its_length_is_counted_all_the_same() -> None:
    receive, _ = _sent(b"x" * 351)

    with pytest.raises(body.TooLarge):
        asyncio.run(body.read_body(receive, "10", 350))


def test_a_body_that_trickles_is_given_up() -> None:
    async def never() -> Message:
        await asyncio.Event().wait()
        raise AssertionError

    with pytest.raises(body.TooSlow):
        asyncio.run(body.read_body(never, None, 350, seconds=0.01))


def test_an_asker_who_leaves_is_noticed() -> None:
    receive, _ = _sent(b"x", then={"type": "http.disconnect"})

    with pytest.raises(body.Gone):
        asyncio.run(body.read_body(receive, None, 350))


@pytest.mark.parametrize(
    ("kind", "most"),
    [
        ("application/x-www-form-urlencoded", body.FORM_BYTES),
        ("application/json", body.FORM_BYTES),
        ("text/plain", body.FORM_BYTES),
        ("multipart/form-data; boundary=b", body.UPLOAD_BYTES),
    ],
)
def test_what_is_too_large_is_refused_with_413(closed: House, kind: str, most: int) -> None:
    headers = {"content-type": kind, "x-stillroom": "1"}

    def parts() -> list[bytes]:
        return [b"x" * 100_000] * (most // 100_000 + 1)

    whole = closed.here().post("/doors/code", headers=headers, content=b"".join(parts()))
    chunked = closed.here().post("/doors/code", headers=headers, content=iter(parts()))

    for answer in (whole, chunked):
        assert answer.status_code == 413
        assert answer.headers["connection"] == "close"


def test_a_stranger_may_send_little(opened: House) -> None:
    sent = {"csrf": "x", "code": "y" * body.STRANGERS_BYTES}

    assert opened.phone().post("/doors/pair", data=sent).status_code == 413


@pytest.mark.parametrize(
    ("kind", "sent"),
    [
        ("multipart/form-data", b"x"),
        ("multipart/form-data; boundary=b", b"--b\r\nnonsense"),
        ("multipart/form-data; boundary=" + "b" * 5000, b"x"),
        ("application/x-www-form-urlencoded", b"&".join([b"a=1"] * 3000)),
        ("application/x-www-form-urlencoded; charset=nonsense", b"\xff\xfe=%zz&csrf=%"),
        ("multipart/form-data; boundary=b; boundary=c", b"--b\r\n\r\n\r\n--b--"),
    ],
)
def test_a_form_that_cannot_be_read_is_no_fault_of_ours(
    closed: House, kind: str, sent: bytes
) -> None:
    answer = closed.here().post("/doors/code", headers={"content-type": kind}, content=sent)

    assert answer.status_code in (400, 403)


def test_a_question_has_no_body(closed: House) -> None:
    answer = closed.here().request("GET", "/doors", content=iter([b"x" * 100_000] * 30))

    assert answer.status_code == 200


@pytest.mark.parametrize(
    ("headers", "expected"),
    [
        ({}, False),
        ({"origin": "http://localhost:8642"}, False),
        ({"origin": "HTTP://LOCALHOST:8642"}, False),
        ({"origin": "https://localhost:8642"}, True),
        ({"origin": "http://localhost"}, True),
        ({"origin": "http://127.0.0.1:8642"}, True),
        ({"origin": "http://localhost:8642.elsewhere.example"}, True),
        ({"origin": "null"}, True),
        ({"origin": ""}, True),
        ({"origin": "http://localhost:8642", "sec-fetch-site": "same-origin"}, False),
        ({"sec-fetch-site": "none"}, False),
        ({"sec-fetch-site": "cross-site"}, True),
        ({"sec-fetch-site": "same-site"}, True),
        ({"origin": "http://localhost:8642", "sec-fetch-site": "cross-site"}, True),
    ],
)
def test_whose_page_sent_a_change(headers: dict[str, str], expected: bool) -> None:
    assert is_foreign("POST", Headers(headers), "http", HOST) is expected


@pytest.mark.parametrize(
    ("mode", "dest", "expected"),
    [
        ("navigate", "document", False),
        ("navigate", "iframe", True),
        ("no-cors", "script", True),
        ("no-cors", "image", True),
        ("cors", "empty", True),
    ],
)
def test_another_site_may_link_here_and_nothing_more(mode: str, dest: str, expected: bool) -> None:
    headers = {"sec-fetch-site": "cross-site", "sec-fetch-mode": mode, "sec-fetch-dest": dest}

    assert is_foreign("GET", Headers(headers), "http", HOST) is expected


def test_two_origins_are_foreign() -> None:
    raw = [(b"origin", b"http://localhost:8642"), (b"origin", b"http://elsewhere.example")]

    assert is_foreign("POST", Headers(raw=raw), "http", HOST)


KEY, OTHER_KEY = b"k" * 32, b"j" * 32


def test_a_mark_is_good_for_its_holder_and_key_only() -> None:
    made = csrf.mark(KEY, "device 1")

    assert csrf.is_mark(KEY, "device 1", made)
    assert not csrf.is_mark(KEY, "device 2", made)
    assert not csrf.is_mark(OTHER_KEY, "device 1", made)


def test_a_mark_never_looks_the_same_twice() -> None:
    """Else a page that is compressed gives it away bit by bit (the BREACH attack)."""
    assert len({csrf.mark(KEY, "here") for _ in range(50)}) == 50


@pytest.mark.parametrize(
    "told", ["", "x", "é", "=" * 88, "A" * 88, "A" * 86 + "==", "\x00", "A" * 10_000]
)
def test_what_is_no_mark_is_refused(told: str) -> None:
    assert not csrf.is_mark(KEY, "here", told)


def test_a_form_left_open_over_a_new_start_still_sends(closed: House) -> None:
    """Its mark holds as long as the key file does."""
    from stillroom.web.app import create_app

    page = closed.here().get("/doors").text
    again = House(
        closed.store, create_app(closed.store, closed.settings), closed.clock, closed.settings
    )

    typed = {"csrf": mark_on(page), "passphrase": "short", "again": "short"}

    assert again.here().post("/doors/passphrase", data=typed).status_code == 422


def test_json_with_the_header_passes_the_gate(closed: House) -> None:
    """Whatever the page then says of it: it is not the gate's 403."""
    answer = closed.here().post("/doors/code", json={}, headers={"x-stillroom": "1"})

    assert answer.status_code == 422


@pytest.mark.parametrize("path", ["/full", "/api/full"])
def test_a_store_that_fails_tells_a_phone_why_but_not_where_it_lies(
    opened: House, path: str
) -> None:
    """The folder names the person whose computer it is."""

    def full() -> None:
        with told_plainly(opened.store.path):
            raise OperationalError("", {}, _full())

    opened.app.add_api_route(path, full)

    answer = opened.paired().get(path)

    assert answer.status_code == 503
    assert "the disk is full" in answer.text
    assert str(opened.store.path.parent) not in answer.text


def _full() -> sqlite3.OperationalError:
    """What SQLite raises on a full disk: sqlite.org/rescode.html#full."""
    made = sqlite3.OperationalError("database or disk is full")
    made.sqlite_errorname = "SQLITE_FULL"
    return made
