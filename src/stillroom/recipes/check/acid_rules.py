"""Rules of acid: in every jar of tomatoes and figs, the strength of vinegar, frost."""

import re
from collections.abc import Iterator
from fractions import Fraction

from stillroom.recipes.check.amounts import spoons
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.tables import JarAcid, jar_acid, proportions
from stillroom.recipes.pasted import PastedLine
from stillroom.units.jars import quarts

_NAMES = {"lemon juice": "bottled lemon juice", "citric acid": "citric acid", "vinegar": "vinegar"}
_FRESH = re.compile(
    r"\bfresh\b|\bjuice\s+of\b|\bsqueezed\b|\blemons?\b(?!\s+juice)|\bhome[- ]?made\b"
    r"|\b(?:my|our)\s+own\b|\btrees?\b"
)
_UNKNOWN = re.compile(r"\b(?:home\s?made|my\s+own|our\s+own|own)\b")
_NOT = re.compile(r"\b(?:no|not|never|avoid|don'?t)\b[^.;\n]{0,40}$")
_FROST = re.compile(r"\bfrost|\bdead\s+vines?|vines?\s+were\s+dead")
_PER = re.compile(
    r"(?:per|each|ea\.?|every|/|to\s+the|\ba)\s*(half[- ]pint|pint|pt|quart|qt|jar)\b"
)
LEAST_PERCENT = 5.0


def per_jar(case: Case) -> Iterator[Finding]:
    """Acid in every jar, in the printed amount or more, from a bottle."""
    if not case.target:
        return
    printed = jar_acid(*case.target)
    if not printed:
        return
    want = _want(printed, case.jar or "quart")
    acids = [i for i in case.items if _kind(i) and i.lines]
    if not acids:
        yield finding("acid-missing", "acid", food=case.food_name, want=want)
        return
    fresh = [i for i in acids if _kind(i) == "lemon juice" and _is_fresh(i)]
    if fresh and len(fresh) == len(acids):
        yield finding("acid-fresh", fresh[0].said, want=want, line=fresh[0].line)
        return
    judged = [_enough(case, item, printed) for item in acids if item not in fresh]
    if any(one is True for one in judged):
        return
    item = next(i for i in acids if i not in fresh)
    rule = "acid-unclear" if any(one is None for one in judged) else "acid-short"
    yield finding(rule, f"{item.lines[0].text} (acid)", food=case.food_name, want=want,
                  line=item.line)  # fmt: skip


def _want(printed: tuple[JarAcid, ...], jar: str) -> str:
    told = [f"{one.said(jar)} {_NAMES[one.acid]}" for one in printed]
    return " or ".join(told)


def _kind(item: Item) -> str:
    if "vinegar" in item.food.roles:
        return "vinegar"
    if item.food.food == "citric acid":
        return "citric acid"
    return (
        "lemon juice" if {"citrus", "acid"} <= item.food.roles or "lemon" in item.food.food else ""
    )


def _is_fresh(item: Item) -> bool:
    written = " ".join(line.text for line in item.lines).lower()
    return "bottled" not in written and (bool(_FRESH.search(written)) or "fresh" in item.food.food)


def _enough(case: Case, item: Item, printed: tuple[JarAcid, ...]) -> bool | None:
    """Whether a jar gets enough of this acid; ``None`` where that cannot be told."""
    one = next((p for p in printed if p.acid == _kind(item)), None)
    if one is None:
        return None
    for line in item.lines:
        got = _teaspoons_a_quart(case, line)
        if got is not None:
            # Grams of citric acid in a half teaspoon are from memory: a tenth is let pass.
            return got >= one.teaspoons_per_quart * Fraction(93, 100)
    return None


def _teaspoons_a_quart(case: Case, line: PastedLine) -> Fraction | None:
    amount = spoons(line)
    per = line.per or _per_said(case.source_line(line.line))
    makes = case.pasted.facts.makes
    if amount is not None and case.pasted.kind == "file" and makes:
        # A recipe file's amounts are for the whole of what it makes.
        count, size = makes[0]
        return amount / (count * Fraction(quarts(size)))
    if amount is None or not per:
        return None
    jar = case.jar if per == "jar" else per
    return amount / Fraction(quarts(jar)) if jar else None


def _per_said(line: str) -> str:
    """The jar for which a line's amounts are said, in the words of the whole line."""
    found = _PER.search(line)
    if not found:
        return ""
    said = found.group(1)
    short = {"qt": "quart", "qts": "quart", "pt": "pint", "pts": "pint", "half pint": "half-pint"}
    return short.get(said, said)


