"""Words as people type them: keys that forgive order and plural, and the nearest word."""

import re
from collections.abc import Iterable

_WORD = re.compile(r"[^\W_]+")

# Words that change nothing about which process is meant. "In" is none of them: grapes in syrup
# are not grape syrup.
_EMPTY = frozenset(
    "a an and canned canning fresh home homegrown jar jars of or organic our own the with".split()
)
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


def key(text: str) -> frozenset[str]:
    """The words of a name without order, plural, case and filler.

    Examples
    --------
    >>> key("Beans, Snap") == key("snap bean")
    True
    >>> sorted(key("Strips, cubes or chunks of meat"))
    ['chunk', 'cube', 'meat', 'strip']
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
    return {word: _singular(word) for word in _WORD.findall(text.lower().replace("'", ""))}


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
