"""Minutes in a method, and what each is of: the process, venting, boiling or soaking."""

import re
from fractions import Fraction
from functools import lru_cache

from stillroom.recipes.pasted import Minutes, What
from stillroom.recipes.text.jars import jar_of, jar_pattern
from stillroom.recipes.text.measures import NUMBERS
from stillroom.recipes.text.sentences import clauses

_DIGITS = r"[0-9]{1,4}(?:\s[0-9]{1,2}/[0-9]{1,2}|\.[0-9]{1,2}|\s?½)?|½|[0-9]{1,2}/[0-9]{1,2}"
_MIN = r"(?:minutes?|mins?)\b\.?|[′'](?![\w'])"
_HOUR = r"(?:hours?|hrs?|h)\b\.?"
_VENT = 10  # minutes


@lru_cache(maxsize=1)
def _times() -> re.Pattern[str]:
    words = "|".join(sorted(NUMBERS, key=len, reverse=True))
    number = rf"(?:{_DIGITS}|\b(?:{words}|an?|thirty|forty|forty-five|sixty|ninety)\b)"
    span = rf"(?:\s*(?:-|–|to|or)\s*(?:{_DIGITS}|\b(?:{words})\b))?"
    return re.compile(
        rf"(?P<half>half\s+an\s+hour|\b1/2\s+hour)"
        rf"|(?P<hours>{number}){span}[\s-]*{_HOUR}"
        rf"(?:\s*(?:,|and|&)?\s*(?P<more>{number})[\s-]*(?:{_MIN}))?"
        rf"|(?<![\w/.])(?P<minutes>{number}){span}[\s-]*(?:{_MIN}|m\b(?!\s*l))"
        r"|\bvent\w*(?:\s+(?:for|the|canner|steam|cooker))*\s+(?P<vent>[0-9]{1,2})\b"
        r"(?!\s*[-/°%]|\s*(?:m|h|in|f|lb|psi|pound)\b)"
    )


@lru_cache(maxsize=1)
def _bare() -> re.Pattern[str]:
    """Numbers that only their jar or a word explains: "pints 60", "60 for pints", "BW 10"."""
    jar = r"(?:half[\s-]?pints?|pints?|quarts?|pts?\b\.?|qts?\b\.?)"
    unit = (
        r"(?!-[0-9a-z])(?!\s*(?:[\"'/°%#x]|minute|min|m\b|hour|hr|h\b|inch|in\b|lb|oz|psi|jars"
        r"|(?:pint|quart|pt|qt)s?\b(?!\s+[0-9])|f\b|\.[0-9]))"
    )
    return re.compile(
        rf"(?<![\w/]){jar}\s*(?:jars?)?\s*[:=-]?\s*(?P<after>[1-9][0-9]{{1,2}})\b{unit}"
        rf"|(?<![\w/.])(?P<before>[1-9][0-9]{{1,2}})\s+for\s+(?:the\s+)?{jar}"
        rf"|\b(?P<fore>[1-9][0-9]?)\s+(?:bwb?|wb)\b"
        rf"|\b(?:bwb?|wb|water[\s-]?bath|boiling[\s-]water|process|pressure can"
        rf"|can at)\s*(?:for\s+|:\s*)?"
        rf"(?P<way>[1-9][0-9]{{0,2}})\b{unit}"
        rf"|\b(?:boil|simmer|cook|blanch)\s+(?P<boil>[1-9][0-9]?)\b(?=\s*(?:[,;.]|$))"
    )


# "boil 5; pints; 75; vent 10"
_ALONE = re.compile(r"[1-9][0-9]{1,2}$")
# What a time is of, by the nearest word before it in its clause, else the first one behind it.
_KINDS: tuple[tuple[What, str], ...] = (
    ("other", r"cool\w*|wait\w*|come[\s-]?up|preheat\w*|steriliz\w*|sterilis\w*|warm\w*|chill\w*"
     r"|ferment\w*|refrigerat\w*|wash\w*|marinat\w*|check\w*|empty jars|soft(?:en)? lids?"
     r"|turn(?:ed|ing)? off|heat off|off the heat|start to finish|drip\w*"),
    ("vent", r"(?:vent|exhaust)\w*(?:\s+steam\b)?|steam (?:flow|escape)\w*|let steam|steady steam"),
    ("soak", r"soak\w*|stand\w*|\brest\w*|\bsit\b|overnight|re-?hydrat\w*"),
    ("process", r"process\w*|canner|canning|water[\s-]*bath\w*|\bbath\b|\bbwb?c?\b|\bwb\b"
     r"|boiling[\s-]water(?=[\s,:]*(?:for\s+)?[0-9])|boil(?:ing)?\s+(?:the\s+|filled\s+|sealed\s+"
     r"|capped\s+|closed\s+|packed\s+)+jars?|pressure|pressuri[sz]e\w*|\bpsi\b|\bat\s+[0-9]+\s*"
     r"(?:lbs?|pounds?|#)|[0-9]+\s*(?:lbs?|pounds?|#)\s+pressure|book time|bulletin time"
     r"|\bp\.?c\.?\b(?=\s|$)|pressure can\w*|\bcan(?:ned)?\b(?=\s+(?:for|at|[0-9]))"
     r"|\boven\b|steam canner|\btime\b|microwav\w*|dishwasher\w*"),
    ("boil", r"boil(?!ing[\s-]water)\w*|simmer\w*|\bcook\w*|blanch\w*|heat\w*|roast\w*|bak\w*"
     r"|saut\w*|brown\w*|steam\w*|stew\w*|reduc\w*|\bfry\w*|fried|scald\w*|poach\w*|stir\w*|dip\w*"
     r"|in (?:\w+ )?syrup|broil\w*|grill\w*|parboil\w*|render\w*|melt\w*|bring"),
)  # fmt: skip


