"""An ingredient in the making, and the line that it is read from."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from stillroom.recipes.text.elements import Element
from stillroom.recipes.text.kitchen_words import TURNS, filler_words, prep_words
from stillroom.recipes.text.measures import Measured
from stillroom.recipes.text.tokens import Token, tokens


@dataclass(slots=True)
class Item:
    """An ingredient in the making."""

    start: int
    measured: Measured | None = None
    food: str = ""
    food_elements: list[Element] = field(default_factory=list)
    other_foods: list[Element] = field(default_factory=list)
    words: list[Element] = field(default_factory=list)
    tail: list[Element] = field(default_factory=list)
    remarks: list[tuple[int, int]] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)
    alternatives: list[str] = field(default_factory=list)
    chained: bool = False
    joint: bool = False
    mended: str = ""
    end: int = 0


class Line:
    """One line while it is read: tokens, their roles and the items found so far."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.row: Sequence[Token] = tokens(text)
        self.roles = ["space" if t.sort == "space" else "" for t in self.row]
        self.items: list[Item] = []
        self.each: Measured | None = None

    def mark(self, start: int, end: int, role: str) -> None:
        """Give tokens their part in the line; spaces keep theirs."""
        for place in range(start, end):
            if self.roles[place] != "space":
                self.roles[place] = role

    def said(self, start: int, end: int) -> str:
        """The text of some tokens as written."""
        if end <= start:
            return ""
        return self.text[self.row[start].start : self.row[end - 1].end].strip()


def plain_word(one: Element) -> bool:
    """Whether a word only tells how a food goes in, or carries nothing."""
    word = one.stems[0]
    return word in prep_words() or word in filler_words() or word in TURNS
