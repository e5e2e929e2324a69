"""A language with every word of the catalogue in brackets: what is outside was missed."""

import re
from html.parser import HTMLParser
from pathlib import Path

from babel.messages import Catalog
from babel.messages.pofile import write_po

from stillroom.web.words import extract

# A real language code, since dates and numbers need one; no catalogue ships for it.
LANGUAGE = "eo"
OPEN, CLOSE = "⟦", "⟧"
_SHOWN = {"alt", "aria-label", "aria-description", "placeholder", "title"}
_VOID = {"area", "br", "hr", "img", "input", "link", "meta", "wbr"}
# Figures with their unit are written alike; ``words.show`` writes them.
_FIGURE = re.compile(
    r"[±~−-]?[\d.,:⅛¼⅜½⅝¾⅞/ \u00a0\u202f–-]+"
    r"(?:ft|m|in|cm|mm|°F|°C|kPa|psi|lb|oz|kg|g|h|min|ml|l|%|W)?\b"
)


def write_catalogue(folder: Path) -> None:
    """Put the catalogue of that language into a folder."""
    made = Catalog(locale=LANGUAGE, charset="utf-8")
    for message in extract.words():
        if not message.id:
            continue
        said = message.id if isinstance(message.id, tuple) else (message.id,)
        bracketed = tuple(f"{OPEN}{one}{CLOSE}" for one in said)
        made.add(
            message.id,
            bracketed if isinstance(message.id, tuple) else bracketed[0],
            context=message.context,
        )
    with (folder / f"{LANGUAGE}.po").open("wb") as file:
        write_po(file, made)


def outside(html: str) -> list[str]:
    """Words of a page that are in no brackets and not marked as given in the words of others.

    ``translate="no"`` marks what the household wrote and names that stay, ``lang="en"`` sentences
    and data that come in English whatever the language.
    """
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.found


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self._marked: list[tuple[str, bool]] = []
        self._depth = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        is_page = tag == "html"
        marked = (
            given.get("translate") == "no"
            or (given.get("lang") == "en" and not is_page)
            or tag in ("script", "style", "code", "kbd", "samp", "time")
        )
        inside = marked or bool(self._marked and self._marked[-1][1])
        for key, value in attrs:
            if key in _SHOWN or (key == "value" and given.get("type") == "submit"):
                self._look(value or "", f"{tag} {key}", inside, 0)
        if tag not in _VOID:
            self._marked.append((tag, inside))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self._marked.pop()

    def handle_endtag(self, tag: str) -> None:
        while self._marked and self._marked.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        tag, inside = self._marked[-1] if self._marked else ("", False)
        self._depth = self._look(data, tag, inside, self._depth)

    def _look(self, text: str, where: str, inside: bool, depth: int) -> int:
        """Note letters of a text that stand at depth 0; the depth at its end."""
        bare = []
        for sign in text:
            depth += (sign == OPEN) - (sign == CLOSE)
            if depth == 0 and sign != CLOSE:
                bare.append(sign)
        left = _FIGURE.sub(" ", " ".join("".join(bare).split()))
        if not inside and any(sign.isalpha() for sign in left):
            self.found.append(f"<{where}> {left.strip()}")
        return depth
