"""The printed rows that a recipe follows. Whether they hold for it: ``check.own.process_of``."""

from stillroom.processes.lookup import lookup
from stillroom.processes.model import Answer
from stillroom.recipes.model import Recipe


def rows_of(recipe: Recipe, jar: str, elevation_ft: int, method: str | None = None) -> Answer:
    """What is printed for the food that a recipe follows, whether or not the recipe keeps to it.

    Parameters
    ----------
    recipe : as read from its file or document
    jar : one of its jar sizes
    elevation_ft : of the kitchen, ft
    method : a kind of canner, ``None`` for every kind

    Source
    ------
    ``processes.lookup``.
    """
    return lookup(
        recipe.food,
        form=recipe.form or None,
        pack=recipe.pack,
        jar=jar,
        elevation=elevation_ft,
        method=method,
    )
