"""What a device carries afterwards: flags of its cookie, its end, and no other way to have one."""

from datetime import timedelta

import pytest

from stillroom.web.security import tokens
from tests.web.security.house import OTHER_PHONE, SECRET_WORD, House, send, try_in

PAGE = "/foods/snap beans"


def test_over_http_the_cookie_is_plain_but_for_no_script_and_no_other_site(opened: House) -> None:
    answer = try_in(opened.phone(), opened.new_code())

    name, *flags = _cookie(answer.headers["set-cookie"])
    assert name.startswith("stillroom=")
    assert {"httponly", "samesite=lax", "path=/"} <= set(flags)
    assert "secure" not in flags
    assert not [flag for flag in flags if flag.startswith("domain")]


def test_over_https_the_cookie_is_bound_to_this_host(opened_https: House) -> None:
    """``__Host-`` is taken by browsers only with Secure, Path=/ and no Domain (RFC 6265bis)."""
    answer = try_in(opened_https.phone(), opened_https.new_code())

    name, *flags = _cookie(answer.headers["set-cookie"])
    assert name.startswith("__Host-stillroom=")
    assert {"secure", "httponly", "samesite=lax", "path=/"} <= set(flags)
    assert not [flag for flag in flags if flag.startswith("domain")]


def _cookie(header: str) -> list[str]:
    name, *flags = (part.strip() for part in header.split(";"))
    return [name, *(flag.lower() for flag in flags)]


def test_a_token_that_somebody_planted_is_never_taken_over(opened: House) -> None:
    """Session fixation: being let in gives a token of its own."""
    phone = opened.phone()
    phone.cookies.set("stillroom", "planted")
    assert phone.get(PAGE).status_code == 401

    answer = try_in(phone, opened.new_code())

    assert "planted" not in answer.headers["set-cookie"]
    planted = opened.phone(OTHER_PHONE)
    planted.cookies.set("stillroom", "planted")
    assert planted.get(PAGE).status_code == 401


def test_being_let_in_twice_gives_two_tokens(opened: House) -> None:
    first, second = opened.paired(), opened.paired(OTHER_PHONE)

    assert first.cookies["stillroom"] != second.cookies["stillroom"]


@pytest.mark.parametrize("token", ["", "x", "a" * 43, "é" * 10, "0" * 5000, "' or 1=1 --"])
def test_no_other_token_opens_anything(opened: House, token: str) -> None:
    opened.paired()

    headers = {"cookie": f"stillroom={token}".encode()}

    assert opened.phone().get(PAGE, headers=headers).status_code == 401  # type: ignore[arg-type]


def test_the_cookie_of_plain_http_opens_nothing_over_https(opened_https: House) -> None:
    """Who listens in on plain HTTP, or sets cookies there, gains nothing."""
    phone = opened_https.paired()
    token = phone.cookies["__Host-stillroom"]

    headers = {"cookie": f"stillroom={token}"}

    assert opened_https.phone(OTHER_PHONE).get(PAGE, headers=headers).status_code == 401


def test_a_device_that_was_turned_away_is_a_stranger_at_once(opened: House) -> None:
    phone, other = opened.paired(name="Lost phone"), opened.paired(OTHER_PHONE, name="Tablet")
    lost = next(d for d in opened.doors.devices() if d.name == "Lost phone")
    assert phone.get(PAGE).status_code == 200

    answer = send(opened.here(), f"/doors/devices/{lost.id}/revoke", "/doors")

    assert answer.status_code == 303
    assert phone.get(PAGE).status_code == 401
    assert other.get(PAGE).status_code == 200
    assert "Lost phone" not in opened.here().get("/doors").text


def test_a_device_can_leave(opened: House) -> None:
    phone = opened.paired()
    token = phone.cookies["stillroom"]

    answer = send(phone, "/doors/leave", "/doors")

    assert answer.status_code == 303
    assert "Max-Age=0" in answer.headers["set-cookie"]
    again = opened.phone()
    again.cookies.set("stillroom", token)
    assert again.get(PAGE).status_code == 401


def test_a_new_passphrase_turns_every_device_away(opened: House) -> None:
    phones = [opened.paired(), opened.paired(OTHER_PHONE)]
    code = opened.new_code()

    opened.choose_passphrase("quite another four words")

    assert [phone.get(PAGE).status_code for phone in phones] == [401, 401]
    assert opened.doors.devices() == ()
    assert try_in(opened.phone(), code, passphrase="quite another four words").status_code == 403


def test_a_device_that_stayed_away_for_ninety_days_is_a_stranger(opened: House) -> None:
    phone = opened.paired()

    opened.clock.go_on(timedelta(days=90))

    assert phone.get(PAGE).status_code == 401
    assert opened.doors.devices() == ()


def test_each_visit_begins_the_ninety_days_anew_and_renews_the_cookie(opened: House) -> None:
    phone = opened.paired()
    for _ in range(3):
        opened.clock.go_on(timedelta(days=60))
        answer = phone.get(PAGE)
        assert answer.status_code == 200
        assert phone.cookies["stillroom"] in answer.headers["set-cookie"]

    assert opened.doors.devices()[0].seen_at == opened.clock()
    # Not written down again for each file of a page.
    opened.clock.go_on(tokens.SEEN_EVERY / 2)
    assert "set-cookie" not in phone.get(PAGE).headers


def test_a_mark_of_one_visitor_is_no_good_for_another(opened: House) -> None:
    """A stranger's form, a device's and this computer's: none stands for another."""
    from tests.web.security.house import mark_on

    phone, other = opened.paired(), opened.paired(OTHER_PHONE)
    marks = {
        "stranger": mark_on(opened.phone("192.168.1.77").get("/doors/pair").text),
        "other device": mark_on(other.get("/doors").text),
        "this computer": mark_on(opened.here().get("/doors").text),
    }

    for whose, mark in marks.items():
        answer = phone.post("/doors/leave", data={"csrf": mark})
        assert answer.status_code == 403, whose
    assert phone.get(PAGE).status_code == 200


def test_the_household_sees_only_what_it_was_let_in_for(opened: House) -> None:
    phone = opened.paired(name="First")
    opened.paired(OTHER_PHONE, name="Second one")

    page = phone.get("/doors").text

    assert "First" in page
    assert "Second one" not in page
    assert SECRET_WORD not in page


@pytest.mark.parametrize("number", [str(2**63), "9" * 30, "-" + "9" * 30])
def test_a_device_of_a_number_that_no_database_knows_is_not_there(
    opened: House, number: str
) -> None:
    answer = send(opened.here(), f"/doors/devices/{number}/revoke", "/doors")

    assert answer.status_code == 404
