"""A recipe of ours judged: its food, form and pack are known, its amounts are for the batch."""

from functools import lru_cache

from stillroom.processes.model import Answer
from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.model import Recipe
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.process import rows_of
from stillroom.recipes.text.file import from_recipe


@lru_cache(maxsize=2048)
def judge(recipe: Recipe, jar: str = "") -> Checked:
    """The verdict on a recipe as it stands, for every jar it is for, or for one.

    Parameters
    ----------
    recipe : as read from its file or document
    jar : one of its jar sizes, "" for all of them

    Returns
    -------
    Checked : a recipe that is not *tested* rests on no published process, whatever rows are
        printed for its food; the line of a finding is the place among ``recipe.lines``, from 1

    Source
    ------
    ``verdict.check``.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> judge(starter("garden-chicken-soup")).verdict
    'tested'
    """
    return check(as_pasted(recipe), base=base_of(recipe), jar=jar, pack=recipe.pack)


def process_of(recipe: Recipe, jar: str, elevation_ft: int | None) -> Answer | None:
    """The process of a recipe; ``None`` where it is not *tested*, or no elevation is known.

    Parameters
    ----------
    as ``recipes.process.rows_of``

    Source
    ------
    ``processes.lookup``, and ``judge`` for whether it holds.

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


def as_pasted(recipe: Recipe) -> Pasted:
    """The recipe as if it had been pasted, its lines numbered by their place."""
    return from_recipe(recipe, "\n".join(f'"{one.line}"' for one in recipe.lines))


def base_of(recipe: Recipe) -> str:
    """The published food that a recipe follows, in the words of the library.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> base_of(starter("snap-beans"))
    'snap beans, pieces'
    """
    return f"{recipe.food}, {recipe.form}" if recipe.form else recipe.food
