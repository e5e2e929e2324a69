"""Reading a kitchen, with every slip named by line and key."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.kitchen.care import read_care
from stillroom.kitchen.model import Canner, Fire, Kitchen, Person, TimedRun
from stillroom.processes.model import METHODS, PRESSURE
from stillroom.toml_file import Table, placed, read_toml
from stillroom.units.amounts import QUART, Amount, parse_amount
from stillroom.units.clock import parse_clock
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import parse_jar
from stillroom.units.power import parse_power
from stillroom.units.prices import Price, parse_price
from stillroom.words import did_you_mean

BURNER_KINDS = ("gas", "coil", "smooth-top", "induction")
WALLS = ("thin", "heavy")
PACKS = ("hot", "raw")
LEAVES = ("lifting", "pressure canner")
# Kinds of preparing; recipes/data/rates.csv has their usual minutes a pound.
WORK = (
    "wash", "trim", "peel", "core", "pit", "stem", "shell", "husk", "bone", "halve", "quarter",
    "slice", "cut", "cube", "chop", "grate", "crush",
)  # fmt: skip
# No phase of a run takes longer; a larger number is a slip.
LONGEST_TIMED = 240
# Canners or people; more are a slip of the copying. Runs are timed over many years.
MOST, MOST_TIMED = 200, 2_000
# U.S. quarts. Three inches in a pressure canner 15 in. wide are 9 quarts; more is a slip.
MOST_WATER = 12


def read_kitchen(path: Path) -> Kitchen:
    """A kitchen from its TOML file.

    Raises
    ------
    InputError
        Naming file, line and key, and what to write instead.

    Source
    ------
    The file's keys are this project's own; ``docs/reference/files.md`` lists them.
    """
    return kitchen_from(read_toml(path))


@placed
def kitchen_from(top: Table) -> Kitchen:
    """A kitchen from the top table of its file or document.

    Raises
    ------
    InputError
        Naming the key, which is its ``place`` too, and what to write instead.
    """
    burners = top.whole("burners", least=0, most=40)
    kitchen = Kitchen(
        name=top.text("name", such_as="Our kitchen"),
        elevation_ft=parse_elevation(
            top.text("elevation", such_as="5,430 ft"), top.where("elevation")
        ),
        canners=_canners(top),
        burners=burners,
        canner_burners=top.whole("burners_for_canners", burners, least=0, most=40),
        people=tuple(read_person(t) for t in top.tables("person", most=MOST)),
        jars=_jar_counts(top.table("jars")),
        lids=top.whole("lids", 0, least=0, most=100_000),
        bands=top.whole("bands", 0, least=0, most=100_000),
        pantry=_pantry(top.table("pantry")),
        prices=read_prices(top.table("prices")),
        rates=_rates(top.table("rates")),
        counters=top.whole("counters", least=1, most=40) if top.has("counters") else None,
    )
    top.no_more()
    if not kitchen.canners:
        raise InputError(f"{top.where('canner')}: missing. Head each canner [[canner]].")
    if kitchen.canner_burners > kitchen.burners:
        raise InputError(
            f"{top.where('burners_for_canners')}: {kitchen.canner_burners} is more than the "
            f"{kitchen.burners} burners there are."
        )
    return kitchen


def _canners(top: Table) -> tuple[Canner, ...]:
    kind, watts = _burner(top)
    canners = tuple(_canner(t, kind, watts) for t in top.tables("canner", most=MOST))
    names = [c.name for c in canners]
    for name in names:
        if names.count(name) > 1:
            raise InputError(
                f'{top.where("canner")}: two canners are called "{name}". Give each its own name.'
            )
    return canners


def _canner(table: Table, kind: str, watts: float) -> Canner:
    """A canner; ``kind`` and ``watts`` are of the kitchen's burners, where it names none itself."""
    name = table.text("name", such_as="big canner")
    method = table.choice("method", METHODS)
    layers = _jar_counts(table.table("layers"), least=1, most=4)
    holds = _jar_counts(table.table("holds"), least=1, most=500)
    if not holds:
        raise InputError(
            f"{table.where('holds')}: missing. Say how many jars stand in one layer, such as "
            "holds = { quart = 7, pint = 9 }."
        )
    for size in layers:
        if size not in holds:
            raise InputError(
                f'{table.where("layers")}: "{size}" has layers but is not in holds. '
                "Say in holds how many stand in one layer."
            )
    own_plug = table.flag("own_plug", False)
    counts = {size: count * layers.get(size, 1) for size, count in holds.items()}
    canner = Canner(name, method, counts, own_plug)
    fire = _fire(table, canner, kind, watts)
    care = read_care(table.table("care"), method)
    table.no_more()
    return replace(canner, fire=fire, care=care)


def _burner(table: Table) -> tuple[str, float]:
    """The kind of a burner and its watts, "" and 0 where they are not told."""
    kind = table.choice("burner_kind", BURNER_KINDS, "") if table.has("burner_kind") else ""
    said = table.text("burner_power", "", such_as="9,000 Btu/h")
    return kind, parse_power(said, table.where("burner_power")) if said else 0.0


def _fire(table: Table, canner: Canner, kind: str, watts: float) -> Fire:
    own_kind, own_watts = _burner(table)
    pressure = canner.method in PRESSURE
    if canner.own_plug and own_kind:
        raise InputError(
            f"{table.where('burner_kind')}: a canner with its own plug stands on no burner. "
            "Leave out burner_kind, or own_plug."
        )
    if not pressure and table.has("wall"):
        raise InputError(
            f"{table.where('wall')}: a boiling-water canner is taken as thin enamel. Write what it "
            'weighs instead, such as weighs = "7 lb".'
        )
    if canner.own_plug or own_kind:
        # The kitchen's figures are for its burners: they say nothing of another burner.
        kind, watts = own_kind, own_watts
    return Fire(
        kind=kind,
        watts=own_watts or watts,
        wall=table.choice("wall", WALLS, "") if table.has("wall") else "",
        kilograms=_amount(
            table.text("weighs", "", such_as="18 lb"),
            table.where("weighs"),
            "weight",
            "18 lb",
            1_000,
        ),
        water=_water(table, pressure),
        timed=tuple(_timed(t, canner) for t in table.tables("timed", most=MOST_TIMED)),
    )


