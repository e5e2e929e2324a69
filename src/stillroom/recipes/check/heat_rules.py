"""Rules of the canner: what heats the jar, how long, at what pressure, vented and cooled."""

import re
from collections.abc import Iterator

from stillroom.processes.model import PRESSURE, Process
from stillroom.recipes.check.canner_rules import pounds
from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding

_NO_CANNER = {
    "oven": "oven",
    "open kettle": "open-kettle",
    "inversion": "inversion",
    "paraffin": "paraffin",
    "microwave": "microwave",
    "dishwasher": "dishwasher",
    "slow cooker": "slow-cooker",
    "solar": "solar",
    "multi-cooker": "multi-cooker",
    "pressure saucepan": "saucepan",
}
_SAID = {
    "inversion": "turned upside down",
    "multi-cooker": "electric multi-cooker",
}
# Words that stand for nothing else in a recipe, looked for in all of the text.
_WORDS = {
    "microwave": re.compile(r"\bmicrowave"),
    "dishwasher": re.compile(r"\bdishwasher"),
    "paraffin": re.compile(r"\bparaffin"),
    "solar": re.compile(r"\bsolar\s+canner|\bin\s+the\s+full\s+sun"),
    "pressure saucepan": re.compile(r"\bpressure\s+sauce\s?pan"),
    "inversion": re.compile(r"\bupside[- ]down\b|\binver(?:t|sion)"),
    "oven": re.compile(
        r"\b(?:jars?|quarts?|pints?),?\s+bake\w*\b|\boven[- ]can|\boven\s+\d{3}\b(?!.*canner)"
    ),
}
_LOW_TEMPERATURE = re.compile(r"\b18[0-5]\s*(?:-\s*18\d\s*)?°?\s*f?\b.{0,25}\b30\s*min")
_ACID_ROLES = frozenset(["acid", "vinegar", "citrus"])
_NO_VENT = re.compile(
    r"(?:no|not|never|don't|dont|do not|without|skip|instead of)\s+(?:\w+\s+){0,2}vent"
    r"|no need to vent|vent\w*\s+(?:is\s+not|isn't|not)\s+need"
    r"|weight\s+on\s+(?:right|straight)\s+away"
)
_FORCED = re.compile(
    r"(?:cold|cool|ice)\s+water\s+over|run\s+(?:cold\s+)?water\s+over"
    r"|under\s+(?:the\s+)?(?:cold\s+)?(?:tap|faucet)|(?:rinse|hose)\s+the\s+canner"
    r"|release\s+the\s+pressure\s+(?:by\s+hand|at\s+once|quickly|yourself)"
    r"|open\s+the\s+(?:lid|canner)\s+(?:straight|right)\s+away|open\s+the\s+(?:lid|canner)\s+at\s+once"
    r"|quick[- ]?(?:cool|release)|force[d]?[- ]cool"
    r"|open(?:ing)?\s+the\s+(?:vent|petcock)\s+to\s+cool"
)


def no_canner(case: Case) -> Iterator[Finding]:
    """Ways of heating that are no process: oven, open kettle, upside down, and the like."""
    if case.kept_cold:
        return
    told = dict.fromkeys(case.pasted.facts.methods)
    told |= dict.fromkeys(said for said, words in _WORDS.items() if words.search(case.text))
    for said in told:
        if said in _NO_CANNER:
            yield finding(_NO_CANNER[said], _SAID.get(said, said))


def kept_cold(case: Case) -> Iterator[Finding]:
    """A recipe for the refrigerator or freezer asks for no process."""
    for said in case.pasted.facts.methods:
        if said in ("refrigerator", "freezer") and case.kept_cold:
            yield finding("kept-cold", f"{case.pasted.title or 'recipe'} ({said})", where=said)


def method_against_acid(case: Case) -> Iterator[Finding]:
    """Low-acid food in boiling water, and acid food under a pressure that is not printed."""
    boiling = case.method == "boiling-water"
    if case.target:
        if boiling and case.low_acid:
            yield finding("boiling-low-acid", "boiling water", food=case.food_name)
        methods = {row.method for row in case.any_row}
        if case.under_pressure and methods and not methods & set(PRESSURE):
            yield finding("no-pressure-row", case.food_name, food=case.food_name)
        return
    if not boiling or "ferment" in case.text:
        return
    soured = any(
        item.food.acidity == "acid" and item.food.roles & _ACID_ROLES for item in case.items
    )
    for item in case.with_role("meat", "poultry", "game", "seafood", "organ meat", "cured meat"):
        yield finding("boiling-mixture", "boiling water", food=item.said, line=item.line)
        return
    if soured:
        return
    main = [item for item in case.items if item.lines and item.food.acidity != "none"]
    low = [
        i for i in main if i.food.acidity == "low-acid" and not i.food.roles & {"water", "broth"}
    ]
    if low and len(low) >= len(main) / 2:
        yield finding("boiling-mixture", "boiling water", food=low[0].said, line=low[0].line)


