"""From what a person typed to foods of the library, never by a guess."""

from functools import lru_cache
from typing import NamedTuple

from stillroom.processes import library
from stillroom.processes.library import NoProcess
from stillroom.words import claimed, key, stems

Key = frozenset[str]
Target = tuple[str, str]  # food, form; an empty form stands for all forms of the food


class Found(NamedTuple):
    """What the words mean. Exactly one of ``targets``, ``barred`` and ``candidates`` is filled."""

    targets: tuple[Target, ...] = ()
    barred: NoProcess | None = None
    candidates: tuple[str, ...] = ()
    read_as: str = ""


@lru_cache(maxsize=1)
def _targets() -> dict[Key, tuple[Target, ...]]:
    """Library names first, then other names; the library's own word always wins."""
    known: dict[Key, list[Target]] = {}
    for food, of_food in library.forms().items():
        known[key(food)] = [(food, "")]
        for form in of_food:
            if form:
                known.setdefault(key(f"{food} {form}"), [(food, form)])
    for fact in library.products():
        if fact.food:
            known.setdefault(key(fact.product), [(fact.food, fact.form)])
    own = set(known)
    for other in library.other_names():
        words = key(other.said)
        if words not in own:
            known.setdefault(words, []).append((other.food, other.form))
    return {words: tuple(dict.fromkeys(to)) for words, to in known.items()}


@lru_cache(maxsize=1)
def _barred() -> dict[Key, NoProcess]:
    return {key(entry.said): entry for entry in library.no_process()}


@lru_cache(maxsize=1)
def _remembered() -> dict[tuple[Key, str], str]:
    """Names that stand for a food by memory alone, with the food, to what their source says."""
    unsure = (other for other in library.other_names() if "from memory" in other.source)
    return {(key(other.said), other.food): other.source for other in unsure}


def doubt(text: str, food: str) -> str:
    """Why a typed name is not surely the food's: its source, where that is memory; else empty."""
    return _remembered().get((key(text), food), "")


@lru_cache(maxsize=1)
def _vocabulary() -> frozenset[str]:
    words: set[str] = set()
    for name in (*_targets(), *_barred()):
        words |= name
    return frozenset(words)


def _exact(words: Key) -> Found | None:
    if words in _targets():
        targets = _targets()[words]
        foods = tuple(dict.fromkeys(food for food, _ in targets))
        return Found(targets=targets) if len(foods) == 1 else Found(candidates=foods)
    if words in _barred():
        return Found(barred=_barred()[words])
    return None


# Words for a cut that may stand beside a food's name. No other word of a printed form may: "small",
# "juice" or "tuna" beside a name can mean another food.
_CUTS = frozenset(
    "chop chunk crush cube dice grate half julienne mince piece quarter ring section shred slice "
    "spear strip whole".split()
)


def _with_cut(words: Key) -> Found | None:
    """A known name plus words of its own printed cut: "sliced carrots", "bean pieces"."""
    best: dict[Target, int] = {}
    for name, targets in _targets().items():
        rest = words - name
        if not name < words or not rest <= _CUTS or len({food for food, _ in targets}) > 1:
            continue
        for food, form in targets:
            for printed in library.forms()[food] if not form else (form,):
                if printed and rest <= claimed(printed):
                    best[(food, printed)] = max(len(name), best.get((food, printed), 0))
    # The longest name wins: "tomato sauce" over "tomato".
    longest = max(best.values(), default=0)
    targets = tuple(target for target, size in best.items() if size == longest)
    foods = tuple(dict.fromkeys(food for food, _ in targets))
    if not foods:
        return None
    return Found(targets=targets) if len(foods) == 1 else Found(candidates=foods)


def _spelled(text: str) -> Key | None:
    """The words with small slips mended, or nothing where a slip could mean two words.

    One slip in words of six letters or more, two from ten, the first letter standing. Shorter
    foods are neighbours of each other: peas and pears, beef and beet, perch and peach.
    """
    from rapidfuzz.distance import OSA

    mended = set()
    for typed, word in stems(text).items():
        if word in _vocabulary():
            mended.add(word)
            continue
        slips = 0 if len(typed) < 6 else 1 if len(typed) < 10 else 2
        near = [
            (OSA.distance(word, other), other) for other in _vocabulary() if other[0] == word[0]
        ]
        least = min((distance for distance, _ in near), default=99)
        hits = [other for distance, other in near if distance == least]
        if least > slips or len(hits) != 1:
            return None
        mended.add(hits[0])
    return frozenset(mended)


def find(text: str) -> Found:
    """Foods and forms a typed name stands for.

    Parameters
    ----------
    text : a food as people say it, with its cut if they like: "green beans", "sliced carrots"

    Returns
    -------
    Found : targets of one food; or the rule that bars it; or candidates where the words could
        mean several foods or none. A mended slip is told in ``read_as``.

    Source
    ------
    Library names are those of the AIB-539 tables; other names stand in ``data/names.csv`` and
    ``data/no_process.csv``, each with its source.

    Examples
    --------
    >>> find("green beans").targets
    (('snap beans', ''),)
    >>> find("corn").candidates
    ('cream-style corn', 'whole-kernel corn')
    >>> find("aspargus").read_as
    'asparagus'
    """
    plain = " ".join(text.lower().split())
    if plain in library.foods():
        return Found(targets=((plain, ""),))
    words = key(text)
    found = _exact(words) or _with_cut(words)
    if found:
        return found
    mended = _spelled(text)
    if mended:
        found = _exact(mended) or _with_cut(mended)
        if found:
            return Found(found.targets, found.barred, found.candidates, " ".join(sorted(mended)))
    return Found(candidates=_candidates(words))


def _candidates(words: Key) -> tuple[str, ...]:
    """Foods of the three names that share most words, or letters, with what was typed."""
    from rapidfuzz import fuzz, process

    said = {" ".join(sorted(name)): to for name, to in _targets().items()}
    near = process.extract(
        " ".join(sorted(words)), list(said), scorer=fuzz.token_set_ratio, limit=3, score_cutoff=70
    )
    return tuple(dict.fromkeys(food for name, _, _ in near for food, _ in said[name]))
