"""Sentences and clauses of kitchen prose, in which a period often only ends an abbreviation."""

import re
from functools import lru_cache

_SHORT = frozenset(
    "in min mins hr hrs sec secs tsp tsps tbsp tbsps tbs tb t c oz lb lbs pt pts qt qts gal gals "
    "approx pkg pkgs no vs ft f med lg sm st fl dr mr mrs temp vol pg p ed e.g i.e etc".split()
)
# Behind these a capital letter begins a new sentence all the same.
_ENDS = frozenset("in min mins hr hrs sec secs lb lbs f oz pt pts qt qts etc jars".split())


@lru_cache(maxsize=1)
def _stops() -> re.Pattern[str]:
    return re.compile(r"(?:(?P<word>[^\W\d_]*)(?P<stop>[.!?]+)[\"”')\]]*(?=\s|$))|\n+")


def sentences(text: str) -> list[str]:
    """The sentences of a text, each with its own words only.

    Examples
    --------
    >>> sentences("Hot pints, 1/4 in. headspace. Boiling water 35 min. Nothing added.")
    ['Hot pints, 1/4 in. headspace.', 'Boiling water 35 min.', 'Nothing added.']
    """
    made, start = [], 0
    for stop in _stops().finditer(text):
        end = stop.end()
        word = (stop["word"] or "").lower()
        if stop["stop"] == "." and word in _SHORT:
            following = text[end : end + 40].lstrip()[:1]
            if following and not (word in _ENDS and following.isupper()):
                continue
        piece = text[start:end].strip()
        if piece:
            made.append(piece)
        start = end
    piece = text[start:].strip()
    return [*made, piece] if piece else made


@lru_cache(maxsize=1)
def _breaks() -> re.Pattern[str]:
    return re.compile(
        r"\s*(?:[;:]|,(?![0-9]{3}\b)|(?<=[a-z])\.(?=\s)|\bthen\b|\bbut\b|\n)\s*", re.IGNORECASE
    )


def clauses(sentence: str) -> list[str]:
    """The pieces of a sentence between commas, semicolons and "then".

    Examples
    --------
    >>> clauses("Boil 5 min; half solids; 1 in.; vent; 60 min")
    ['Boil 5 min', 'half solids', '1 in', 'vent', '60 min']
    """
    return [piece.strip(" .") for piece in _breaks().split(sentence) if piece.strip(" .")]
