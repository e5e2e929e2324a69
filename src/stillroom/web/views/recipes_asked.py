"""What a recipe's address asks: jar, how many, order of filling, elevation."""

from typing import NamedTuple
from urllib.parse import quote, urlencode

from stillroom.errors import InputError
from stillroom.recipes.model import Recipe
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar

MOST_JARS = 5000
# A usual canner load of each size, to begin with.
_USUAL = {"quart": 7, "pint": 9, "half-gallon": 4}


class Asked(NamedTuple):
    """What the address asks, as typed; "" where nothing was chosen."""

    jar: str = ""
    jars: str = ""
    order: str = ""
    elevation: str = ""


def asked_jar(recipe: Recipe, said: str, wrong: list[InputError]) -> str:
    """The size asked for, else the largest; what is wrong is added to ``wrong``."""
    usual = max(recipe.jars, key=SIZES.index)
    if not said.strip():
        return usual
    try:
        size = parse_jar(said, "jar")
    except InputError as told:
        wrong.append(at("jar", str(told)))
        return usual
    if size in recipe.jars:
        return size
    only = f"This recipe is not for {size} jars. Jars: {', '.join(recipe.jars)}."
    wrong.append(at("jar", only))
    return usual


def asked_count(said: str, jar: str, wrong: list[InputError]) -> int:
    """How many jars, else a usual canner load; what is wrong is added to ``wrong``."""
    usual = _USUAL.get(jar, 8)
    plain = said.strip().replace(",", "")
    if not plain:
        return usual
    if plain.isascii() and plain.isdigit() and 1 <= int(plain[:6]) <= MOST_JARS:
        return int(plain[:6])
    wrong.append(at("jars", f'jars: "{said}" does not fit. Write 1 to {MOST_JARS:,}.'))
    return usual


def asked_feet(said: str, known: int | None, wrong: list[InputError]) -> int | None:
    """The elevation typed, else the known one; what is wrong is added to ``wrong``."""
    if not said.strip():
        return known
    try:
        return parse_elevation(said, "elevation")
    except InputError as told:
        wrong.append(at("elevation", str(told)))
        return known


def at(place: str, message: str) -> InputError:
    """An error that knows its field."""
    wrong = InputError(message)
    wrong.place = place
    return wrong


def to(path: str, asked: Asked, **changed: str) -> str:
    """The address of a question, changed in some part."""
    said = {key: value for key, value in asked._replace(**changed)._asdict().items() if value}
    return quote(path) + (f"?{urlencode(said)}" if said else "")
