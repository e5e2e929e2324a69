"""A recipe file read, checked against the food list and the published processes."""

from functools import cache
from pathlib import Path

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.recipes.line import HOW_WRITTEN, read_line
from stillroom.recipes.model import Ingredient, Recipe, Work
from stillroom.recipes.published import PACKS, published_headspace, published_rows
from stillroom.toml_file import Table, placed, read_toml
from stillroom.units.jars import parse_jar, quarts
from stillroom.words import did_you_mean

STARTERS = Path(__file__).parent / "data"
# More minutes than a day holds are a slip of the keyboard.
_LONGEST = 24 * 60
# A recipe is a page or two; a book is a slip of the clipboard, and slow to judge.
_MOST_LETTERS = 30_000
# A recipe has a dozen lines; a thousand are a slip of the paste and would take minutes to build.
_MOST_LINES = 200


def starters() -> tuple[str, ...]:
    """Names of the recipes that come with Stillroom, in order of the alphabet.

    Examples
    --------
    >>> len(starters()), starters()[0]
    (12, 'applesauce')
    """
    return _names()


@cache
def _names() -> tuple[str, ...]:
    return tuple(sorted(path.stem for path in STARTERS.glob("*.toml")))


def starter(name: str, where: str = "recipe") -> Recipe:
    """A recipe that comes with Stillroom.

    Parameters
    ----------
    name : its file name without ending, such as "snap-beans"
    where : what to name in an error

    Raises
    ------
    InputError
        No starter has the name; the message lists them.

    Source
    ------
    ``data/*.toml``; each file cites the publication of its amounts and of its process.

    Examples
    --------
    >>> starter("snap-beans").jars
    ('pint', 'quart')
    """
    if name not in starters():
        raise InputError(
            f'{where}: "{name}" is not a starter recipe.{did_you_mean(name, starters())} '
            f"Starters: {', '.join(starters())}. A recipe of your own is named by its file, "
            'such as "my-beans.toml".'
        )
    return _shipped(name)


@cache
def _shipped(name: str) -> Recipe:
    """A starter read once: its file is part of the program."""
    return read_recipe(STARTERS / f"{name}.toml")


def read_recipe(path: Path) -> Recipe:
    """A recipe file, checked.

    Parameters
    ----------
    path : a TOML file with the keys that docs/reference/files.md lists

    Returns
    -------
    Recipe : amounts exact; headspace as published for its food, form, pack and jars

    Raises
    ------
    InputError
        A key is missing, unknown or cannot be read; a food is not in the food list; no process
        is published for food, form, pack and a jar; a headspace other than the published one.
        The message names file, line and key.

    Source
    ------
    Headspace: the printed row of USDA AIB-539 (``processes.lookup``).

    Examples
    --------
    >>> recipe = read_recipe(STARTERS / "carrots.toml")
    >>> recipe.food, recipe.form, recipe.pack, recipe.headspace_in
    ('carrots', 'sliced or diced', 'hot', 1.0)
    """
    return recipe_from(read_toml(path), path.stem)


@placed
def recipe_from(table: Table, name: str) -> Recipe:
    """A recipe from the top table of its file or document, checked as ``read_recipe`` does.

    Parameters
    ----------
    table : the keys that docs/reference/files.md lists
    name : what a day's orders call it

    Raises
    ------
    InputError
        As of ``read_recipe``; its ``place`` is the key.

    Source
    ------
    Headspace: the printed row of USDA AIB-539 (``processes.lookup``).
    """
    title = table.text("title", such_as="Snap beans")
    source = table.text("source", such_as="USDA AIB-539, Guide 4")
    jars = _jars(table)
    rows = published_rows(table, jars)
    recipe = Recipe(
        name=name,
        title=title,
        source=source,
        food=rows[0].food,
        form=rows[0].form,
        pack=table.choice("pack", PACKS),
        jars=jars,
        makes_quarts=_makes(table),
        ingredients=_ingredients(table),
        liquid=_liquid(table),
        headspace_in=published_headspace(table, rows),
        fill=_few(
            table,
            "fill",
            table.strings("fill", such_as='"hot beans", "boiling water to the headspace"'),
        ),
        notes=_few(table, "notes", table.strings("notes", (), such_as='"Salt may be left out."')),
        work=_work(table),
        gives=_gives(table),
        single_batch=table.flag("single_batch", False),
    )
    table.no_more()
    told = (*(line.line for line in recipe.lines), *recipe.fill, *recipe.notes)
    letters = sum(map(len, told))
    if letters > _MOST_LETTERS:
        raise InputError(
            f"{table.where('notes')}: {letters:,} letters are too many for one recipe (at most "
            f"{_MOST_LETTERS:,}). Keep what is done in the kitchen."
        )
    return recipe


def _jars(table: Table) -> tuple[str, ...]:
    where = table.where("jars")
    said = table.strings("jars", such_as='"pint", "quart"')
    if not said:
        raise InputError(f'{where}: no jar size. List at least one, such as jars = ["pint"].')
    return tuple(dict.fromkeys(parse_jar(size, where) for size in said))


def _makes(table: Table) -> float:
    """US quarts of jar capacity that the amounts are for."""
    where = table.where("makes")
    said = table.text("makes", such_as="7 quarts")
    number, _, size = said.partition(" ")
    count = int(number) if number.isascii() and number.isdigit() and len(number) <= 3 else 0
    if count < 1 or not size:
        raise InputError(
            f'{where}: "{said}" does not say how many jars the amounts fill. Write a whole number '
            'and a jar size, such as "7 quarts" or "8 pints".'
        )
    return count * quarts(parse_jar(size, where))


def _few(table: Table, key: str, said: tuple[str, ...]) -> tuple[str, ...]:
    """The texts written at a key, no more than a recipe may have."""
    if len(said) > _MOST_LINES:
        raise InputError(
            f"{table.where(key)}: {len(said)} are too many for one recipe (at most {_MOST_LINES})."
        )
    return said


def _ingredients(table: Table) -> tuple[Ingredient, ...]:
    lines = _few(
        table, "ingredients", table.strings("ingredients", such_as='"carrots, sliced, 1/2 cup"')
    )
    if not lines:
        raise InputError(f"{table.where('ingredients')}: none listed. Write each as {HOW_WRITTEN}.")
    return tuple(
        read_line(line, f"{table.where('ingredients')}, item {place}")
        for place, line in enumerate(lines, 1)
    )


def _liquid(table: Table) -> Ingredient | None:
    if not table.has("liquid"):
        return None
    where = table.where("liquid")
    return read_line(table.text("liquid", such_as="boiling water, 1 1/2 cups"), where)


def _gives(table: Table) -> str:
    said = table.text("gives", "", such_as="chicken stock")
    return find_food(said, table.where("gives")).food if said else ""


def _work(table: Table) -> Work:
    work = table.table("work")
    made = Work(
        prep_per_quart=(
            work.number("prep_per_quart", least=0, most=_LONGEST)
            if work.has("prep_per_quart")
            else None
        ),
        heat=work.number("heat", least=0, most=_LONGEST),
        fill_per_jar=work.number("fill_per_jar", least=0, most=_LONGEST),
        make=work.number("make", 0.0, least=0, most=_LONGEST),
        source=work.text("source", "common practice", such_as="common practice"),
    )
    work.no_more()
    return made
