"""Rules of soups, mixed vegetables and dried beans."""

import re
from collections.abc import Iterator

from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding

_FULL = re.compile(
    r"(?:jars?\s+full\s+of|(?<!half )full\s+of\s+(?:vegetables|solids|meat)"
    r"|3/4\s+(?:full\s+)?(?:with|of)\s+solids|2/3\s+(?:with\s+)?solids|three[- ]fourths?"
    r"|two[- ]thirds|all\s+solids"
    r"|to\s+the\s+(?:top|neck|brim)\s+(?:with|w/)\s*(?:the\s+)?(?:solids|meat|veg\w*)"
    r"|pack\s+(?:jars\s+)?(?:tight|full))"
)
_HALF = re.compile(
    r"half[- ]fill|(?:half|1/2|½)\s+(?:full|solids?|of\s+solids|with\s+solids)"
    r"|fill\w*\s+(?:\w+\s+)?half|half\s+(?:the\s+)?(?:jar|of)|solids?\s+(?:at\s+most\s+)?half"
    r"|equal\s+(?:parts\s+)?solids"
)
_NEVER_SOAKED = re.compile(
    r"\bunsoaked|straight\s+into|(?:do\s+not|don't|dont|no|not|without)\s+soak|cook\s+in\s+the\s+jar"
)
_SOAKED = re.compile(
    r"soak|rehydrat|boil(?:ed)?\s+2\s*min|rest\s+1\s*h|\d\s*min\w*\s+boil|hr?s?\s+rest|stood\s+1|canned|cooked"
)
_LEAFY = frozenset(["leafy green"])
_SEAFOOD_MINUTES = 100


def half_solids(case: Case) -> Iterator[Finding]:
    """Solids fill at most half of a soup jar."""
    if case.family != "soup":
        return
    full = _FULL.search(case.text)
    if full:
        yield finding("soup-half", f"solids: {full.group(0)}")
    elif not (case.pasted.facts.half_solids or _HALF.search(case.text)):
        yield finding("soup-half-unsaid", "solids")


def seafood(case: Case) -> Iterator[Finding]:
    """A soup with seafood takes 100 minutes in either jar."""
    if case.family != "soup" or not list(case.with_role("seafood")):
        return
    said = [m.minutes for m in case.process_minutes]
    if said and max(said) < _SEAFOOD_MINUTES:
        yield finding("soup-short", f"{max(said)} min", got=str(max(said)),
                      want=str(_SEAFOOD_MINUTES), where=" with seafood in it")  # fmt: skip


def cured(case: Case) -> Iterator[Finding]:
    """Cured meat in a soup."""
    if case.family == "soup":
        for item in case.with_role("cured meat"):
            yield finding("soup-cured", item.said, line=item.line)


def dry_beans(case: Case) -> Iterator[Finding]:
    """Dried beans are soaked first, in soups and by themselves."""
    for item in case.with_role("dried bean"):
        if not item.lines:
            continue
        soaked = case.pasted.facts.soaked or _SOAKED.search(case.text)
        if _NEVER_SOAKED.search(case.text) or not soaked:
            if case.family == "soup":
                yield finding("soup-dry-beans", item.said, line=item.line)
            elif case.family in ("dried beans", "sauced beans", "chile con carne"):
                yield finding("beans-unsoaked", item.said, line=item.line)


def mix(case: Case) -> Iterator[Finding]:
    """Foods excluded from the mixed vegetables by name."""
    if case.family != "mixed vegetables":
        return
    for item in case.items:
        if item.lines and _excluded(item):
            yield finding("not-in-mix", item.said, line=item.line)


def _excluded(item: Item) -> bool:
    return bool(item.food.roles & {*_LEAFY, "dried bean"}) or item.food.process in (
        "winter squash",
        "pumpkin",
        "sweet potatoes",
        "cream-style corn",
    )


RULES = (half_solids, seafood, cured, dry_beans, mix)
