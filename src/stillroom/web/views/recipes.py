"""The household's recipes and the starters, as their pages need them."""

import json
import tomllib
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.recipes.check.own import judge
from stillroom.recipes.check.verdict import Checked
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import STARTERS, recipe_from, starter, starters
from stillroom.store import recipes as stored
from stillroom.toml_file import table_of

Mark = Literal["tested", "unconfirmed", "barred", "unfinished"]


@dataclass(frozen=True, slots=True)
class Kept:
    """One recipe: the household's own, or a starter.

    ``recipe`` is ``None`` where the document is not finished, and ``wrong`` then says what is
    missing first; ``judged`` is the verdict on it as it stands, ``None`` likewise. ``version`` is 0
    for a starter, which nobody changes.
    """

    slug: str
    title: str
    document: dict[str, Any]
    recipe: Recipe | None
    wrong: InputError | None = None
    source_text: str = ""
    version: int = 0
    judged: Checked | None = None

    @property
    def own(self) -> bool:
        """Whether the household wrote it."""
        return self.version > 0

    @property
    def path(self) -> str:
        """Its address."""
        return f"/recipes/{self.slug}"

    @property
    def mark(self) -> Mark:
        """How it is marked in a list."""
        return self.judged.verdict if self.judged else "unfinished"

    def holds(self, words: str) -> bool:
        """Whether every word is in its title, its food or an ingredient."""
        told = [self.title, str(self.document.get("food", ""))]
        lines = self.document.get("ingredients")
        told += [str(line) for line in lines] if isinstance(lines, list) else []
        text = " ".join(told).casefold()
        return all(word in text for word in words.casefold().split())


@dataclass(frozen=True, slots=True)
class Shelf:
    """The recipes that hold the words asked for."""

    own: tuple[Kept, ...]
    starters: tuple[Kept, ...]
    any_own: bool


def shelf(session: Session, words: str = "") -> Shelf:
    """The household's recipes by title, and the starters, that hold the words."""
    kept = [
        _own(one.slug, one.title, one.document, one.source_text, one.version)
        for one in stored.all_recipes(session)
    ]
    return Shelf(
        tuple(one for one in kept if one.holds(words)),
        tuple(one for one in map(_starter, starters()) if one.holds(words)),
        bool(kept),
    )


def kept(session: Session, slug: str, *, removed: bool = False) -> Kept | None:
    """One recipe by the name in its address, ``None`` where there is none; with ``removed`` one
    that was taken off the list, too."""
    own = stored.recipe(session, slug, removed=removed)
    if own is not None:
        return _own(own.slug, own.title, json.dumps(own.document), own.source_text, own.version)
    return _starter(slug) if slug in starters() else None


@lru_cache(maxsize=2048)
def _own(slug: str, title: str, written: str, source_text: str, version: int) -> Kept:
    document = json.loads(written)
    recipe, wrong = read(document, slug)
    judged = judge(recipe) if recipe else None
    return Kept(slug, title, document, recipe, wrong, source_text, version, judged)


@lru_cache(maxsize=64)
def _starter(name: str) -> Kept:
    recipe = starter(name)
    document = tomllib.loads((STARTERS / f"{name}.toml").read_text(encoding="utf-8"))
    return Kept(name, recipe.title, document, recipe, judged=judge(recipe))


def read(document: dict[str, Any], slug: str = "recipe") -> tuple[Recipe | None, InputError | None]:
    """A document read, or what it lacks first."""
    try:
        return recipe_from(table_of(document, "recipe"), slug), None
    except InputError as wrong:
        return None, wrong
