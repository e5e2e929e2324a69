"""No page, no JSON and no file of data without having been let in; every change needs its mark."""

from pathlib import Path

import pytest

from stillroom.web.app import STATIC
from stillroom.web.security.headers import ALWAYS
from stillroom.web.settings import Settings
from tests.web.security.house import OPEN, OPEN_HTTPS, SECRET_WORD, House, house, mark_on
from tests.web.security.routes import Way, ways


@pytest.fixture(scope="module")
def every_way(tmp_path_factory: pytest.TempPathFactory) -> list[Way]:
    with house(tmp_path_factory.mktemp("routes"), Settings()) as made:
        return ways(made.app)


# What a stranger sees, whole. The steps and the certificate are there over HTTPS only.
FOR_STRANGERS = {
    ("GET", "/doors/pair"),
    ("POST", "/doors/pair"),
    ("GET", "/doors/trust"),
    ("GET", "/doors/certificate"),
}


def _asked(made: House, way: Way, accept: str) -> tuple[int, str, str]:
    answer = made.phone().request(way.method, way.path, headers={"accept": accept})
    return answer.status_code, answer.headers.get("location", ""), answer.text


def test_the_walk_sees_pages_json_and_changes(every_way: list[Way]) -> None:
    """Else the tests below would hold for an empty list."""
    assert ("GET", "/foods/1") in every_way
    assert ("GET", "/api/openapi.json") in every_way
    assert ("POST", "/doors/devices/1/revoke") in every_way


@pytest.mark.parametrize(
    ("settings", "accept"),
    [(OPEN, "text/html"), (OPEN, "application/json"), (OPEN, "*/*"), (OPEN_HTTPS, "text/html")],
    ids=["http-page", "http-json", "http-any", "https-page"],
)
def test_nothing_answers_a_stranger_but_the_way_in(
    tmp_path: Path, every_way: list[Way], settings: Settings, accept: str
) -> None:
    with house(tmp_path, settings) as made:
        made.has_passphrase()
        for way in every_way:
            if way in FOR_STRANGERS:
                continue
            status, location, text = _asked(made, way, accept)
            is_sent_away = status == 303 and location.startswith("/doors/pair")
            assert is_sent_away or status == 401, (way, status)
            assert SECRET_WORD not in text, way
            assert SECRET_WORD not in location, way


def test_the_secret_would_be_seen_by_who_is_let_in(opened: House) -> None:
    """Else the test above would look for a word that is nowhere."""
    assert SECRET_WORD in opened.paired().get("/foods/snap beans").text


def test_what_strangers_see_holds_nothing_of_the_household(opened_https: House) -> None:
    phone = opened_https.phone()
    opened_https.paired(name="Marit's phone")

    for path in ("/doors/pair", "/doors/trust"):
        answer = phone.get(path)
        assert answer.status_code == 200
        assert SECRET_WORD not in answer.text
        assert "Marit" not in answer.text
        # No script, and no link further in.
        assert "<script" not in answer.text
        assert 'href="/foods"' not in answer.text


def test_addresses_that_are_guessed_answer_a_stranger_nothing(opened: House) -> None:
    phone = opened.phone()
    for path in (
        "/docs", "/redoc", "/openapi.json", "/api/openapi.json", "/nothing-here", "/api/x", "/data",
        "/doors/pair/", "/doors/pair/..", "/doors/../foods", "/DOORS/PAIR", "//doors/pair",
    ):  # fmt: skip
        answer = phone.get(phone.base_url.copy_with(raw_path=path.encode()))
        assert answer.status_code == 401, path
        assert "paths" not in answer.text


def test_of_shipped_files_a_stranger_sees_the_look_and_the_mark_only(opened: House) -> None:
    phone, here = opened.phone(), opened.here()
    files = [f.relative_to(STATIC).as_posix() for f in STATIC.rglob("*") if f.is_file()]
    assert {"mark.svg", "css/main.css", "js/main.js"} <= set(files)

    seen = {file for file in files if phone.get(f"/static/{file}").status_code == 200}

    assert seen == {f for f in files if f == "mark.svg" or f.startswith("css/")}
    assert all(here.get(f"/static/{file}").status_code == 200 for file in files)


UPWARDS = (
    "/static/../app.py",
    "/static/css/../../app.py",
    "/static/%2e%2e/app.py",
    "/static/css/%2e%2e/%2e%2e/app.py",
    "/static/..%2fapp.py",
    "/static/css/..%2f..%2fapp.py",
    "/static/css/..%5c..%5capp.py",
    "/static/%2fetc/passwd",
    "/static//etc/passwd",
    "/static/css/main.css/../../../app.py",
    "/static/css/%00main.css",
    "/static/css/main.css%0a",
)


def test_no_path_leads_out_of_the_shipped_files(opened: House) -> None:
    for client in (opened.here(), opened.phone()):
        for path in UPWARDS:
            # The client would tidy the path; what goes out is what is written here.
            answer = client.get(client.base_url.copy_with(raw_path=path.encode()))
            assert answer.status_code in (303, 401, 404), (path, answer.status_code)
            assert "create_app" not in answer.text, path
            assert "root:" not in answer.text, path


CHANGING = ("POST", "PUT", "PATCH", "DELETE")


def test_no_change_is_made_without_its_mark_or_for_another_site(
    closed: House, every_way: list[Way]
) -> None:
    """Each route: a form without its mark, JSON without the header, and both for another origin."""
    here = closed.here()
    mark = mark_on(here.get("/doors").text)
    changing = [way for way in every_way if way.method in CHANGING]
    assert changing
    for method, path in changing:
        for answer in (
            here.request(method, path, data={"a": "1"}),
            here.request(method, path, data={"csrf": "wrong"}),
            here.request(method, path, files={"a": ("a.txt", b"x")}),
            here.request(method, path, json={}),
            here.request(method, path),
            here.request(method, path, content=b"a=1", headers={"content-type": "text/plain"}),
            *(
                here.request(method, path, headers={"origin": origin, **added}, **sent)
                for origin in ("http://elsewhere.example", "null", "http://localhost:8643")
                for added, sent in (
                    ({}, {"data": {"csrf": mark}}),
                    ({"x-stillroom": "1"}, {"json": {}}),
                )
            ),
        ):
            assert answer.status_code == 403, (method, path, answer.request.headers)


@pytest.mark.parametrize("settings", [Settings(), OPEN, OPEN_HTTPS], ids=["here", "http", "https"])
def test_every_answer_carries_the_headers(
    tmp_path: Path, every_way: list[Way], settings: Settings
) -> None:
    """Pages, refusals, what is not there: all of them."""
    with house(tmp_path, settings) as made:
        for client in (made.here(), made.phone()):
            for method, path in [*every_way, ("GET", "/nothing"), ("GET", "/static/nothing")]:
                answer = client.request(method, path)
                assert all(answer.headers.get(name) == ALWAYS[name] for name in ALWAYS), path
                assert answer.headers["cache-control"] == "no-store", path


def test_only_a_shipped_file_that_was_found_may_be_kept(opened: House) -> None:
    here, phone = opened.here(), opened.phone()
    long, checked = "public, max-age=31536000, immutable", "no-cache"

    for client, path, expected in (
        (here, "/static/js/main.js?v=0", long),
        (here, "/static/js/main.js", checked),
        (phone, "/static/css/main.css?v=0", long),
        (phone, "/static/js/main.js?v=0", "no-store"),
        (here, "/static/js/nothing.js?v=0", "no-store"),
        (here, "/foods?v=0", "no-store"),
    ):
        assert client.get(path).headers["cache-control"] == expected, path
