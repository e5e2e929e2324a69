"""What title and method say: pack, jars, headspace, times, pressure, methods and more."""

import re
from collections.abc import Iterable
from functools import lru_cache

from stillroom.recipes.pasted import Facts, Minutes
from stillroom.recipes.text.jars import jar_of, jar_pattern
from stillroom.recipes.text.minutes import minutes_in
from stillroom.recipes.text.tokens import tokens
from stillroom.recipes.text.ways import denied, flags_said, half_solids, methods_said

_OWN = re.compile(
    r"book(?:'s)? time|bulletin time|\(\s*(?:the |my |from (?:a|my|the) )?(?:tested )?book\s*\)"
    r"|(?:my|our|the|a|from)\s+(?:own\s+)?(?:tested|extension|canning|university|county|usda)"
    r"(?:\s+\w+){0,2}\s+(?:book|recipe|bulletin|source|guide|leaflet|manual|time|card|publication)"
    r"|tested (?:recipe|source|time) (?:from|in|of)\b[^.;,]{0,40}|(?:extension|university|usda) "
    r"(?:bulletin|leaflet|publication|recipe|guide|time)|(?:per|from|in) (?:my|the|our) "
    r"(?:canner'?s? )?(?:book|manual|bulletin|leaflet)\b|time (?:from|in|per) (?:my|the|our|a) \w+"
)
_PUREED = re.compile(
    r"\bpur[eé]e\w*|\bmash(?:ed|ing)?\b|\bblend(?:ed|er|ing)?\b[^.;]{0,25}(?:smooth|stick)?"
    r"|food[\s-]"
    r"mill|\briced?r?\b(?= (?:it|until|the (?:squash|pumpkin|pulp)))|immersion|until smooth"
    r"|blitz\w*"
    r"|food processor[^.;]{0,20}smooth|\bsieve\w*|\bwhizz?\b|liquef?i"
)
# In an ingredient line "puree" may be the name of one ingredient ("1 c chile puree").
_PULPED = re.compile(r"\b(?:pur[eé]ed|mashed|blended|sieved|milled)\b|food[\s-]mill|until smooth")
_THICK = re.compile(
    r"\broux\b|\bslurry\b|\bthicken(?:s|ed|er|ers|ing)?\b|\bdredg\w*|make (?:a )?gravy"
)
_LATER = re.compile(
    r"(?:when|before|after|until|at|on|for) (?:you |i |we |they |it )?(?:are "
    r"|is )?(?:ready to )?(?:serv|open|reheat|eat|us"
    r"ing|the table|dinner|heating)\w*|serving day|at the table|to serve\b"
)


_NOT_LIQUID = (
    r"(?!\s+(?:water|syrup|broth|stock|brine|liquid|juice|vinegar|dry|clean|sterile"
    r"|(?:(?:half[\s-])?(?:pint|quart)\s+)?jars?\b))"
)


