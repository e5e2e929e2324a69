"""A food's published processes sorted for one kitchen: what to choose, and the answer."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple
from urllib.parse import quote, urlencode

from stillroom.kitchen import Canner
from stillroom.processes import Answer, Match, Refusal, library, lookup
from stillroom.units.jars import SIZES
from stillroom.web.views.printed import Printed, Setting, printed

PACKS = ("hot", "raw")
_USUAL_JARS = ("quart", "pint", "half-pint")


class Asked(NamedTuple):
    """What the address asks: words as typed, "" where nothing was chosen."""

    food: str
    form: str = ""
    pack: str = ""
    jar: str = ""
    elevation: str = ""


class Choice(NamedTuple):
    """One thing to choose: its name, where it leads, whether it is chosen, and a word beside."""

    name: str
    path: str
    chosen: bool = False
    beside: str = ""


@dataclass(frozen=True, slots=True)
class Food:
    """The answer for one food. Either ``refusal``, or ``forms`` to choose from, or ``settings``.

    ``printed`` are the rows, sorted by the household's canners.
    """

    asked: Asked
    title: str
    feet: int
    refusal: Refusal | None = None
    candidates: tuple[Choice, ...] = ()
    forms: tuple[Choice, ...] = ()
    packs: tuple[Choice, ...] = ()
    jars: tuple[Choice, ...] = ()
    more_jars: tuple[Choice, ...] = ()
    pack: str = ""
    jar: str = ""
    printed: Printed = field(default_factory=Printed)

    @property
    def requires(self) -> tuple[str, ...]:
        """What to do first, each once."""
        return _once(told for s in self._all for told in s.match.requires)

    @property
    def notes(self) -> tuple[str, ...]:
        """Notes of the rows, each once."""
        return _once(told for s in self._all for told in s.match.notes)

    @property
    def sources(self) -> tuple[str, ...]:
        """Where the rows were printed, each once."""
        return _once(s.match.process.citation for s in self._all)

    @property
    def pressures(self) -> tuple[int, ...]:
        """The printed pounds, each once."""
        return tuple(sorted({s.match.process.psi or 0 for s in self.printed.own if s.is_pressure}))

    @property
    def _all(self) -> tuple[Setting, ...]:
        return self.printed.own + self.printed.others


def path_of(asked: Asked) -> str:
    """The address of a question.

    Examples
    --------
    >>> path_of(Asked("snap beans", jar="quart"))
    '/foods/snap%20beans?jar=quart'
    """
    rest = {key: value for key, value in asked._asdict().items() if value and key != "food"}
    return f"/foods/{quote(asked.food, safe='')}" + (f"?{urlencode(rest)}" if rest else "")


def names() -> tuple[str, ...]:
    """Foods of the library in order of the alphabet."""
    return tuple(sorted(library.forms()))


def found(words: str) -> tuple[str, ...]:
    """Foods that hold the words in their name or a cut; all of them for no words."""
    wanted = words.lower().split()
    return tuple(
        food
        for food, forms in sorted(library.forms().items())
        if all(word in f"{food} {' '.join(forms)}".lower() for word in wanted)
    )


def ask(asked: Asked, feet: int, canners: Iterable[Canner]) -> Food:
    """The published processes for one kitchen, narrowed as far as the address asks.

    Raises
    ------
    InputError
        A jar, pack or elevation that cannot be read.
    """
    every = _look(asked._replace(pack="", jar=""), feet)
    if every.refusal:
        return _refused(asked, feet, every)
    forms = tuple(dict.fromkeys((m.process.food, m.process.form) for m in every.matches))
    if len(forms) > 1:
        return Food(asked, asked.food, feet, forms=_forms(asked, every.matches))
    food, form = forms[0]
    title = f"{food}, {form}" if form else food
    listed_packs = _packs(every.matches)
    pack = asked.pack or listed_packs[0]
    in_pack = [m for m in every.matches if pack in m.process.pack.split(" or ")]
    listed = sorted({m.jar for m in in_pack}, key=SIZES.index)
    # A pack that is not printed has no jars; then the refusal is told for a usual one.
    jar = asked.jar or _usual(listed or sorted({m.jar for m in every.matches}, key=SIZES.index))
    answer = _look(asked._replace(pack=pack, jar=jar), feet)
    packs, jars, more = (
        tuple(Choice(p, path_of(asked._replace(pack=p)), p == pack) for p in listed_packs),
        _jars(asked, [size for size in SIZES if size in listed], jar),
        _jars(asked, [size for size in SIZES if size not in listed], jar),
    )
    narrowed = asked._replace(food=food, form=form, pack=pack, jar=jar)
    sorted_rows = printed(
        answer.matches, tuple(canners), lambda method: _look(narrowed, feet, method)
    )
    return Food(
        asked, title, feet, refusal=answer.refusal, packs=packs, jars=jars, more_jars=more,
        pack=pack, jar=jar, printed=sorted_rows,
    )  # fmt: skip


def _look(asked: Asked, feet: int, method: str = "") -> Answer:
    return lookup(
        asked.food,
        elevation=feet,
        form=asked.form or None,
        pack=asked.pack or None,
        jar=asked.jar or None,
        method=method or None,
    )


def _refused(asked: Asked, feet: int, answer: Answer) -> Food:
    meant = tuple(
        Choice(name, path_of(Asked(name, elevation=asked.elevation))) for name in answer.candidates
    )
    return Food(asked, asked.food, feet, refusal=answer.refusal, candidates=meant)


def _forms(asked: Asked, matches: tuple[Match, ...]) -> tuple[Choice, ...]:
    """Each food and cut with its packs, to choose from."""
    packs: dict[tuple[str, str], list[Match]] = {}
    for match in matches:
        packs.setdefault((match.process.food, match.process.form), []).append(match)
    several = len({food for food, _ in packs}) > 1
    return tuple(
        Choice(
            (f"{food}, {form}" if form else food) if several else form or food,
            path_of(asked._replace(food=food, form=form)),
            beside=", ".join(_packs(of)),
        )
        for (food, form), of in packs.items()
    )


def _packs(matches: Iterable[Match]) -> tuple[str, ...]:
    said = {pack for m in matches for pack in m.process.pack.split(" or ")}
    return tuple(pack for pack in PACKS if pack in said)


def _usual(listed: list[str]) -> str:
    return next((jar for jar in _USUAL_JARS if jar in listed), listed[-1])


def _jars(asked: Asked, sizes: list[str], chosen: str) -> tuple[Choice, ...]:
    return tuple(Choice(size, path_of(asked._replace(jar=size)), size == chosen) for size in sizes)


def _once(told: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(told))
