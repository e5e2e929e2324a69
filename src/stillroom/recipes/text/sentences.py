"""Sentences and clauses of kitchen prose, in which a period often only ends an abbreviation."""

import re
from functools import lru_cache

_TIMES = frozenset("in min mins hr hrs sec secs".split())
# No sentence of a recipe is longer; the work on one grows faster than its length.
LONGEST = 400
_SHORT = frozenset(
    "in min mins hr hrs sec secs tsp tsps tbsp tbsps tbs tb t c oz lb lbs pt pts qt qts gal gals "
    "gr grd grnd chpd veg tom bch bn approx pkg pkgs no vs ft f med lg sm st "
    "fl dr mr mrs temp vol pg p ed etc".split()
)
# Behind these a capital letter begins a new sentence all the same.
_ENDS = frozenset("in min mins hr hrs sec secs lb lbs f oz pt pts qt qts etc jars".split())


@lru_cache(maxsize=1)
def _stops() -> re.Pattern[str]:
    return re.compile(r"(?P<stop>[.!?]+)[\"”')\]]*(?=\s|$)|\n+")


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
        word = (_last_word().search(text[max(0, stop.start() - 12) : stop.start()]) or [""])[
            0
        ].lower()
        if stop["stop"] == "." and word in _SHORT:
            following = text[end : end + 40].lstrip()[:1]
            # "Boil 5 min. 1 T lemon juice": a number begins anew behind a time or length.
            anew = (word in _ENDS and following.isupper()) or (
                word in _TIMES and following.isdigit()
            )
            if following and not anew:
                continue
        made += chunks(text[start:end].strip())
        start = end
    return [*made, *chunks(text[start:].strip())]


@lru_cache(maxsize=1)
def _last_word() -> re.Pattern[str]:
    return re.compile(r"[^\W\d_]*$")


def chunks(text: str, most: int = LONGEST) -> list[str]:
    """A text that is too long to be one sentence, cut behind a comma or space.

    Examples
    --------
    >>> chunks("salt, sugar, pepper", 13)
    ['salt, sugar,', 'pepper']
    """
    made = []
    while len(text) > most:
        cut = max(text.rfind(sign, most // 2, most) for sign in ",; ")
        cut = cut + 1 if cut > 0 else most
        made.append(text[:cut].strip())
        text = text[cut:].strip()
    return [*made, text] if text else made


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
