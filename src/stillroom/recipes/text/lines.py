"""The grammar of ingredient lines: one written line gives one ingredient or several."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from stillroom.recipes.pasted import PastedLine
from stillroom.recipes.text.elements import Element, elements, words_at
from stillroom.recipes.text.kitchen_words import TURNS, filler_words, prep_words
from stillroom.recipes.text.measures import Measured
from stillroom.recipes.text.names import food_at, mended, names, stem, when_fresh
from stillroom.recipes.text.tokens import Token, tokens
from stillroom.units.amounts import Amount

_SIGNS = frozenset(",;.:-–—‒()[]{}/+&\"'’“”%°*•·~#!?|×=☐□▢▪‣●○✓")
_BULLETS = frozenset("-–—*•·☐□▢▪‣●○+✓|")
# A line longer than any ingredient list is prose: it is not read word by word as one.
LONGEST = 2000


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a line with its part in it; "left" where nothing explains it."""

    text: str
    role: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What one line gave. The texts of the pieces, joined, are the line."""

    lines: tuple[PastedLine, ...]
    pieces: tuple[Piece, ...]

    @property
    def left_over(self) -> tuple[str, ...]:
        """Pieces that nothing explains."""
        return tuple(piece.text.strip() for piece in self.pieces if piece.role == "left")


@dataclass(slots=True)
class _Item:
    """An ingredient in the making."""

    start: int
    measured: Measured | None = None
    food: str = ""
    food_elements: list[Element] = field(default_factory=list)
    other_foods: list[Element] = field(default_factory=list)
    words: list[Element] = field(default_factory=list)
    remarks: list[tuple[int, int]] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)
    alternatives: list[str] = field(default_factory=list)
    chained: bool = False
    joint: bool = False
    mended: str = ""
    end: int = 0


class _Line:
    """One line while it is read: tokens, their roles and the items found so far."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.row: Sequence[Token] = tokens(text)
        self.roles = ["space" if t.sort == "space" else "" for t in self.row]
        self.items: list[_Item] = []
        self.each: Measured | None = None

    def mark(self, start: int, end: int, role: str) -> None:
        for place in range(start, end):
            if self.roles[place] != "space":
                self.roles[place] = role

    def said(self, start: int, end: int) -> str:
        if end <= start:
            return ""
        return self.text[self.row[start].start : self.row[end - 1].end].strip()


def read_line(
    text: str, line: int = 1, *, title_food: str = "", section: str = "", per: str = ""
) -> Reading:
    """The ingredients of one line.

    Parameters
    ----------
    text : one line, without line ends
    line : its number in the paste
    title_food : the food that a line means which names none ("18 lb in pods")
    section : the heading it stands under
    per : "" or what every amount of the line is for ("jar", "quart")

    Returns
    -------
    Reading : ingredients in order, and pieces that joined give the line

    Examples
    --------
    >>> one, = read_line("1 1/2 c vinegar (5% acidity)").lines
    >>> one.food, one.unit_said, one.remark, one.amount.value
    ('white vinegar', 'c', '(5% acidity)', Fraction(72, 1))
    >>> [item.food for item in read_line("4 c carrots, 4 c potatoes; salt and pepper").lines]
    ['carrots', 'potatoes', 'canning salt', 'black pepper']
    """
    if len(text) > LONGEST:
        return Reading(
            (PastedLine(text, line, left_over=(text.strip(),), section=section),),
            (Piece(text, "left"),),
        )
    work = _Line(text)
    at = _bullet(work)
    at, label, label_per = _label(work, at)
    parts = _parts(elements(text, work.row, at, len(work.row)), work)
    for place, (join, part) in enumerate(parts):
        following = parts[place + 1] if place + 1 < len(parts) else None
        _take(work, join, part, following)
    made = _finish(work, line, title_food, label or section, label_per or per)
    return Reading(tuple(made), _pieces(work))


def _bullet(work: _Line) -> int:
    """Behind signs and numbers that only list: "-", "3.", "[ ]"."""
    row, at = work.row, 0
    while at < len(row) and (row[at].sort == "space" or row[at].text in _BULLETS):
        at += 1
    if at + 2 < len(row) and row[at].text == "[" and row[at + 2].text == "]":
        at += 3
    if (
        at + 2 < len(row)
        and row[at].sort == "number"
        and row[at + 1].text in (".", ")")
        and row[at + 2].sort == "space"
        and at + 3 < len(row)
    ):
        at += 2
    work.mark(0, at, "bullet")
    return at


