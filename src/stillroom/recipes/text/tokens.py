"""A line of text as tokens that, joined, give the line back."""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

Sort = Literal["number", "word", "space", "sign"]

_PARTS = {
    "½": Fraction(1, 2), "⅓": Fraction(1, 3), "⅔": Fraction(2, 3), "¼": Fraction(1, 4),
    "¾": Fraction(3, 4), "⅕": Fraction(1, 5), "⅖": Fraction(2, 5), "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5), "⅙": Fraction(1, 6), "⅚": Fraction(5, 6), "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Token:
    """A number, word, run of spaces or single sign; ``start`` is its place in the text.

    ``plain`` is a word in lower case without accents, else the text itself.
    """

    sort: Sort
    text: str
    start: int
    plain: str
    value: Fraction = Fraction(0)

    @property
    def end(self) -> int:
        """The place after its last character."""
        return self.start + len(self.text)


@lru_cache(maxsize=1)
def _pattern() -> re.Pattern[str]:
    signs = "".join(_PARTS)
    # "1-1/2" is one and a half; "2-3" are two numbers. A number of ten digits is no amount.
    mixed = r"[0-9]{1,6}(?:[ \u00a0]{1,2}|-|[ ]-[ ])[0-9]{1,3}[/⁄][0-9]{1,3}(?![0-9/⁄.])"
    return re.compile(
        rf"(?P<number>{mixed}"
        rf"|[0-9]{{1,6}}[ \u00a0-]?[{signs}]|[{signs}]"
        r"|[0-9]{1,4}[/⁄][0-9]{1,4}(?![0-9/⁄])"
        r"|[0-9]{1,3}(?:,[0-9]{3})+(?![0-9])"
        r"|[0-9]{0,6}\.[0-9]{1,6}(?![0-9])|[0-9]{1,9}(?![0-9]))"
        r"|(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*)"
        r"|(?P<space>\s+)"
        r"|(?P<sign>[0-9]+|.)",
        re.DOTALL,
    )


def tokens(text: str) -> tuple[Token, ...]:
    """The tokens of a text, every character in exactly one.

    Parameters
    ----------
    text : any characters

    Returns
    -------
    tuple : in order; the texts joined are the text

    Examples
    --------
    >>> [t.text for t in tokens("1 1/2 c. figs")]
    ['1 1/2', ' ', 'c', '.', ' ', 'figs']
    >>> [str(t.value) for t in tokens("1½ 1-1/2 .5 2-3") if t.sort == "number"]
    ['3/2', '3/2', '1/2', '2', '3']
    """
    made = []
    for found in _pattern().finditer(text):
        sort: Sort = found.lastgroup  # type: ignore[assignment]  # the group names are the sorts
        said = found.group()
        if sort == "word":
            made.append(Token("word", said, found.start(), plain(said)))
        elif sort == "number":
            value = _value(said)
            if value is None:
                made.append(Token("sign", said, found.start(), said))
            else:
                made.append(Token("number", said, found.start(), said, value))
        else:
            made.append(Token(sort, said, found.start(), said))
    return tuple(made)


@lru_cache(maxsize=4096)
def plain(word: str) -> str:
    """A word in lower case, without accents and apostrophes.

    Examples
    --------
    >>> plain("Jalapeño"), plain("cook’s")
    ('jalapeno', 'cooks')
    """
    if word.isascii():
        return word.lower().replace("'", "")
    apart = unicodedata.normalize("NFKD", word.lower())
    return "".join(c for c in apart if c.isalnum())


@lru_cache(maxsize=1024)
def _value(said: str) -> Fraction | None:
    value = Fraction(0)
    sign = next((s for s in _PARTS if s in said), "")
    if sign:
        value, said = _PARTS[sign], said.replace(sign, "")
    for piece in re.split(r"[ \u00a0-]+", said.replace("⁄", "/").replace(",", "")):
        top, _, bottom = piece.partition("/")
        if bottom:
            if int(bottom) == 0:
                return None
            value += Fraction(int(top), int(bottom))
        elif top:
            value += Fraction(top)
    return value
