"""Under which names the pages answer, and who counts as sitting at this computer."""

import pytest
from fastapi import Request

from stillroom.web.security import visitor
from tests.web.security.house import ADDRESS, PHONE, House

REBOUND = (
    "elsewhere.example",
    "elsewhere.example:8642",
    "localhost.elsewhere.example:8642",
    "127.0.0.1.elsewhere.example:8642",
    "localhost:9999",
    "localhost",
    "localhost.:8642",
    "8.8.8.8:8642",
    "127.0.0.1:8642@elsewhere.example",
    "localhost:8642/",
    "[::1]x:8642",
    "[fe80::1]:8642",
    "2130706433:8642",
    "",
)


def test_a_name_that_is_not_ours_is_refused(closed: House, opened: House) -> None:
    for client in (closed.here(), opened.phone(), opened.here()):
        for host in REBOUND:
            status = client.get("/doors/pair", headers={"host": host}).status_code
            assert status == 421, host


def test_this_computers_own_names_are_taken(closed: House) -> None:
    here = closed.here()
    for host in ("localhost", "LOCALHOST", "127.0.0.1", "[::1]"):
        assert here.get("/doors", headers={"host": f"{host}:8642"}).status_code == 200, host


def test_an_address_of_the_household_is_no_name_while_it_is_closed(closed: House) -> None:
    for host in (f"{ADDRESS}:8642", "pantry.local:8642"):
        assert closed.here().get("/doors", headers={"host": host}).status_code == 421


def test_the_household_finds_it_by_address_and_by_name(opened: House) -> None:
    """An address in digits cannot be made to point elsewhere, so a new one needs no new start."""
    phone = opened.phone()
    for host in (ADDRESS, "pantry.local", "10.0.0.7"):
        answer = phone.get("/doors/pair", headers={"host": f"{host}:8642"})
        assert answer.status_code == 200, host


def test_two_hosts_are_none(closed: House) -> None:
    headers = [("host", "localhost:8642"), ("host", "elsewhere.example")]

    assert closed.here().get("/doors", headers=headers).status_code == 421


def test_an_address_of_the_internet_sees_nothing_at_all(opened: House) -> None:
    for peer in ("8.8.8.8", "2606:4700::1", "100.128.0.1", "::ffff:8.8.8.8"):
        answer = opened.phone(peer).get("/doors/pair")
        assert answer.status_code == 403, peer
        assert "household" in answer.text


def test_a_closed_house_answers_its_own_computer_only(closed: House) -> None:
    """A server that somebody binds wider by hand is no wider for it."""
    assert closed.asks("http://localhost:8642", PHONE).get("/foods").status_code == 403


def _kind(made: House, base: str, peer: str, **headers: str) -> str:
    seen: list[str] = []

    @made.app.get(f"/who/{base}/{peer}/{len(made.app.routes)}")
    def tell(request: Request) -> str:
        seen.append(visitor(request).kind)
        return ""

    path = f"/who/{base}/{peer}/{len(made.app.routes) - 1}"
    made.asks(base, peer).get(path, headers=headers)
    return seen[0] if seen else "stranger"


def test_who_sits_at_this_computer_needs_no_code(opened: House) -> None:
    assert _kind(opened, "http://localhost:8642", "127.0.0.1") == "here"


@pytest.mark.parametrize(
    "header", ["forwarded", "x-forwarded-for", "x-forwarded-host", "x-real-ip", "via"]
)
def test_a_go_between_lends_nobody_this_computers_address(opened: House, header: str) -> None:
    named = {header: "127.0.0.1"}

    assert _kind(opened, "http://localhost:8642", "127.0.0.1", **named) == "stranger"


def test_a_go_between_opens_no_closed_house(closed: House) -> None:
    """Somebody has put a door of their own before this computer's: it leads nowhere."""
    headers = {"x-forwarded-for": "8.8.8.8"}

    assert closed.here().get("/foods", headers=headers).status_code == 401


def test_a_loopback_name_from_a_phone_is_a_strangers(opened: House) -> None:
    assert _kind(opened, "http://localhost:8642", PHONE) == "stranger"


def test_a_household_name_from_this_computer_is_a_strangers(opened: House) -> None:
    """A page that was rebound to this computer's address comes that way."""
    assert _kind(opened, f"http://{ADDRESS}:8642", "127.0.0.1") == "stranger"
