"""A device is let in once, by the code on this computer's screen and the household's passphrase."""

import asyncio
import logging
from datetime import timedelta
from pathlib import Path

import httpx2 as httpx
import pytest

from stillroom.store import doors as kept
from stillroom.web.security.limits import FROM_ALL, FROM_ONE, WINDOW
from tests.web.security.house import (
    ADDRESS,
    OPEN,
    OTHER_PHONE,
    PASSPHRASE,
    PHONE,
    SECRET_WORD,
    House,
    house,
    mark_on,
    send,
    try_in,
)


def test_code_and_passphrase_let_a_device_in(opened: House) -> None:
    phone = opened.phone()

    answer = try_in(phone, opened.new_code(), name="Kitchen tablet")

    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert SECRET_WORD in phone.get("/foods/snap beans").text
    assert "Kitchen tablet" in opened.here().get("/doors").text
    assert "Kitchen tablet" in phone.get("/doors").text


def test_a_code_is_read_however_it_is_typed(opened: House) -> None:
    code = opened.new_code()

    assert try_in(opened.phone(), f" {code.lower().replace('-', ' ')} ").status_code == 303


def test_a_code_lets_one_device_in(opened: House) -> None:
    code = opened.new_code()
    assert try_in(opened.phone(), code).status_code == 303

    answer = try_in(opened.phone(OTHER_PHONE), code)

    assert answer.status_code == 403
    assert "set-cookie" not in answer.headers


def test_a_code_holds_ten_minutes(opened: House) -> None:
    code = opened.new_code()

    opened.clock.go_on(timedelta(minutes=9, seconds=59))
    phone = opened.phone()
    assert try_in(phone, code, passphrase="not this one").status_code == 403
    opened.clock.go_on(timedelta(seconds=1))

    assert try_in(phone, code).status_code == 403
    assert opened.doors.code() is None


def test_a_new_code_ends_the_one_before(opened: House) -> None:
    first = opened.new_code()
    second = opened.new_code()

    assert try_in(opened.phone(), first).status_code == 403
    assert try_in(opened.phone(), second).status_code == 303


def test_a_wrong_passphrase_does_not_use_the_code_up(opened: House) -> None:
    code = opened.new_code()

    assert try_in(opened.phone(), code, passphrase=PASSPHRASE + "s").status_code == 403
    assert try_in(opened.phone(), code).status_code == 303


def test_a_wrong_code_and_a_wrong_passphrase_are_told_alike(opened: House) -> None:
    code = opened.new_code()
    wrong_code = try_in(opened.phone(), "2222-2222")
    wrong_passphrase = try_in(opened.phone(), code, passphrase="ladle thimble orchard fern")

    told = [a.text[a.text.index('role="alert"') :][:300] for a in (wrong_code, wrong_passphrase)]

    assert told[0] == told[1]
    assert PASSPHRASE not in wrong_code.text


@pytest.mark.parametrize("phones", [2, 4])
def test_of_tries_at_once_with_one_code_exactly_one_wins(opened: House, phones: int) -> None:
    code = opened.new_code()

    async def one(peer: str) -> int:
        transport = httpx.ASGITransport(opened.app, client=(peer, 50000))
        async with httpx.AsyncClient(
            transport=transport, base_url=f"http://{ADDRESS}:8642"
        ) as client:
            mark = mark_on((await client.get("/doors/pair")).text)
            typed = {"csrf": mark, "code": code, "passphrase": PASSPHRASE, "name": peer}
            return (await client.post("/doors/pair", data=typed)).status_code

    async def all_at_once() -> list[int]:
        return await asyncio.gather(*(one(f"192.168.1.{40 + n}") for n in range(phones)))

    answers = asyncio.run(all_at_once())

    assert sorted(answers) == [303] + [403] * (phones - 1)
    assert len(opened.doors.devices()) == 1


def test_a_passphrase_changed_meanwhile_lets_nobody_in(opened: House) -> None:
    """The try was found to fit the old one; the store decides."""
    code = opened.new_code()
    with opened.store.read() as session:
        old = kept.passphrase_hash(session)
    assert old
    hashed = next(iter(_code_hashes(opened)))
    with opened.store.write() as session:
        kept.set_passphrase(session, "another hash", at=opened.clock())
        kept.open_pairing(session, hashed, at=opened.clock(), holds=timedelta(minutes=10))

    with opened.store.write() as session:
        let_in = kept.admit(session, hashed, old, "token", name="x", at=opened.clock())

    assert code
    assert let_in is None


def _code_hashes(made: House) -> list[str]:
    from sqlalchemy import select

    from stillroom.store.tables import PairingRow

    with made.store.read() as session:
        return list(session.scalars(select(PairingRow.code_hash)))


def test_no_code_without_a_passphrase(tmp_path: Path) -> None:
    with house(tmp_path, OPEN) as made:
        answer = send(made.here(), "/doors/code", "/doors")

        assert answer.status_code == 422
        assert made.doors.code() is None


def test_no_code_while_the_house_is_closed(closed: House) -> None:
    closed.has_passphrase()

    assert send(closed.here(), "/doors/code", "/doors").status_code == 422


def test_a_code_is_shown_at_this_computer_only(opened: House) -> None:
    code = opened.new_code()
    paired = opened.phone(OTHER_PHONE)
    assert try_in(paired, code).status_code == 303
    code = opened.new_code()

    assert code in opened.here().get("/doors").text
    assert '<svg role="img"' in opened.here().get("/doors").text
    assert code not in paired.get("/doors").text
    assert code not in opened.phone().get("/doors/pair").text
    for path in ("/doors/code", "/doors/passphrase", "/doors/devices/1/revoke"):
        assert send(paired, path, "/doors").status_code == 403