@lru_cache(maxsize=1)
def _single() -> dict[str, re.Pattern[str]]:
    number = r"[0-9]+[\s-]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]\s?[½¼¾⅛]|[½¼¾⅛]|[0-9]+"
    inch = r"(?:inch(?:es)?\b|in\b\.?|[\"”″]|'')"
    return {
        "headspace": re.compile(
            rf"(?<![\w/.-])(?P<n>{number}|an?|one|half an|one[\s-]half)[\s-]*{inch}"
            r"(?![\s-]*(?:cube|piece|slice|thick|chunk|strip|wide|long|length|round|dice|piece"
            r"|diam|"
            r"of ginger|ginger|across|below|above|section|over the|of water|square|button|knob|"
            r"cinnamon|stick|lengths|deep|water))"
        ),
        "psi": re.compile(
            r"(?<![\w/.])(?P<a>[0-9]{1,2}(?:\.[0-9])?)\s*(?:psig?\b|(?:lbs?\b\.?|pounds?\b|#)\s*"
            r"(?:of\s+)?(?:pressure|per|gau?ge|weight(?:ed)?\b|dial\b))"
            r"|(?:\bat|@)\s*(?P<b>[0-9]{1,2}(?:\.[0-9])?)\s*(?:lbs?\b|pounds?\b|#)"
            r"|(?:pressure|gau?ge|canner|weight|psi"
            r"|process)\w*[^.;0-9]{0,24}?\s(?P<c>[0-9]{1,2})\s*"
            r"(?:lbs?\b|pounds?\b|#)(?!\s*[a-z]*\s*(?:of\s+)?(?:tomato|bean|meat|beef|pork))"
            r"|(?<![\w/.])(?P<d>[0-9]{1,2})\s*(?:lbs?\b\.?|pounds?\b|#)\s*(?:[,;]|for|x|at)?\s*"
            r"[0-9]{1,3}\s*min"
        ),
        "percent": re.compile(
            r"(?P<n>[0-9]{1,2}(?:\.[0-9]{1,2})?)\s*(?:%|per[\s-]?cent\b)(?=[^.;\n]{0,25}(?:vinegar|"
            r"acid))|(?:vinegar|acidity)[^.;\n]{0,20}?(?P<m>[0-9]{1,2}(?:\.[0-9]{1,2})?)\s*(?:%|per"
            r"[\s-]?cent\b)"
        ),
        "makes": re.compile(
            r"(?:(?:makes?|yields?|yield:|for|fills?|about|gives)\s*:?\s*(?:about\s+"
            r"|approximately\s+|"
            r"approx\.?\s+)?)?(?P<n>[0-9]{1,3})\s*(?:-\s*[0-9]{1,3}\s*|to [0-9]{1,3}\s*)?"
        ),
        "hot": re.compile(
            r"hot[\s-]*(?:(?:or|and|/)[\s-]*raw[\s-]*)?(?:pack|pk)\w*"
            r"|pack(?:ed)?\s+(?:\w+\s+){0,2}hot\b" + _NOT_LIQUID
            + r"|\bhot\s+(?:half[\s-])?(?:pints?|pts?\b|quarts?|qts?\b|into|in)\b"
            r"(?!\s+jars?\b)|(?:pints?|pts|quarts?|qts|jars?)\s*,?\s+(?:\w+\s+)?hot\b" + _NOT_LIQUID
            + r"|ladle\w*\s+hot" + _NOT_LIQUID + r"|fill\w*\s+(?:\w+\s+){0,3}hot\b" + _NOT_LIQUID
            + r"|\bhot fill|(?:^|[,;.]\s*)hot(?=\s*(?:[,;.]|$|w/|with\b))",
            re.MULTILINE,
        ),
        "raw": re.compile(
            r"raw[\s-]*(?:(?:or|and|/)[\s-]*hot[\s-]*)?(?:pack|pk)\w*|cold[\s-]*pack\w*|pack(?:ed)?\s+(?:\w+\s+){0,2}raw\b"
            r"|\braw\s*:"
            r"|(?:^|[,;.]\s*)raw(?=\s*(?:[,;.:]|$|in\b|into\b|pints?|pts|quarts?|qts|jars))"
            r"|(?:pints?|pts|quarts?|qts|jars?)\s*,?\s+raw\b|\bfill\w*\s+(?:\w+\s+){0,2}raw\b"
            r"|per (?:pint|quart|jar),?\s+raw\b",
            re.MULTILINE,
        ),
        "soaked": re.compile(r"soak\w*|re-?hydrat\w*"),
        "unsoaked": re.compile(r"un-?soaked|(?:no|without|not|never|skip(?:ped)?|don'?t"
        r"|instead of)\s+"
                               r"(?:the\s+|any\s+|pre-?)*soak\w*|dry beans? (?:in|into|straight)|"
                               r"(?:put|add|pack)\w*\s+(?:\w+\s+){0,3}dry\b|beans? in dry"),
        "vent": re.compile(r"\bvent(?:s|ed|ing)?\b|exhaust\w*|steady steam"),
        "borrowed": re.compile(r"\b(?:as|same as|like) (?:for |with )?(?:half[\s-])?(?:pints?"
        r"|quarts?)"),
    }  # fmt: skip


def read_facts(
    title: str, method: Iterable[tuple[int, str]], other: Iterable[str], *, title_line: int = 1
) -> Facts:
    """The facts of a recipe.

    Parameters
    ----------
    title : the title line; it may name jars and their number ("Pork soup, 9 pints")
    method : (line, sentence) pairs in order
    other : ingredient lines and headings, for what the way of preparing tells

    Examples
    --------
    >>> told = read_facts("Corn", [(3, "Raw pack pints, 1 in., vent 10, 55 min at 10 lb.")], [])
    >>> told.packs, told.jars, told.headspaces, told.psi, told.vent_said
    (('raw',), ('pint',), (1.0,), (10.0,), True)
    """
    said = [(line, _plain(text)) for line, text in method]
    rest = [_plain(text) for text in other]
    lead = _plain(title)
    every = [lead, *(text for _, text in said), *rest]
    whole = "\n".join([lead, *(text for _, text in said)])
    all_text = "\n".join(every)
    find = _single()
    compact = sum(len(text) for _, text in said) < 240
    timed = [*said, (title_line, lead)]
    minutes = [m for line, text in timed for m in minutes_in(text, line, compact)]
    return Facts(
        packs=_packs(whole + "\n" + "\n".join(t for t in rest if ":" in t)),
        jars=_jars([lead], said),
        headspaces=_headspaces(said),
        minutes=tuple(_settled(minutes)),
        psi=_psi(text for _, text in said),
        methods=methods_said([lead, *(text for _, text in said)]),
        half_solids=half_solids(all_text),
        vinegar_percent=tuple(
            dict.fromkeys(
                float(m["n"] or m["m"]) for text in every for m in find["percent"].finditer(text)
            )
        ),
        pureed=_is_told(_PUREED, whole) or any(_is_told(_PULPED, text) for text in rest),
        thickened=_is_told(_THICK, all_text),
        soaked=False
        if find["unsoaked"].search(all_text)
        else True
        if find["soaked"].search(all_text)
        else None,
        vent_said=any(not denied(whole, m.start()) for m in find["vent"].finditer(whole)),
        own_source=_own(all_text),
        makes=_makes([lead, *(text for _, text in said)]),
        flags=flags_said(all_text),
    )


