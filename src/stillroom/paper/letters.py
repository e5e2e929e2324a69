"""A person's words in letters that the printed type has."""

import unicodedata

# They shape the emoji beside them and print nothing themselves: variation selectors, the joiner.
_SHAPING = "\ufe0e\ufe0f\u200d"


def printable(text: str) -> str:
    """The text on one line; emoji, which the vendored type lacks, are told in words.

    Letters of writings that neither the vendored type nor Typst's own fonts have stay as they
    are, and print as empty boxes.

    Source
    ------
    Names of signs: the Unicode Character Database of this Python.

    Examples
    --------
    >>> printable("apples\\n \N{RED APPLE}")
    'apples (red apple)'
    """
    return " ".join("".join(_letter(sign) for sign in text).split())


def _letter(sign: str) -> str:
    kind = unicodedata.category(sign)
    pictured = ord(sign) >= 0x1F000 or unicodedata.east_asian_width(sign) == "W"
    if kind == "So" and pictured:
        return f"({unicodedata.name(sign, 'sign').lower()})"
    skin_tone = kind == "Sk" and pictured
    control = kind == "Cc" and not sign.isspace()
    return "" if sign in _SHAPING or skin_tone or control else sign
