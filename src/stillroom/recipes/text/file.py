"""A recipe in a file: plain text, a saved web page, or our own recipe file."""

import re
from dataclasses import replace
from pathlib import Path

from stillroom.errors import InputError
from stillroom.recipes.model import Recipe
from stillroom.recipes.pasted import Facts, Mention, Minutes, Pasted, PastedLine
from stillroom.recipes.read import read_recipe
from stillroom.recipes.text.facts import read_facts
from stillroom.recipes.text.jsonld import is_page, page_text
from stillroom.recipes.text.mentions import mentions_in
from stillroom.recipes.text.page import LARGEST, read_paste
from stillroom.recipes.text.sentences import sentences
from stillroom.recipes.text.settle import settled
from stillroom.units.jars import SIZES, quarts

# A saved page carries its whole dress; the recipe in it is small.
LARGEST_PAGE = 5_000_000
_PROCESS = re.compile(r"\bprocess|\bcanner|\bpressure\b|\bpsi\b|\bwater[- ]bath\b")


def read_paste_file(path: Path, *, base: str = "") -> Pasted:
    """A recipe in a file, read.

    Parameters
    ----------
    path : a text, a saved page with schema.org Recipe data, or one of our recipe files (.toml)
    base : the food it is meant for, where the person named one

    Raises
    ------
    InputError
        No such file, not text, too large, empty, a page without recipe data, or a recipe file
        with a fault; the message names the file and what to do.

    Examples
    --------
    >>> from stillroom.recipes.read import STARTERS
    >>> read_paste_file(STARTERS / "carrots.toml").lines[0].food
    'carrots'
    """
    raw = _bytes(path)
    if path.suffix.lower() == ".toml":
        return from_recipe(read_recipe(path), raw.decode("utf-8-sig", errors="replace"))
    text = text_of(raw, path.name)
    if is_page(text):
        return read_paste(page_text(text, path.name), base=base, kind="page")
    try:
        return read_paste(text, base=base)
    except InputError as wrong:
        raise InputError(f"{path.name}: {wrong}") from None


def _bytes(path: Path) -> bytes:
    try:
        with path.open("rb") as f:
            raw = f.read(LARGEST_PAGE + 1)
    except FileNotFoundError:
        raise InputError(f"{path}: there is no such file. Check the name and folder.") from None
    except IsADirectoryError:
        raise InputError(f"{path}: this is a folder. Name the file in it.") from None
    except OSError as wrong:
        raise InputError(f"{path}: cannot be read ({wrong.strerror}).") from None
    except ValueError:
        # No file system takes a name with a NUL character in it.
        raise InputError(f"{str(path)!r}: this cannot be a file name. Write another.") from None
    if len(raw) > LARGEST_PAGE:
        raise InputError(
            f"{path.name}: more than {LARGEST_PAGE:,} bytes are too many for one recipe. Paste "
            "only the recipe itself."
        )
    return raw


def text_of(raw: bytes, name: str) -> str:
    """The text of a file in UTF-8, UTF-16 with its mark, or an older Western encoding.

    Raises
    ------
    InputError
        It is no text; the message names the file and what to do.
    """
    try:
        if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
            return raw.decode("utf-16")
        if b"\x00" not in raw:
            try:
                return raw.decode("utf-8-sig")
            except UnicodeDecodeError:
                # Older word processors save one half as the single byte BD.
                text = raw.decode("cp1252", errors="replace")
                plain = sum(c.isalnum() or c.isspace() for c in text[:LARGEST])
                letters = sum(c.isascii() for c in text[:LARGEST])
                if letters * 10 > 8 * len(text[:LARGEST]) and plain * 2 > len(text[:LARGEST]):
                    return text
    except UnicodeDecodeError:
        pass
    raise InputError(
        f"{name}: this is not text but a file of another kind. Save the recipe as plain text, or "
        "copy its words and paste them."
    )


def from_recipe(recipe: Recipe, written: str = "") -> Pasted:
    """One of our recipes in the form of a pasted one, so that both are judged alike.

    Parameters
    ----------
    recipe : as read from its file
    written : the text of the file, for line numbers; "" where there is none

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> pasted = from_recipe(starter("snap-beans"))
    >>> pasted.kind, pasted.facts.packs, pasted.facts.headspaces
    ('file', ('hot',), (1.0,))
    """
    numbers = _numbers(written)
    lines, found = [], list[Mention]()
    for one in recipe.lines:
        number = numbers.get(one.line, 1)
        lines.append(
            PastedLine(
                text=one.line,
                line=number,
                low=one.amount,
                high=one.amount,
                unit_said=one.amount.unit,
                food=one.food,
                food_said=one.line.split(",")[0].strip(),
                prep=one.prep,
                optional=one.optional,
            )
        )
        found.append(Mention(one.food, lines[-1].food_said, number, "ingredient", one.line))
    # Layers name the ingredients again. A note may put something more into the jar.
    for note in recipe.notes:
        for sentence in sentences(note):
            found += mentions_in(sentence, 0, "method")
    told = [*recipe.fill, *recipe.notes]
    read = read_facts(recipe.title, list(enumerate(told, 1)), [one.line for one in recipe.lines])
    told_minutes = tuple(_in_file(one, told) for one in read.minutes)
    return Pasted(
        title=recipe.title,
        lines=tuple(lines),
        mentions=settled(found, tuple(lines)),
        facts=_facts(recipe, replace(read, minutes=told_minutes)),
        method=tuple(told),
        not_understood=(),
        kind="file",
        source_text=written,
    )


def _facts(recipe: Recipe, read: Facts) -> Facts:
    """What the file's own keys say goes before what its notes say."""
    return Facts(
        packs=(recipe.pack,),
        jars=recipe.jars,
        headspaces=(recipe.headspace_in,),
        minutes=read.minutes,
        makes=_makes(recipe),
        half_solids=read.half_solids,
        vinegar_percent=read.vinegar_percent,
        pureed=read.pureed,
        soaked=read.soaked,
    )


def _in_file(one: Minutes, told: list[str]) -> Minutes:
    """A file leaves its process to the tables: minutes are its own only where it says so."""
    text = told[one.line - 1] if 0 < one.line <= len(told) else ""
    is_ours = one.what != "process" or _PROCESS.search(text.lower())
    return replace(one, line=0) if is_ours else replace(one, line=0, what="other")


def _makes(recipe: Recipe) -> tuple[tuple[int, str], ...]:
    """The jars that the amounts fill, counted in the largest size that comes out whole."""
    for jar in sorted(recipe.jars, key=SIZES.index, reverse=True):
        count = recipe.makes_quarts / quarts(jar)
        if count == int(count) >= 1:
            return ((int(count), jar),)
    return ()


def _numbers(written: str) -> dict[str, int]:
    """Line numbers of the texts in quotes."""
    found: dict[str, int] = {}
    for number, line in enumerate(written.splitlines(), 1):
        pieces = line.split('"')
        for piece in pieces[1::2]:
            found.setdefault(piece.strip(), number)
    return found
