"""The day file: a date, hours, a kitchen and orders, with every slip named by line and key."""

from dataclasses import replace
from pathlib import Path

from stillroom.day.model import Day, Order
from stillroom.errors import InputError
from stillroom.kitchen import Kitchen, read_kitchen, read_person, read_prices
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import read_recipe, starter
from stillroom.toml_file import Table, read_toml
from stillroom.units.clock import parse_clock
from stillroom.units.jars import parse_jar
from stillroom.words import did_you_mean

# Over-processing a quicker food by up to this many minutes costs texture, nothing else
# (common practice); the day file may set it.
MOST_EXTRA_MINUTES = 20


def read_day(path: Path) -> Day:
    """A day from its TOML file, with the kitchen and recipes it names beside it.

    Raises
    ------
    InputError
        Naming file, line and key, what was written, and what to write instead.

    Source
    ------
    The file's keys are this project's own; ``docs/reference/files.md`` lists them.
    """
    top = read_toml(path)
    when = top.date("date")
    start = parse_clock(top.text("start", such_as="7:00"), top.where("start"))
    finish_by = parse_clock(top.text("finish_by", such_as="19:00"), top.where("finish_by"))
    if finish_by <= start:
        raise InputError(
            f"{top.where('finish_by')}: the day ends before it starts. Write a later time; "
            "a day ends at 24:00 at the latest."
        )
    most_extra = top.whole("most_extra_minutes", MOST_EXTRA_MINUTES, least=0, most=120)
    kitchen = read_kitchen(path.parent / top.text("kitchen", such_as="kitchen.toml"))
    # The day's own prices are of this week's market; the kitchen's stand for the rest.
    kitchen = replace(kitchen, prices={**kitchen.prices, **read_prices(top.table("prices"))})
    helpers = tuple(read_person(t) for t in top.tables("helper"))
    orders = tuple(_order(t, path.parent, kitchen) for t in top.tables("order"))
    top.no_more()
    if not orders:
        raise InputError(f"{top.where('order')}: missing. Head each order [[order]].")
    day = Day(when, start, finish_by, kitchen, helpers, orders, most_extra)
    names = [person.name for person in day.people]
    if not names:
        raise InputError(
            f"{path.name}: nobody is in the kitchen. Add [[person]] to the kitchen file or "
            "[[helper]] to the day file."
        )
    for name in names:
        if names.count(name) > 1:
            raise InputError(
                f'{path.name}: two people are called "{name}". Give each their own name.'
            )
    return day


def _order(table: Table, folder: Path, kitchen: Kitchen) -> Order:
    recipe = _recipe(table, folder)
    jar = parse_jar(table.text("jar", such_as="pint"), table.where("jar"))
    if jar not in recipe.jars:
        raise InputError(
            f'{table.where("jar")}: the recipe "{recipe.name}" is not for {jar} jars. '
            f"Jars: {', '.join(recipe.jars)}."
        )
    count = table.whole("jars", least=1, most=5000)
    canners = table.strings("canners", (), such_as='"big canner"')
    known = [c.name for c in kitchen.canners]
    for name in canners:
        if name not in known:
            raise InputError(
                f'{table.where("canners")}: "{name}" is no canner of this kitchen.'
                f"{did_you_mean(name, known)} Canners: {', '.join(known)}."
            )
    table.no_more()
    return Order(recipe, jar, count, canners, table.where("jar"))


def _recipe(table: Table, folder: Path) -> Recipe:
    """A recipe file beside the day file, or a starter recipe by its name."""
    said = table.text("recipe", such_as="snap-beans")
    if said.endswith(".toml"):
        return read_recipe(folder / said)
    return starter(said, table.where("recipe"))
