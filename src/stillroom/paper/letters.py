"""A person's words in letters that the printed type has."""

import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path

# They shape the emoji beside them and print nothing themselves: variation selectors, the joiner.
_SHAPING = "\ufe0e\ufe0f\u200d"

# Up to here every letter is in the vendored type or in one that Typst carries.
_LATIN = 0x24F

_FOLDER = Path(__file__).parent


def printable(text: str) -> str:
    """The text on one line, in letters that the print has.

    Emoji, which the type lacks, are told in words. Letters of writings that neither the vendored
    type nor Typst's own have are spelled in Latin letters.

    Source
    ------
    Names of signs: the Unicode Character Database of this Python. Latin spelling: ``anyascii``.

    Examples
    --------
    >>> printable("apples\\n \N{RED APPLE}")
    'apples (red apple)'
    >>> printable("борщ 梅")
    'борщ Mei'
    """
    words = _words(text)
    return " ".join(part for word in words if (part := _in_type(word))) or ("?" if words else "")


def respelled(names: Iterable[str]) -> list[str]:
    """Those names, as printed, that had to be spelled in Latin letters, each once."""
    changed = (name for name in names if any(_in_type(word) != word for word in _words(name)))
    return list(dict.fromkeys(printable(name) for name in changed))


def one_line(text: str) -> str:
    """The text on one line, without the signs that control a terminal; any writing stays.

    Examples
    --------
    >>> one_line("snap\\n\\tbeans\\a")
    'snap beans'
    """
    return " ".join("".join("" if _controls(sign) else sign for sign in text).split())


def _letter(sign: str) -> str:
    kind = unicodedata.category(sign)
    pictured = ord(sign) >= 0x1F000 or unicodedata.east_asian_width(sign) == "W"
    if kind == "So" and pictured:
        return f"({unicodedata.name(sign, 'sign').lower()})"
    skin_tone = kind == "Sk" and pictured
    return "" if sign in _SHAPING or skin_tone or _controls(sign) else sign


def _controls(sign: str) -> bool:
    return unicodedata.category(sign) == "Cc" and not sign.isspace()


def _words(text: str) -> list[str]:
    return "".join(_letter(sign) for sign in unicodedata.normalize("NFC", text)).split()


def _in_type(word: str) -> str:
    return word if all(ord(sign) <= _LATIN for sign in word) else _spelled(word)


@lru_cache(maxsize=4096)
def _spelled(word: str) -> str:
    """The word; spelled in Latin letters, without marks, or both, where there is no type for it."""
    if _prints(word):
        return word
    # 400 kB of tables, loaded only for such letters.
    from anyascii import anyascii

    spelled = "".join(sign if _prints(sign) else anyascii(sign) for sign in word)
    # A mark may have type and not the letter under it in the same type.
    bare = "".join(sign for sign in spelled if not unicodedata.category(sign).startswith("M"))
    return next(tried for tried in (spelled, bare, anyascii(word)) if _prints(tried)).strip()


@lru_cache(maxsize=4096)
def _prints(word: str) -> bool:
    """Whether a small sheet with the word can be made for the archive.

    The archive's standard (PDF/A) bars a box in place of a letter; it is how Typst tells.
    """
    import typst

    try:
        typst.compile(
            _FOLDER / "letters.typ",
            format="pdf",
            font_paths=[_FOLDER / "fonts"],
            ignore_system_fonts=True,
            sys_inputs={"word": word},
            pdf_standards="a-2b",
        )
    except typst.TypstError as told:
        if "could not be displayed" in str(told):
            return False
        raise
    return True
