"""Forms as a browser fills them in: what stands in a page's form, some of it typed anew."""

from html.parser import HTMLParser

from fastapi.testclient import TestClient
from httpx2 import Response


class _Forms(HTMLParser):
    """The fields of each form of a page, by the form's address, as a browser would send them."""

    def __init__(self) -> None:
        super().__init__()
        self.forms: dict[str, dict[str, str]] = {}
        self._fields: dict[str, str] = {}
        self._select = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {key: value or "" for key, value in attrs}
        name, value = given.get("name", ""), given.get("value", "")
        if tag == "form":
            self._fields = self.forms.setdefault(given.get("action", ""), {})
        elif tag == "input" and name:
            if given.get("type") not in ("checkbox", "radio") or "checked" in given:
                self._fields[name] = value
        elif tag == "select":
            self._select = name
        elif (
            tag == "option"
            and self._select
            and ("selected" in given or self._select not in self._fields)
        ):
            self._fields[self._select] = value

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            self._select = ""


def filled(page: str, path: str) -> dict[str, str]:
    """What the form with this address would send."""
    reader = _Forms()
    reader.feed(page)
    return reader.forms[path]


def send(client: TestClient, seen: Response | str, path: str, **typed: str) -> Response:
    """Fill in a form of a page and send it; a dot in a field's name is typed as two underscores.

    Parameters
    ----------
    seen : the page, or its address
    path : where the form goes
    typed : fields that are typed anew; "" empties one
    """
    page = client.get(seen).text if isinstance(seen, str) else seen.text
    fields = filled(page, path)
    return client.post(path, data={**fields, **{k.replace("__", "."): v for k, v in typed.items()}})
