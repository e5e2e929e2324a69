"""Words as people type them: keys that forgive order and plural, and the nearest word."""

import re
from collections.abc import Iterable
from functools import lru_cache

_WORD = re.compile(r"[^\W_]+")
_DENIED = re.compile(r"\b(?:no|without|except)\b[^,(]*")

# Words that change nothing about which process is meant. "In", "with", "and" and "of" are none of
# them: grapes in syrup are not grape syrup, chicken with broth is not chicken broth.
_EMPTY = frozenset("a an canned canning fresh home homegrown jar jars or organic our the".split())
# Cut words, all to one form, so that "halves" finds "halved".
_CUTS = {
    "chopped": "chop",
    "crushed": "crush",
    "cubed": "cube",
    "diced": "dice",
    "flattened": "flatten",
    "grated": "grate",
    "halved": "half",
    "halves": "half",
    "julienned": "julienne",
    "mashed": "mash",
    "minced": "mince",
    "peeled": "peel",
    "pureed": "puree",
    "quartered": "quarter",
    "shredded": "shred",
    "sliced": "slice",
}


def _singular(word: str) -> str:
    if word in _CUTS:
        return _CUTS[word]
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("oes", "ches", "shes", "sses", "xes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us")) and len(word) > 3:
        return word[:-1]
    return word


# The same names are compared again and again, by every rule that is asked of a recipe.
@lru_cache(maxsize=8192)
def key(text: str) -> frozenset[str]:
    """The words of a name without order, plural, case and filler.

    Examples
    --------
    >>> key("Beans, Snap") == key("snap bean")
    True
    >>> sorted(key("Strips, cubes or chunks of meat"))
    ['chunk', 'cube', 'meat', 'of', 'strip']
    """
    words = set(stems(text).values())
    return frozenset(words - _EMPTY) or frozenset(words)


def stems(text: str) -> dict[str, str]:
    """Each word as typed, lower-cased, with the form under which names are compared.

    Examples
    --------
    >>> stems("Sliced Peaches")
    {'sliced': 'slice', 'peaches': 'peach'}
    """
    plain = text.lower().replace("'", "").replace("&", " and ").replace("+", " and ")
    return {word: _singular(word) for word in _WORD.findall(plain)}


def claimed(text: str) -> frozenset[str]:
    """The words of a printed form that it claims, without what it denies.

    Examples
    --------
    >>> sorted(claimed("crushed, no added liquid")), sorted(claimed("without bones"))
    (['crush'], [])
    >>> sorted(claimed("fatty fish except tuna (blue, salmon)"))
    ['blue', 'fatty', 'fish', 'salmon']
    """
    kept = _DENIED.sub(" ", text.lower())
    return key(kept) if kept.strip(" ,") else frozenset()


def nearest(word: str, options: Iterable[str]) -> list[str]:
    """Options that read like the word, best first, at most three.

    Examples
    --------
    >>> nearest("qart", ["pint", "quart"])
    ['quart']
    """
    # Loaded here because most calls never misspell anything.
    from rapidfuzz import fuzz, process

    found = process.extract(word, list(options), scorer=fuzz.WRatio, limit=3, score_cutoff=70)
    return [name for name, _, _ in found]


def did_you_mean(word: str, options: Iterable[str]) -> str:
    """A question to append to an error, or nothing where no option is near.

    Examples
    --------
    >>> did_you_mean("qart", ["pint", "quart"])
    ' Did you mean "quart"?'
    >>> did_you_mean("zzz", ["pint", "quart"])
    ''
    """
    found = nearest(word, options)
    return f' Did you mean "{found[0]}"?' if found else ""
