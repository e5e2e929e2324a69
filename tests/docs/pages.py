"""The pages of the project and the fenced blocks in them."""

import re
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
AT_THE_TOP = [ROOT / f"{name}.md" for name in ("README", "CHANGELOG", "CONTRIBUTING", "SECURITY")]
PAGES = [*AT_THE_TOP, *sorted(DOCS.rglob("*.md"))]

BLOCK = re.compile(r"^```(\w+)([^\n]*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_TITLE = re.compile(r'title="([^"]+)"')


@dataclass(frozen=True, slots=True)
class Block:
    """One fenced block: language, title of a file or "", text, and its line on the page."""

    language: str
    title: str
    text: str
    line: int


def text(page: Path) -> str:
    """What a page holds."""
    return page.read_text(encoding="utf-8")


def name(page: Path) -> str:
    """A page as tests name it: its path in the repository."""
    return page.relative_to(ROOT).as_posix()


def blocks(page: Path) -> list[Block]:
    """The fenced blocks of a page in order."""
    whole = text(page)
    found = []
    for match in BLOCK.finditer(whole):
        title = _TITLE.search(match.group(2))
        line = whole.count("\n", 0, match.start()) + 1
        found.append(Block(match.group(1), title.group(1) if title else "", match.group(3), line))
    return found
