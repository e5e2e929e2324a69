"""Rules of what a canner is and does: the vent, the pressure held, the boil, the jars in it."""

import re
from collections.abc import Iterator

from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding

_VENT_MINUTES = 10
_KPA = 6.894757  # kilopascals in a pound per square inch
_KPA_TO_PSI, _BAR_TO_PSI = 1 / _KPA, 100 / _KPA
_NUMBERS = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
}  # fmt: skip
_NUMBER = rf"(?P<{{}}>\d{{{{1,2}}}}(?:\.\d)?|\b(?:{'|'.join(_NUMBERS)}))"
_POUNDS = r"(?:lbs?\b\.?|pounds?\b|#|p\.?s\.?i\b\.?)"
_RANGE = r"(?:\s*(?:-|–|to|or)\s*\d{1,2}(?:\.\d)?)?"
_SAID = re.compile(
    rf"(?<![\w/.]){_NUMBER.format('a')}{_RANGE}[\s-]*{_POUNDS}\s*(?:of\s+)?"
    r"(?:dial|weighted|weight|gau?ge|pressure|rocker|jiggl\w*)"
    rf"|(?:\bat|@)\s*{_NUMBER.format('b')}{_RANGE}[\s-]*{_POUNDS}"
    rf"|\b(?:dial|weighted|gau?ge|weight|pressure)[\s:]*(?:gau?ge\s*)?(?:at|of|to|is|reads?)?\s*"
    rf"{_NUMBER.format('c')}(?![\d./]*\s*(?:min|h|in(?:ch)?\b|\"|%|°|f\b|jars?|pints?|quarts?|oz|cups?))"
)
_METRIC = re.compile(r"(?<![\w/.])(?P<n>\d{1,3}(?:\.\d+)?)\s*(?P<unit>kpa|bars?)\b")
_WITHOUT = re.compile(
    r"\b(?:no|without)\s+(?:the\s+|a\s+|any\s+)?(?:weight|pressure|rocker)\b(?!\s*(?:cann|cook))"
    r"|\blid\s+(?:ajar|off|open)\b|\b(?:vent|petcock)\s+open\s+(?:the\s+whole|all|through)"
    r"|\blow\s+pressure\b|\bhalf\s+the\s+pressure|\b(?:never|not)\s+(?:\w+\s+)?reach\w*\s+pressure"
    r"|\blet\s+(?:the\s+)?pressure\s+(?:drop|fall)\s+(?:now|a\s+few|some|during)"
)
_NOT_BOILING = re.compile(
    r"\bsimmer\w*\s+(?:the\s+)?(?:filled\s+|sealed\s+)?jars?\b|\bbelow\s+(?:a\s+|the\s+)?boil"
    r"|\bhot\s+tap\s+water\s*[.;,]|\bjars?\s+half[- ]?way\b|\bhalf[- ]?way\s+up\s+the\s+jars?"
    r"|\bwater\s+(?:is\s+)?(?:held\s+)?at\s+1[0-9]0\b"
)
_OTHER = re.compile(
    r"\bsous[- ]vide\b|\brice\s+cooker|\bair\s+fryer|\bsolar\s+oven|\belectric\s+pot"
    r"|\b(?:process\w*|can|canned|jars?)\s+(?:\w+\s+){0,3}in\s+(?:a|the|my|our)\s+(?:smoker|steamer)\b"
    r"|\bpressure\s+(?:cooker|sauce\s?pan|pan)\b[^.;]{0,20}\b[1-4][- ](?:qt|quart)\b(?!\s+jars)"
)
_OPEN = re.compile(
    r"\b(?:do\s+not|don't|never|no\s+need\s+to|need\s+not|not\s+necessary\s+to)\s+(?:be\s+)?"
    r"(?:process(?:ed)?|can)\b(?!\s+(?:be|in|longer|more|less|until|over|with|if|use|take|quarts|it\s+in))"
    r"|\bskip\w*\s+the\s+(?:canner|process\w*|canning|bath)|\bno\s+(?:canning|processing)\s+(?:is\s+)?need"
    r"|\bno\s+bath\b|\bseal\s+and\s+let\s+(?:them\s+)?(?:stand|cool|set)\b|\bjust\s+seal\b|\bseal\s+(?:it\s+|them\s+)?(?:while\s+hot|and\s+leave)"
    r"|\bleft\s+to\s+seal\b|\bseals?\s+on\s+(?:their|its)\s+own|\blids?\s+will\s+pop\s+by"
)
_WAX = re.compile(r"\b(?:seal\w*|top\w*|cover\w*|cap\w*)\s+(?:\w+\s+){0,3}with\s+(?:\w+\s+)?wax\b"
                  r"|\bwax\s*[.;]")  # fmt: skip
