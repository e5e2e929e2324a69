"""A recipe of ours judged: its food, form and pack are known, its amounts are for the batch."""

from functools import lru_cache

from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.model import Recipe
from stillroom.recipes.text.file import from_recipe


@lru_cache(maxsize=2048)
def judge(recipe: Recipe, written: str = "", jar: str = "") -> Checked:
    """The verdict on a recipe as it stands, for every jar it is for, or for one.

    Parameters
    ----------
    recipe : as read from its file or document
    written : the text of its file, for the lines that findings name; "" where there is none
    jar : one of its jar sizes, "" for all of them

    Returns
    -------
    Checked : a recipe that is not *tested* rests on no published process, whatever rows are
        printed for its food

    Source
    ------
    ``verdict.check``.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> judge(starter("garden-chicken-soup")).verdict
    'tested'
    """
    base = f"{recipe.food}, {recipe.form}" if recipe.form else recipe.food
    return check(from_recipe(recipe, written), base=base, jar=jar, pack=recipe.pack)
