"""Every food met anywhere in a text, and whether the text keeps it out of the jar."""

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from stillroom.recipes.pasted import Mention, Where
from stillroom.recipes.text.elements import named_at, words_at
from stillroom.recipes.text.names import names, stem, when_fresh
from stillroom.recipes.text.sentences import sentences
from stillroom.recipes.text.tokens import Token, tokens
from stillroom.recipes.text.units import unit_at

# A food that only names a tool or a size is none: a jelly jar, a potato masher, walnut-size.
_TOOLS = frozenset(
    "bath baths canner canners jar jars bag bags towel towels masher ricer pitter grinder "
    "thermometer knife corer peeler press slicer mill kettle strainer sized size brush scrubber "
    "barrel crock tamper spoon spoons pan funnel".split()
)
_STOPS = frozenset("add mix put use stir pour thicken cook boil simmer pack fill".split())
_NOT_HERE = {
    # Verbs and the like that are spelled as foods.
    "date": frozenset(["label", "and", "the", "with", "mark", "write", "by", "to", "this", "name"]),
    "corn": frozenset(["pepper"]),
    "ice": frozenset(["in", "an"]),
}
_DENY = (
    r"\b(?:without(?: any| the| adding)?|omit(?:ting|ted)?(?: the| all| any)?"
    r"|leav(?:e|es|ing) out(?: the| all| any)?|(?:instead|in place) of(?: the| a| an| using)?"
    r"|rather than(?: the| a| an| using)?|skip(?:ping|ped)?(?: the| all| any)?|minus(?: the)?"
    r"|free of|replac(?:es?|ing)(?: the)?"
    r"|no need (?:to add|to use|for)(?: any| the)?"
    r"|no(?! more| less| longer| need| later| matter| process| fewer)(?: added| extra| other)?"
    r"|(?:do not|don'?t|never|must not|should not|cannot|can'?t|won'?t|shouldn'?t|didn'?t|did not"
    r"|does not)(?: ever)? (?:add|use|put in|put|include|contain|thicken with|stir in|mix in|need"
    r"|want|can)(?: any| the| in| a| an)?|not any|(?:do not|don'?t|never)(?= (?:mash|pur[eé]e)))\s+"
)  # fmt: skip
_GONE = re.compile(
    r"^(?:[^.;,]{0,20}\s)?(?:is|are|was|were|being|be|may be|can be)?\s*(?:left out|omitted"
    r"|skipped|"
    r"not (?:added|used|needed|included)|never (?:added|used))\b|^[\s-]+free\b"
)
_TAKEN = re.compile(
    r"\b(?:trim\w*|skim\w*|remov\w*|drain\w*|cut|discard\w*|spoon\w*|pour\w*|excess|lift\w*)"
    r"(?:\s+\w+){0,4}\s*$"
)
_SERVE_ALL = re.compile(
    r"\b(?:when|before|after|at|on|upon|while|once|for(?=\s+(?:serv|the table)))\s+(?:you\s+|i\s+"
    r"|you're\s+|it\s+|we\s+|they\s+|just\s+|ready\s+to\s+)*(?:serv\w+|reheat\w*|eat\w*"
    r"|open\w*\b(?!\s+the\s+(?:canner|vent|lid))|the table|dinner\s?time|meal\s?time"
    r"|supper)\b|\blater\b(?! in)|\bserving (?:day|time)\b|\bat the table\b"
    r"|\bjust before (?:serving|eating)\b|\bthe day (?:you|we|i|they) (?:eat|serve|open)\w*"
)
_SERVE_ON = re.compile(
    r"\b(?:serv(?:e|ed|es|ing)|to serve|spoon(?:ed)?|ladle(?:d)?)\b[^.;]{0,30}?\b(?:with|over|on"
    r"|in|"
    r"alongside|beside|atop)\b|\b(?:good|great|nice|delicious|lovely|tasty) (?:with|over|on)\b"
    r"|\b(?:eat|enjoy)\w*\s+(?:(?:it|them|this|ours)\s+)?(?:with|over|on)\b"
    r"|\bgarnish\w* with\b|\btop(?:ped)? with\b"
)
_IN_JAR = re.compile(
    r"(?<!never )(?<!not )before (?:canning|filling|packing|processing|sealing)"
    r"|into (?:the |each |hot )*jars?|in (?:the |each |every )jars?|to (?:the |each |every )?jars?"
    r"|per (?:jar|pint|quart)"
    r"|and (?:then )?(?:process|can|pressure|fill|pack)\b"
)
_EITHER = re.compile(r"\bnow\s+or\b|\bor\s+now\b|\beither\b|\bin\s+it\b|\bin\s+there\b")
# "Serve with bread, add barley": another thing is done.
_DONE = re.compile(r",\s*(?:add|stir|put|mix|cook)\b")
_CLAUSE = re.compile(
    r"[;:]|\.\s|,\s*(?:then|but|and then)\b|\bbut\b|\n"
    # "Thicken it so that it is ready for serving day": it is done before.
    r"|\bso\s+(?:that\s+)?(?:it|they|all|everything|\w+\s+(?:is|are|will|can))\b"
)


@lru_cache(maxsize=1)
def _deny() -> re.Pattern[str]:
    return re.compile(_DENY)


