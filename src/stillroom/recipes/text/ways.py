"""Words that name a way of heating, a share of solids, and other plain facts."""

import re
from collections.abc import Iterable
from functools import lru_cache

_NO = r"(?:no|not|never|without|don'?t|do not|instead of|cannot|can'?t|isn'?t|avoid)"


# Words that name a method, each to be found in one sentence.
_METHODS = {
    "boiling-water": r"water[\s-]*bath\w*|\bbwb?c?\b|\bw/?b\b|boiling[\s-]water[\s-]+(?:canner|bath"
    r"|process\w*|for\s+[0-9]|[0-9]+\s*(?:min|hr|hour))|process\w*[^.;]{0,30}boiling[\s-]water"
    r"|boil(?:ing)?\s+(?:the\s+)?(?:filled|sealed|capped|closed|packed)\s+jars?"
    r"|boiling[\s-]water\s*[,:]\s*[0-9]+\s*min|boiling[\s-]water\s+[0-9]{1,3}(?=\s*(?:[,;.]|$))"
    r"|hot[\s-]water[\s-](?:bath|canner)"
    r"|(?:pints?|quarts?|jars?)\b[^.;]{0,20}\bmin\w*\.?\s+in\s+(?:a\s+)?boiling[\s-]water",
    "pressure": r"pressure|\bpsi\b|\bpressuri[sz]\w*|\bp\.?c\.?\b\s+(?:at|for|[0-9])|"
    r"(?:\bat|@)\s*[0-9]+\s*(?:lbs?\b|pounds?\b|#)",
    "dial-gauge": r"dial[\s-]*gau?ge|\bdial\b",
    "weighted-gauge": r"weighted[\s-]*gau?ge|weighted|jiggl\w*|rocker",
    "oven": r"oven[\s-]*(?:can\w*|process\w*|method|bath)|(?:in|into) (?:the |a |an |hot |warm |"
    r"slow |low |moderate )*oven[^.;]{0,60}jars?|jars?[^.;]{0,60}\boven\b|bake (?:the )?"
    r"(?:filled |sealed )*jars|process[^.;]{0,40}\boven\b",
    "open kettle": r"open[\s-]*kettle|no (?:further )?process\w*|without process\w*|need not be "
    r"process\w*|(?:lids?|jars?|they|it)\s+(?:will\s+)?(?:self[\s-]*)?seals?\s+(?:by\s+)?"
    r"(?:themselves|itself|as (?:it|they) cools?)|no water bath|no (?:need"
    r"|bath)[^.;]{0,20}(?:process"
    r"|bath)|seal at once|seal immediately|self[\s-]seal\w*|let the heat seal",
    "steam canner": r"(?:atmospheric[\s-]+)?steam[\s-]+cann\w*|steam bath",
    "paraffin": r"paraffin|(?:melted|hot|sealing|layer of|seal(?:ed)? with)\s+wax|petroleum wax",
    "inversion": r"invert\w*|inversion|upside[\s-]*down|(?:turn|flip)\s+(?:the\s+|filled\s+"
    r"|hot\s+)*"
    r"jars?\s+(?:over|onto)|on (?:their|its) (?:heads?|lids?)",
    "microwave": r"microwav\w*",
    "dishwasher": r"dish[\s-]*washer\w*",
    "slow cooker": r"slow[\s-]*cooker\w*|crock[\s-]*pots?\b",
    "multi-cooker": r"multi[\s-]*cooker\w*|electric (?:pressure )?(?:cooker|canner)|(?:smart"
    r"|programmable|digital)[\s-]+(?:pressure )?(?:cooker|canner|pot)",
    "low-temperature pasteurization": r"pasteuri[sz]\w*|18[0-5]\s*(?:°|degrees?)?\s*(?:-|–"
    r"|to)\s*18[0-5]"
    r"|low[\s-]temperature",
    "freezer": r"\bfreez\w*|\bfrozen\b[^.;]{0,20}\bjars?",
    "refrigerator": r"refrigerat\w*|\bfridge\b",
}


_VAT = r"(?:the |each |every |hot |clean |sterile |sterilized )*"


