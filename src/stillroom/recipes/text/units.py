"""The units people write, and what each is."""

from collections.abc import Sequence
from fractions import Fraction

from stillroom.recipes.text.tokens import Token
from stillroom.units.amounts import COUNTS, CUP, GALLON, MILLILITRE, OUNCE, POUND, QUART, Amount

_SPELLED = {
    "tsp": "tsp tsps teaspoon teaspoons teaspoonful teaspoonfuls ts tspn teasp teasps",
    "tbsp": "tbsp tbsps tblsp tblsps tblspn tbl tbls tbs tb tablespoon tablespoons tablespoonful "
    "tablespoonfuls",
    "cup": "c cup cups cupful cupfuls",
    "pint": "pint pints pt pts",
    "quart": "quart quarts qt qts",
    "gallon": "gallon gallons gal gals",
    "fl oz": "floz",
    "ml": "ml mls milliliter milliliters millilitre millilitres cc",
    "cl": "cl",
    "dl": "dl deciliter deciliters decilitre decilitres",
    "l": "l liter liters litre litres ltr",
    "lb": "lb lbs pound pounds",
    "oz": "oz ozs ounce ounces",
    "g": "g gm gms gr gram grams gramme grammes",
    "mg": "mg milligram milligrams",
    "kg": "kg kgs kilo kilos kilogram kilograms",
}
UNITS = {said: unit for unit, words in _SPELLED.items() for said in words.split()}
SIZES: dict[str, tuple[str, Fraction]] = {
    "tsp": ("tsp", Fraction(1)),
    "tbsp": ("tsp", Fraction(3)),
    "cup": ("tsp", CUP),
    "pint": ("tsp", 2 * CUP),
    "quart": ("tsp", QUART),
    "gallon": ("tsp", GALLON),
    "fl oz": ("tsp", Fraction(6)),
    "ml": ("tsp", MILLILITRE),
    "cl": ("tsp", 10 * MILLILITRE),
    "dl": ("tsp", 100 * MILLILITRE),
    "l": ("tsp", 1000 * MILLILITRE),
    "lb": ("g", POUND),
    "oz": ("g", OUNCE),
    "g": ("g", Fraction(1)),
    "mg": ("g", Fraction(1, 1000)),
    "kg": ("g", Fraction(1000)),
}
# Things one counts, with the plural where "s" does not make it.
_COUNTED = (
    "bag bottle box branch bulb bunch bushel can carton clove container cob crate cube dash drop "
    "ear envelope fillet fist flat glass glug grind grinding handful head heart jar jug knob leaf "
    "link loaf log lug nub pack package packet peck piece pinch pkg pod pouch punnet rib root "
    "scoop segment shake shot slab slice spear splash sprig sprinkle stalk stem stick strip tin "
    "tub tube wedge"
)
_ODD = {
    "branches": "branch", "boxes": "box", "bunches": "bunch", "dashes": "dash", "leaves": "leaf",
    "loaves": "loaf", "pinches": "pinch", "glasses": "glass", "splashes": "splash",
    "pouches": "pouch", "pkgs": "pkg", "pkt": "packet", "pkts": "packet", "pcs": "piece",
    "pc": "piece", "bch": "bunch", "bn": "bunch", "bu": "bushel", "hd": "head", "fillets": "fillet",
    "filet": "fillet", "filets": "fillet", "env": "envelope", "handsful": "handful",
}  # fmt: skip
UNITS |= {word: word for word in _COUNTED.split()}
UNITS |= {f"{word}s": word for word in _COUNTED.split() if f"{word}s" not in UNITS}
UNITS |= _ODD
UNITS |= {many: one for one, many in COUNTS.items() if many and one != "each"}
HOLDERS = frozenset(
    "bag bottle box can carton container envelope jar jug pack package packet pkg pouch tin tub "
    "tube".split()
)
UNITS |= {"dozen": "dozen", "dozens": "dozen", "doz": "dozen"}
DASHES = frozenset("-–—‒")


def skip(row: Sequence[Token], at: int) -> int:
    """The next place that is no space."""
    while at < len(row) and row[at].sort == "space":
        at += 1
    return at


def unit_at(row: Sequence[Token], at: int, value: Fraction = Fraction(1)) -> tuple[str, str, int]:
    """Unit, the words said for it and the place behind; "" where no unit stands there."""
    at = skip(row, at)
    if at >= len(row):
        return "", "", at
    token = row[at]
    if token.text == "#":
        return "lb", "#", at + 1
    if token.sort != "word":
        return "", "", at
    unit = _cased(token.text) or UNITS.get(token.plain, "")
    end = at + 1
    if token.plain in ("fl", "fluid"):
        after = skip(row, behind_dot(row, end))
        if after < len(row) and UNITS.get(row[after].plain) == "oz":
            unit, end = "fl oz", after + 1
    # 180 C is a temperature.
    if not unit or (token.text == "C" and value >= 60):
        return "", "", at
    end = behind_dot(row, end)
    return unit, "".join(t.text for t in row[at:end]), end


def _cased(text: str) -> str:
    """A capital T is a tablespoon and a small one a teaspoon; nothing else hangs on case."""
    return {"T": "tbsp", "t": "tsp", "Tb": "tbsp", "TB": "tbsp"}.get(text, "")


def behind_dot(row: Sequence[Token], at: int) -> int:
    """Behind the period of an abbreviation: one that a small letter, a sign or nothing follows."""
    return at + 1 if at < len(row) and row[at].text == "." else at


def amount_of(value: Fraction, unit: str) -> Amount:
    """So many of a unit, in the unit of account."""
    base, size = SIZES.get(unit, (unit, Fraction(1)))
    return Amount(value * size, base)
