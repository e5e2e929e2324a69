"""Jar sizes as a text says them."""

import re
from functools import lru_cache

_OUNCES = {4: "4 oz", 8: "half-pint", 12: "12 oz", 16: "pint", 24: "1.5-pint", 32: "quart"}
_OUNCES |= {64: "half-gallon"}


@lru_cache(maxsize=1)
def jar_pattern() -> re.Pattern[str]:
    """What names a jar size, in lower case; a plain pint or quart may also be an amount."""
    half = r"(?:half|1\s?/\s?2|½)[\s-]*"
    return re.compile(
        rf"(?<![\w/.])(?:(?P<halfgallon>{half}gal(?:lon)?s?\b)|(?P<halfpint>{half}p(?:in)?ts?\b)"
        r"|(?P<more>(?:1\.5|1[\s-]+1/2|1\s?½|one[\s-]and[\s-](?:a|one)[\s-]half)[\s-]*pints?\b"
        r"|pint[\s-]and[\s-]a[\s-]half)"
        r"|(?P<quarter>(?:quarter|1/4|¼)[\s-]*pints?\b)"
        r"|(?P<ounces>4|8|12|16|24|32|64)[\s-]*(?:oz|ounces?)\b\.?[\s-]*(?:jelly[\s-]+)?jars?\b"
        r"|(?P<pint>pints?\b|pts?\b\.?)|(?P<quart>quarts?\b|qts?\b\.?)"
        r"|(?P<gallon>gallons?\b|gals?\b\.?))(?P<jars>[\s-]*(?:size[\s-]*)?jars?\b)?"
    )


def jar_of(found: re.Match[str]) -> str:
    """The library's size for a match of ``jar_pattern``."""
    if found["ounces"]:
        return _OUNCES[int(found["ounces"])]
    for group, size in (
        ("halfgallon", "half-gallon"),
        ("halfpint", "half-pint"),
        ("more", "1.5-pint"),
        ("quarter", "4 oz"),
        ("pint", "pint"),
        ("quart", "quart"),
    ):
        if found[group]:
            return size
    return "gallon"
