"""A recipe of ours with some lines changed as a person writes them, and what the changes do."""

from collections.abc import Sequence
from dataclasses import replace

from stillroom.errors import InputError
from stillroom.recipes.check.compare import Asked, Compared, compare
from stillroom.recipes.check.own import as_pasted, base_of
from stillroom.recipes.line import read_line
from stillroom.recipes.model import Ingredient, Recipe
from stillroom.recipes.pasted import Mention, Pasted, PastedLine
from stillroom.recipes.text import lines as pasted_lines
from stillroom.recipes.text.mentions import mentions_in_line

MOST_LINES, LONGEST = 200, 2_000


def edited(recipe: Recipe, lines: Sequence[str], notes: Sequence[str]) -> Pasted:
    """A recipe with other lines and notes, as if it had been pasted.

    Parameters
    ----------
    recipe : as it stands
    lines : ingredients, the covering liquid among them: as our files have them, "carrots, sliced,
        2 cups", or in any words
    notes : sentences of the method

    Returns
    -------
    Pasted : what nobody understands is in ``not_understood``

    Raises
    ------
    InputError
        More lines than a recipe has, or one too long for one.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> soup = starter("garden-chicken-soup")
    >>> [line.food for line in edited(soup, ["carrots, sliced, 2 cups", "a cup of rice"], ()).lines]
    ['carrots', 'rice']
    """
    if len(lines) + len(notes) > MOST_LINES or any(len(one) > LONGEST for one in (*lines, *notes)):
        raise InputError(
            f"This is too much for a recipe: at most {MOST_LINES} lines of {LONGEST:,} letters."
        )
    known = {one.line: one for one in recipe.lines}
    ours: list[Ingredient] = []
    others: list[str] = []
    for text in lines:
        try:
            ours.append(known.get(text) or read_line(text, "line"))
        except InputError:
            others.append(text)
    made = as_pasted(replace(recipe, ingredients=tuple(ours), liquid=None, notes=tuple(notes)))
    more: list[PastedLine] = []
    found: list[Mention] = []
    left: list[tuple[int, str]] = []
    for number, text in enumerate(others, len(ours) + 1):
        reading = pasted_lines.read_line(text, number)
        more += reading.lines
        found += mentions_in_line(text, number, reading.named)
        for one in reading.lines:
            left += [(number, piece) for piece in (one.left_over if one.food else (one.text,))]
        if not reading.lines:
            left.append((number, text))
    return replace(
        made,
        lines=(*made.lines, *more),
        mentions=(*made.mentions, *found),
        not_understood=tuple(left),
        source_text="\n".join([made.source_text, *others]),
    )


def compare_edited(
    recipe: Recipe,
    lines: Sequence[str],
    notes: Sequence[str],
    *,
    jar: str = "",
    jar_after: str = "",
    pack_after: str = "",
    method_after: str = "",
) -> Compared:
    """What each change to a recipe does, tried alone.

    Parameters
    ----------
    recipe, lines, notes : as of ``edited``
    jar : the jar it is put up in, "" for every one it is for
    jar_after, pack_after, method_after : other ways to put it up, "" for the same

    Source
    ------
    ``compare``.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> soup = starter("garden-chicken-soup")
    >>> lines = [*(one.line for one in soup.lines), "1/2 cup flour"]
    >>> told = compare_edited(soup, lines, soup.notes)
    >>> told.after.verdict, told.changes[0].about
    ('barred', 'flour')
    """
    before = as_pasted(recipe)
    after = edited(recipe, lines, notes)
    facts = after.facts
    if jar_after:
        facts = replace(facts, jars=(jar_after,))
    if pack_after:
        facts = replace(facts, packs=(pack_after,))
    asked = Asked(base=base_of(recipe), jar=jar, pack=recipe.pack)
    then = replace(asked, jar=jar_after or jar, pack=pack_after or recipe.pack, method=method_after)
    return compare(before, replace(after, facts=facts), asked, then)
