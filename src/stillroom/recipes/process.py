"""The printed rows of a recipe, and whether they hold for it as it stands."""

from stillroom.processes.lookup import lookup
from stillroom.processes.model import Answer
from stillroom.recipes.check.own import judge
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


def process_of(recipe: Recipe, jar: str, elevation_ft: int | None) -> Answer | None:
    """The process of a recipe; ``None`` where it is not *tested*, or no elevation is known.

    Parameters
    ----------
    as ``rows_of``

    Source
    ------
    ``processes.lookup``, and ``check.own.judge`` for whether it holds.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> beans = starter("snap-beans")
    >>> process_of(beans, "quart", 5430).processes[0].minutes
    25
    >>> process_of(beans, "quart", None) is None
    True
    """
    if elevation_ft is None or judge(recipe).verdict != "tested":
        return None
    return rows_of(recipe, jar, elevation_ft)
