"""The grammar of ingredient lines: one written line gives one ingredient or several."""

from dataclasses import dataclass

from stillroom.recipes.pasted import PastedLine
from stillroom.recipes.text.describe import SIGNS, describe, describe_tail
from stillroom.recipes.text.elements import Element, elements
from stillroom.recipes.text.item import Item, Line, plain_word
from stillroom.recipes.text.kinds import count_unit, imply, narrow, shared_noun, slips
from stillroom.recipes.text.kitchen_words import TURNS, filler_words, prep_words
from stillroom.recipes.text.names import food_at, stem
from stillroom.recipes.text.opening import bullet, label
from stillroom.recipes.text.tokens import tokens

# Nouns that a list turns round: "broth, chicken".
_ALWAYS_TURNED = frozenset(["vinegar", "bean"])
_TURNED = _ALWAYS_TURNED | {"broth", "stock", "tomato", "sugar", "flour"}
_BODY = frozenset("fat skin bones bone gristle silverskin sinew visible excess".split())
_OFF = frozenset(stem(word) for word in "trimmed removed discarded skimmed out".split())
_DENYING = frozenset(["no", "without", "omit", "skip", "minus"])
# A line longer than any ingredient list is prose: it is not read word by word as one.
LONGEST = 2000


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a line with its part in it; "left" where nothing explains it."""

    text: str
    role: str


@dataclass(frozen=True, slots=True)
class Reading:
    """What one line gave. The texts of the pieces, joined, are the line.

    ``named`` are the places of the line, from and to a character, that name a food.
    """

    lines: tuple[PastedLine, ...]
    pieces: tuple[Piece, ...]
    named: tuple[tuple[int, int, str], ...] = ()

    @property
    def left_over(self) -> tuple[str, ...]:
        """Pieces that nothing explains."""
        return tuple(piece.text.strip() for piece in self.pieces if piece.role == "left")


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
    ('vinegar, kind not told', 'c', '(5% acidity)', Fraction(72, 1))
    >>> [item.food for item in read_line("4 c carrots, 4 c potatoes; salt and pepper").lines]
    ['carrots', 'potatoes', 'canning salt', 'black pepper']
    """
    if len(text) > LONGEST:
        return Reading(
            (PastedLine(text, line, left_over=(text.strip(),), section=section),),
            (Piece(text, "left"),),
        )
    work = Line(text)
    at = bullet(work)
    at, heading, label_per = label(work, at)
    parts = _parts(elements(text, work.row, at, len(work.row)), work)
    for place, (join, part) in enumerate(parts):
        following = parts[place + 1] if place + 1 < len(parts) else None
        _take(work, join, part, following)
    made = _finish(work, line, title_food, heading or section, label_per or per)
    return Reading(tuple(made), _pieces(work), _named(work))


def _parts(row: list[Element], work: Line) -> list[tuple[str, list[Element]]]:
    """Elements between the joins, each with the join before it."""
    parts: list[tuple[str, list[Element]]] = []
    join, part = "", list[Element]()
    named = turned = False
    for place, one in enumerate(row):
        if one.sort == "amount" and named and not turned and _food_ahead(row, place):
            # "4 c berries 4 c sugar": nothing but the amount parts them.
            parts.append((join, part))
            join, part, named = ",", [], False
        if one.sort == "join":
            work.mark(one.start, one.end, "join")
            if part:
                parts.append((join, part))
                join, part = one.flag, []
            elif one.flag not in (",", ";") or not join:
                join = one.flag
            named = turned = False
            continue
        part.append(one)
        named = named or one.sort == "food"
        turned = turned or (one.sort == "word" and one.stems[0] in TURNS)
    if part:
        parts.append((join, part))
    return parts


def _food_ahead(row: list[Element], place: int) -> bool:
    """Whether a food follows an amount before the next join, and no word turns away from it."""
    for one in row[place + 1 :]:
        if one.sort == "join" or (one.sort == "word" and one.stems[0] in TURNS):
            return False
        if one.sort == "food":
            return True
    return False


def _take(
    work: Line, join: str, part: list[Element], following: tuple[str, list[Element]] | None
) -> None:
    """Read one part into a new item or the one before."""
    current = work.items[-1] if work.items else None
    if part[0].sort == "word" and part[0].stems[0] in _DENYING:
        # "no sugar": said to stay out.
        work.mark(part[0].start, part[-1].end, "denied")
        if current:
            current.remarks.append((part[0].start, part[-1].end))
        return
    if current and current.food and _taken_away(part):
        # "elk, fat trimmed"
        work.mark(part[0].start, part[-1].end, "prep")
        current.remarks.append((part[0].start, part[-1].end))
        return
    head, tail = _turned(part)
    amounts = [e for e in head if e.sort == "amount"]
    foods = [e for e in head if e.sort == "food"]
    starts = bool(head) and _first(head).sort == "amount"
    if not any(e.sort == "food" for e in tail):
        foods = slips(work, head, foods) or foods
    shared = shared_noun(work, part, head, following)
    if shared:
        foods = [shared]
    either = join in ("or", "nor") or (join == "/" and not starts)
    if foods and either and current and (current.food or current.measured):
        _alternative(work, current, part)
        return
    if foods and (not starts or join == "/") and current and _fills(current, foods, join):
        describe(work, current, head, foods)
        describe_tail(work, current, tail)
        return
    again = bool(foods) and bool(current) and join in ("and", "&") and not amounts
    if again and current and foods[0].food == current.food:
        # "canning & pickling salt" are one.
        describe(work, current, head, foods)
        describe_tail(work, current, tail)
        return
    strange = any(e.sort == "word" and not plain_word(e) for e in head)
    if foods or (starts and (strange or current is None)):
        item = Item(part[0].start)
        work.items.append(item)
        item.chained = (
            current is not None and not amounts and join in ("and", "+", "&", "plus", "/")
        )
        item.joint = (
            item.chained and current is not None and (current.measured is not None or current.joint)
        )
        describe(work, item, head, foods)
        if work.each and not item.measured:
            item.measured, item.joint = work.each, False
        describe_tail(work, item, tail)
        return
    if current is None:
        current = Item(part[0].start)
        work.items.append(current)
    describe(work, current, head, [])
    describe_tail(work, current, tail)


