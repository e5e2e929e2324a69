"""The recipe card, set when somebody asks for it and kept for the next."""

from functools import lru_cache

from stillroom.errors import InputError
from stillroom.recipes.build import Build
from stillroom.recipes.model import Recipe
from stillroom.web.views.recipes_jars import Jars


def card(told: Jars) -> bytes:
    """The card of these jars as a PDF.

    Raises
    ------
    InputError
        The elevation is not known, or there is no card of the recipe as it stands.
    """
    if told.feet is None:
        raise InputError(
            "A card tells the process of one kitchen: write its elevation in Kitchen first."
        )
    return _card(told.recipe, told.made, told.count, told.feet)


@lru_cache(maxsize=32)
def _card(recipe: Recipe, made: Build, count: int, feet: int) -> bytes:
    # Loads 33 MB of typesetting.
    from stillroom.paper.recipe_card import recipe_card

    return recipe_card(recipe, made, count=count, elevation_ft=feet)
