"""What a recipe rests on: the printed rows of its food, form, pack and jars."""

from fractions import Fraction

from stillroom.errors import InputError
from stillroom.processes import names
from stillroom.processes.lookup import lookup
from stillroom.processes.model import Process
from stillroom.toml_file import Table
from stillroom.units.amounts import parse_amount

PACKS = ("raw", "hot")


def published_rows(table: Table, jars: tuple[str, ...]) -> tuple[Process, ...]:
    """The printed rows for every jar of a recipe, at the lowest elevation band.

    Parameters
    ----------
    table : a recipe file; its food, form and pack are read
    jars : library jar sizes, at least one

    Raises
    ------
    InputError
        A food, form, pack or jar without a printed row, one that is withheld or barred (the
        message quotes the refusal), or words that fit several printed forms.

    Source
    ------
    USDA AIB-539, Guides 2 to 7, through ``processes.lookup``.
    """
    food = table.text("food", such_as="snap beans")
    form = table.text("form", "", such_as="pieces") or None
    pack = table.choice("pack", PACKS)
    found = names.find(food)
    if found.read_as:
        # A mended slip is fine in a question, not in a file that is kept.
        raise InputError(
            f'{table.where("food")}: "{food}" is not a food of the process library. '
            f'Did you mean "{found.targets[0][0]}"?'
        )
    # One step more each time, so that the key named is the one that found no row.
    asked: dict[str, str | None] = {"form": None, "pack": None, "jar": None}
    steps = [("food", "jar", None), ("form", "form", form), ("pack", "pack", pack)]
    rows: list[Process] = []
    for key, narrow, value in [*steps, *(("jars", "jar", jar) for jar in jars)]:
        asked[narrow] = value
        answer = lookup(food, elevation=0, **asked)
        if answer.refusal:
            raise InputError(f"{table.where(key)}: {answer.refusal.reason}")
        if key == "jars":
            rows += answer.processes
    forms = tuple(dict.fromkeys(row.form for row in rows))
    if len(forms) > 1:
        raise InputError(
            f"{table.where('form')}: {rows[0].food} is published in several forms. Write the one "
            f"this recipe follows: {'; '.join(forms)}."
        )
    return tuple(rows)


def published_headspace(table: Table, rows: tuple[Process, ...]) -> float:
    """The one headspace printed for these rows, in inches.

    Raises
    ------
    InputError
        The recipe says another headspace, or its jars differ in theirs.

    Source
    ------
    USDA AIB-539, the headspace column of the row's table.
    """
    printed = sorted({row.headspace_in for row in rows})
    if len(printed) > 1:
        raise InputError(
            f"{table.where('jars')}: these jars have different published headspaces "
            f"({', '.join(f'{h:g} in' for h in printed)}). Write one recipe for each jar size."
        )
    if table.has("headspace") and _inches(table) != Fraction(printed[0]):
        raise InputError(
            f'{table.where("headspace")}: "{table.text("headspace", such_as="1 in")}" is not the '
            f"published headspace, {printed[0]:g} in ({rows[0].citation}). "
            "Write that, or leave the key out."
        )
    return printed[0]


def _inches(table: Table) -> Fraction | None:
    said = table.text("headspace", such_as="1 in").lower()
    for unit in ("inches", "inch", "in"):
        if said.endswith(unit):
            try:
                return parse_amount(said.removesuffix(unit)).value
            except InputError:
                return None
    return None
