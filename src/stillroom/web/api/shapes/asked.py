"""What a program asks: recipes to judge, compare and build."""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag

from stillroom.recipes.text.page import LARGEST

Document = dict[str, Any]
Method = Literal["", "boiling-water", "pressure", "dial-gauge", "weighted-gauge"]
Pack = Literal["", "raw", "hot"]
Short = Annotated[str, Field(max_length=200)]
Jar = Annotated[str, Field(max_length=60, description='A jar size; "" for what the recipe says')]


class Question(BaseModel):
    """A body: no key but those named, and no value of another kind."""

    model_config = ConfigDict(extra="forbid", strict=True)


class Named(Question):
    """A recipe of the household by its slug, or a starter by its name."""

    name: Short = Field(min_length=1)


class Written(Question):
    """A recipe as a document, with the keys of a recipe file."""

    document: Document


def _told_as(said: object) -> str | None:
    """In which way a recipe is told, "as" marking it: no key of the body."""
    if isinstance(said, str):
        return "as text"
    if not isinstance(said, dict | BaseModel):
        return None
    return "as document" if "document" in dict(said) else "as name"


Text = Annotated[
    str,
    Field(
        min_length=1,
        max_length=LARGEST,
        description="The words of a recipe as pasted, or the source of a saved page",
    ),
]


AnyRecipe = Annotated[
    Annotated[Text, Tag("as text")]
    | Annotated[Named, Tag("as name")]
    | Annotated[Written, Tag("as document")],
    Discriminator(
        _told_as,
        custom_error_type="recipe",
        custom_error_message='Write the recipe as text, {"name": ...} or {"document": ...}',
    ),
]
OurRecipe = Annotated[
    Annotated[Named, Tag("as name")] | Annotated[Written, Tag("as document")],
    Discriminator(
        _told_as,
        custom_error_type="recipe",
        custom_error_message='Write the recipe as {"name": ...} or {"document": ...}',
    ),
]


class Check(Question):
    """A recipe to judge by the published processes."""

    recipe: AnyRecipe
    base: Short = Field("", description="The published food it is to follow")
    jar: Jar = ""
    method: Method = ""
    pack: Pack = ""


class Compare(Question):
    """A recipe and its changed copy."""

    before: AnyRecipe
    after: AnyRecipe
    base: Short = Field("", description="The published food both are to follow")
    jar: Jar = ""
    jar_after: Jar = Field("", description='Jar size of the changed copy; "" for the same')
    method: Method = ""
    pack: Pack = ""


class Build(Question):
    """A recipe to fill jars by."""

    recipe: OurRecipe
    jar: Jar = Field("", description='A jar size of the recipe; "" for its largest')
    jars: int = Field(1, ge=1, le=5000, description="Jars, for what is made first")
    order: list[Short] = Field([], max_length=100, description="Layers that come first, by name")
    elevation: str = Field(
        "",
        max_length=60,
        description='For the process: "5200 ft" or "1600 m"; "" for the kitchen\'s, where written',
    )