def steam_canner(case: Case) -> Iterator[Finding]:
    """An atmospheric steam canner takes acid food whose printed time is 45 min or less."""
    if "steam canner" not in case.pasted.facts.methods:
        return
    if case.low_acid or (not case.target and case.method != "boiling-water"):
        yield finding("steam-low-acid", "steam canner", food=case.food_name)
        return
    printed = [row.minutes for row in case.rows if row.method == "boiling-water"]
    if printed and min(printed) > 45:
        yield finding("steam-long", "steam canner", minutes=str(min(printed)))
    else:
        yield finding("steam-note", "steam canner")


def low_temperature(case: Case) -> Iterator[Finding]:
    """Low-temperature pasteurization only where the recipe offers it."""
    if not _pasteurized(case):
        return
    base = case.rules_of_base
    if not (base and base.pasteurization):
        yield finding("ltp", "low-temperature pasteurization")


def _pasteurized(case: Case) -> bool:
    told = "low-temperature pasteurization" in case.pasted.facts.methods
    return told or bool(_LOW_TEMPERATURE.search(case.text))


def minutes(case: Case) -> Iterator[Finding]:
    """The time as written against the printed one; never shorter."""
    if _pasteurized(case) or not case.rows:
        return
    said = [m.minutes for m in case.process_minutes]
    if not said:
        return
    rows = at_said_pressure(case, case.rows)
    want, got = min(row.minutes for row in rows), max(said)
    jars = f" in {case.jar} jars" if case.jar else ""
    at = f"{jars} at {case.feet:,} ft" if case.feet else jars
    if got < want:
        rule = "soup-short" if case.family == "soup" else "short-time"
        yield finding(rule, f"{got} min", got=str(got), want=str(want), where=at)
    elif got > want and got not in [row.minutes for row in rows]:
        if not case.feet and any(row.method == "boiling-water" for row in rows):
            # In boiling water more is printed higher up: at 5,000 ft that may be the very time.
            at += " for the lowest elevation (higher up more is printed)"
        yield finding("long-time", f"{got} min", got=str(got), want=str(want), where=at)


def unsaid(case: Case) -> Iterator[Finding]:
    """A time that does for some of the printed jars, packs or canners, where none is told."""
    said = [m.minutes for m in case.process_minutes]
    if not said or _pasteurized(case):
        return
    open_ = not case.method and not case.pasted.facts.psi
    least: dict[tuple[str, str, str], int] = {}
    for row in at_said_pressure(case, case.rows):
        one = (
            "" if case.jar else f"{row.jar} jars",
            "" if case.pack else f"a {row.pack} pack",
            "" if not open_ else "a pressure canner" if row.psi else "boiling water",
        )
        least[one] = min(row.minutes, least.get(one, row.minutes))
    longest = max(least, key=lambda one: least[one], default=None)
    if longest is None or max(said) >= least[longest]:
        return
    apart = [{one[place] for one in least} for place in range(3)]
    told = [one for one, kinds in zip(longest, apart, strict=True) if len(kinds) > 1]
    if told:
        yield finding("which-unsaid", f"{max(said)} min", which=" and ".join(told),
                      want=str(least[longest]))  # fmt: skip


def at_said_pressure(case: Case, rows: tuple[Process, ...]) -> list[Process]:
    """Those rows that hold at the pressure written, where it is one of theirs; else all."""
    psi = [*case.pasted.facts.psi, *pounds(case.text)]
    held = [row for row in rows if row.psi is not None and psi and row.psi <= min(psi)]
    return held or list(rows)


def pressure(case: Case) -> Iterator[Finding]:
    """Pounds as written against the printed ones."""
    for psi in case.pasted.facts.psi:
        if psi > 15:
            yield finding("high-pressure", f"pressure of {psi:g} lb", got=f"{psi:g}")
    printed = [row.psi for row in _of_gauge(case) if row.psi is not None]
    said = [psi for psi in (*case.pasted.facts.psi, *pounds(case.text)) if psi <= 15]
    if printed and said and min(said) < min(printed):
        at = f" at {case.feet:,} ft" if case.feet else ""
        yield finding(
            "low-pressure", f"pressure of {min(said):g} lb",
            got=f"{min(said):.3g}", want=str(min(printed)), where=at,
        )  # fmt: skip


def _of_gauge(case: Case) -> tuple[Process, ...]:
    """Rows of the gauge the text names, else of both."""
    named = [method for method in PRESSURE if method in case.pasted.facts.methods]
    own = tuple(row for row in case.rows if row.method in named)
    return own or case.rows


def venting(case: Case) -> Iterator[Finding]:
    """A pressure canner is vented ten minutes."""
    if not case.under_pressure:
        return
    if _NO_VENT.search(case.text):
        yield finding("no-vent", "vent")
    elif not case.pasted.facts.vent_said:
        yield finding("vent-unsaid", "vent")


def cooling(case: Case) -> Iterator[Finding]:
    """A pressure canner cools by itself."""
    if case.under_pressure and _FORCED.search(case.text):
        yield finding("forced-cool", "cool-down")


RULES = (
    no_canner, kept_cold, method_against_acid, steam_canner, low_temperature, minutes, unsaid,
    pressure, venting, cooling,
)  # fmt: skip
