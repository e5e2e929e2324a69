"""Bytes over the wire when a page is the first that a browser sees, as Chromium counts them."""

import os
from typing import Any

from playwright.sync_api import sync_playwright


def first_load(port: int, paths: list[str]) -> list[tuple[str, int]]:
    """Address and bytes, headers included, the largest first; each in a browser with no memory."""
    found = []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=os.environ.get("STILLROOM_BROWSER", "/usr/bin/chromium"),
            args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
        )
        for path in paths:
            context = browser.new_context(base_url=f"http://127.0.0.1:{port}")
            page = context.new_page()
            network = context.new_cdp_session(page)
            network.send("Network.enable")
            sizes: list[int] = []

            def count(event: dict[str, Any], sizes: list[int] = sizes) -> None:
                sizes.append(int(event["encodedDataLength"]))

            network.on("Network.loadingFinished", count)
            page.goto(path, wait_until="networkidle")
            found.append((path, sum(sizes)))
            context.close()
        browser.close()
    return sorted(found, key=lambda one: -one[1])