def _plain(text: str) -> str:
    return text.lower().replace("’", "'").replace("\u00a0", " ")


def _is_told(words: re.Pattern[str], text: str) -> bool:
    """Whether a thing is done before canning: neither denied nor left for serving day."""
    for match in words.finditer(text):
        begin = max(text.rfind(sign, 0, match.start()) for sign in ".;\n(") + 1
        ends = [p for sign in ".;\n)" if (p := text.find(sign, match.end())) >= 0]
        clause = text[begin : min(ends, default=len(text))]
        if not denied(text, match.start()) and not _LATER.search(clause):
            return True
    return False


def _packs(text: str) -> tuple[str, ...]:
    find = _single()
    packs = [(m.start(), "raw") for m in find["raw"].finditer(text) if not denied(text, m.start())]
    packs += [(m.start(), "hot") for m in find["hot"].finditer(text)]
    return tuple(dict.fromkeys(pack for _, pack in sorted(packs)))


def _jars(titles: list[str], method: list[tuple[int, str]]) -> tuple[str, ...]:
    """Jar sizes that are no amounts of food."""
    found: list[str] = []
    for text in [*(t for _, t in method), *titles]:
        borrowed = [m.span() for m in _single()["borrowed"].finditer(text)]
        for match in jar_pattern().finditer(text):
            size = jar_of(match)
            if size == "gallon" or any(a <= match.start() < b for a, b in borrowed):
                continue
            if _of_food(text, match):
                continue
            found.append(size)
    return tuple(dict.fromkeys(found))


def _of_food(text: str, match: re.Match[str]) -> bool:
    """Whether a pint or quart measures a food: a number before it, a word of food behind."""
    if match["jars"] or match["ounces"]:
        return False
    counted = re.search(r"(?:[0-9½¼¾⅓⅔]|\b(?:one|two|three|four|five|six|a|an|half))[\s-]*$",
                        text[: match.start()])  # fmt: skip
    behind = re.match(r"\s+(?:of\s+)?(?!water[\s-]+bath)([a-z]+)", text[match.end() :])
    if not counted or not behind:
        return False
    return behind.group(1) not in _AFTER_JAR


_AFTER_JAR = frozenset(
    "jars jar and or for with in at to hot raw only process processed boiling pressure bath "
    "each vent vented using leave leaving about from".split()
)


def _headspaces(method: list[tuple[int, str]]) -> tuple[float, ...]:
    found = []
    for _, text in method:
        for match in _single()["headspace"].finditer(text):
            inches = _inches(match["n"])
            if inches is not None and 0 < inches <= 3:
                found.append(inches)
    return tuple(dict.fromkeys(found))


def _inches(said: str) -> float | None:
    words = {"a": 1.0, "an": 1.0, "one": 1.0, "half an": 0.5}
    if said in words:
        return words[said]
    if said.startswith("one") and said.endswith("half"):
        return 0.5
    numbers = [t.value for t in tokens(said) if t.sort == "number"]
    return float(sum(numbers)) if numbers else None


def _psi(sentences: Iterable[str]) -> tuple[float, ...]:
    found = [
        float(m["a"] or m["b"] or m["c"] or m["d"])
        for text in sentences
        for m in _single()["psi"].finditer(text)
    ]
    return tuple(dict.fromkeys(psi for psi in found if 1 <= psi <= 30))


def _makes(sentences: list[str]) -> tuple[tuple[int, str], ...]:
    found = []
    for place, text in enumerate(sentences):
        for match in jar_pattern().finditer(text):
            before = re.search(
                r"(?P<said>makes?|yields?|gives|fills?)?[^.;0-9]{0,20}?(?<![\w/.])(?P<n>[0-9]{1,3})"
                r"(?:\s*(?:-|–|to)\s*[0-9]{1,3})?\s*$",
                text[max(0, match.start() - 40) : match.start()],
            )
            size = jar_of(match)
            if before and (before["said"] or match["jars"] or place == 0) and size != "gallon":
                found.append((int(before["n"]), size))
    return tuple(dict.fromkeys(found))


def _own(text: str) -> str:
    found = _OWN.search(text)
    return found.group().strip(" ()") if found else ""


def _settled(minutes: list[Minutes]) -> Iterable[Minutes]:
    """Times in order, each once."""
    return dict.fromkeys(minutes)
