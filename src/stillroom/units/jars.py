"""Jar sizes, from the smallest to the largest."""

from stillroom.errors import InputError

# Names and order as printed in AIB-539 Guide 1 (jar sizes); capacities are the nominal U.S.
# measures in fluid ounces, near the brim, not the fill.
FLUID_OUNCES = {
    "4 oz": 4,
    "half-pint": 8,
    "12 oz": 12,
    "pint": 16,
    "1.5-pint": 24,
    "quart": 32,
    "half-gallon": 64,
}
SIZES = tuple(FLUID_OUNCES)

_SAID = {
    "4oz": "4 oz",
    "quarter-pint": "4 oz",
    "8 oz": "half-pint",
    "8oz": "half-pint",
    "half pint": "half-pint",
    "1/2 pint": "half-pint",
    "12oz": "12 oz",
    "16 oz": "pint",
    "16oz": "pint",
    "pt": "pint",
    "24 oz": "1.5-pint",
    "24oz": "1.5-pint",
    "1.5 pint": "1.5-pint",
    "1 1/2 pint": "1.5-pint",
    "1-1/2 pint": "1.5-pint",
    "pint and a half": "1.5-pint",
    "32 oz": "quart",
    "32oz": "quart",
    "qt": "quart",
    "half gallon": "half-gallon",
    "1/2 gallon": "half-gallon",
    "64 oz": "half-gallon",
    "64oz": "half-gallon",
}


def parse_jar(text: str, where: str = "jar") -> str:
    """Jar size in the library's own name.

    Raises
    ------
    InputError
        Not a jar size; the message lists the sizes and the nearest one.

    Examples
    --------
    >>> parse_jar("Quarts"), parse_jar("1/2 pint"), parse_jar("24 oz")
    ('quart', 'half-pint', '1.5-pint')
    """
    said = " ".join(text.lower().replace("ounce", "oz").split()).removesuffix("jars").strip()
    for name in (said, said.removesuffix("s"), said.removesuffix(" jar")):
        if name in FLUID_OUNCES:
            return name
        if name in _SAID:
            return _SAID[name]
    from stillroom.words import did_you_mean

    raise InputError(
        f'{where}: "{text}" is not a jar size.{did_you_mean(said, SIZES)} '
        f"Sizes: {', '.join(SIZES)}."
    )


def quarts(jar: str) -> float:
    """Nominal capacity of one jar in U.S. quarts.

    Examples
    --------
    >>> quarts("pint"), quarts("half-gallon")
    (0.5, 2.0)
    """
    return FLUID_OUNCES[jar] / 32
