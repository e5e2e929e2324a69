"""Forms of the pages of days, sent as a browser without scripts sends them."""

import re
from typing import Any

from fastapi.testclient import TestClient
from httpx2 import Response


def marked(client: TestClient, path: str) -> dict[str, str]:
    """The hidden fields of a page's forms: the page's mark, and the version it was made from."""
    page = client.get(path).text
    found = re.findall(r'name="(csrf|version)" value="([^"]*)"', page)
    assert found, page
    return dict(found)


def sent(
    client: TestClient, path: str, fields: dict[str, Any], *, seen: str | None = None
) -> Response:
    """A form sent with these fields; ``seen`` is the page it stands on, where that is another."""
    return client.post(path, data={**marked(client, seen or path), **fields})