def test_codes_and_tokens_are_kept_as_hashes_only(opened: House) -> None:
    code = opened.new_code()
    phone = opened.phone()
    assert try_in(phone, code).status_code == 303
    token = phone.cookies["stillroom"]

    held = b"".join(file.read_bytes() for file in opened.store.path.parent.iterdir())

    assert len(token) >= 43  # 256 bits in base64
    for secret in (token, code, code.replace("-", ""), PASSPHRASE):
        assert secret.encode() not in held
    assert b"$argon2id$" in held


def test_neither_passphrase_nor_code_is_logged_or_printed(
    opened: House, caplog: pytest.LogCaptureFixture, capfd: pytest.CaptureFixture[str]
) -> None:
    caplog.set_level(logging.DEBUG)
    code = opened.new_code()
    try_in(opened.phone(), code, passphrase="tinder plum anvil rope")
    try_in(opened.phone(), code)
    opened.choose_passphrase("another four plain words")

    out, err = capfd.readouterr()

    told = caplog.text + out + err
    for secret in (PASSPHRASE, "tinder plum anvil rope", "another four plain words", code):
        assert secret not in told


def test_brute_force_is_locked_out_and_told_how_long(opened: House) -> None:
    phone, code = opened.phone(), opened.new_code()
    for _ in range(FROM_ONE):
        assert try_in(phone, code, passphrase="wrong every time").status_code == 403
    opened.clock.go_on(timedelta(minutes=5))

    answer = try_in(phone, code)

    assert answer.status_code == 429
    assert answer.headers["retry-after"] == "600"
    assert "10 minutes" in answer.text
    assert "set-cookie" not in answer.headers
    # Others of the household are not locked out with it.
    assert try_in(opened.phone(OTHER_PHONE), code).status_code == 303


def test_the_lock_outlives_a_new_start(tmp_path: Path) -> None:
    with house(tmp_path) as before:
        before.has_passphrase()
        code = before.new_code()
        for _ in range(FROM_ONE):
            try_in(before.phone(), code, passphrase="wrong every time")
        at = before.clock()

    from dataclasses import replace

    from stillroom.store.engine import open_store
    from stillroom.web.app import create_app
    from tests.web.security.house import Clock

    store = open_store(tmp_path / "store" / "stillroom.sqlite3")
    clock = Clock(at + timedelta(minutes=1))
    again = House(store, create_app(store, replace(OPEN, now=clock)), clock, OPEN)

    assert try_in(again.phone(), code).status_code == 429
    clock.go_on(WINDOW)
    assert try_in(again.phone(), again.new_code()).status_code == 303
    store.close()


def test_many_addresses_together_are_locked_out_too(opened: House) -> None:
    code = opened.new_code()
    for n in range(FROM_ALL):
        peer = f"192.168.2.{n + 1}"
        assert try_in(opened.phone(peer), "2222-2222").status_code == 403

    answer = try_in(opened.phone(), code)

    assert answer.status_code == 429
    assert int(answer.headers["retry-after"]) == WINDOW.total_seconds()


def test_tries_at_once_do_not_slip_past_the_limit(opened: House) -> None:
    """Each is written down before it is looked at."""

    async def one(client: httpx.AsyncClient, mark: str) -> int:
        typed = {"csrf": mark, "code": "2222-2222", "passphrase": "x" * 12}
        return (await client.post("/doors/pair", data=typed)).status_code

    async def many() -> list[int]:
        transport = httpx.ASGITransport(opened.app, client=(PHONE, 50000))
        base = f"http://{ADDRESS}:8642"
        async with httpx.AsyncClient(transport=transport, base_url=base) as client:
            mark = mark_on((await client.get("/doors/pair")).text)
            return await asyncio.gather(*(one(client, mark) for _ in range(3 * FROM_ONE)))

    answers = asyncio.run(many())

    assert sorted(answers) == [403] * FROM_ONE + [429] * (2 * FROM_ONE)


def test_who_is_let_in_starts_with_no_tries_against_it(opened: House) -> None:
    code = opened.new_code()
    for _ in range(FROM_ONE - 1):
        try_in(opened.phone(), code, passphrase="wrong every time")
    assert try_in(opened.phone(), code).status_code == 303

    assert try_in(opened.phone(), opened.new_code()).status_code == 303


@pytest.mark.parametrize(
    "then", ["//elsewhere.example/", "https://elsewhere.example/", "/\\elsewhere.example", "x", ""]
)
def test_the_way_in_leads_to_no_other_site(opened: House, then: str) -> None:
    answer = try_in(opened.phone(), opened.new_code(), then=then)

    assert answer.headers["location"] == "/"


def test_a_deep_link_is_reached_after_being_let_in(opened: House) -> None:
    phone = opened.phone()
    sent = phone.get("/foods/snap beans?jar=quart&pack=hot", headers={"accept": "text/html"})
    assert sent.status_code == 303
    page = phone.get(sent.headers["location"]).text
    assert "/foods/snap%20beans?jar=quart&amp;pack=hot" in page

    answer = try_in(phone, opened.new_code(), then="/foods/snap%20beans?jar=quart&pack=hot")

    assert answer.headers["location"] == "/foods/snap%20beans?jar=quart&pack=hot"
