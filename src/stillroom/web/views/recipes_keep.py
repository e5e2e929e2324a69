"""A paste kept as a recipe of ours, or unfinished with its text."""

from typing import Any

from stillroom.errors import InputError
from stillroom.recipes.check.own import judge
from stillroom.recipes.read import recipe_from
from stillroom.recipes.write import Open, to_document
from stillroom.toml_file import table_of
from stillroom.web.views.recipes_asked import at
from stillroom.web.views.recipes_paste import facts_of, wrong_base
from stillroom.web.views.recipes_reading import Reading

# Where in the form a key of the document is chosen.
FIELDS = {"food": "base", "makes": "count", "ingredients": "text", "liquid": "text"}
# What is open, by how it is told, and the field that settles it.
_SETTLES = (
    ("the published food", "base"),
    ("the pack", "pack"),
    ("how many jars", "count"),
    ("the jar size", "jars"),
    ("the ingredients", "text"),
)


def document_of(read: Reading) -> tuple[dict[str, Any], tuple[InputError, ...]]:
    """The paste as a document, and all that stands in the way of keeping it as a recipe.

    Returns
    -------
    (document, wrong) : the document is empty where something is wrong; ``place`` of each is the
        field of the form
    """
    paste = read.paste
    wrong = [one for one in (wrong_base(paste),) if one]
    try:
        facts = facts_of(paste) | {"makes": paste.makes}
        document = to_document(read.pasted, **facts)
        if paste.title:
            document["title"] = paste.title
        recipe = recipe_from(table_of(document, "recipe"), "recipe")
    except Open as told:
        return {}, (*wrong, *(at(_field(thing), thing) for thing in told.things))
    except InputError as told:
        key = told.place.partition("[")[0]
        return {}, (*wrong, at(FIELDS.get(key, key), str(told)))
    if read.judged.verdict != "tested":
        wrong.append(at("verdict", _not_tested(read.judged.verdict)))
    elif judge(recipe).verdict != "tested":
        # The amounts for the whole batch and the notes are judged once more as they are kept.
        found = next(one for one in judge(recipe).findings if one.kind != "note")
        wrong.append(at("verdict", f"{_not_tested(judge(recipe).verdict)} {found.message}"))
    return ({}, tuple(wrong)) if wrong else (document, ())


def unfinished_of(read: Reading) -> dict[str, Any]:
    """What is known so far, to be kept with the text. No day takes it: it has no ingredients."""
    paste = read.paste
    said = {
        "title": paste.title or read.pasted.title or "A recipe without a title",
        "source": paste.source,
        "food": paste.food or paste.base,
        "form": paste.form,
        "pack": paste.pack,
        "jars": list(paste.jars),
        "makes": f"{paste.count} {paste.size}s" if paste.count and paste.size else "",
    }
    return {key: value for key, value in said.items() if value}


def _field(thing: str) -> str:
    if thing.startswith("line "):
        return f"line.{thing.split(':')[0].removeprefix('line ')}"
    return next((field for begins, field in _SETTLES if thing.startswith(begins)), "text")


def _not_tested(verdict: str) -> str:
    return (
        f"It is {verdict} as it stands, and a recipe that is not tested cannot be ordered for a "
        "day. Settle what was found, or keep it unfinished."
    )