def _label(work: _Line, at: int) -> tuple[int, str, str]:
    """A heading on the line itself: "For the brine:", "Per quart, raw:"."""
    row = work.row
    colon = next((p for p in range(at, len(row)) if row[p].text == ":"), -1)
    if colon < 0 or colon - at > 16:
        return at, "", ""
    before = elements(work.text, row, at, colon)
    per = next((e.flag[4:] for e in before if e.flag.startswith("per:")), "")
    behind = elements(work.text, row, colon + 1, len(row))
    foods = [e for e in before if e.sort == "food"]
    if any(e.sort == "amount" for e in before) or (
        # "Tomatoes: 5 lb"
        len(foods) == 1 and behind and behind[0].sort == "amount"
        and not any(e.sort == "food" for e in behind)
    ):  # fmt: skip
        return at, "", ""
    said = work.said(at, colon)
    work.mark(at, colon + 1, "label")
    return colon + 1, said, per


def _parts(row: list[Element], work: _Line) -> list[tuple[str, list[Element]]]:
    """Elements between the joins, each with the join before it."""
    parts: list[tuple[str, list[Element]]] = []
    join, part = "", list[Element]()
    for one in row:
        if one.sort == "join":
            work.mark(one.start, one.end, "join")
            if part:
                parts.append((join, part))
                join, part = one.flag, []
            elif one.flag not in (",", ";") or not join:
                join = one.flag
            continue
        part.append(one)
    if part:
        parts.append((join, part))
    return parts


def _take(
    work: _Line, join: str, part: list[Element], following: tuple[str, list[Element]] | None
) -> None:
    """Read one part into a new item or the one before."""
    current = work.items[-1] if work.items else None
    head, tail = _turned(part)
    amounts = [e for e in head if e.sort == "amount"]
    foods = [e for e in head if e.sort == "food"]
    starts = bool(head) and _first(head).sort == "amount"
    if not foods and not any(e.sort == "food" for e in tail):
        foods = _slips(work, head)
    shared = _shared(work, part, head, following)
    if shared:
        foods = [shared]
    if foods and join in ("or", "nor", "/") and current and (current.food or current.measured):
        _alternative(work, current, part)
        return
    if foods and not starts and current and _fills(current, foods, join):
        _describe(work, current, head, foods)
        _tail(work, current, tail)
        return
    strange = any(e.sort == "word" and not _plain(e) for e in head)
    if foods or (starts and (strange or current is None)):
        item = _Item(part[0].start)
        work.items.append(item)
        item.chained = (
            current is not None and not amounts and join in ("and", "+", "&", "plus", "/")
        )
        item.joint = (
            item.chained and current is not None and (current.measured is not None or current.joint)
        )
        _describe(work, item, head, foods)
        if work.each and not item.measured:
            item.measured, item.joint = work.each, False
        _tail(work, item, tail)
        return
    if current is None:
        current = _Item(part[0].start)
        work.items.append(current)
    _describe(work, current, head, [])
    _tail(work, current, tail)


def _first(head: list[Element]) -> Element:
    """The first element that carries something."""
    for one in head:
        if not (one.sort == "word" and one.stems[0] in filler_words()) and one.sort != "sign":
            return one
    return head[0]


def _turned(part: list[Element]) -> tuple[list[Element], list[Element]]:
    """The words that name the food, and those after "in", "with", "for" and the like."""
    for place, one in enumerate(part):
        if one.sort == "word" and one.stems[0] in TURNS and place:
            return part[:place], part[place:]
        if one.sort == "word" and one.stems[0] in TURNS:
            return [], part
    return part, []


def _plain(one: Element) -> bool:
    return one.stems[0] in prep_words() or one.stems[0] in filler_words()


def _slips(work: _Line, head: list[Element]) -> list[Element]:
    """A food read from a misspelled word, where the part names none."""
    for one in head:
        if one.sort != "word" or _plain(one):
            continue
        read = mended(one.stems[0])
        if not read:
            continue
        places = words_at(work.row, one.start, 4)
        words = [read, *(stem(work.row[p].text) for p in places[1:])]
        food, length = food_at(words, 0)
        # The slip may be the last word of the name: "green baens".
        before = [e for e in head if e.end <= one.start and e.sort == "word"][-1:]
        if before:
            longer, more = food_at([before[0].stems[0], read], 0)
            if more == 2:
                return [Element("food", before[0].start, one.end, (before[0].stems[0], read),
                                longer, flag=f"{work.row[one.start].text}>{read}")]  # fmt: skip
        if food:
            return [Element("food", one.start, places[length - 1] + 1, tuple(words[:length]),
                            food, flag=f"{work.row[one.start].text}>{read}")]  # fmt: skip
    return []


