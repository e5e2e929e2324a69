"""Kitchen amounts as a person writes them: exact volumes, weights and counts."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from stillroom.errors import InputError

Kind = Literal["volume", "weight", "count"]

# Grams in a pound: exact by the international pound of 1959.
POUND = Fraction(45_359_237, 100_000)
OUNCE = POUND / 16
# US teaspoons in a cup and a gallon (US customary measures, exact).
CUP, QUART, GALLON = Fraction(48), Fraction(192), Fraction(768)
# A US gallon is 231 cubic inches, 3.785411784 litres exactly.
MILLILITRE = GALLON / Fraction(3_785_411_784, 1_000_000)
# A kitchen never measures more of anything; a larger number is a slip of the keyboard.
LARGEST = 100_000

_VOLUMES = {
    "tsp": Fraction(1),
    "tbsp": Fraction(3),
    "fl oz": Fraction(6),
    "cup": CUP,
    "pint": Fraction(96),
    "quart": QUART,
    "gallon": GALLON,
    "ml": MILLILITRE,
    "l": MILLILITRE * 1000,
}
_WEIGHTS = {"lb": POUND, "oz": OUNCE, "g": Fraction(1), "kg": Fraction(1000)}
# Count words with their plurals, as they are said.
COUNTS = {
    "each": "",
    "bunch": "bunches",
    "clove": "cloves",
    "ear": "ears",
    "head": "heads",
    "leaf": "leaves",
    "piece": "pieces",
    "pod": "pods",
    "slice": "slices",
    "sprig": "sprigs",
    "stalk": "stalks",
    "stick": "sticks",
}
_SAID = {
    "teaspoon": "tsp",
    "tablespoon": "tbsp",
    "tbs": "tbsp",
    "fluid ounce": "fl oz",
    "fl ounce": "fl oz",
    "c": "cup",
    "pt": "pint",
    "qt": "quart",
    "gal": "gallon",
    "millilitre": "ml",
    "milliliter": "ml",
    "litre": "l",
    "liter": "l",
    "pound": "lb",
    "ounce": "oz",
    "gram": "g",
    "gramme": "g",
    "kilo": "kg",
    "kilogram": "kg",
}
_SIGNS = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8"}
_SIGNS |= {"⅝": "5/8", "⅞": "7/8"}
_NUMBER = r"[0-9]+[ -]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+"
_PART = re.compile(rf"\s*({_NUMBER})(?![0-9./])\s*([a-z][a-z. ]*)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Amount:
    """An exact amount.

    ``unit`` is the unit of account: "tsp" (US teaspoons) for volumes, "g" for weights, or a
    count word such as "each" or "clove".
    """

    value: Fraction
    unit: str

    @property
    def kind(self) -> Kind:
        """Volume, weight or count."""
        return "volume" if self.unit == "tsp" else "weight" if self.unit == "g" else "count"

    def __add__(self, other: "Amount") -> "Amount":
        """The sum of two amounts of one unit; ``ValueError`` where the units differ."""
        if self.unit != other.unit:
            raise ValueError(f"{self.unit} and {other.unit} do not add")
        return Amount(self.value + other.value, self.unit)

    def __mul__(self, times: Fraction | int) -> "Amount":
        """The amount so many times."""
        return Amount(self.value * times, self.unit)


def parse_amount(text: str, where: str = "amount") -> Amount:
    """An amount as a person writes it.

    Parameters
    ----------
    text : number and unit: "2 1/2 cups", "2 lb 8 oz", "1½ cups", "0.5 kg", "3 cloves"; a bare
        number counts pieces. An ounce is a weight, a fluid ounce ("fl oz") a volume.
    where : what to name in an error

    Returns
    -------
    Amount : exact; volumes in US teaspoons, weights in grams

    Raises
    ------
    InputError
        No number, an unknown unit, a range, units that do not add, or more than 100,000.

    Source
    ------
    US customary measures; 1 lb = 453.59237 g and 1 US gallon = 3.785411784 l, both exact.

    Examples
    --------
    >>> parse_amount("2 1/2 cups"), parse_amount("3 cloves")
    (Amount(value=Fraction(120, 1), unit='tsp'), Amount(value=Fraction(3, 1), unit='clove'))
    """
    plain = text
    for sign, written in _SIGNS.items():
        plain = plain.replace(sign, f" {written}")
    plain = plain.replace("⁄", "/").strip()
    total: Amount | None = None
    place = 0
    while place < len(plain):
        found = _PART.match(plain, place)
        part = _one(found.group(1), found.group(2) or "") if found else None
        if found is None or part is None:
            raise _wrong(text, where)
        # "4 6" is two numbers, not ten pieces.
        if total and (total.unit != part.unit or not found.group(2)):
            raise _wrong(text, where)
        total = total + part if total else part
        place = found.end()
    if total is None:
        raise _wrong(text, where)
    return total


def _one(number: str, unit: str) -> Amount | None:
    value = Fraction(0)
    for piece in re.split(r"[ -]+", number):
        _, _, bottom = piece.partition("/")
        if len(piece) > 12 or (bottom and int(bottom) == 0):
            return None
        value += Fraction(piece)
    word = _unit(unit)
    if value > LARGEST or word is None:
        return None
    if word in _VOLUMES:
        return Amount(value * _VOLUMES[word], "tsp")
    if word in _WEIGHTS:
        return Amount(value * _WEIGHTS[word], "g")
    return Amount(value, word)


def _unit(said: str) -> str | None:
    """The unit in our own word; a capital T or a bare t is not guessed at."""
    word = " ".join(said.lower().replace(".", " ").split())
    if not word:
        return "each"
    plural = {many: one for one, many in COUNTS.items() if many}
    for typed in (word, word.removesuffix("s"), plural.get(word, "")):
        name = _SAID.get(typed, typed)
        if name in _VOLUMES or name in _WEIGHTS or name in COUNTS:
            return name
    return None


def _wrong(text: str, where: str) -> InputError:
    return InputError(
        f'{where}: "{text}" is not an amount. Write one number and its unit, such as "2 1/2 cups", '
        '"1/2 tsp", "2 lb 8 oz" or "3 cloves". Units: tsp, Tbsp, fl oz, cup, pint, quart, gallon, '
        f"ml, l, oz, lb, g, kg, {', '.join(COUNTS)}."
    )
