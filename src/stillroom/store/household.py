"""What the middle storey works with, from what the household wrote."""

from typing import Any

from sqlalchemy.orm import Session

from stillroom.day.model import Day
from stillroom.day.read import day_from
from stillroom.errors import InputError
from stillroom.kitchen import Kitchen, kitchen_from
from stillroom.recipes.check.own import judge
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import recipe_from, starter, starters
from stillroom.store import kitchens, recipes
from stillroom.store.days import StoredDay
from stillroom.toml_file import table_of
from stillroom.units.elevation import parse_elevation
from stillroom.words import did_you_mean


class Household:
    """Kitchen, recipes and days as plain objects of the middle storey.

    ``stored`` is the kitchen as it was written, ``None`` where none was yet. ``kitchen`` is
    ``None`` until all that a plan needs is written; ``lacks`` then says what is missing first.
    It reads recipes as they are asked for, so it lasts no longer than its session.
    """

    def __init__(self, session: Session) -> None:
        self._session = session
        self._recipes: dict[str, Recipe] = {}
        self.stored = kitchens.kitchen(session)
        self.kitchen: Kitchen | None = None
        self.lacks: InputError | None = None
        if self.stored is not None:
            try:
                self.kitchen = kitchen_from(table_of(self.stored.document, "kitchen"))
            except InputError as wrong:
                self.lacks = wrong

    @property
    def elevation_ft(self) -> int | None:
        """The elevation, known before the rest of the kitchen is; ``None`` where it is not."""
        if self.kitchen:
            return self.kitchen.elevation_ft
        said = self.stored.document.get("elevation") if self.stored else None
        try:
            return parse_elevation(said, "elevation") if isinstance(said, str) else None
        except InputError:
            return None

    def recipe(self, name: str, where: str = "recipe") -> Recipe:
        """A recipe of the household's own by its slug, else a starter.

        One that was removed is found, too: days that used it can still be read.

        Raises
        ------
        InputError
            There is none of that name, or it is not finished; the message begins with ``where``.
        """
        if name not in self._recipes:
            self._recipes[name] = self._read(name, where)
        return self._recipes[name]

    def _read(self, name: str, where: str) -> Recipe:
        own = recipes.recipe(self._session, name, removed=True)
        if own is not None:
            try:
                return recipe_from(table_of(own.document, own.title), own.slug)
            except InputError:
                raise InputError(
                    f"{where}: this recipe is not finished. Settle it in the room Recipes first."
                ) from None
        if name in starters():
            return starter(name, where)
        known = [line.slug for line in recipes.recipes(self._session)]
        raise InputError(
            f'{where}: there is no recipe "{name}".{did_you_mean(name, [*known, *starters()])}'
        )

    def to_order(self, name: str, where: str = "recipe") -> Recipe:
        """A recipe that a day may put up: one that is *tested* as it stands.

        Raises
        ------
        InputError
            As of ``recipe``; or a finding stands against it, of which the first is told.
        """
        recipe = self.recipe(name, where)
        judged = judge(recipe)
        if judged.verdict != "tested":
            first = next(one for one in judged.findings if one.kind != "note")
            raise InputError(
                f'{where}: "{recipe.title}" is {judged.verdict} as it stands and cannot be '
                f"ordered. {first.message}"
            )
        return recipe

    def day(self, stored: StoredDay) -> Day:
        """A day that was kept, with this kitchen and these recipes.

        Raises
        ------
        InputError
            As of ``day_from``; the kitchen is not finished; or a recipe is not *tested*.
        """
        return self.day_of(stored.document)

    def day_of(self, document: dict[str, Any]) -> Day:
        """A day from its document, whether it was kept or not.

        Raises
        ------
        InputError
            As of ``day_from``; or the kitchen is not finished.
        """
        if self.lacks:
            raise InputError(f"The kitchen is not finished. {self.lacks}")
        if self.kitchen is None:
            raise InputError("Nothing is written of the kitchen yet. A day needs one.")
        return day_from(table_of(document, "day"), self.kitchen, self.to_order)


def household(session: Session) -> Household:
    """The household as it stands in the store."""
    return Household(session)
