"""A recipe as it was pasted: what was understood of it, line by line, and what was not."""

from dataclasses import dataclass
from typing import Literal

from stillroom.units.amounts import Amount

Where = Literal["title", "ingredient", "method"]
What = Literal["process", "vent", "boil", "soak", "other"]
Kind = Literal["text", "page", "file"]


@dataclass(frozen=True, slots=True)
class PastedLine:
    """One ingredient.

    ``text`` is the piece as written and ``line`` its line of the paste, from 1. ``low`` and
    ``high`` are the ends of a range, equal where one number stands, ``None`` where none does.
    ``food`` is the name in the food list, "" where it is not known; ``food_said`` the words that
    were read as it. ``prep`` is how it goes in, ``remark`` parentheses and the like, as written.
    ``per`` is "" for the whole batch, "jar", or a jar size. ``alternatives`` are foods joined by
    "or", the first being ``food``. ``left_over`` are the pieces that nothing explains.

    ``joint`` marks a food that shares the amount of the line before it ("2 lb red and green
    peppers"), ``implied`` one that the line does not name and the title does. ``mended`` tells a
    slip of spelling that was read as a food. ``from_method`` marks an amount found in the method
    and in no ingredient line. ``section`` is the heading it stands under.
    """

    text: str
    line: int
    low: Amount | None = None
    high: Amount | None = None
    unit_said: str = ""
    food: str = ""
    food_said: str = ""
    prep: str = ""
    remark: str = ""
    per: str = ""
    optional: bool = False
    to_taste: bool = False
    to_cover: bool = False
    alternatives: tuple[str, ...] = ()
    left_over: tuple[str, ...] = ()
    joint: bool = False
    implied: bool = False
    at_serving: bool = False
    mended: str = ""
    from_method: bool = False
    section: str = ""

    @property
    def amount(self) -> Amount | None:
        """The amount that counts when judging: the upper end of a range."""
        return self.high

    @property
    def explained(self) -> bool:
        """Whether every piece of the line was understood."""
        return not self.left_over


@dataclass(frozen=True, slots=True)
class Mention:
    """A food met anywhere in the text.

    ``negated``: the text says that it stays out ("no salt", "instead of sugar"). ``at_serving``:
    it joins on serving day, not in the jar.
    """

    food: str
    said: str
    line: int
    where: Where
    sentence: str
    negated: bool = False
    at_serving: bool = False


@dataclass(frozen=True, slots=True)
class Minutes:
    """Minutes as said: of the process, of venting, of boiling the food, of soaking, or other.

    ``minutes`` is the lower end of a range; ``jar`` the jar size it is said for, or "".
    """

    minutes: int
    what: What
    jar: str
    said: str
    line: int


@dataclass(frozen=True, slots=True)
class Facts:
    """What title and method say about pack, jars and process. Empty where nothing is said.

    ``jars`` are jar sizes said, not quantities of food; ``headspaces`` inches; ``psi`` pounds of
    gauge pressure. ``makes`` are counts of jars with their size.
    """

    packs: tuple[str, ...] = ()
    jars: tuple[str, ...] = ()
    headspaces: tuple[float, ...] = ()
    minutes: tuple[Minutes, ...] = ()
    psi: tuple[float, ...] = ()
    methods: tuple[str, ...] = ()
    half_solids: bool | None = None
    vinegar_percent: tuple[float, ...] = ()
    pureed: bool = False
    thickened: bool = False
    soaked: bool | None = None
    vent_said: bool = False
    own_source: str = ""
    makes: tuple[tuple[int, str], ...] = ()
    flags: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Pasted:
    """A pasted recipe.

    ``mentions`` are all foods met, longest names first where they overlap; ``method`` the
    sentences of the method in order; ``not_understood`` the (line, text) pairs that a person must
    settle. ``kind`` tells whether it came as plain text, a saved page or a recipe file;
    ``source_text`` is the text as it was read.
    """

    title: str
    lines: tuple[PastedLine, ...]
    mentions: tuple[Mention, ...]
    facts: Facts
    method: tuple[str, ...]
    not_understood: tuple[tuple[int, str], ...]
    kind: Kind = "text"
    source_text: str = ""
