"""A recipe to be judged: what is in the jar, what it is to follow, and what is printed for that."""

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from stillroom.foods.vocabulary import Food, find_food
from stillroom.processes import library, lookup, names
from stillroom.processes.model import PRESSURE, Answer, Process
from stillroom.recipes.check.tables import Base, base_for
from stillroom.recipes.pasted import Mention, Minutes, Pasted, PastedLine

_FEET = re.compile(r"(\d{1,2},?\d{3}|\d{3,5})\s*(?:(?:ft|feet|foot)\b|['’′](?!\w))", re.IGNORECASE)
_MILE_HIGH = re.compile(r"\bmile[- ]high\b", re.IGNORECASE)
_MILE = 5280  # feet
_METERS = re.compile(
    r"(?:altitude|elevation|live|up|are)\D{0,12}?(\d,?\d{3}|\d{3})\s*m(?:et(?:er|re)s?)?\b"
    r"|(\d,?\d{3}|\d{3})\s*m(?:et(?:er|re)s?)?\s+(?:altitude|elevation|above|up|high)\b",
    re.IGNORECASE,
)
_LONGEST = 600  # minutes; more is no time ("2000 m")
_FOOT = 0.3048  # meters, exact

_SOAKING = frozenset(["water", "canning salt", "ice", "pickling lime"])
_POURED_OFF = re.compile(r"\b(?:soak|stand|hold)\b.*?\b(?:drain|rinse|pour\s+off)\w*")
_MINUTES = re.compile(r"\b(\d{1,3})\s*(?:(?:-|–|to|or)\s*\d{1,3}\s*)?min", re.IGNORECASE)
# A sentence that is all about serving day: it says so before anything else.
_LATER = re.compile(
    r"\W*(?:to\s+serve|for\s+serving|(?:on|for)\s+serving\s+day|at\s+the\s+table"
    r"|when\s+(?:serving|(?:i|you|we|they)\s+(?:open|serve)))\b[^.;]{0,20}?[:,]",
    re.IGNORECASE,
)


def _said(line: PastedLine, name: str) -> str:
    """A food as its line writes it; one of several by its own name."""
    return line.food_said if name == line.food and line.food_said else name


_TWICE = re.compile(
    r"\b(?:never|not|don't|dont|no need to|nobody|no one)\s+(?:\w+\s+)?"
    r"(?:without|skip\w*|omit\w*|leav\w*\s+(?:\w+\s+)?out|forget\w*|instead|rather)\b"
    r"|\b(?:can't|cannot|couldn't|wouldn't|won't)\s+(?:\w+\s+){0,2}?(?:without|skip|omit|leave)\b"
    r"|\b(?:complete|right|the\s+same|good|soup)\s+without\b"
    r"|\bbut\s+i\s+(?:don't|do\s+not|never)\b"
)


def _denied(mention: Mention) -> bool:
    """Whether a sentence keeps a food out; "do not leave out the flour" keeps it in."""
    return mention.negated and not _TWICE.search(mention.sentence.lower().replace("’", "'"))


_THE = r"(?:the\s+|any\s+|all\s+|excess\s+)*(?:\w+\s+)?"
_SKIMMED = rf"(?:(?:skim|trim|drain)\w*|pour\w*\s+off)\s+(?:off\s+)?{_THE}"
_AND = r"(?:(?:,|\s+and|\s*&)\s+\w+)?"
_GONE = rf"{_AND}\s+(?:is\s+|all\s+)?(?:trimmed|skimmed|removed|off|drained|discarded|out|cut)\b"


def _taken_off(mention: Mention) -> bool:
    """Fat that is skimmed or trimmed, bones taken out, water that a canner stands in."""
    said, sentence = re.escape(mention.said.lower()), mention.sentence.lower()
    if mention.food == "water" and "canner" in sentence:
        return True
    # Only fat and what is thrown away goes: drained noodles are still in the jar.
    if find_food(mention.food).roles & {"fat", "oil", "water", "broth", "dairy"} and re.search(
        rf"\b{_SKIMMED}{said}\b(?!\s+milk)|\b{said}{_GONE}", sentence
    ):
        return True
    return bool(re.search(rf"\b(?:remov|discard)\w*\s+{_THE}{said}\b(?!\s+from)", sentence))