def _water(table: Table, pressure: bool) -> float:
    said = table.text("water", "", such_as="3 quarts")
    quarts = _amount(said, table.where("water"), "volume", "3 quarts", float(QUART))
    if pressure and quarts > MOST_WATER:
        raise InputError(
            f"{table.where('water')}: {quarts:g} quarts are too much for a pressure canner, where "
            "2 to 3 in. stand, about 3 quarts. Write what its manual asks for."
        )
    return quarts


def _amount(said: str, where: str, kind: str, such_as: str, unit: float) -> float:
    """A weight or volume in ``unit``, or 0 where nothing is said."""
    if not said:
        return 0.0
    amount = parse_amount(said, where)
    count = float(amount.value) / unit
    # No canner is lighter than a kilogram or holds less than a quart, and none is fifty.
    if amount.kind != kind or not 1 <= count <= 50:
        raise InputError(
            f'{where}: "{said}" is no {kind} of a canner. Write it such as "{such_as}".'
        )
    return count


def _timed(table: Table, canner: Canner) -> TimedRun:
    if canner.method not in PRESSURE:
        for phase in ("come_up", "cool", "lb"):
            if table.has(phase):
                raise InputError(
                    f"{table.where(phase)}: a boiling-water canner has no {phase}. Leave it out; "
                    "heat is what it takes to the boil."
                )
    run = TimedRun(
        jar=parse_jar(table.text("jar", such_as="pint"), table.where("jar")),
        jars=table.whole("jars", least=1, most=200),
        pack=table.choice("pack", PACKS),
        lb=table.whole("lb", least=1, most=15) if table.has("lb") else 0,
        heat=table.number("heat", 0.0, least=0, most=LONGEST_TIMED),
        come_up=table.number("come_up", 0.0, least=0, most=LONGEST_TIMED),
        cool=table.number("cool", 0.0, least=0, most=LONGEST_TIMED),
        liquid=table.flag("liquid", False) if table.has("liquid") else None,
    )
    table.no_more()
    if run.jars > canner.capacity(run.jar):
        raise InputError(
            f"{table.where('jars')}: {run.jars} do not fit. {canner.name} holds "
            f"{canner.capacity(run.jar)} {run.jar} jars."
        )
    if not (run.heat or run.come_up or run.cool):
        raise InputError(
            f"{table.where()}: nothing was timed. Write the minutes of heat, come_up or cool."
        )
    return run


def read_person(table: Table) -> Person:
    """A person from a [[person]] or [[helper]] table: name and the hours they are there."""
    name = table.text("name", such_as="Ada")
    spans = []
    for span in table.strings("hours", ["0:00 to 24:00"], such_as='"7:00 to 12:00"'):
        ends = span.replace("-", " to ").replace("–", " to ").split(" to ")
        if len(ends) != 2:
            raise InputError(
                f'{table.where("hours")}: "{span}" is not a span of hours. '
                'Write from and to, such as "7:00 to 12:00".'
            )
        start, end = (parse_clock(e, table.where("hours")) for e in ends)
        if end <= start:
            raise InputError(f'{table.where("hours")}: "{span}" ends before it begins.')
        spans.append((start, end))
    leaves = table.strings("leaves", (), such_as='"lifting"')
    for work in leaves:
        if work not in LEAVES:
            raise InputError(
                f'{table.where("leaves")}: "{work}" is not one of {", ".join(LEAVES)}.'
                f"{did_you_mean(work, LEAVES)}"
            )
    table.no_more()
    return Person(name, tuple(sorted(spans)), leaves)


def _jar_counts(table: Table, *, least: int = 0, most: int = 100_000) -> dict[str, int]:
    counts: dict[str, int] = {}
    for said in table.names():
        size = parse_jar(said, table.where(said))
        _not_twice(table, said, size, counts)
        counts[size] = table.whole(said, least=least, most=most)
    return counts


def _rates(table: Table) -> dict[str, float]:
    """Own minutes of work a pound, by kind of work."""
    made: dict[str, float] = {}
    for said in table.names():
        if said not in WORK:
            raise InputError(
                f'{table.where(said)}: "{said}" is no kind of work.{did_you_mean(said, WORK)} '
                f"Work: {', '.join(WORK)}."
            )
        made[said] = table.number(said, least=0, most=60)
    return made


def _pantry(table: Table) -> dict[str, Amount]:
    amounts: dict[str, Amount] = {}
    for said in table.names():
        food = find_food(said, table.where(said)).food
        _not_twice(table, said, food, amounts)
        amounts[food] = parse_amount(table.text(said, such_as="3 lb"), table.where(said))
    return amounts


def read_prices(table: Table) -> dict[str, Price]:
    """The prices of a [prices] table, by the names of the food list."""
    prices: dict[str, Price] = {}
    for said in table.names():
        food = find_food(said, table.where(said)).food
        _not_twice(table, said, food, prices)
        prices[food] = parse_price(table.text(said, such_as="1.29 per lb"), table.where(said))
    return prices


def _not_twice(table: Table, said: str, name: str, known: Mapping[str, object]) -> None:
    if name in known:
        raise InputError(
            f'{table.where(said)}: "{said}" is {name}, which is written already. '
            "Write it once, with all there is."
        )
