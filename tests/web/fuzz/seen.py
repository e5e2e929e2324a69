"""The pages as a visitor finds them: addresses and forms, by following every link."""

import re
from collections import deque
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

from tests.web.api.asking import Asker

MOST_PAGES = 90
# A handful of each kind is enough: what comes after /foods/ is always the same page.
MOST_ALIKE = 4


@dataclass
class Form:
    """A form with what it holds before anything is typed, its choices and its buttons."""

    action: str
    method: str
    fields: list[tuple[str, str]] = field(default_factory=list)
    choices: list[tuple[str, str]] = field(default_factory=list)
    buttons: list[tuple[str, str]] = field(default_factory=list)


@dataclass
class Seen:
    """All that was found."""

    addresses: list[str] = field(default_factory=list)
    forms: list[Form] = field(default_factory=list)


class _Page(HTMLParser):
    def __init__(self, address: str) -> None:
        super().__init__()
        self.address = address
        self.links: list[str] = []
        self.forms: list[Form] = []
        self._text: str | None = None
        self._select: str | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = {name: value or "" for name, value in attrs}
        name = told.get("name", "")
        match tag:
            case "a":
                self.links.append(told.get("href", ""))
            case "form":
                action = urljoin(self.address, told.get("action") or self.address)
                self.forms.append(Form(action, told.get("method", "get").upper()))
            case "input" if name and self.forms:
                self._input(name, told)
            case "button" if name and self.forms:
                self.forms[-1].buttons.append((name, told.get("value", "")))
            case "textarea" if name and self.forms:
                self._text = ""
                self.forms[-1].fields.append((name, ""))
            case "select" if name and self.forms:
                self._select = name
            case "option" if self._select:
                self._choice(self._select, told.get("value", ""), chosen="selected" in told)

    def _input(self, name: str, told: dict[str, str]) -> None:
        if told.get("type") in ("checkbox", "radio"):
            self._choice(name, told.get("value", "on"), chosen="checked" in told)
        else:
            self.forms[-1].fields.append((name, told.get("value", "")))

    def _choice(self, name: str, value: str, *, chosen: bool) -> None:
        self.forms[-1].choices.append((name, value))
        if chosen:
            self.forms[-1].fields.append((name, value))

    def handle_endtag(self, tag: str) -> None:
        if tag == "textarea" and self._text is not None:
            name, _ = self.forms[-1].fields[-1]
            self.forms[-1].fields[-1] = (name, self._text)
            self._text = None
        elif tag == "select":
            self._select = None

    def handle_data(self, data: str) -> None:
        if self._text is not None:
            self._text += data


def look_round(home: Asker, start: tuple[str, ...]) -> Seen:
    """Every page that links lead to from the first ones, a few of each kind, and their forms."""
    seen, known, alike = Seen(), set(start), dict[str, int]()
    waiting = deque(start)
    while waiting and len(seen.addresses) < MOST_PAGES:
        address = waiting.popleft()
        answer = home.get(address)
        if answer.status != 200 or answer.kind != "text/html":
            continue
        page = _Page(address)
        page.feed(answer.body.decode())
        seen.addresses.append(address)
        seen.forms += [form for form in page.forms if form not in seen.forms]
        for link in page.links:
            target = urljoin(address, link).partition("#")[0]
            kind = re.sub(r"[^/]+$", "", urlsplit(target).path)
            if not target.startswith("/") or target in known or alike.get(kind, 0) >= MOST_ALIKE:
                continue
            known.add(target)
            alike[kind] = alike.get(kind, 0) + 1
            waiting.append(target)
    return seen