def _taken_away(part: list[Element]) -> bool:
    """Fat, skin or bones and a word that they are taken off, nothing else."""
    said = [s for e in part for s in e.stems]
    return bool(_OFF & set(said)) and all(s in _OFF | _BODY | filler_words() for s in said)


def _first(head: list[Element]) -> Element:
    """The first element that carries something."""
    for one in head:
        if not (one.sort == "word" and one.stems[0] in filler_words()) and one.sort != "sign":
            return one
    return head[0]


def _turned(part: list[Element]) -> tuple[list[Element], list[Element]]:
    """The words that name the food, and those after "in", "with", "for" and the like."""
    for place, one in enumerate(part):
        if one.sort != "word":
            continue
        of = part[place + 1].stems[:1] if place + 1 < len(part) else ()
        # "butter the size of an egg"
        if one.stems[0] in TURNS or (one.stems[0] == "size" and of == ("of",)):
            return part[:place], part[place:]
    return part, []


def _fills(current: Item, foods: list[Element], join: str) -> bool:
    """Whether a part completes the item before instead of beginning one."""
    if not current.food:
        # "4 cups peeled and sliced carrots", "2 lb fresh, ripe tomatoes"
        return all(plain_word(word) for word in current.words) and not current.remarks
    if join == "," and not current.words and current.food_elements:
        # "2 qt broth, chicken", "vinegar, cider, 2 cups"; "salt, garlic" stay two.
        noun = current.food_elements[0].stems
        food, length = food_at((*foods[0].stems, *noun), 0)
        turned = _TURNED if current.measured else _ALWAYS_TURNED
        if food and length == len(foods[0].stems) + len(noun) and noun[-1] in turned:
            current.food = food
            return True
    return False


def _alternative(work: Line, current: Item, part: list[Element]) -> None:
    """A part after "or": another food for the same place."""
    food = (
        next(e for e in part if e.sort == "food") if any(e.sort == "food" for e in part) else None
    )
    if not current.food and food and not current.words:
        describe(work, current, part, [food])
        return
    if food is None:
        describe(work, current, part, [])
        return
    other = Item(part[0].start)
    describe(work, other, part, [food])
    # "bottled lemon or lime juice": the first word is of both.
    first = [s for e in current.food_elements[:1] for s in e.stems if s in prep_words()]
    narrow(work, other, first)
    if not current.alternatives:
        current.alternatives.append(current.food)
    current.alternatives.append(other.food)
    current.flags |= other.flags
    for place in range(part[0].start, part[-1].end):
        if work.roles[place] not in ("left", "space"):
            work.roles[place] = "alternative"
    current.remarks.append((part[0].start, part[-1].end))
    current.end = max(current.end, part[-1].end)


def _finish(work: Line, line: int, title_food: str, section: str, per: str) -> list[PastedLine]:
    made = []
    for item in work.items:
        narrow(work, item)
        count_unit(item)
        implied = False
        if not item.food:
            implied = imply(work, item, title_food)
        made.append(_made(work, item, line, section, per, implied))
    return made


def _made(work: Line, item: Item, line: int, section: str, per: str, implied: bool) -> PastedLine:
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


def _prep(work: Line, item: Item) -> str:
    """The words of preparation as written, a comma where they stand apart."""
    said = [item.measured.extra] if item.measured and item.measured.extra else []
    for one in item.food_elements[:1]:
        # "fresh parsley" is listed as parsley: the word is kept.
        listed = {stem(t.text) for t in tokens(item.food) if t.sort == "word"}
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


def _left(work: Line, start: int, end: int) -> tuple[str, ...]:
    found, run = [], list[int]()
    for place in [*range(start, end), -1]:
        role = work.roles[place] if place >= 0 else ""
        if role == "left" or (run and role == "space"):
            run.append(place)
        elif run:
            found.append(work.said(run[0], run[-1] + 1))
            run = []
    return tuple(text for text in found if text)


def _named(work: Line) -> tuple[tuple[int, int, str], ...]:
    return tuple(
        (token.start, token.end, item.food)
        for item in work.items
        if item.food
        for place, token in enumerate(work.row[item.start : item.end], item.start)
        if work.roles[place] == "food"
    )


def _pieces(work: Line) -> tuple[Piece, ...]:
    """Runs of one role, spaces with the run before."""
    made: list[Piece] = []
    for token, role in zip(work.row, work.roles, strict=True):
        if made and (role == "space" or made[-1].role == role):
            made[-1] = Piece(made[-1].text + token.text, made[-1].role)
        else:
            made.append(Piece(token.text, role or ("sign" if token.text in SIGNS else "left")))
    return tuple(made)
