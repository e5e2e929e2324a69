"""What a person pasted and chose, as the form holds it."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from stillroom.errors import InputError
from stillroom.processes import library, names
from stillroom.recipes.published import PACKS
from stillroom.recipes.text.jsonld import is_page, page_text
from stillroom.units.jars import SIZES
from stillroom.web.views.recipes_asked import at

_LONGEST = 1000
METHODS = ("boiling-water", "pressure")
# As ``recipes.text.page`` counts lines.
_BREAKS = re.compile(r"\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]")


@dataclass(frozen=True, slots=True)
class Paste:
    """A pasted text and what was chosen beside it; "" where the text itself is to tell.

    ``base`` is the published food it is to follow and ``form`` its cut, ``count`` and ``size`` how
    many jars it makes. ``version`` is of the recipe it belongs to, 0 for a new one.
    """

    text: str = ""
    base: str = ""
    form: str = ""
    pack: str = ""
    method: str = ""
    jars: tuple[str, ...] = ()
    count: str = ""
    size: str = ""
    title: str = ""
    source: str = ""
    version: int = 0

    @property
    def lines(self) -> list[str]:
        """The text by its lines; the first is line 1."""
        return _BREAKS.split(self.text)

    @property
    def forms(self) -> tuple[str, ...]:
        """The cuts that are published for the base, where it names a food and no cut."""
        found = names.find(self.base) if self.base else names.Found()
        foods = {food for food, _ in found.targets}
        if len(found.targets) != 1 or found.targets[0][1]:
            return tuple(form for _, form in found.targets if form) if len(foods) == 1 else ()
        return tuple(form for form in library.forms()[found.targets[0][0]] if form)

    @property
    def judged_as(self) -> str:
        """The base with its cut, as the checker takes it."""
        return f"{self.food}, {self.form}" if self.food and self.form else self.base

    @property
    def food(self) -> str:
        """The library's name of the base, "" where it names none or several."""
        found = names.find(self.base) if self.base else names.Found()
        foods = {food for food, _ in found.targets}
        return foods.pop() if len(foods) == 1 and not found.read_as else ""

    @property
    def makes(self) -> tuple[int, str] | None:
        """How many jars of which size, ``None`` where it was not typed.

        Raises
        ------
        InputError
            It was typed in part, or is no number.
        """
        said = self.count.strip()
        if not said:
            return None
        if not (said.isascii() and said.isdigit() and 1 <= int(said[:4]) <= 999):
            raise at("count", f'"{said}" is no number of jars. Write 1 to 999.')
        if self.size not in SIZES:
            raise at("size", "Say the size of the jars that it makes.")
        return int(said), self.size


def typed(form: Mapping[str, str]) -> Paste:
    """What a form sent; changed lines are written into the text. What is no choice counts as none.

    Parameters
    ----------
    form : fields by name; "line.4" is line 4 as it was mended and "was.4" as it stood
    """
    # Longer than any name is a slip of the clipboard, and would only be slow to compare.
    said = {
        key: form.get(key, "").strip()[:_LONGEST]
        for key in ("base", "form", "count", "title", "source")
    }
    version = form.get("version", "")
    made = Paste(
        text=form.get("text", ""),
        pack=_one_of(form.get("pack", ""), PACKS),
        method=_one_of(form.get("method", ""), METHODS),
        size=_one_of(form.get("size", ""), SIZES),
        jars=tuple(size for size in SIZES if form.get(f"jars.{size}")),
        version=int(version) if version.isdecimal() and len(version) < 9 else 0,
        **said,
    )
    if made.form and made.form not in made.forms:
        made = replace(made, form="")
    return replace(made, text=_mended(made.lines, form))


def plain(paste: Paste) -> Paste:
    """The paste as plain text, where it is a saved page.

    Raises
    ------
    InputError
        The page carries no recipe data.
    """
    return replace(paste, text=page_text(paste.text, "The page")) if is_page(paste.text) else paste


def facts_of(paste: Paste) -> dict[str, Any]:
    """What the form settles of a paste; a number that cannot be read settles nothing."""
    try:
        makes = paste.makes
    except InputError:
        makes = None
    return {
        "food": paste.food,
        "form": paste.form,
        "pack": paste.pack,
        "jars": paste.jars,
        "makes": makes,
        "source": paste.source,
    }


def of_document(document: Mapping[str, Any], source_text: str, version: int) -> Paste:
    """The form of a recipe that was kept unfinished."""
    said = {key: _text(document.get(key)) for key in ("title", "source", "form", "pack")}
    count, _, size = _text(document.get("makes")).partition(" ")
    jars = document.get("jars")
    return Paste(
        text=source_text,
        base=_text(document.get("food")),
        jars=tuple(jar for jar in SIZES if isinstance(jars, list) and jar in jars),
        count=count,
        size=_one_of(size.removesuffix("s"), SIZES),
        version=version,
        **said,
    )


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _one_of(said: str, options: tuple[str, ...]) -> str:
    return said if said in options else ""


def _mended(lines: list[str], form: Mapping[str, str]) -> str:
    for number, line in enumerate(lines, 1):
        mended = form.get(f"line.{number}")
        was = form.get(f"was.{number}")
        if mended is not None and mended != was and was == line:
            lines[number - 1] = mended
    return "\n".join(lines)


def wrong_base(paste: Paste) -> InputError | None:
    """Why the base names no published food, or several."""
    if not paste.base or paste.food:
        return None
    found = names.find(paste.base)
    if found.barred:
        return at("base", f'"{paste.base}": {found.barred.reason}')
    foods = dict.fromkeys(food for food, _ in found.targets)
    meant = [*found.candidates, *foods]
    told = f" Did you mean {', '.join(meant[:5])}?" if meant else ""
    return at("base", f'"{paste.base}" is no food of the published tables.{told}')
