"""What the store holds, in the shapes of the interface."""

from collections.abc import Callable
from dataclasses import asdict
from typing import Any

from fastapi import Request
from fastapi.exceptions import HTTPException

from stillroom.errors import InputError
from stillroom.kitchen import kitchen_from
from stillroom.recipes.read import recipe_from
from stillroom.store.days import StoredDay
from stillroom.store.household import Household
from stillroom.store.kitchens import StoredKitchen
from stillroom.store.recipes import StoredRecipe
from stillroom.toml_file import table_of

Document = dict[str, Any]


def kitchen_told(stored: StoredKitchen | None) -> Document:
    """The kitchen with what it lacks; version 0 where nothing is written."""
    if stored is None:
        return {"document": None, "version": 0, "changed_at": None, "change": None, "lacks": None}
    return asdict(stored) | {"lacks": lack(lambda: read_kitchen(stored.document))}


def recipe_told(stored: StoredRecipe) -> Document:
    """A recipe with what it lacks."""
    return asdict(stored) | {"lacks": lack(lambda: read_recipe(stored.document))}


def day_told(stored: StoredDay, household: Household) -> Document:
    """A day with what it lacks in this household."""
    return asdict(stored) | {"lacks": lack(lambda: household.day(stored))}


def read_kitchen(document: Document) -> None:
    """Refuse what makes no kitchen, as its reader does."""
    kitchen_from(table_of(document, "kitchen"))


def read_recipe(document: Document) -> None:
    """Refuse what makes no recipe, as its reader does."""
    recipe_from(table_of(document, "recipe"), "recipe")


def lack(read: Callable[[], object]) -> Document | None:
    """What a reader complains of, ``None`` where it is content."""
    try:
        read()
    except InputError as wrong:
        return {"message": str(wrong), "place": wrong.place}
    return None


def there(found: Any, what: str, name: object) -> Any:
    """What was found.

    Raises
    ------
    HTTPException
        404: nothing was.
    """
    if found is None:
        raise HTTPException(404, f"There is no {what} {str(name)!r}.")
    return found


def signed(request: Request) -> dict[str, Any]:
    """Who asks and when, as changes are signed."""
    from stillroom.web.security import who

    return {"at": request.app.state.settings.now(), "who": who(request)}