_SOLIDS = (
    (False, r"(?<!half )(?<!half-)(?<!1/2 )(?<!½ )(?<!way )"
     r"(?:two[\s-]?thirds|2/3|three[\s-]?(?:quarters|fourths)|3/4|¾|⅔|80 ?%|75 ?%|full of|"
     r"mostly|all|nearly all|tight\w*(?: with)?)\s*(?:full\s*)?(?:of |with )?(?:the )?solids"
     r"|solids "
     r"(?:to|up to|near) the (?:top|headspace|neck|rim|brim)|more than half (?:full of |the )?"
     r"solids|solids (?:three|two|3/4|2/3|¾)|fill jars? (?:full )?with solids"),
    (True, r"half[\s-]*(?:full\s*(?:of|with)\s*)?(?:of\s+)?(?:the\s+)?solids|half (?:the |each "
    r"|a )?"
     r"jars?(?: full)? (?:of |with )?(?:the )?solids|solids?[^.;,]{0,30}\b(?:half|halfway|50 ?%"
     r"|1/2)"
     r"\b|half[\s-]?way[^.;,]{0,30}solids|1/2 solids|50 ?% solids|half (?:full )?(?:of |with )?"
     r"(?:the )?(?:vegetables?|veg|meat|mixture)|half and half (?:solids|with broth)|fill "
     + _VAT + r"jars? (?:one[\s-])?half(?:way)?(?: full)?\b|half[\s-]full"),
)  # fmt: skip


_FLAGS = {
    "nothing added": r"nothing (?:else )?added|no additions|nothing else in",
    "no acid": r"no (?:added )?(?:acid|lemon juice|citric acid)\b",
    "skins on": r"skins? (?:left )?on|unpeeled|do not peel|don'?t peel|no need to peel",
    "peeled": r"\bpeel(?:ed|ing)?\b|skins? (?:off|removed)|\bskinned\b",
    "dry pack": r"dry[\s-]pack\w*|no liquid|without liquid|no added liquid|no water added",
    "raw meal": r"meal[\s-]in[\s-]a[\s-]jar|meal jars?|one[\s-]jar meal|layer(?:ed|s)? raw",
    "overnight": r"overnight",
    "fermented": r"ferment\w*|\bcrock\b",
    "smoked": r"\bsmok(?:ed?|ing)\b",
    "batch changed": r"doubl(?:ed?|ing) (?:the )?(?:batch|recipe)|halv(?:ed?|ing) the (?:batch"
    r"|recipe)",
    "time changed": r"(?:cut|shorten\w*|reduc\w*) the (?:process\w*|time|pressure)|less time"
    r"|half the "
    r"time|fewer minutes",
    "old jars": r"(?:mayonnaise|mayo|peanut butter|sauce|recycled|commercial|old) jars?",
}


@lru_cache(maxsize=1)
def _methods() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((name, re.compile(words)) for name, words in _METHODS.items())


@lru_cache(maxsize=1)
def _flags() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((name, re.compile(words)) for name, words in _FLAGS.items())


@lru_cache(maxsize=1)
def _solids() -> tuple[tuple[bool, re.Pattern[str]], ...]:
    return tuple((half, re.compile(words)) for half, words in _SOLIDS)


def denied(text: str, place: int) -> bool:
    """Whether a "no" or "without" stands shortly before a place."""
    return bool(_denial().search(text, max(0, place - 40), place))


@lru_cache(maxsize=1)
def _denial() -> re.Pattern[str]:
    return re.compile(rf"\b{_NO}\b[^.;,]{{0,24}}$")


def half_solids(text: str) -> bool | None:
    """Whether solids fill half of the jar, more, or nothing is said of it.

    Examples
    --------
    >>> half_solids("jars half full of solids"), half_solids("3/4 full of solids")
    (True, False)
    """
    return next((half for half, words in _solids() if words.search(text)), None)


def flags_said(text: str) -> frozenset[str]:
    """Other plain facts: "skins on", "dry pack", "overnight" and the like."""
    return frozenset(name for name, words in _flags() if words.search(text))


def methods_said(sentences: Iterable[str]) -> tuple[str, ...]:
    """The ways of heating and keeping that are said, in order, without those denied.

    Examples
    --------
    >>> methods_said(["no pressure canner here", "boiling water bath 3 hours"])
    ('boiling-water',)
    """
    found: list[tuple[int, int, str]] = []
    for place, text in enumerate(sentences):
        for name, words in _methods():
            for match in words.finditer(text):
                # "no water bath" is the open kettle's own wording.
                if name != "open kettle" and denied(text, match.start()):
                    continue
                if name in ("refrigerator", "freezer") and re.search(
                    r"after opening|once opened|leftover|unsealed|did not seal|not sealed", text
                ):
                    continue
                found.append((place, match.start(), name))
                break
    return tuple(dict.fromkeys(name for _, _, name in sorted(found)))