def mentions_in(text: str, line: int, where: Where) -> Iterator[Mention]:
    """The foods of one line or sentence, in order.

    Parameters
    ----------
    text : as written
    line : of the paste
    where : in which part of the recipe it stands

    Examples
    --------
    >>> told = mentions_in("No salt. Thicken with flour when you serve it.", 4, "method")
    >>> [(m.food, m.negated, m.at_serving) for m in told]
    [('canning salt', True, False), ('flour', False, True)]
    """
    for sentence in sentences(text):
        row = tokens(sentence)
        found = [(row[a].start, row[b - 1].end, food) for a, b, food in _foods(row)]
        yield from _told(sentence, found, line, where)


def mentions_in_line(
    text: str, line: int, named: Sequence[tuple[int, int, str]]
) -> Iterator[Mention]:
    """The foods of an ingredient line: those it was read as, and others that stand in it.

    Parameters
    ----------
    text : the line as it was read
    line : of the paste
    named : places that name an ingredient, from and to a character, with its food
    """
    row = tokens(text)
    found: list[tuple[int, int, str]] = []
    for start, end, food in sorted(named):
        if found and found[-1][2] == food and not re.search(r"[,;0-9]", text[found[-1][1] : start]):
            found[-1] = (found[-1][0], end, food)
        elif all(food != known for _, _, known in found):
            found.append((start, end, food))
    taken = [(start, end) for start, end, _ in named]
    for a, b, food in _foods(row):
        start, end = row[a].start, row[b - 1].end
        if not any(start < over and begin < end for begin, over in taken):
            found.append((start, end, food))
    yield from _told(text, sorted(found), line, "ingredient")


def _told(
    sentence: str, found: list[tuple[int, int, str]], line: int, where: Where
) -> Iterator[Mention]:
    if not found:
        return
    low = sentence.lower().replace("’", "'")
    if len(low) != len(sentence):
        low = sentence
    denied = _denied(low, found)
    for place, (start, end, food) in enumerate(found):
        yield Mention(
            food=food,
            said=sentence[start:end],
            line=line,
            where=where,
            sentence=sentence,
            negated=place in denied,
            at_serving=_served(low, start),
        )


def _foods(row: tuple[Token, ...]) -> Iterator[tuple[int, int, str]]:
    """(first token, behind the last, food), longest names first where they overlap."""
    first_words = names().rows
    at, number = 0, False
    while at < len(row):
        token = row[at]
        if token.sort != "word":
            number = token.sort == "number" or (number and token.sort == "space")
            at += 1
            continue
        if number:
            # "3 cloves garlic": the unit is no food where one follows it.
            unit, _, end = unit_at(row, at)
            after = words_at(row, end, 1) if unit else []
            if after and stem(row[after[0]].text) in first_words:
                at, number = end, False
                continue
        number = False
        food, stems, last = named_at(row, at)
        if not food:
            at += 1
            continue
        length = len(stems)
        after = words_at(row, last, 1)
        behind = row[after[0]].plain if after else ""
        ahead = row[at - 2].plain if at >= 2 else ""
        if behind in _TOOLS or (length == 1 and ahead in _NOT_HERE.get(stems[0], ())):
            at = last
            continue
        if food in when_fresh() and (ahead == "fresh" or "fresh" in stems):
            food = when_fresh()[food]
        if food == "black pepper" and token.plain == "peppers" and length == 1:
            food = "peppers, kind not told"
        yield at, last, food
        at = last


def _denied(low: str, found: list[tuple[int, int, str]]) -> set[int]:
    """Places of foods that a "no", "without" or "instead of" keeps out."""
    denied: set[int] = set()
    starts = [start for start, _, _ in found]
    ends = [end for _, end, _ in found]
    for cue in _deny().finditer(low):
        place = next((p for p, start in enumerate(starts) if start >= cue.end()), None)
        if place is None:
            continue
        between = low[cue.end() : starts[place]]
        # "without peeling the tomatoes" keeps the tomatoes.
        doing = re.search(r"(?<!add)(?<!us)ing\b", between)
        if doing or re.search(r"[.;:,()0-9]", between) or len(between.split()) > 3:
            amount = re.fullmatch(
                r"(?:the\s+)?[0-9][0-9/ .½¼¾]*\s*\w{1,10}\.?\s*(?:of\s+)?", between
            )
            if doing or not amount:
                continue
        denied.add(place)
        run = [place]
        # "no noodles, rice or flour": a list goes on to its last "or".
        while run[-1] + 1 < len(starts):
            gap = low[ends[run[-1]] : starts[run[-1] + 1]]
            if not re.fullmatch(
                r"\s*(?:,|,?\s*(?:or|nor|/))\s*(?:any |added |other |the )?\s*", gap
            ):
                break
            run.append(run[-1] + 1)
            if re.search(r"or|/", gap):
                denied.update(run)
    for place, end in enumerate(ends):
        if _GONE.match(low[end : end + 50]):
            denied.add(place)
        # "Skim off all fat": it is taken away.
        fat = low[starts[place] : end] in ("fat", "fats", "grease", "drippings")
        if fat and _TAKEN.search(low[max(0, starts[place] - 40) : starts[place]]):
            denied.add(place)
    return denied


def _served(low: str, place: int) -> bool:
    """Whether a food joins only when the jar is opened."""
    begin = max((m.end() for m in _CLAUSE.finditer(low, 0, place)), default=0)
    ends = _CLAUSE.search(low, place)
    clause = low[begin : ends.start() if ends else len(low)]
    if _EITHER.search(clause):
        return False
    cue = _SERVE_ON.search(low, begin, place)
    if cue and not (_IN_JAR.search(low, cue.end(), place) or _DONE.search(low, cue.end(), place)):
        return True
    return not _IN_JAR.search(clause) and _SERVE_ALL.search(clause) is not None