@dataclass(frozen=True, slots=True)
class Item:
    """One food that goes into the jar: as written, where, and the lines that hold it.

    ``lines`` is empty where only the method names it.
    """

    food: Food
    said: str
    line: int
    lines: tuple[PastedLine, ...]

    @property
    def fresh(self) -> bool:
        """Whether it is written as fresh and not as dried."""
        words = f"{self.said} {' '.join(one.text for one in self.lines)}".lower()
        return "fresh" in words and "dried" not in words


@dataclass(frozen=True)
class Case:
    """A pasted recipe and what it is to be held against; ``""`` where a thing is not told.

    ``base`` is what the person named; ``method`` is "boiling-water" or "pressure".
    """

    pasted: Pasted
    base: str
    jar: str
    method: str
    pack: str

    @cached_property
    def found(self) -> names.Found:
        """What the named base means, or what the title means where it is a food's own name."""
        if self.base:
            return names.find(self.base)
        title = re.sub(r"[^\w\s,'-]", " ", self.pasted.title).strip()
        found = names.find(title) if title else names.Found()
        return found if len(found.targets) == 1 and not found.read_as else names.Found()

    @cached_property
    def target(self) -> tuple[str, str] | None:
        """The food of the library, and its form or ""."""
        return self.found.targets[0] if self.found.targets else None

    @cached_property
    def rules_of_base(self) -> Base | None:
        """What the published product may hold, by its row."""
        return base_for(*self.target) if self.target else None

    @property
    def family(self) -> str:
        """The family of the published product, or ""."""
        return self.rules_of_base.family if self.rules_of_base else ""

    @cached_property
    def kept_cold(self) -> bool:
        """Whether the recipe is for refrigerator or freezer, and no canner is asked for."""
        cold = {"refrigerator", "freezer"} & set(self.pasted.facts.methods)
        return bool(cold) and not self.method and not self.process_minutes

    @property
    def title_tells(self) -> bool:
        """Whether the title is more than a name: it tells amounts, or a list."""
        return bool(re.search(r"\d|,|;|\+", self.pasted.title))

    def source_line(self, number: int) -> str:
        """A line of the paste as written, lower case; "" for no line of it."""
        lines = self.pasted.source_text.splitlines()
        return lines[number - 1].lower() if 0 < number <= len(lines) else ""

    @cached_property
    def title_words(self) -> str:
        """The title, lower case."""
        return self.pasted.title.lower()

    @property
    def food_name(self) -> str:
        """What the recipe is to be, in words."""
        return self.target[0] if self.target else self.base or self.pasted.title or "this recipe"

    @cached_property
    def feet(self) -> int:
        """The elevation that the text tells, or 0."""
        told = [int(m.group(1).replace(",", "")) for m in _FEET.finditer(self.text)]
        for m in _METERS.finditer(self.text):
            told.append(math.ceil(int((m.group(1) or m.group(2)).replace(",", "")) / _FOOT))
        if _MILE_HIGH.search(self.text):
            told.append(_MILE)
        return max(told, default=0)

    @cached_property
    def text(self) -> str:
        """All that was pasted, lower case."""
        lines = [self.pasted.title, *(one.text for one in self.pasted.lines)]
        return "\n".join([*lines, *self.pasted.method, self.pasted.source_text]).lower()

    @cached_property
    def answer(self) -> Answer | None:
        """What the tables print for the base, jar, pack and method."""
        if not self.target:
            return None
        food, form = self.target
        return lookup(
            food,
            form=form or None,
            elevation=self.feet,
            jar=self.jar or None,
            pack=self.pack or None,
            method=self.method or None,
        )

    @cached_property
    def any_row(self) -> tuple[Process, ...]:
        """Rows of the base for whatever jar, pack and method, at the lowest elevation."""
        if not self.target:
            return ()
        food, form = self.target
        return lookup(food, form=form or None, elevation=0).processes

    @property
    def rows(self) -> tuple[Process, ...]:
        """The printed rows that fit what was asked."""
        return self.answer.processes if self.answer else ()

    @property
    def under_pressure(self) -> bool:
        """Whether the recipe is asked for under pressure."""
        return self.method == "pressure" or self.method in PRESSURE

    @cached_property
    def items(self) -> tuple[Item, ...]:
        """Foods of the ingredient lines, then foods that only the method puts into the jar."""
        seen: dict[str, list[PastedLine]] = {}
        of_lime = False  # the line behind pickling lime: gallons of water are poured off
        for line in self.pasted.lines:
            beside = line.food in _SOAKING and (
                self._not_in_jar(line)
                or (of_lime and line.food == "water" and line.unit_said.startswith("gal"))
            )
            of_lime = line.food == "pickling lime"
            for name in () if beside else (line.food, *line.alternatives):
                if name and not self._left_out(name, line):
                    seen.setdefault(name, []).append(line)
        made = [
            Item(find_food(name), _said(lines[0], name), lines[0].line, tuple(lines))
            for name, lines in seen.items()
        ]
        for mention in self.in_jar:
            if mention.food not in seen:
                seen[mention.food] = []
                made.append(Item(find_food(mention.food), mention.said, mention.line, ()))
        return tuple(made)

    @cached_property
    def in_jar(self) -> tuple[Mention, ...]:
        """Foods named outside the title that are neither denied nor kept for the table."""
        return tuple(
            one
            for one in self.pasted.mentions
            if (one.where != "title" or self.title_tells)
            and not _denied(one)
            and not one.at_serving
            and not _taken_off(one)
            and not _LATER.match(one.sentence)
        )

    def _not_in_jar(self, line: PastedLine) -> bool:
        """Whether water or salt is for the canner, or for a soak that is poured off."""
        written = self.source_line(line.line)
        soak = _POURED_OFF.search(written)
        at = written.find(line.text.lower())
        return "canner" in written or bool(soak and soak.start() <= at < soak.end())

    @cached_property
    def _mentioned(self) -> Mapping[tuple[str, int], list[Mention]]:
        """Mentions by food and line."""
        made: dict[tuple[str, int], list[Mention]] = {}
        for one in self.pasted.mentions:
            made.setdefault((one.food, one.line), []).append(one)
        return made

    def _left_out(self, food: str, line: PastedLine) -> bool:
        """Whether a line's food is denied or kept for the table in every mention of that line."""
        told = self._mentioned.get((food, line.line), [])
        later = line.at_serving or bool(_LATER.match(line.text))
        unmeasured = line.high is None  # "all fat and gristle trimmed away"
        return later or (
            bool(told)
            and all(_denied(m) or m.at_serving or (unmeasured and _taken_off(m)) for m in told)
        )

    def with_role(self, *roles: str) -> Iterator[Item]:
        """Items that have any of the roles."""
        for item in self.items:
            if item.food.roles & set(roles):
                yield item

    @cached_property
    def process_minutes(self) -> tuple[Minutes, ...]:
        """Minutes that the text gives as the process, for this jar where it tells them apart."""
        told = [m for m in self.pasted.facts.minutes if m.what == "process"] or self._left_minutes()
        told = [m for m in told if m.minutes <= _LONGEST]
        own = [m for m in told if m.jar == self.jar]
        return tuple(own or [m for m in told if not m.jar] or told)

    def _left_minutes(self) -> list[Minutes]:
        """Minutes in pieces that nothing else explains: a time is not lost for its place."""
        return [
            Minutes(int(found.group(1)), "process", "", found.group(0), line)
            for line, text in self.pasted.not_understood
            for found in _MINUTES.finditer(text)
        ]

    @cached_property
    def low_acid(self) -> bool:
        """Whether the published product is a low-acid food."""
        if not self.target:
            return False
        food, form = self.target
        facts = [
            f for f in library.products() if f.food == food and (not f.form or form in ("", f.form))
        ]
        return any(f.acidity == "low-acid" for f in facts)

    def holds(self, *words: str) -> bool:
        """Whether the text holds any of the words or phrases."""
        return any(re.search(rf"\b{re.escape(word)}(?:s|es)?\b", self.text) for word in words)
