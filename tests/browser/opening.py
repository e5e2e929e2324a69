"""A real browser, and pages in it that are watched: console, addresses asked, policy broken."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Literal

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

Scheme = Literal["light", "dark"]
PHONE, TABLET, DESKTOP = (360, 740), (768, 1024), (1440, 900)
SIZES = {"phone": PHONE, "tablet": TABLET, "desktop": DESKTOP}
# The first lets it run as root in a container; the others keep it from asking the outside.
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
# Told of every page to the page itself, before its own scripts: shifts and broken policy.
_WATCH = """
window.stillroomShifts = [];
new PerformanceObserver((list) => {
  for (const entry of list.getEntries()) {
    if (entry.hadRecentInput) continue;
    const moved = entry.sources.map((s) => s.node && `${s.node.nodeName}.${s.node.className}`);
    window.stillroomShifts.push([entry.value, moved.join(" ")]);
  }
}).observe({type: "layout-shift", buffered: true});
addEventListener("securitypolicyviolation", (event) => {
  console.error(`policy: ${event.violatedDirective} ${event.blockedURI} ${event.sourceFile}`);
});
"""


def chromium() -> str:
    """The browser's program.

    Raises
    ------
    RuntimeError
        There is none; the tests then fail rather than say nothing.
    """
    wished = os.environ.get("STILLROOM_BROWSER", "chromium")
    found = shutil.which(wished)
    if not found:
        raise RuntimeError(f"{wished} is not installed. ./do test installs it on Debian.")
    return found


@contextmanager
def browser() -> Iterator[Browser]:
    """A browser, closed when the block ends."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium(), args=list(FLAGS))
        try:
            yield started
        finally:
            started.close()


@dataclass
class Watch:
    """What a browser's windows did that they should not have."""

    origin: str
    outside: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    expected: tuple[str, ...] = ()

    def on(self, context: BrowserContext) -> None:
        """Watch every page of a context."""
        context.on("request", lambda request: self._asked(request.url))
        context.on("console", lambda m: self._heard(m.type, m.text))
        context.on("weberror", lambda wrong: self._heard("error", str(wrong.error)))

    def expect(self, *texts: str) -> None:
        """Do not mind console messages that hold one of the texts, such as "409"."""
        self.expected = (*self.expected, *texts)

    def faults(self) -> list[str]:
        """What was wrong, in its order."""
        said = [s for s in self.said if not any(text in s for text in self.expected)]
        return [f"asked {url}" for url in self.outside] + said

    def _asked(self, url: str) -> None:
        if not url.startswith((f"{self.origin}/", "data:", "blob:")):
            self.outside.append(url)

    def _heard(self, kind: str, text: str) -> None:
        if kind in ("error", "warning"):
            self.said.append(f"{kind}: {text}")


@dataclass
class Windows:
    """Windows of one browser on one site; ``watch`` sees all of them."""

    browser: Browser
    origin: str
    watch: Watch
    contexts: list[BrowserContext] = field(default_factory=list)

    def open(
        self,
        path: str = "/",
        size: tuple[int, int] = PHONE,
        *,
        scheme: Scheme = "light",
        scripts: bool = True,
        still: bool = True,
    ) -> Page:
        """A window of its own: a new visitor with nothing remembered.

        Parameters
        ----------
        path : where it begins
        size : CSS pixels
        scheme : which colors the person asked for
        scripts : whether scripts run
        still : the person asked for no motion
        """
        context = self.browser.new_context(
            base_url=self.origin,
            viewport={"width": size[0], "height": size[1]},
            color_scheme=scheme,
            java_script_enabled=scripts,
            reduced_motion="reduce" if still else "no-preference",
            locale="en-US",
            timezone_id="UTC",
        )
        context.set_default_timeout(8_000)
        self.contexts.append(context)
        self.watch.on(context)
        if scripts:
            context.add_init_script(_WATCH)
        page = context.new_page()
        page.goto(path)
        return page

    def close(self) -> None:
        """Close every window."""
        for context in self.contexts:
            context.close()
        self.contexts.clear()
