"""A pasted text as a recipe: title, headings, ingredients, method and what was not understood."""

import re
from dataclasses import dataclass, field, replace

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food
from stillroom.recipes.pasted import Kind, Mention, Pasted, PastedLine
from stillroom.recipes.text.elements import elements, is_plain
from stillroom.recipes.text.facts import read_facts
from stillroom.recipes.text.jars import jar_of, jar_pattern
from stillroom.recipes.text.jsonld import is_page, page_text
from stillroom.recipes.text.lines import read_line
from stillroom.recipes.text.mentions import mentions_in, mentions_in_line
from stillroom.recipes.text.sentences import sentences
from stillroom.recipes.text.serving import serving_lines
from stillroom.recipes.text.settle import settled
from stillroom.recipes.text.sorting import (
    is_ingredients,
    is_method,
    method_from,
    method_words,
    pieces,
    weighed,
)
from stillroom.recipes.text.tokens import tokens

_RAW = frozenset(["vegetable", "fruit", "meat", "poultry", "fish"])
# Units in which a main food is written into a title.
_SOLD = frozenset("lb oz kg g bushel peck crate lug bunch head".split())
_CUT = re.compile(
    r"^[0-9½¼¾⅓⅔⅛ /.-]+[a-z.]+,?\s+(?:pitted|peeled|sliced|chopped|diced|cubed|shelled|hulled"
    r"|husked|cored|shredded|grated|trimmed|stemmed)\b",
    re.IGNORECASE,
)
_LONGEST_NAME = 300
# A recipe is a page or two; a book or a log is a slip and would only be slow.
LARGEST = 100_000
_HEADINGS = re.compile(
    r"^\W*(?P<ingredients>ingredients?|you(?:'ll)? (?:will )?need|what you need|shopping list)\W*$"
    r"|^\W*(?P<method>directions?|method|instructions?|procedure|steps?|preparation"
    r"|how to(?: make)?"
    r"(?: it)?|to make|process(?:ing)?|canning|to can|notes?|tips?|yield|makes|serving|to serve"
    r"|storage|headspace|equipment)\W*$"
)


# So many jars, and nothing that is in them.
_COUNT = re.compile(r"\W*\d{1,3}\s+(?:half[\s-])?(?:quart|pint)s?(?:\s+jars?)?\W*$", re.IGNORECASE)


@dataclass(slots=True)
class _Page:
    """A recipe while its lines are sorted."""

    title: str = ""
    title_line: int = 0
    lines: list[PastedLine] = field(default_factory=list)
    found: list[Mention] = field(default_factory=list)
    written: list[tuple[int, str]] = field(default_factory=list)
    method: list[tuple[int, str]] = field(default_factory=list)
    headings: list[tuple[int, str]] = field(default_factory=list)
    not_understood: list[tuple[int, str]] = field(default_factory=list)
    section: str = ""
    per: str = ""
    in_method: bool = False
    in_ingredients: bool = False


def read_paste(text: str, *, base: str = "", kind: Kind = "text") -> Pasted:
    """A pasted text, read.

    Parameters
    ----------
    text : as a person writes or copies it; at most 100,000 characters
    base : the food it is meant for, where the person named one
    kind : how it came

    Returns
    -------
    Pasted : every ingredient line, food, fact and sentence, and what was not understood

    Raises
    ------
    InputError
        Empty, too long, or not text.

    Examples
    --------
    >>> soup = read_paste("Pork soup\\n2 lb lean pork, cubed\\nHalf solids, pints 75 min, vented")
    >>> soup.title, soup.lines[0].food, soup.facts.half_solids, soup.facts.jars
    ('Pork soup', 'pork', True, ('pint',))
    """
    if kind == "text" and is_page(text):
        return read_paste(page_text(text, "The paste"), base=base, kind="page")
    _refuse(text)
    page = _Page()
    title_food = _one_food(base) if base else ""
    numbered = [
        (number, " ".join(line.split()))
        for number, line in enumerate(re.split(r"\r\n|[\n\r\x0b\x0c\x85\u2028\u2029]", text), 1)
    ]
    written = [(number, line) for number, line in numbered if line]
    for place, (number, line) in enumerate(written):
        name, rest = _title_and_rest(line) if place == 0 else (line, "")
        if place == 0 and (rest or _is_title(line, len(written))):
            page.title, page.title_line = name, number
            title_food = _titled(name) or title_food or _one_food(name)
            if rest:
                _sort(page, number, rest, title_food)
            continue
        _sort(page, number, line, title_food)
    return _finish(page, text, kind, serving_lines(written))


def _titled(title: str) -> str:
    """The raw food that a title names alone: it, not the published food, is in the jar."""
    food = _one_food(title)
    return food if food and find_food(food).kind in _RAW else ""


