"""What the household keeps: documents with their versions, and every change of them."""

from datetime import date, datetime
from typing import Any, Literal

from pydantic import BaseModel, Field

from stillroom.web.api.shapes.asked import Document, Question, Short

# What every program reads back from JSON as the same whole number.
LARGEST = 2**53 - 1


class Lack(BaseModel):
    """What an unfinished document lacks first."""

    message: str
    place: str = Field(description='The key, "" where it is about no single one')


class Kept(BaseModel):
    """What every document has."""

    document: Document = Field(description="The keys of its file: docs/reference/files.md")
    version: int = Field(description="To name with the next change")
    changed_at: datetime
    change: int = Field(description="Number of its last change, to undo it by")
    lacks: Lack | None = Field(description="Why it cannot be used yet; null where it can")


class KeptKitchen(BaseModel):
    """The kitchen; nothing is written of it at version 0."""

    document: Document | None
    version: int
    changed_at: datetime | None
    change: int | None = Field(description="Number of its last change, to undo it by")
    lacks: Lack | None = Field(description="Why it cannot be used yet; null where it can")


class KeptRecipe(Kept):
    """A recipe of the household's own."""

    slug: str
    title: str
    food: str
    source_text: str = Field(description="The paste it was made from")
    created_at: datetime


class RecipeLine(BaseModel):
    """A recipe in a list."""

    slug: str
    title: str
    food: str
    changed_at: datetime


class StarterLine(BaseModel):
    """A recipe that comes with Stillroom."""

    name: str
    title: str
    food: str
    form: str
    pack: str
    jars: list[str]
    headspace_in: float = Field(description="Inches")
    source: str


class RecipeList(BaseModel):
    """The household's recipes, and those that come with Stillroom."""

    recipes: list[RecipeLine]
    starters: list[StarterLine]


class KeptDay(Kept):
    """A canning day."""

    key: str
    title: str
    date: date | None
    created_at: datetime


class DayLine(BaseModel):
    """A day in a list."""

    key: str
    date: date | None
    title: str
    changed_at: datetime
    planned_at: datetime | None = Field(description="When its newest plan was made")


class DayList(BaseModel):
    """The household's days, the latest date first."""

    days: list[DayLine]


class Change(BaseModel):
    """A change as it was recorded."""

    id: int
    at: datetime
    who: str
    what: Literal["add", "change", "remove", "undo"]
    kind: Literal["kitchen", "recipe", "day"]
    row: str = Field(description='Slug of the recipe or key of the day, "" for the kitchen')
    title: str
    before: dict[str, Any] | None
    after: dict[str, Any]
    undone_at: datetime | None


class ChangeList(BaseModel):
    """Changes, newest first."""

    changes: list[Change]


class Removed(BaseModel):
    """Something was taken off its list."""

    change: int = Field(description="Number of the change: undo it to have it back")


class NewDocument(Question):
    """A document to keep."""

    document: Document = Field(description="The keys of its file: docs/reference/files.md")
    draft: bool = Field(
        False, description="Keep it even where it is not finished; ``lacks`` then says what is not"
    )


class NewRecipe(NewDocument):
    """A recipe to keep."""

    source_text: str = Field("", max_length=100_000, description="The paste it was made from")


class NewDay(NewDocument):
    """A day to keep."""

    title: Short = ""


class Rewritten(NewDocument):
    """A document written anew."""

    version: int = Field(ge=0, le=LARGEST, description="Of what it was made from; 0 for the first")


class RewrittenRecipe(Rewritten):
    """A recipe written anew."""

    source_text: str | None = Field(
        None, max_length=100_000, description="The paste it was made from; null to leave it"
    )


class RewrittenDay(Rewritten):
    """A day written anew."""

    title: Short | None = Field(None, description="null to leave it")
