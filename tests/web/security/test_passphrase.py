"""What a passphrase must be, and how it is kept."""

import asyncio

import pytest
from argon2 import Type, extract_parameters

from stillroom.store import doors as kept
from stillroom.web.security import passphrase
from tests.web.security.house import PASSPHRASE, House, send


def test_it_is_kept_as_argon2id_at_the_cost_that_rfc_9106_recommends(opened: House) -> None:
    """RFC 9106, 4, second option: t=3, p=4, m=64 MiB, salt of 128 bits, tag of 256 bits."""
    with opened.store.read() as session:
        hashed = kept.passphrase_hash(session)
    assert hashed

    held = extract_parameters(hashed)

    assert held.type is Type.ID
    assert (held.time_cost, held.parallelism, held.memory_cost) == (3, 4, 64 * 1024)
    assert (held.salt_len, held.hash_len) == (16, 32)


def test_the_same_passphrase_is_hashed_to_something_else_each_time() -> None:
    async def two() -> list[str]:
        room = passphrase.hashing()
        return [await passphrase.hashed(PASSPHRASE, room) for _ in range(2)]

    first, second = asyncio.run(two())

    assert first != second


def test_no_more_than_two_are_hashed_at_once() -> None:
    async def many() -> tuple[int, int]:
        room, most = passphrase.hashing(), 0
        kept_hash = await passphrase.hashed(PASSPHRASE, room)
        tasks = [asyncio.create_task(passphrase.fits(kept_hash, "x" * 12, room)) for _ in range(6)]
        while not all(task.done() for task in tasks):
            most = max(most, int(room.borrowed_tokens))
            await asyncio.sleep(0.002)
        return most, sum(task.result() for task in tasks)

    most, fitting = asyncio.run(many())

    assert (most, fitting) == (2, 0)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (PASSPHRASE, True),
        (f" {PASSPHRASE} ", True),
        (PASSPHRASE.upper(), False),
        (PASSPHRASE[:-1], False),
        ("", False),
        ("x" * 100_000, False),
    ],
)
def test_a_passphrase_fits_as_it_was_typed_but_for_space_around_it(
    typed: str, expected: bool
) -> None:
    async def fits() -> bool:
        room = passphrase.hashing()
        return await passphrase.fits(await passphrase.hashed(PASSPHRASE, room), typed, room)

    assert asyncio.run(fits()) is expected


def test_two_ways_to_write_one_letter_are_the_same() -> None:
    """Unicode NFC: an é is one sign on this keyboard and two on that one."""
    assert passphrase.as_typed("cafe\u0301") == passphrase.as_typed("caf\u00e9")


@pytest.mark.parametrize("kept_hash", ["", "nonsense", "$argon2id$v=19$broken"])
def test_a_broken_hash_fits_nothing(kept_hash: str) -> None:
    assert not asyncio.run(passphrase.fits(kept_hash, PASSPHRASE, passphrase.hashing()))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("", "too short"),
        ("ninesigns", "too short"),
        ("         x         ", "too short"),
        ("aaaaaaaaaaaaaa", "too easy"),
        ("1234567890", "too easy"),
        ("x1y2z3" * 40, "too long"),
    ],
)
def test_a_weak_passphrase_is_refused_beside_its_field(
    opened: House, typed: str, told: str
) -> None:
    answer = send(opened.here(), "/doors/passphrase", "/doors", passphrase=typed, again=typed)

    assert answer.status_code == 422
    assert told in answer.text
    assert 'aria-invalid="true"' in answer.text
    if typed.strip():
        assert typed not in answer.text


def test_ten_plain_signs_are_taken(opened: House) -> None:
    typed = "tendersign"

    answer = send(opened.here(), "/doors/passphrase", "/doors", passphrase=typed, again=typed)

    assert answer.status_code == 303


def test_a_slip_in_the_second_typing_is_told(opened: House) -> None:
    answer = send(
        opened.here(), "/doors/passphrase", "/doors", passphrase=PASSPHRASE, again=PASSPHRASE + "s"
    )

    assert answer.status_code == 422
    assert "do not match" in answer.text
