"""The household's own recipes."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Text, select, type_coerce
from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.recipes.read import starters
from stillroom.store.changes import expect_version, take_off, write_change
from stillroom.store.documents import checked, first_line, slug
from stillroom.store.tables import Document, RecipeRow
from stillroom.toml_file import LARGEST_BYTES

# A starter's name stays the starter's, and "new" is the page for adding one.
_RESERVED = frozenset({"new"})


@dataclass(frozen=True, slots=True)
class RecipeLine:
    """A recipe as a list shows it."""

    slug: str
    title: str
    food: str
    changed_at: datetime


@dataclass(frozen=True, slots=True)
class StoredRecipe:
    """A recipe as it was written; ``change`` is the number of its last change.

    ``source_text`` is the paste it was made from, "" where it was typed in.
    """

    slug: str
    title: str
    food: str
    document: Document
    source_text: str
    version: int
    created_at: datetime
    changed_at: datetime
    removed_at: datetime | None
    change: int


def recipes(session: Session, words: str = "") -> list[RecipeLine]:
    """The recipes that hold every one of the words in title or food, by title."""
    asked = select(RecipeRow.slug, RecipeRow.title, RecipeRow.food, RecipeRow.changed_at)
    lines = [RecipeLine(*r) for r in session.execute(asked.where(RecipeRow.removed_at.is_(None)))]
    wanted = words.casefold().split()
    return sorted(
        (one for one in lines if all(w in f"{one.title} {one.food}".casefold() for w in wanted)),
        key=lambda one: (one.title.casefold(), one.slug),
    )


@dataclass(frozen=True, slots=True)
class WrittenRecipe:
    """A recipe with its document as the JSON text it is kept as, to be read when it is needed."""

    slug: str
    title: str
    document: str
    source_text: str
    version: int


def all_recipes(session: Session) -> list[WrittenRecipe]:
    """Every recipe on the list, by title."""
    asked = select(
        RecipeRow.slug,
        RecipeRow.title,
        type_coerce(RecipeRow.document, Text),
        RecipeRow.source_text,
        RecipeRow.version,
    )
    rows = session.execute(asked.where(RecipeRow.removed_at.is_(None)))
    return sorted(
        (WrittenRecipe(*row) for row in rows), key=lambda one: (one.title.casefold(), one.slug)
    )


def recipe_titles(session: Session) -> dict[str, str]:
    """Titles of own recipes by slug; those that were removed, too, since days name them."""
    found = session.execute(select(RecipeRow.slug, RecipeRow.title))
    return {row.slug: row.title for row in found}


def recipe(session: Session, slug: str, *, removed: bool = False) -> StoredRecipe | None:
    """One recipe, ``None`` where there is none; with ``removed`` one that was removed, too."""
    row = _row(session, slug)
    return None if row is None or (row.removed_at and not removed) else _stored(row)


def add_recipe(
    session: Session, document: Document, source_text: str, *, at: datetime, who: str
) -> StoredRecipe:
    """Keep a new recipe, under a name made from its title.

    Raises
    ------
    InputError
        The document cannot be kept, or has no title.
    """
    values = _values(document) | {"source_text": _bounded(source_text), "removed": False}
    taken = {*_RESERVED, *starters(), *session.scalars(select(RecipeRow.slug))}
    row = RecipeRow(slug=slug(values["title"], taken.__contains__), version=0, created_at=at)
    write_change(session, row, "add", values, at=at, who=who)
    return _stored(row)


def change_recipe(
    session: Session,
    slug: str,
    document: Document,
    *,
    version: int,
    at: datetime,
    who: str,
    source_text: str | None = None,
) -> StoredRecipe:
    """Write a recipe anew; its name stays, and so does its ``source_text`` where none is given.

    Raises
    ------
    InputError
        There is no such recipe, the document cannot be kept, or it has no title.
    Conflict
        Somebody changed or removed it meanwhile.
    """
    row = _there(session, slug)
    expect_version(row, version, "this recipe")
    values = _values(document) | {"removed": False}
    if source_text is not None:
        values["source_text"] = _bounded(source_text)
    write_change(session, row, "change", values, at=at, who=who)
    return _stored(row)


def remove_recipe(session: Session, slug: str, *, at: datetime, who: str) -> int:
    """Take a recipe off the list. Returns the number of the change, to undo it by.

    Raises
    ------
    InputError
        There is no such recipe.
    """
    return take_off(session, _there(session, slug), at=at, who=who)


def _row(session: Session, slug: str) -> RecipeRow | None:
    return session.scalars(select(RecipeRow).where(RecipeRow.slug == slug)).one_or_none()


def _there(session: Session, slug: str) -> RecipeRow:
    row = _row(session, slug)
    if row is None:
        raise InputError(f'There is no recipe "{slug}".')
    return row


def _values(document: Document) -> Document:
    plain = checked(document, "recipe")
    title = first_line(plain, "title")
    if not title:
        wrong = InputError("recipe, title: missing. Write what the recipe is called.")
        wrong.place = "title"
        raise wrong
    return {"document": plain, "title": title, "food": first_line(plain, "food")}


def _bounded(source_text: str) -> str:
    if len(source_text) > LARGEST_BYTES:
        raise InputError(f"{len(source_text):,} letters are too many for one recipe.")
    return str(checked({"source_text": source_text}, "recipe")["source_text"])


def _stored(row: RecipeRow) -> StoredRecipe:
    return StoredRecipe(
        row.slug, row.title, row.food, row.document, row.source_text, row.version,
        row.created_at, row.changed_at, row.removed_at, row.change_id,
    )  # fmt: skip
