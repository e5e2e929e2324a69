"""A pasted recipe written as one of our recipe files, once a person has settled what is open."""

import json
import tomllib
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.processes import names
from stillroom.recipes.pasted import Pasted, PastedLine
from stillroom.units.amounts import COUNTS, CUP, MILLILITRE, OUNCE, POUND, Amount
from stillroom.units.jars import quarts
from stillroom.units.speech import mixed

# Units with the parts of one that a measuring set or a scale has.
_VOLUMES = (
    ("cups", CUP, (1, 2, 3, 4, 8)),
    ("Tbsp", Fraction(3), (1, 2)),
    ("tsp", Fraction(1), (1, 2, 3, 4, 8)),
    ("ml", MILLILITRE, (1, 2)),
)
_WEIGHTS = (("lb", POUND, (1, 2, 4, 8)), ("oz", OUNCE, (1, 2, 4)), ("g", Fraction(1), (1, 2)))
# Nobody said how long the work takes: an even guess, to be edited.
_WORK = """\
[work]
prep_per_quart = 15
heat = 15
fill_per_jar = 3
source = "common practice; put your own minutes here"
"""


class Open(InputError):
    """What a person has to settle before a paste is a recipe of ours.

    ``things`` are told one by one.
    """

    def __init__(self, things: Sequence[str]) -> None:
        super().__init__(
            "This recipe cannot be written to a file yet. Settle these first:\n  - "
            + "\n  - ".join(things)
        )
        self.things = tuple(things)


def to_document(pasted: Pasted, **facts: Any) -> dict[str, Any]:
    """The recipe as a document: the keys of the file that ``to_file`` writes.

    Parameters
    ----------
    pasted, facts : as of ``to_file``

    Raises
    ------
    Open
        As of ``to_file``.

    Examples
    --------
    >>> from stillroom.recipes.text.page import read_paste
    >>> text = "Pears\\n17.5 lb pears\\nMakes 7 quarts. Hot pack quarts, 1/2 in."
    >>> to_document(read_paste(text))["makes"]
    '7 quarts'
    """
    return tomllib.loads(to_file(pasted, **facts))


def to_file(
    pasted: Pasted,
    *,
    food: str = "",
    form: str = "",
    pack: str = "",
    jars: Sequence[str] = (),
    makes: tuple[int, str] | None = None,
    source: str = "",
) -> str:
    """The recipe as the text of a TOML file that ``read_recipe`` takes.

    Parameters
    ----------
    pasted : as read
    food, form, pack, jars, makes : what the paste leaves open; what it says is taken where these
        are empty. ``makes`` is a count and a jar size.
    source : whose recipe it is

    Returns
    -------
    str : amounts exact and for the whole batch; an amount "per quart" is taken times the jars

    Raises
    ------
    Open
        Lines or facts that a person has to settle first, all of them in one message.

    Examples
    --------
    >>> from stillroom.recipes.text.page import read_paste
    >>> text = "Pears\\n17.5 lb pears\\nMakes 7 quarts. Hot pack quarts, 1/2 in."
    >>> [line for line in to_file(read_paste(text)).splitlines() if "lb" in line]
    ['  "pears, 17 1/2 lb",']
    """
    open_: list[str] = []
    food = food or _food(pasted, open_)
    pack = pack or _one(pasted.facts.packs, "pack, raw or hot", open_)
    makes = makes or _makes(pasted, open_)
    jars = tuple(jars) or pasted.facts.jars or ((makes[1],) if makes else ())
    if not jars:
        open_.append("the jar size: the recipe does not say it")
    kept = [one for one in pasted.lines if not one.at_serving]
    capacity = makes[0] * quarts(makes[1]) if makes else 0.0
    written = [_line(one, makes, capacity, open_) for one in kept]
    if not kept:
        open_.append("the ingredients: none was found")
    open_ += [f'line {line}: "{text}" was not understood' for line, text in pasted.not_understood]
    if open_ or makes is None:
        raise Open(tuple(dict.fromkeys(open_)))
    last = len(kept) - 1
    poured = kept and find_food(kept[last].food).kind in ("liquid", "stock") and len(kept) > 1
    liquid = written.pop() if poured else ""
    return "\n".join(_rows(pasted, food, form, pack, jars, makes, source, written, liquid))