def _shared(
    work: _Line,
    part: list[Element],
    head: list[Element],
    following: tuple[str, list[Element]] | None,
) -> Element | None:
    """The food of "red and green peppers", "chicken or beef broth": the noun stands once."""
    if following is None or following[0] not in ("and", "or", "+", "&", "/", "plus"):
        return None
    if head is not part and len(head) != len(part):
        return None
    next_food = next((e for e in following[1] if e.sort == "food"), None)
    if next_food is None or any(e.sort == "amount" for e in following[1]):
        return None
    named = [e for e in head if e.sort in ("word", "food")]
    if not named or named[-1] is not head[-1]:
        return None
    # "apples and grape juice": a plural stands for itself.
    if named[-1].sort == "food" and work.row[named[-1].end - 1].plain.endswith("s"):
        return None
    words = [s for e in named for s in e.stems]
    for shared in range(1, len(next_food.stems) + 1):
        noun = next_food.stems[-shared:]
        for begin in range(len(words)):
            row = (*words[begin:], *noun)
            food, length = food_at(row, 0)
            if food and length == len(row):
                kept, count = [], 0
                for one in reversed(named):
                    if count >= len(words) - begin:
                        break
                    kept.append(one)
                    count += len(one.stems)
                return Element("food", kept[-1].start, named[-1].end, tuple(words[begin:]), food)
    return None


def _fills(current: _Item, foods: list[Element], join: str) -> bool:
    """Whether a part completes the item before instead of beginning one."""
    if not current.food:
        # "4 cups peeled and sliced carrots", "2 lb fresh, ripe tomatoes"
        return all(_plain(word) for word in current.words) and not current.remarks
    if join == "," and current.measured and not current.words and current.food_elements:
        # "2 qt broth, chicken"
        row = (*foods[0].stems, *current.food_elements[0].stems)
        food, length = food_at(row, 0)
        if food and length == len(row):
            current.food = food
            return True
    return False


def _alternative(work: _Line, current: _Item, part: list[Element]) -> None:
    """A part after "or": another food for the same place."""
    food = (
        next(e for e in part if e.sort == "food") if any(e.sort == "food" for e in part) else None
    )
    if not current.food and food and not current.words:
        _describe(work, current, part, [food])
        return
    if food is None:
        _describe(work, current, part, [])
        return
    other = _Item(part[0].start)
    _describe(work, other, part, [food])
    # "bottled lemon or lime juice": the first word is of both.
    first = [s for e in current.food_elements[:1] for s in e.stems if s in prep_words()]
    _narrow(work, other, first)
    if not current.alternatives:
        current.alternatives.append(current.food)
    current.alternatives.append(other.food)
    current.flags |= other.flags
    for place in range(part[0].start, part[-1].end):
        if work.roles[place] not in ("left", "space"):
            work.roles[place] = "alternative"
    current.remarks.append((part[0].start, part[-1].end))
    current.end = max(current.end, part[-1].end)


def _describe(work: _Line, item: _Item, row: list[Element], foods: list[Element]) -> None:
    """Put the elements of a part into an item."""
    chosen = None
    if foods:
        # The longest name, and among equals the last: "tomato juice" in "thick tomato juice".
        chosen = max(foods, key=lambda e: (len(e.stems), e.start))
        if not item.food:
            item.food = chosen.food
        item.food_elements.append(chosen)
        if chosen.flag and ">" in chosen.flag:
            typed, read = chosen.flag.split(">", 1)
            item.mended = f'"{typed}" read as "{read}"'
        work.mark(chosen.start, chosen.end, "food")
    for one in row:
        if chosen and chosen.start <= one.start < chosen.end:
            continue
        _put(work, item, one)
    if row:
        item.end = max(item.end, row[-1].end, chosen.end if chosen else 0)


def _put(work: _Line, item: _Item, one: Element) -> None:
    if one.sort == "amount" and one.measured:
        if item.measured is None:
            _measure(work, item, one.measured)
            work.mark(one.start, one.end, "amount")
        else:
            item.remarks.append((one.start, one.end))
            work.mark(one.start, one.end, "remark")
    elif one.sort == "phrase":
        named = bool(item.food_elements) and item.food_elements[0].start < one.start
        if one.flag == "each" and item.measured and not named:
            work.each = item.measured
        else:
            item.flags.add("per:jar" if one.flag == "each" else one.flag)
        work.mark(one.start, one.end, "remark" if one.flag == "size" else "phrase")
        if one.flag == "size":
            item.remarks.append((one.start, one.end))
    elif one.sort == "group":
        _group(work, item, one)
    elif one.sort == "word":
        item.words.append(one)
        work.mark(one.start, one.end, "prep" if _plain(one) else "left")
    elif one.sort == "food":
        item.other_foods.append(one)
        work.mark(one.start, one.end, "left")
    elif work.row[one.start].text in _SIGNS:
        work.mark(one.start, one.end, "sign")
    else:
        work.mark(one.start, one.end, "left")


