"""The doors in a real browser: a phone is let in without scripts, and another site gets nothing."""

import threading
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import ClassVar

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.looking import small_targets, too_wide, violations
from tests.browser.opening import DESKTOP, PHONE, browser
from tests.web.security.house import PASSPHRASE
from tests.web.security.test_serve import Running, running

# Another address of this computer's loopback: no name of this computer's own, so a stranger's.
ELSEWHERE_HERE = "127.0.0.2"


@pytest.fixture(scope="module")
def chrome() -> Iterator[Browser]:
    with browser() as started:
        yield started


@pytest.fixture(scope="module")
def serving(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    options = ("--port", "0", "--open-to-household")
    with running(tmp_path_factory.mktemp("browser"), *options) as one:
        yield one


@pytest.fixture(scope="module")
def secured(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    options = ("--port", "0", "--open-to-household", "--https")
    with running(tmp_path_factory.mktemp("secured"), *options) as one:
        yield one


def _window(chrome: Browser, address: str, size: tuple[int, int], *, scripts: bool = True) -> Page:
    context = chrome.new_context(
        viewport={"width": size[0], "height": size[1]},
        java_script_enabled=scripts,
        ignore_https_errors=True,
    )
    context.set_default_timeout(15_000)
    page = context.new_page()
    page.goto(address)
    return page


def _choose_passphrase(page: Page) -> None:
    page.get_by_label("Passphrase", exact=True).fill(PASSPHRASE)
    page.get_by_label("The same again").fill(PASSPHRASE)
    page.get_by_role("button", name="Keep the passphrase").click()
    # The hash takes its time; the click does not wait for the page after it.
    page.get_by_role("heading", name="Another passphrase").wait_for()


def test_a_phone_is_let_in_with_scripts_off_and_turned_away_again(
    chrome: Browser, serving: Running
) -> None:
    """The browser sends its own Origin with each form, so this also holds the referrer policy."""
    here = _window(chrome, f"http://localhost:{serving.port}/doors", DESKTOP, scripts=False)
    _choose_passphrase(here)
    here.get_by_role("button", name="Show a code").click()
    code = here.locator("#code .figure").inner_text()
    address = f"http://{ELSEWHERE_HERE}:{serving.port}/foods?elevation=5430+ft"

    phone = _window(chrome, address, PHONE, scripts=False)
    assert "/doors/pair" in phone.url
    phone.get_by_label("Code").fill(code)
    phone.get_by_label("Passphrase of the household").fill("not this one at all")
    phone.get_by_label("What to call this device").fill("Kitchen tablet")
    phone.get_by_role("button", name="Let it in").click()
    phone.get_by_role("alert").wait_for()
    assert phone.get_by_label("What to call this device").input_value() == "Kitchen tablet"
    phone.get_by_label("Passphrase of the household").fill(PASSPHRASE)
    phone.get_by_role("button", name="Let it in").click()
    phone.wait_for_url(address)

    here.reload()
    here.get_by_role("button", name="Turn away Kitchen tablet").click()
    here.get_by_text("None.", exact=True).wait_for()
    phone.reload()
    assert "/doors/pair" in phone.url
    for page in (here, phone):
        page.context.close()


ATTACK = """<!doctype html><title>elsewhere</title>
<form id="form" method="post" action="{site}/doors/passphrase" target="frame">
<input name="passphrase" value="words of somebody else"><input name="again"
value="words of somebody else"></form>
<iframe name="frame"></iframe><iframe id="inside" src="{site}/doors"></iframe>
<script>
window.got = {{}};
const tell = (what) => (value) => {{ window.got[what] = String(value); }};
const asked = [
  fetch("{site}/api/openapi.json").then((r) => r.text()).then(tell("read"), tell("no-read")),
  fetch("{site}/doors/passphrase", {{method: "POST", mode: "no-cors", body:
    new URLSearchParams({{passphrase: "words of theirs", again: "words of theirs"}})}}).then(
    (r) => tell("blind")(r.status + r.type), tell("no-blind")),
  fetch("{site}/doors/code", {{method: "POST", headers: {{"X-Stillroom": "1"}}, body: "{{}}"}})
    .then((r) => r.text()).then(tell("header"), tell("no-header")),
  new Promise((done) => {{
    const image = new Image();
    image.onload = () => done(tell("image")(1)); image.onerror = () => done(tell("no-image")(1));
    image.src = "{site}/static/mark.svg";
  }}),
  new Promise((done) => {{
    const script = document.createElement("script");
    script.onload = () => done(tell("script")(1));
    script.onerror = () => done(tell("no-script")(1));
    script.src = "{site}/static/js/main.js"; document.head.append(script);
  }}),
];
document.getElementById("form").submit();
Promise.allSettled(asked).then(() => {{ window.done = true; }});
</script>"""


class _Elsewhere(BaseHTTPRequestHandler):
    """Another site: one page that tries all it can."""

    site: ClassVar[str] = ""

    def do_GET(self) -> None:
        page = ATTACK.format(site=self.site).encode()
        self.send_response(200)
        self.send_header("content-type", "text/html")
        self.send_header("content-length", str(len(page)))
        self.end_headers()
        self.wfile.write(page)

    def log_message(self, *_: object) -> None:
        """Say nothing."""


@pytest.fixture
def elsewhere(plain: Running) -> Iterator[str]:
    attacking = type("Attacking", (_Elsewhere,), {"site": f"http://localhost:{plain.port}"})
    server = ThreadingHTTPServer(("127.0.0.1", 0), attacking)
    thread = threading.Thread(target=server.serve_forever)
    thread.start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    thread.join()
    server.server_close()


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    with running(tmp_path_factory.mktemp("attacked"), "--port", "0") as one:
        yield one


def test_another_site_in_the_same_browser_reads_nothing_and_changes_nothing(
    chrome: Browser, plain: Running, elsewhere: str
) -> None:
    """This computer needs no log-in, so all that keeps another site out is the gate."""
    page = _window(chrome, elsewhere, DESKTOP)
    page.wait_for_function("window.done")
    got = page.evaluate("window.got")

    # An opaque answer (status 0) is all that a blind request may have; it was refused.
    assert set(got) <= {"no-read", "blind", "no-blind", "no-header", "no-image", "no-script"}
    assert {"no-read", "no-header", "no-image", "no-script"} <= set(got)
    assert got.get("blind", "0opaque") == "0opaque"
    # A page that may not be framed leaves the browser's own error in the frame.
    inside = [frame.url for frame in page.frames[1:]]
    assert inside == ["chrome-error://chromewebdata/"] * 2
    here = _window(chrome, f"http://localhost:{plain.port}/doors", DESKTOP)
    assert here.get_by_role("heading", name="Choose a passphrase").is_visible()
    for window in (page, here):
        window.context.close()


def test_the_way_that_other_site_tried_is_open_from_our_own_page(
    chrome: Browser, plain: Running, tmp_path: Path
) -> None:
    """Else the test above would hold because nothing works at all."""
    here = _window(chrome, f"http://localhost:{plain.port}/doors", DESKTOP)

    _choose_passphrase(here)

    assert here.get_by_role("heading", name="Choose a passphrase").count() == 0
    here.context.close()


@pytest.mark.parametrize("size", [PHONE, DESKTOP], ids=["phone", "desktop"])
def test_the_pages_of_the_open_door_are_found_good_by_axe_and_thumb(
    chrome: Browser, secured: Running, size: tuple[int, int]
) -> None:
    here = _window(chrome, f"http://localhost:{secured.port}/doors", size)
    if here.get_by_role("heading", name="Choose a passphrase").is_visible():
        _choose_passphrase(here)
        here.get_by_role("button", name="Show a code").click()
    here.get_by_role("button", name="Show another code").wait_for()
    outside = f"https://{ELSEWHERE_HERE}:{secured.port + 1}"
    pages = [here, *(_window(chrome, outside + at, size) for at in ("/doors/pair", "/doors/trust"))]

    for page in pages:
        assert page.locator("h1").is_visible()
        assert violations(page) == [], page.url
        assert small_targets(page) == [], page.url
        assert too_wide(page) == [], page.url
    for page in pages:
        page.context.close()
