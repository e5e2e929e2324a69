"""A person's words in letters that the printed type has."""

import json
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
    plain = " ".join("".join(_letter(sign) for sign in text).split())
    lacking = _lacking(plain)
    if not lacking:
        return plain
    # 400 kB of tables, loaded only for such letters.
    from anyascii import anyascii

    spelled = "".join(anyascii(sign) if sign in lacking else sign for sign in plain)
    return " ".join(spelled.split()) or "?"


def respelled(names: Iterable[str]) -> list[str]:
    """Those names, as printed, that had to be spelled in Latin letters, each once."""
    signs = {name: "".join(_letter(sign) for sign in name) for name in names}
    return list(dict.fromkeys(printable(name) for name, told in signs.items() if _lacking(told)))


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


def _lacking(text: str) -> frozenset[str]:
    return _without_type("".join(sorted({sign for sign in text if ord(sign) > _LATIN})))


@lru_cache(maxsize=256)
def _without_type(signs: str) -> frozenset[str]:
    """Those of the signs for which there is no type."""
    if not signs or _prints(signs):
        return frozenset()
    if len(signs) == 1:
        return frozenset(signs)
    half = len(signs) // 2
    return _without_type(signs[:half]) | _without_type(signs[half:])


def _prints(signs: str) -> bool:
    """Whether a small sheet with the signs can be made for the archive.

    The archive's standard (PDF/A) bars a box in place of a letter; it is how Typst tells.
    """
    import typst

    try:
        typst.compile(
            _FOLDER / "letters.typ",
            format="pdf",
            font_paths=[_FOLDER / "fonts"],
            ignore_system_fonts=True,
            sys_inputs={"signs": json.dumps(list(signs), ensure_ascii=False)},
            pdf_standards="a-2b",
        )
    except typst.TypstError as told:
        if "could not be displayed" in str(told):
            return False
        raise
    return True