def _measure(work: _Line, item: _Item, measured: Measured) -> None:
    """Give an item its amount; behind "red and green peppers" it is of all of them."""
    chain = [item]
    while chain[0].chained:
        chain.insert(0, work.items[work.items.index(chain[0]) - 1])
    if item is work.items[-1] and all(one.measured is None for one in chain):
        for one in chain[1:]:
            one.joint = True
        item = chain[0]
    item.measured = measured


def _group(work: _Line, item: _Item, group: Element) -> None:
    """Parentheses: kept as a remark, read for what they tell of the ingredient."""
    work.mark(group.start, group.end, "remark")
    item.remarks.append((group.start, group.end))
    closed = group.end - (1 if work.row[group.end - 1].text in ")]}" else 0)
    inner = elements(work.text, work.row, group.start + 1, closed)
    words = [e for e in inner if e.sort == "word"]
    foods = [e for e in inner if e.sort == "food"]
    for one in inner:
        if one.sort == "phrase" and one.flag != "size":
            item.flags.add("per:jar" if one.flag == "each" else one.flag)
        elif one.sort == "amount" and item.measured is None and not foods:
            item.measured = one.measured
    if words and not foods and all(_plain(word) for word in words):
        item.words += words
    if foods and inner[0].flag == "or":
        item.alternatives += [*([] if item.alternatives else [item.food]), foods[0].food]


def _tail(work: _Line, item: _Item, tail: list[Element]) -> None:
    """Words after "in", "with" and the like; an amount of a food there is an ingredient too."""
    place = 0
    opened = ""
    while place < len(tail):
        one = tail[place]
        if one.sort == "word" and one.stems[0] in TURNS:
            opened = one.stems[0]
        if one.sort == "amount" or (one.sort == "food" and opened in ("in", "with", "plus")):
            food = next((e for e in tail[place:] if e.sort == "food"), None)
            if food:
                until = tail.index(food) + 1
                new = _Item(one.start)
                work.items.append(new)
                _describe(work, new, tail[place:until], [food])
                item, place, opened = new, until, ""
                continue
        if one.sort == "amount":
            item.remarks.append((one.start, one.end))
            work.mark(one.start, one.end, "remark")
        elif one.sort == "food":
            item.words.append(replace(one, sort="word"))
            work.mark(one.start, one.end, "prep")
        else:
            _put(work, item, one)
        item.end = max(item.end, one.end)
        place += 1


def _finish(work: _Line, line: int, title_food: str, section: str, per: str) -> list[PastedLine]:
    made = []
    for item in work.items:
        _narrow(work, item)
        implied = False
        if not item.food:
            implied = _imply(work, item, title_food)
        made.append(_made(work, item, line, section, per, implied))
    return made


def _imply(work: _Line, item: _Item, title_food: str) -> bool:
    """The title's food for an amount that says only how it comes; cloves for "4 cloves"."""
    measured = item.measured
    if measured is None:
        return False
    if measured.unit_said and not any(not _plain(w) for w in item.words):
        named, length = food_at([stem(measured.unit_said.split()[-1].strip("."))], 0)
        if named and length:
            item.food = named
            item.measured = replace(
                measured,
                low=Amount(measured.low.value, "each"),
                high=Amount(measured.high.value, "each"),
            )
            return False
    weighed = measured.high.kind != "count"
    if title_food and weighed and all(_plain(word) for word in item.words) and item.words:
        item.food = title_food
        return True
    return False


def _narrow(work: _Line, item: _Item, more: Sequence[str] = ()) -> None:
    """A longer name made of words that stand apart: "lemon juice, bottled", "beans, green"."""
    base = {s for e in item.food_elements[:1] for s in e.stems}
    pool = {e.stems[0]: e for e in reversed(item.words) if len(e.stems) == 1}
    pool |= {s: e for e in item.other_foods for s in e.stems}
    unit = {stem(item.measured.unit_said)} if item.measured and item.measured.unit_said else set()
    table = names()
    words = base | set(pool) | unit | set(more)
    best = frozenset(base)
    # Only a word of the food itself leads to a longer name.
    for word in base or pool:
        for known in table.by_word.get(word, ()):
            if known <= words and base <= known and len(known) > max(len(best), 1):
                best = known
    food = table.sets.get(best, "") if len(best) > len(base) else ""
    if food and food != item.food:
        item.food = food
        added = [pool[word] for word in best - base if word in pool]
        for one in added:
            if not set(one.stems) <= prep_words():
                work.mark(one.start, one.end, "food")
                item.other_foods = [e for e in item.other_foods if e is not one]
        if not item.food_elements and added:
            item.food_elements.append(min(added, key=lambda e: e.start))
    if item.food in when_fresh() and "fresh" in words:
        item.food = when_fresh()[item.food]
    elif item.food == "black pepper" and _vegetable(work, item):
        item.food = "peppers, kind not told"


