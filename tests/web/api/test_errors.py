"""Every error has one shape, and says what to do."""

import json

import pytest

from stillroom.web.security.body import FORM_BYTES
from tests.web.api.asking import JSON, Asker

CHANGE = {"x-stillroom": "1"}


@pytest.mark.parametrize(
    ("method", "target"),
    [
        ("GET", "/api/recipes/none"),
        ("PUT", "/api/recipes/none"),
        ("DELETE", "/api/recipes/none"),
        ("GET", "/api/days/none"),
        ("PUT", "/api/days/none"),
        ("DELETE", "/api/days/none"),
        ("GET", "/api/days/none/plan"),
        ("POST", "/api/days/none/plan"),
        ("GET", "/api/tasks/7"),
        ("POST", "/api/changes/7/undo"),
        ("GET", "/api/nothing/here"),
    ],
)
def test_what_is_not_there_is_404(empty: Asker, method: str, target: str) -> None:
    value = {"document": {"title": "x"}, "version": 1, "draft": True}
    body = {} if target.endswith("/plan") else value

    answer = empty.send(method, target, body)

    assert answer.status == answer.fault["status"] == 404


@pytest.mark.parametrize(
    ("body", "told"),
    [
        (b"\xff\xfe{", "Byte 0 is not text"),
        (b"{", "not JSON"),
        (b'{"recipe": NaN}', "NaN is no number"),
        (b'{"recipe": ' + b"9" * 5000 + b"}", "too many digits"),
        (b'{"recipe": "\\ud800"}', "half of a sign"),
        (b'{"recipe": {"document": {"a": ' + b"[" * 60 + b"]" * 60 + b"}}}", "nested deeper"),
        (b"[" * 100_000, "nested deeper"),
        (b'"recipe"', "dictionary"),
        (b"{}", "recipe: Field required"),
        (b'{"recipe": 7}', "recipe: Write the recipe as text"),
        (b'{"recipe": {"name": "x", "more": 1}}', "recipe.more"),
        (b'{"recipe": "beans", "jar": "qrt"}', '"quart"?'),
        (b'{"recipe": "beans", "pack": "warm"}', "pack"),
        (b"", "Field required"),
    ],
)
def test_a_body_that_cannot_be_read_is_422(empty: Asker, body: bytes, told: str) -> None:
    answer = empty.ask("POST", "/api/check", body, CHANGE | {"content-type": JSON})

    assert answer.status == 422
    assert told in answer.fault["message"]


@pytest.mark.parametrize("kind", ["text/plain", "application/xml", "", "application/json5"])
def test_a_body_that_is_not_json_is_415(empty: Asker, kind: str) -> None:
    answer = empty.ask(
        "POST", "/api/check", b'{"recipe": "beans"}', CHANGE | {"content-type": kind}
    )

    assert answer.status == answer.fault["status"] == 415


def test_json_with_its_writing_named_is_taken(empty: Asker) -> None:
    kind = {"content-type": "Application/JSON; charset=utf-8"}

    assert empty.ask("POST", "/api/check", b'{"recipe": "beans"}', CHANGE | kind).status == 200


def test_too_much_at_once_is_413(empty: Asker) -> None:
    body = json.dumps({"recipe": "x" * FORM_BYTES}).encode()

    answer = empty.ask("POST", "/api/check", body, CHANGE | {"content-type": JSON})

    assert answer.status == answer.fault["status"] == 413


def test_a_change_without_its_header_is_403(empty: Asker) -> None:
    answer = empty.ask("DELETE", "/api/recipes/x", b"", {"content-type": JSON})

    assert answer.status == answer.fault["status"] == 403
    assert "X-Stillroom" in answer.fault["message"]


def test_another_method_is_405_and_names_those_there_are(empty: Asker) -> None:
    answer = empty.send("DELETE", "/api/kitchen")

    assert answer.status == answer.fault["status"] == 405
    assert answer.headers["allow"] == "GET, PUT"


@pytest.mark.parametrize("number", ["0", "-1", "x", "1.5", "9" * 30])
def test_a_number_of_a_change_that_is_none_is_422(empty: Asker, number: str) -> None:
    answer = empty.send("POST", f"/api/changes/{number}/undo")

    assert answer.status == answer.fault["status"] == 422


def test_what_a_command_calls_an_option_is_a_key_here(empty: Asker) -> None:
    answer = empty.get("/api/process?food=carrots&elevation=0ft&jar=qrt")

    assert answer.fault["place"] == "jar"
    assert answer.fault["message"].startswith("jar: ")
