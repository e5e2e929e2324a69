"""The day file: a date, hours, a kitchen and orders, with every slip named by line and key."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

from stillroom.day.aims import AIMS
from stillroom.day.model import Break, Day, Keep, Order
from stillroom.errors import InputError
from stillroom.kitchen import Kitchen, Person, read_kitchen, read_person, read_prices
from stillroom.recipes.model import Recipe
from stillroom.recipes.read import read_recipe, starter
from stillroom.toml_file import Table, placed, read_toml
from stillroom.units.clock import parse_clock
from stillroom.units.jars import parse_jar
from stillroom.words import did_you_mean

# Over-processing a quicker food by up to this many minutes costs texture, nothing else
# (common practice); the day file may set it.
MOST_EXTRA_MINUTES = 20
# Orders, helpers, breaks: a day with more of one kind is a slip of the copying.
MOST = 200


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
    # A slip in the day file itself is told before one in the kitchen's.
    _hours(top)
    kitchen = read_kitchen(path.parent / top.text("kitchen", such_as="kitchen.toml"))

    def recipe(said: str, where: str) -> Recipe:
        """A recipe file beside the day file, or a starter recipe by its name."""
        return read_recipe(path.parent / said) if said.endswith(".toml") else starter(said, where)

    return day_from(top, kitchen, recipe)


@placed
def day_from(top: Table, kitchen: Kitchen, recipe: Callable[[str, str], Recipe]) -> Day:
    """A day from the top table of its file or document.

    Parameters
    ----------
    top : the keys that docs/reference/files.md lists; ``kitchen`` is passed over
    kitchen : where the day is
    recipe : finds a recipe by what an order calls it; the second argument is what to name in an
        error

    Raises
    ------
    InputError
        Naming the key, which is its ``place`` too, what was written, and what to write instead.
    """
    when, start, finish_by, most_extra = _hours(top)
    top.text("kitchen", "", such_as="kitchen.toml")
    # The day's own prices are of this week's market; the kitchen's stand for the rest.
    kitchen = replace(kitchen, prices={**kitchen.prices, **read_prices(top.table("prices"))})
    helpers = tuple(read_person(t) for t in top.tables("helper", most=MOST))
    orders = tuple(_order(t, kitchen, recipe) for t in top.tables("order", most=MOST))
    heat_off_by = _hour(top.text("heat_off_by", "", such_as="17:00"), top.where("heat_off_by"))
    aims = _aims(top)
    jars_wait = (
        top.whole("jars_wait_minutes", least=10, most=120) if top.has("jars_wait_minutes") else None
    )
    breaks = tuple(_break(t, (*kitchen.people, *helpers)) for t in top.tables("break", most=MOST))
    keeps = tuple(_keep(t, kitchen, orders) for t in top.tables("keep", most=MOST))
    top.no_more()
    if not orders:
        raise InputError(f"{top.where('order')}: missing. Head each order [[order]].")
    day = Day(
        date=when,
        start=start,
        finish_by=finish_by,
        kitchen=kitchen,
        helpers=helpers,
        orders=orders,
        most_extra=most_extra,
        heat_off_by=heat_off_by,
        aims=aims,
        breaks=breaks,
        keeps=keeps,
        jars_wait=jars_wait,
    )
    names = [person.name for person in day.people]
    if not names:
        raise InputError(
            f"{top.file}: nobody is in the kitchen. Add [[person]] to the kitchen file or "
            "[[helper]] to the day file."
        )
    for name in names:
        if names.count(name) > 1:
            raise InputError(
                f'{top.file}: two people are called "{name}". Give each their own name.'
            )
    return day


def _hours(top: Table) -> tuple[date, int, int, int]:
    """The date, start and end of the day, and the most extra minutes."""
    when: date = top.date("date")
    start = parse_clock(top.text("start", such_as="7:00"), top.where("start"))
    finish_by = parse_clock(top.text("finish_by", such_as="19:00"), top.where("finish_by"))
    if finish_by <= start:
        raise InputError(
            f"{top.where('finish_by')}: the day ends before it starts. Write a later time; "
            "a day ends at 24:00 at the latest."
        )
    most_extra = top.whole("most_extra_minutes", MOST_EXTRA_MINUTES, least=0, most=120)
    return when, start, finish_by, most_extra


def _order(table: Table, kitchen: Kitchen, find: Callable[[str, str], Recipe]) -> Order:
    recipe = find(table.text("recipe", such_as="snap-beans"), table.where("recipe"))
    jar = parse_jar(table.text("jar", such_as="pint"), table.where("jar"))
    if jar not in recipe.jars:
        raise InputError(
            f'{table.where("jar")}: the recipe "{recipe.name}" is not for {jar} jars. '
            f"Jars: {', '.join(recipe.jars)}."
        )
    count = table.whole("jars", least=1, most=5000)
    canners = table.strings("canners", (), such_as='"big canner"')
    for name in canners:
        _known_canner(name, kitchen, table.where("canners"))
    first = table.flag("first", False)
    begin, end = table.where("not_before"), table.where("done_by")
    not_before = _hour(table.text("not_before", "", such_as="10:00"), begin)
    done_by = _hour(table.text("done_by", "", such_as="15:00"), end)
    if not_before is not None and done_by is not None and done_by <= not_before:
        raise InputError(f"{end}: it is not later than not_before.")
    table.no_more()
    return Order(recipe, jar, count, canners, table.where("jar"), first, not_before, done_by)


def _known_canner(name: str, kitchen: Kitchen, where: str) -> None:
    known = [c.name for c in kitchen.canners]
    if name not in known:
        raise InputError(
            f'{where}: "{name}" is no canner of this kitchen.'
            f"{did_you_mean(name, known)} Canners: {', '.join(known)}."
        )


def _hour(said: str, where: str) -> int | None:
    """A clock time that may be left out."""
    return parse_clock(said, where) if said else None


def _aims(top: Table) -> tuple[str, ...]:
    """The aims that are named, in their order, then those that are not, in theirs."""
    named = top.strings("aims", (), such_as='"finish", "hot hours"')
    for aim in named:
        if aim not in AIMS:
            raise InputError(
                f'{top.where("aims")}: "{aim}" is no aim.{did_you_mean(aim, AIMS)} '
                f"Aims: {', '.join(AIMS)}."
            )
        if named.count(aim) > 1:
            raise InputError(f'{top.where("aims")}: "{aim}" stands there twice. Write it once.')
    return (*named, *(aim for aim in AIMS if aim not in named))


def _break(table: Table, people: tuple[Person, ...]) -> Break:
    known = [person.name for person in people]
    who = table.strings("who", tuple(known), such_as='"Marit"')
    for name in who:
        if name not in known:
            raise InputError(
                f'{table.where("who")}: nobody here is called "{name}".'
                f"{did_you_mean(name, known)} People: {', '.join(known)}."
            )
    start = parse_clock(table.text("from", such_as="12:00"), table.where("from"))
    end = parse_clock(table.text("to", such_as="12:30"), table.where("to"))
    if end <= start:
        raise InputError(f"{table.where('to')}: the break ends before it begins.")
    table.no_more()
    return Break(who, start, end, table.where())


def _keep(table: Table, kitchen: Kitchen, orders: tuple[Order, ...]) -> Keep:
    canner = table.text("canner", such_as="small canner")
    _known_canner(canner, kitchen, table.where("canner"))
    sizes = table.strings("jars", (), such_as='"pint"')
    jars = tuple(parse_jar(size, table.where("jars")) for size in sizes)
    recipes = table.strings("recipes", (), such_as='"snap-beans"')
    known = list(dict.fromkeys(order.recipe.name for order in orders))
    for name in recipes:
        if name not in known:
            raise InputError(
                f'{table.where("recipes")}: no order is for "{name}".'
                f"{did_you_mean(name, known)} Ordered: {', '.join(known)}."
            )
    if not jars and not recipes:
        raise InputError(
            f'{table.where()}: kept for what? Write jars or recipes, such as jars = ["pint"].'
        )
    table.no_more()
    return Keep(canner, jars, recipes, table.where())
