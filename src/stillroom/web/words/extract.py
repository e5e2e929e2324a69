"""The catalogue that translations start from: ``python -m stillroom.web.words.extract``.

Collects the words of all templates and modules of the pages into ``locale/stillroom.pot``. Two runs
over the same words give the same bytes, so that a test can tell when the file is behind.
"""

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

from babel.messages import Catalog
from babel.messages.extract import DEFAULT_KEYWORDS, extract
from babel.messages.pofile import write_po

from stillroom.web.words.catalogue import LOCALE

TEMPLATE = LOCALE / "stillroom.pot"
_WEB = Path(__file__).parent.parent
# File name ending: the way to read it, and what that way is told.
_WAYS: dict[str, tuple[str, dict[str, Any]]] = {
    ".html": ("jinja2", {"silent": "false", "trimmed": "true"}),
    ".py": ("python", {}),
}
_HEADER = """\
# Words of Stillroom's pages. To translate: copy this file to LANGUAGE.po and fill in each msgstr.
# Words between %( and )s stand for figures and names; keep them as they are.
#"""


def words() -> Catalog:
    """Every message of the pages, with the files it stands in.

    Raises
    ------
    jinja2.exceptions.TemplateSyntaxError
        A template cannot be read.
    """
    catalogue = Catalog(project="Stillroom", header_comment=_HEADER, charset="utf-8")
    for place, message, comments, context in _messages():
        catalogue.add(message, None, [(place, 0)], auto_comments=comments, context=context)
    return catalogue


def written(catalogue: Catalog) -> bytes:
    """The catalogue as a file: in order of its words, and without the moment it was made."""
    file = BytesIO()
    write_po(file, catalogue, width=100, sort_output=True, include_lineno=False)
    lines = file.getvalue().decode("utf-8").splitlines(keepends=True)
    moving = ('"POT-Creation-Date:', '"PO-Revision-Date:', '"Generated-By:')
    return "".join(line for line in lines if not line.startswith(moving)).encode("utf-8")


def _messages() -> Iterator[tuple[str, Any, list[str], str | None]]:
    for path in sorted(_WEB.rglob("*")):
        if path.suffix not in _WAYS:
            continue
        way, options = _WAYS[path.suffix]
        with path.open("rb") as file:
            found = list(
                extract(way, file, DEFAULT_KEYWORDS, comment_tags=("Word:",), options=options)
            )
        for _, message, comments, context in found:
            yield path.relative_to(_WEB).as_posix(), message, comments, context


def main() -> int:
    """Write the file and say how many messages it holds."""
    catalogue = words()
    TEMPLATE.write_bytes(written(catalogue))
    sys.stdout.write(f"{TEMPLATE.name}: {len(catalogue)} messages\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
