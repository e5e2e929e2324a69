"""What tests of the recipe pages share: a stew as it is pasted, and forms sent as they are."""

import re
from html import unescape
from html.parser import HTMLParser

from fastapi.testclient import TestClient
from httpx2 import Response

# Invented. Without the flour it is a soup within the rule of AIB-539 Guide 4.
STEW = """\
Marit's stew (invented)
3 lb venison cubes, browned
4 cups carrots, sliced

1/2 cup flour
2 quarts beef broth
Boil 5 minutes. Half solids, half broth, 1 inch. Vent 10 min. Quarts 75 minutes."""
SETTLED = {
    "base": "soups",
    "form": "without seafood",
    "pack": "hot",
    "method": "pressure",
    "jars.quart": "yes",
    "count": "7",
    "size": "quart",
    "source": "Marit (invented)",
}


class _Fields(HTMLParser):
    """What a browser would send of the page's forms that post, were nothing changed."""

    def __init__(self) -> None:
        super().__init__()
        self.said: dict[str, str] = {}
        self._posts = False
        self._open = ""
        self._first = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {key: value or "" for key, value in attrs}
        name = told.get("name", "")
        if tag == "form":
            self._posts = told.get("method") == "post" and "undo" not in told.get("action", "")
        if not self._posts:
            return
        if tag == "input" and name and told.get("type") not in ("checkbox", "file"):
            self.said[name] = told.get("value", "")
        elif tag == "input" and told.get("type") == "checkbox" and "checked" in told:
            self.said[name] = told["value"]
        elif tag in ("textarea", "select"):
            self._open, self.said[name], self._first = name, "", True
        elif tag == "option" and self._open:
            if self._first or "selected" in told:
                self.said[self._open] = told.get("value", "")
            self._first = False

    def handle_endtag(self, tag: str) -> None:
        if tag in ("textarea", "select"):
            self._open = ""

    def handle_data(self, data: str) -> None:
        if self._open and self.lasttag == "textarea":
            self.said[self._open] += data


def fields(page: str) -> dict[str, str]:
    """The fields of a page's forms by name, with what stands in them."""
    reader = _Fields()
    reader.feed(page)
    return reader.said


def send(client: TestClient, path: str, page: str = "", **changed: str) -> Response:
    """The form of a page sent, some fields changed; ``page`` where it is not that of ``path``."""
    said = fields(page or client.get(path).text) | changed
    return client.post(path, data=said)


def shown(page: str) -> str:
    """The words of a page as a person reads them, in one line."""
    bare = re.sub(r"<script.*?</script>|<[^>]+>", " ", page, flags=re.DOTALL)
    return " ".join(unescape(bare).split())


def verdict(page: str) -> str:
    """The verdict that heads a page."""
    found = re.search(r'<h2 id="verdict">.*?</h2>', page, re.DOTALL)
    return shown(found.group(0)) if found else ""