def _vegetable(work: _Line, item: _Item) -> bool:
    """Whether "pepper" is a fruit: said as many, counted, cut, or more than a spice would be."""
    said = " ".join(work.said(e.start, e.end) for e in item.food_elements).lower()
    if said not in ("pepper", "peppers"):
        return False
    amount = item.measured.high if item.measured else None
    cut = {"chop", "dice", "slice", "seed", "core", "mince", "strip"}
    return (
        said == "peppers"
        or bool(cut & {s for e in item.words for s in e.stems})
        or (amount is not None and (amount.unit == "each" or amount.kind == "weight"))
        or (amount is not None and amount.kind == "volume" and amount.value >= 12)
    )


def _made(work: _Line, item: _Item, line: int, section: str, per: str, implied: bool) -> PastedLine:
    measured = item.measured
    flags = item.flags
    own = next((f[4:] for f in sorted(flags) if f.startswith("per:")), "")
    start = item.start
    end = max([item.end, *(e for _, e in item.remarks)], default=start)
    remarks = [work.said(a, b) for a, b in sorted(set(item.remarks))]
    if measured and measured.remark:
        remarks.insert(0, measured.remark)
    return PastedLine(
        text=work.said(start, end),
        line=line,
        low=measured.low if measured else None,
        high=measured.high if measured else None,
        unit_said=measured.unit_said if measured else "",
        food=item.food,
        food_said=" ".join(work.said(e.start, e.end) for e in item.food_elements[:1]),
        prep=_prep(work, item),
        remark=" ".join(remarks),
        per=own or (per if measured else ""),
        optional="optional" in flags,
        to_taste="to_taste" in flags or "to taste" in work.said(start, end).lower(),
        to_cover="to_cover" in flags,
        alternatives=tuple(dict.fromkeys(item.alternatives)),
        left_over=_left(work, start, end),
        joint=item.joint,
        implied=implied,
        at_serving="serving" in flags,
        mended=item.mended,
        section=section,
    )


def _prep(work: _Line, item: _Item) -> str:
    """The words of preparation as written, a comma where they stand apart."""
    said = [item.measured.extra] if item.measured and item.measured.extra else []
    for one in item.food_elements[:1]:
        # "fresh parsley" is listed as parsley: the word is kept.
        listed = {stem(word) for word in item.food.split()}
        for place in range(one.start, one.end):
            token = work.row[place]
            if token.sort == "word" and stem(token.text) in prep_words() - listed:
                said.append(token.text)
    run: list[int] = []
    words = [e for e in item.words if work.roles[e.start] in ("prep", "remark")]
    for one in sorted(words, key=lambda e: e.start):
        if run and any(
            work.roles[p] not in ("prep", "space", "join") or work.row[p].text in ",;"
            for p in range(run[-1], one.start)
        ):
            said.append(work.said(run[0], run[-1]))
            run = []
        run = [run[0] if run else one.start, one.end]
    if run:
        said.append(work.said(run[0], run[-1]))
    empty = filler_words()
    return ", ".join(
        dict.fromkeys(text for text in said if any(w not in empty for w in text.lower().split()))
    )


def _left(work: _Line, start: int, end: int) -> tuple[str, ...]:
    found, run = [], list[int]()
    for place in [*range(start, end), -1]:
        role = work.roles[place] if place >= 0 else ""
        if role == "left" or (run and role == "space"):
            run.append(place)
        elif run:
            found.append(work.said(run[0], run[-1] + 1))
            run = []
    return tuple(text for text in found if text)


def _pieces(work: _Line) -> tuple[Piece, ...]:
    """Runs of one role, spaces with the run before."""
    made: list[Piece] = []
    for token, role in zip(work.row, work.roles, strict=True):
        if made and (role == "space" or made[-1].role == role):
            made[-1] = Piece(made[-1].text + token.text, made[-1].role)
        else:
            made.append(Piece(token.text, role or ("sign" if token.text in _SIGNS else "left")))
    return tuple(made)