@lru_cache(maxsize=1)
def _words() -> re.Pattern[str]:
    return re.compile("|".join(f"(?P<{kind}>{words})" for kind, words in _KINDS))


def minutes_in(sentence: str, line: int, compact: bool) -> list[Minutes]:
    """The times of one sentence.

    Parameters
    ----------
    sentence : as written
    line : of the paste
    compact : whether the method is written in a few words, so that a time that stands alone is
        the process ("half solids; 1 in.; vent; 60 min")

    Examples
    --------
    >>> [(m.minutes, m.what) for m in minutes_in("Boil 5 min; 1 in.; vent; 60 min", 1, True)]
    [(5, 'boil'), (60, 'process')]
    """
    made: list[Minutes] = []
    before = ""
    for clause in clauses(sentence.lower()):
        found = [*_times().finditer(clause)]
        taken = [(m.start(), m.end()) for m in found]
        for place, match in enumerate(found):
            low = _value(match)
            if low is None:
                continue
            begin = found[place - 1].end() if place else 0
            until = found[place + 1].start() if place + 1 < len(found) else len(clause)
            what = _what(match, clause[begin : match.start()], clause[match.end() : until],
                         clause[: match.start()], before, compact, low)  # fmt: skip
            if what == "vent" and any(m.what == "vent" for m in made) and low > _VENT:
                # "vent 10 75 min": the vent has its own number already.
                what = "process"
            jar = _jar(clause[begin : match.start()], clause[match.end() : until])
            made.append(Minutes(low, what, jar, match.group().strip(), line))
        for match in _bare().finditer(clause):
            if not any(a < match.end() and match.start() < b for a, b in taken):
                if not (compact or made or _words().search(clause)):
                    continue
                jar_found = jar_pattern().search(match.group())
                number = next(g for g in match.groups() if g)
                made.append(
                    Minutes(
                        int(number),
                        "boil" if match["boil"] else "process",
                        jar_of(jar_found) if jar_found else "",
                        match.group().strip(),
                        line,
                    )
                )
        if compact and not found and _ALONE.match(clause):
            made.append(Minutes(int(clause), "process", "", clause, line))
        before = clause
    return made


def _value(match: re.Match[str]) -> int | None:
    if match["vent"]:
        return int(match["vent"])
    if match["half"]:
        return 30
    minutes = Fraction(0)
    for group, times in (("hours", 60), ("more", 1), ("minutes", 1)):
        if match[group]:
            value = _number(match[group])
            if value is None:
                return None
            minutes += value * times
    return int(minutes)


def _number(said: str) -> Fraction | None:
    said = said.strip().replace("½", " 1/2")
    words = {"a": 1, "an": 1, "thirty": 30, "forty": 40, "forty-five": 45, "sixty": 60,
             "ninety": 90}  # fmt: skip
    if said in NUMBERS or said in words:
        return Fraction(NUMBERS.get(said) or words[said])
    value = Fraction(0)
    for piece in said.split():
        top, _, bottom = piece.partition("/")
        if bottom and int(bottom) == 0:
            return None
        value += Fraction(int(top), int(bottom)) if bottom else Fraction(top)
    return value


def _what(
    match: re.Match[str],
    between: str,
    behind: str,
    start: str,
    before: str,
    compact: bool,
    minutes: int,
) -> What:
    if match["vent"]:
        return "vent"
    # The number goes with the words: "boiling water" needs it to be a process.
    near = [*_words().finditer(between + match.group())]
    near = [m for m in near if m.start() < len(between)]
    if near:
        return near[-1].lastgroup  # type: ignore[return-value]  # the group names are the kinds
    if jar_pattern().search(between) and not re.search(r"[0-9]\s*\w+\s*$", between):
        return "process"
    # "60 min, vented" tells that it was vented, not how long.
    after = _words().search(re.sub(r"^\W*(?:and\s+)?vented\b", " ", behind))
    if after:
        return after.lastgroup  # type: ignore[return-value]  # the group names are the kinds
    earlier = [*_words().finditer(start)]
    if earlier:
        return earlier[-1].lastgroup  # type: ignore[return-value]  # the group names are the kinds
    if re.search(r"\bvent\w*$", before) and minutes == 10 and not compact:
        return "vent"
    if compact or jar_pattern().search(behind):
        return "process"
    last = [*_words().finditer(before)]
    return last[-1].lastgroup if last else "other"  # type: ignore[return-value]  # as above


def _jar(before: str, behind: str) -> str:
    """The jar a time is for; "as for pints" only borrows it."""
    if re.match(r"\s*,?\s*(?:as|same as|like)\b", behind):
        return ""
    said = re.match(r"\s*\(?(?:for|per|in|on)?\s*(?:the\s+)?", behind)
    found = jar_pattern().match(behind, said.end() if said else 0)
    if not found:
        every = [*jar_pattern().finditer(before)]
        found = every[-1] if every else None
        several = len(every) > 1 and not re.search("[0-9]", before[every[-2].end() :])
        if several or (found and re.search(r"(?:^|[^\w])[0-9]\s*$", before[: found.start()])):
            return ""
    if not found or jar_of(found) == "gallon":
        return ""
    return jar_of(found)