def _refuse(text: str) -> None:
    if not text.strip("\ufeff \t\r\n\x0b\x0c"):
        raise InputError("The recipe is empty. Paste its title, ingredients and method as text.")
    if len(text) > LARGEST:
        raise InputError(
            f"{len(text):,} characters are too many for one recipe (at most {LARGEST:,}). Paste "
            "only the recipe itself."
        )
    odd = sum(text.count(sign) for sign in "\x00\x01\x02\x03\x04\x05\x06\x07\ufffd")
    if odd and odd * 50 > len(text):
        raise InputError(
            "This is not text but a file of another kind. Save the recipe as plain text, or copy "
            "its words and paste them."
        )


def _one_food(title: str) -> str:
    """The only food that a title names, or ""."""
    bare = re.sub(r"^\W*(?:home[\s-]?)?(?:pickled|canned|marinated|dilled|spiced|candied)\s+", "",
                  title, flags=re.IGNORECASE)  # fmt: skip
    found = {m.food for m in mentions_in(bare, 1, "title") if not m.negated and not m.at_serving}
    return found.pop() if len(found) == 1 else ""


def _title_and_rest(line: str) -> tuple[str, str]:
    """A first line that goes on into the recipe, cut where its name ends.

    Examples
    --------
    >>> _title_and_rest("Beef stock, 2 c soy sauce; quarts 25 min")
    ('Beef stock', '2 c soy sauce; quarts 25 min')
    >>> _title_and_rest("Turkey soup, 6 pints")
    ('Turkey soup, 6 pints', '')
    >>> _title_and_rest("Tomatillos, 9 lb, husked")
    ('Tomatillos', 'Tomatillos, 9 lb, husked')
    """
    # No name is longer; only its surroundings are looked at.
    head = line[:_LONGEST_NAME]
    row = tokens(head)
    every = elements(head, row, 0, len(row))
    amount = next((e for e in every if e.measured and not e.measured.bare), None)
    begin = row[amount.start].start if amount else len(head)
    cut = re.search(r":\s", head[:begin]) or re.search(
        r"\s(?:[-–—+]|--|->)\s|[;,]\s|(?<=[^\W\d_]{4})\.\s", head[:begin]
    )
    end, start = (cut.start(), cut.end()) if cut else (begin, begin)
    name, rest = line[:end].strip(" (["), line[start:].strip()
    if not name or not rest or len(name) > 120:
        return line, ""
    if re.match(r"\W*[0-9½¼¾⅓⅔⅛]", name) and ":" not in line[:start] and _one_food(name):
        # "2 rabbits soaked in brine, boiled": an ingredient, no title.
        return line, ""
    alone = read_line(line).lines
    if len(alone) == 1 and alone[0].food and alone[0].explained and weighed(alone[0]):
        # "Pie pumpkin in 1-inch cubes (16 lb)"
        return name, line
    if not (amount or re.search(r"[0-9½¼¾⅓⅔⅛]", rest)):
        return line, ""
    first = re.split(r"[,;.]\s", rest)[0]
    if (
        amount
        and _CUT.search(rest)
        and _one_food(name)
        and not list(mentions_in(first, 1, "ingredient"))
    ):
        # "Sour cherries 6 qt pitted"
        return name, line
    sold = amount is not None and amount.measured is not None and amount.measured.unit in _SOLD
    if sold and _one_food(name) and not list(mentions_in(first, 1, "ingredient")):
        # The name is the ingredient too.
        return name, line
    if len(rest.split()) > 2 and list(mentions_in(rest[:_LONGEST_NAME], 1, "ingredient")):
        return name, rest
    return line, ""


def _is_title(line: str, count: int) -> bool:
    """The first line, unless it is an ingredient or the method itself."""
    if len(line) > 120 or _HEADINGS.match(line.lower()):
        return False
    row = tokens(line)
    first = next(iter(elements(line, row, 0, len(row))), None)
    # "Three bean salad" begins with no amount.
    if first and first.measured and not (first.measured.bare and row[first.start].sort == "word"):
        return False
    return count > 1 or not method_words().search(line.lower())


def _sort(page: _Page, number: int, line: str, title_food: str) -> None:
    """Put a line where it belongs."""
    heading = _HEADINGS.match(line.lower()) if len(line) < 40 else None
    if heading:
        page.in_method = bool(heading["method"])
        page.in_ingredients = bool(heading["ingredients"])
        page.section, page.per = "", ""
        page.headings.append((number, line))
        return
    headed = line.endswith(":") and len(line) < 80 and not re.match(r"^\W*[0-9]", line)
    if headed and not is_method(line) and len(sentences(line)) == 1:
        page.section = line.rstrip(": ")
        found = re.search(r"\b(?:per|each|every|a)\s+", line.lower())
        jar = jar_pattern().match(line.lower(), found.end()) if found else None
        page.per = jar_of(jar) if jar and jar_of(jar) != "gallon" else ""
        page.headings.append((number, line))
        return
    for piece in pieces(line):
        _place(page, number, piece, title_food)