def _rows(
    pasted: Pasted,
    food: str,
    form: str,
    pack: str,
    jars: Sequence[str],
    makes: tuple[int, str],
    source: str,
    written: list[str],
    liquid: str,
) -> Iterable[str]:
    own = pasted.facts.own_source
    yield f"title = {_quoted(pasted.title or food)}"
    yield f"source = {_quoted(source or own or 'pasted; write here whose recipe it is')}"
    yield f"food = {_quoted(food)}"
    if form:
        yield f"form = {_quoted(form)}"
    yield f"pack = {_quoted(pack)}"
    yield f"jars = [{', '.join(_quoted(jar) for jar in jars)}]"
    yield f"makes = {_quoted(f'{makes[0]} {makes[1]}' + ('s' if makes[0] > 1 else ''))}"
    yield "ingredients = ["
    yield from (f"  {_quoted(line)}," for line in written)
    yield "]"
    if liquid:
        yield f"liquid = {_quoted(liquid)}"
    if len(pasted.facts.headspaces) == 1:
        yield f'headspace = "{pasted.facts.headspaces[0]:g} in"'
    fill = [line.split(",")[0] for line in (*written, *([liquid] if liquid else []))]
    yield f"fill = [{', '.join(_quoted(layer) for layer in fill)}]"
    if pasted.method:
        yield "notes = ["
        yield from (f"  {_quoted(sentence)}," for sentence in pasted.method)
        yield "]"
    yield ""
    yield _WORK


def _food(pasted: Pasted, open_: list[str]) -> str:
    found = names.find(pasted.title) if pasted.title else names.Found()
    if len(found.targets) == 1 and not found.read_as:
        return found.targets[0][0]
    open_.append("the published food that it follows: the title does not name one")
    return ""


def _one(said: tuple[str, ...], what: str, open_: list[str]) -> str:
    if len(said) == 1:
        return said[0]
    open_.append(f"the {what}: the recipe says {' and '.join(said) if said else 'none'}")
    return ""


def _makes(pasted: Pasted, open_: list[str]) -> tuple[int, str] | None:
    said = pasted.facts.makes
    if len(said) == 1 and said[0][0] >= 1:
        return said[0]
    several = ", ".join(f"{count} {size}" for count, size in said)
    open_.append(f"how many jars it makes: the recipe says {several or 'nothing of it'}")
    return None


def _line(one: PastedLine, makes: tuple[int, str] | None, capacity: float, open_: list[str]) -> str:
    """One line "FOOD, PREP, AMOUNT", or "" with what is open about it."""
    where = f'line {one.line}: "{one.text}"'
    wrong = _wrong(one)
    if wrong or one.high is None:
        open_.append(f"{where} {wrong or 'tells no amount'}")
        return ""
    amount = one.high
    if one.per and makes:
        jars = makes[0] if one.per in ("jar", makes[1]) else None
        amount *= jars if jars is not None else Fraction(capacity / quarts(one.per))
    said = _said(amount)
    if not said:
        open_.append(f'{where} is measured in "{amount.unit}", which a file cannot hold')
        return ""
    prep = [piece for piece in (one.prep, one.remark.strip("()[] ")) if piece]
    words = _plain(", ".join(dict.fromkeys(prep)))
    parts = [one.food, *([words] if words else []), said]
    return ", ".join(parts + (["optional"] if one.optional or one.to_taste else []))


def _wrong(one: PastedLine) -> str:
    if not one.food:
        return "names no food of the food list"
    if "," in one.food:
        return f"does not tell the kind ({one.food})"
    if one.alternatives:
        return "leaves a choice; keep one food"
    if one.joint:
        return "shares its amount with the line before; write an amount for each food"
    if one.high is not None and one.low != one.high:
        return "gives a range; write one amount"
    if one.high is not None and not one.high.value:
        return "is an amount of nothing"
    return ""


def _plain(text: str) -> str:
    """Prep as a file's line holds it: its last word must not read as a flag of the line."""
    words = " ".join(text.replace('"', " in").replace("\\", " ").split())
    pieces = [piece.strip() for piece in words.split(",")]
    return ", ".join(
        piece for piece in pieces if piece and piece not in ("optional", "as bought", "prepared")
    )


def _said(amount: Amount) -> str:
    """The exact amount in a unit that writes it plainly, or ""."""
    if amount.kind == "count":
        if amount.unit not in COUNTS:
            return ""
        number = _number(amount.value)
        unit = "" if amount.unit == "each" else amount.unit
        return f"{number} {unit}".strip() if number else ""
    units = _VOLUMES if amount.kind == "volume" else _WEIGHTS
    for unit, size, parts in units:
        value = amount.value / size
        # A quarter cup and a quarter pound are the least that a cup or scale is used for.
        if value.denominator in parts and (value >= Fraction(1, 4) or unit in ("tsp", "g")):
            return f"{mixed(value)} {unit}"
    for unit, size, _ in units:
        number = _number(amount.value / size)
        if number:
            return f"{number} {unit}"
    return ""


def _number(value: Fraction) -> str:
    """A mixed number or an exact decimal of at most twelve signs, else ""."""
    if value.denominator in (1, 2, 3, 4, 8):
        return mixed(value)
    shown = f"{float(value):.6f}".rstrip("0")
    if len(shown) <= 12 and Fraction(shown) == value:
        return shown
    said = mixed(value)
    return said if all(len(piece) <= 12 for piece in said.split()) else ""


def _quoted(text: str) -> str:
    """A TOML basic string on one line; for printable text JSON writes the same."""
    kept = "".join(c if c.isprintable() else " " for c in text)
    return json.dumps(" ".join(kept.split()), ensure_ascii=False)