def vinegar(case: Case) -> Iterator[Finding]:
    """Vinegar of 5 percent; weaker or unknown vinegar is barred, an unsaid strength noted."""
    told = case.pasted.facts.vinegar_percent
    for item in case.with_role("vinegar"):
        written = " ".join(line.text for line in item.lines).lower()
        if told and min(told) < LEAST_PERCENT:
            yield finding("vinegar-weak", item.said, got=f"{min(told):g}", line=item.line)
            return
        if _UNKNOWN.search(written):
            yield finding("vinegar-unknown", item.said, line=item.line)
        elif not told:
            yield finding("vinegar-unsaid", item.said, line=item.line)
            return


_WATERED = re.compile(
    r"\bdilut\w*|\bhalf[- ]strength\b|\bcut\s+with\b|\bequal\s+parts\b|\bevery\s+other\b|\bminus\b"
    r"|\b(?:and|or|with)\s+water\b|[-/]\s*water\b|\boptional\b|\bif\s+(?:you|we|i|it|there)\b"
    r"|\b(?:or|maybe)\s+less\b|\bskip\b|\bleave\s+(?:it\s+)?out\b|\bdrinking\b|\bsome\s+of\b"
)
_ADDED = re.compile(
    r"\b(?:top\w*|cover\w*|fill\w*|thin\w*|cut|dilut\w*|stretch\w*|finish\w*|make\s+up)\s+"
    r"(?:\w+\s+){0,3}?with\s+(?:(?:hot|boiling|plain|more|a\s+little|some)\s+)*water\b"
    r"|\b(?:add|plus)\s+(?:\w+\s+){0,2}?(?:more|extra)\s+water\b|\bwater\s+(?:plus|and)\s+more\b"
)
_SOUR = frozenset(["pickle", "relish", "salsa", "ketchup", "hot sauce", "chutney", "ferment"])


def whole(case: Case) -> Iterator[Finding]:
    """Acid that is optional, or that water or less of it may stand in for."""
    if not case.rules_of_base or case.rules_of_base.acid == "none":
        return
    for item in case.items:
        if not _kind(item):
            continue
        for line in item.lines:
            written = " ".join((line.text, line.remark or "", *line.left_over)).lower()
            told = _WATERED.search(written)
            if told or line.optional or "water" in line.alternatives:
                yield finding("acid-doubt", line.text, line=line.line)


def watered(case: Case) -> Iterator[Finding]:
    """Water in a pickle, relish or salsa of which no water is printed."""
    if case.family not in _SOUR or not case.target or not case.rows:
        return
    base = case.rules_of_base
    printed = any("water" in row.ingredient for row in proportions(*case.target))
    # Of cucumbers the row's water is that of a soak.
    printed |= base is not None and "water" in base.may and case.family not in ("pickle", "ferment")
    for item in case.with_role("water"):
        for line in () if printed else item.lines:
            written = case.source_line(line.line)
            if line.food == "water" and not _KEPT_APART.search(written):
                yield finding("water-added", line.text, food=case.food_name, line=line.line)
    added = next((m for m in _ADDED.finditer(case.text) if not _beside(case.text, m)), None)
    if added:
        yield finding("water-added", added.group(0), food=case.food_name)


_KEPT_APART = re.compile(
    r"\b(?:ice|iced|soak\w*|rins\w*|drain\w*|cold\s+water|blanch\w*|flour|starch)\b"
)


_CANNER = re.compile(r"\bcanner|\bjars?\s+(?:\w+\s+)?with\s+(?:\w+\s+)?water\b.*\binch")


def _beside(text: str, found: re.Match[str]) -> bool:
    """Whether the water is for the canner, or for a soak."""
    begin = max(text.rfind(sign, 0, found.start()) for sign in ".;\n") + 1
    ends = [p for sign in ".;\n" if (p := text.find(sign, found.end())) >= 0]
    sentence = text[begin : min(ends, default=len(text))]
    return bool(_CANNER.search(sentence) or _KEPT_APART.search(sentence))


def frost(case: Case) -> Iterator[Finding]:
    """Tomatoes from dead or frost-killed vines."""
    text = case.text
    told = (found for found in _FROST.finditer(text) if not _NOT.search(text[: found.start()]))
    if "tomato" in text and any(told):
        yield finding("frost", "frost")


def elderberries(case: Case) -> Iterator[Finding]:
    """Elderberries stand in an older list and are warned of since."""
    for item in case.items:
        if item.food.food == "elderberries":
            yield finding("elderberry", item.said, line=item.line)


RULES = (per_jar, vinegar, whole, watered, frost, elderberries)