def _place(page: _Page, number: int, text: str, title_food: str) -> None:
    if page.in_method:
        _add_method(page, number, text)
        return
    cut = len(text) if page.in_ingredients and not is_method(text) else method_from(text)
    front, back = text[:cut].rstrip(" ,;:>-–—→"), text[cut:].lstrip(" ,;")
    if front:
        reading = read_line(
            front, number, title_food=title_food, section=page.section, per=page.per
        )
        if is_ingredients(reading, front, page.in_ingredients):
            page.lines += reading.lines
            page.written.append((number, front))
            page.found += mentions_in_line(front, number, reading.named)
            for one in reading.lines:
                _unsettled(page, one, number)
        else:
            back = f"{front}, {back}" if back else front
    if back:
        _add_method(page, number, back)


def _unsettled(page: _Page, one: PastedLine, number: int) -> None:
    if not one.food:
        page.not_understood.append((number, one.text))
    else:
        page.not_understood += [(number, piece) for piece in one.left_over]


def _add_method(page: _Page, number: int, text: str) -> None:
    page.method += [(number, sentence) for sentence in sentences(text)]


def _finish(page: _Page, text: str, kind: Kind, later: frozenset[int]) -> Pasted:
    found: list[Mention] = []
    if page.title:
        found += mentions_in(page.title, page.title_line, "title")
    made = _made(page)
    found += page.found
    for number, line in page.headings:
        found += mentions_in(line, number, "method")
    for number, sentence in page.method:
        found += mentions_in(sentence, number, "method")
    found = [replace(m, at_serving=True) if m.line in later else m for m in found]
    page.lines = [replace(one, at_serving=True) if one.line in later else one for one in page.lines]
    more = [one for one in _from_method(page) if one.line not in later]
    facts = read_facts(
        page.title,
        [(n, f"Makes {told}" if n in made else told) for n, told in page.method],
        [*(t for _, t in page.written), *(t for _, t in page.headings)],
        title_line=page.title_line,
    )
    per = {one.per for one in page.lines if one.per not in ("", "jar")}
    if not facts.jars and len(per) == 1:
        # "1 tsp salt per quart" tells the jar where nothing else does.
        facts = replace(facts, jars=tuple(per))
    return Pasted(
        title=page.title,
        lines=(*page.lines, *more),
        mentions=settled(found, (*page.lines, *more)),
        facts=facts,
        method=tuple(sentence for _, sentence in page.method),
        not_understood=tuple(dict.fromkeys(page.not_understood)),
        kind=kind,
        source_text=text,
    )


def _made(page: _Page) -> set[int]:
    """Lines that are a count of jars and nothing else, where the food itself is weighed below.

    "7 quarts" under the title of a recipe for 17 1/2 lb carrots is what it makes, not more carrots.
    """
    made = set()
    for one in list(page.lines):
        weighs = any(o.food == one.food and weighed(o) for o in page.lines)
        if weighs and _COUNT.match(one.text) and one.line not in made:
            made.add(one.line)
            page.lines.remove(one)
            page.method.append((one.line, one.text))
            page.found = [m for m in page.found if m.line != one.line]
            page.written = [w for w in page.written if w[0] != one.line]
    page.method.sort(key=lambda told: told[0])
    return made


def _from_method(page: _Page) -> list[PastedLine]:
    """Amounts of foods that only the method tells: "add 2 Tbsp bottled lemon juice a quart"."""
    listed = {one.food: one for one in page.lines if one.food}
    made: list[PastedLine] = []
    for number, sentence in page.method:
        if not re.search(r"[0-9½¼¾⅓⅔⅛]", sentence):
            continue
        told = list(mentions_in(sentence, number, "method"))
        kept = {m.food for m in told if not m.negated and not m.at_serving}
        if not kept:
            continue
        for one in amounts_in(sentence, number):
            known = listed.get(one.food)
            if one.food in kept and (known is None or (one.per and not known.per)):
                made.append(replace(one, from_method=True))
    return made


def amounts_in(sentence: str, number: int) -> list[PastedLine]:
    """Amounts with a food right behind them, anywhere in a sentence."""
    row = tokens(sentence)
    every = elements(sentence, row, 0, len(row))
    per = next((e.flag[4:] for e in every if e.flag.startswith("per:")), "")
    made = []
    for place, one in enumerate(every):
        measured = one.measured
        if measured is None or measured.bare:
            continue
        for after in every[place + 1 : place + 4]:
            if after.sort == "food":
                said = sentence[row[one.start].start : row[after.end - 1].end]
                line = next(iter(read_line(said, number, per=per).lines), None)
                if line and line.food:
                    made.append(line)
                break
            if after.sort != "word" or not is_plain(after.stems[0]):
                break
    return made