_JARS = re.compile(
    r"\b(?:wire[- ])?bail(?:ed|s)?[- ](?:jars?|lids?)|\bzinc\s+(?:caps?|lids?)"
    r"|\bone[- ]piece\s+(?:caps?|lids?)"
    r"|\b(?:mayonnaise|mayo|peanut\s+butter|pasta\s+sauce|recycled|store)\s+jars?\b"
    r"|\b(?:reus\w*|used|old)\s+(?:flat\s+|(?:last|this)\s+year's\s+|the\s+|my\s+)*lids?\b"
)
_DENIED = re.compile(r"\b(?:no|not|never|don't|avoid|instead of|nor|or) +(?:\w+ +){0,2}$")


def vent(case: Case) -> Iterator[Finding]:
    """A vent that is told shorter than ten minutes."""
    if not case.under_pressure:
        return
    for one in case.pasted.facts.minutes:
        if one.what == "vent" and one.minutes < _VENT_MINUTES:
            yield finding("vent-short", f"{one.minutes} min", line=one.line)
    few = re.search(
        r"\bvent\w*\s+(?:for\s+)?(?:a\s+)?(?:few|couple|moment|some)\b[^.;]{0,12}", case.text
    )
    if few:
        yield finding("vent-short", f"a vent of unsaid length ({few.group(0)})")


def held(case: Case) -> Iterator[Finding]:
    """Words that say the printed pressure is not held."""
    if not case.under_pressure:
        return
    told = _told(_WITHOUT, case.text)
    if told:
        yield finding("not-held", told)


def pounds(text: str) -> list[float]:
    """Pounds of pressure that a text in small letters says; of a range its least.

    Examples
    --------
    >>> pounds("at five pounds"), pounds("5 lb dial"), pounds("dial gauge 8"), pounds("9 lb beans")
    ([5.0], [5.0], [8.0], [])
    >>> [round(one, 1) for one in pounds("held at 40 kpa")]
    [5.8]
    """
    found = []
    for m in _SAID.finditer(text):
        said = m["a"] or m["b"] or m["c"]
        found.append(float(_NUMBERS.get(said, said)))
    for m in _METRIC.finditer(text):
        found.append(float(m["n"]) * (_KPA_TO_PSI if m["unit"] == "kpa" else _BAR_TO_PSI))
    return [one for one in found if 1 <= one <= 15]


def boil(case: Case) -> Iterator[Finding]:
    """Water that does not boil over the jars, where boiling water is the process."""
    told = _told(_NOT_BOILING, case.text)
    # Held at 180 F for its own time it is another process, of which heat_rules asks.
    other = "low-temperature pasteurization" in case.pasted.facts.methods
    if told and case.method == "boiling-water" and not other:
        yield finding("not-boiling", told)


def no_canner(case: Case) -> Iterator[Finding]:
    """Vessels that are no canner, and jars that are left to seal by themselves."""
    if case.kept_cold or not case.rows:
        return
    told = _told(_OTHER, case.text)
    if told:
        yield finding("other-canner", told)
    if _told(_OPEN, case.text):
        yield finding("open-kettle", "open kettle")
    if _told(_WAX, case.text):
        yield finding("paraffin", "wax")


def jars(case: Case) -> Iterator[Finding]:
    """Jars and lids that are no longer used."""
    told = _told(_JARS, case.text)
    if told and case.rows:
        yield finding("jar-kind", told)


def _told(words: re.Pattern[str], text: str) -> str:
    """What of these words the text says without denying it, or ""."""
    for found in words.finditer(text):
        if not _DENIED.search(text, max(0, found.start() - 24), found.start()):
            return found.group(0)
    return ""


RULES = (vent, held, boil, no_canner, jars)
