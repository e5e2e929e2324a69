"""Which food a part of a line names where its words stand apart or are misspelled."""

from collections.abc import Sequence
from dataclasses import replace

from stillroom.recipes.text.elements import Element, words_at
from stillroom.recipes.text.item import Item, Line, plain_word
from stillroom.recipes.text.kitchen_words import prep_words
from stillroom.recipes.text.names import food_at, mended, names, stem, when_fresh
from stillroom.recipes.text.tokens import tokens
from stillroom.recipes.text.units import SIZES, UNITS
from stillroom.units.amounts import COUNTS, Amount

# "Beets, tops trimmed" are no beet tops.
_TAKEN_OFF = frozenset("top stem peel skin leaf leave rind pit end tip root core husk pod".split())
# Words that stand between two foods, not between the words of one.
_ANOTHER = frozenset("instead use used rather not i we no".split())
# Parts of a plant that are counted; a "slice" behind a name is how it is cut.
PIECES = frozenset(COUNTS) - {"each", "slice", "piece"} | {"rib", "bulb"}


def slips(work: Line, head: list[Element], foods: list[Element]) -> list[Element]:
    """A food read from a misspelled word.

    Where the part names another food, the slip must make its name longer: "cider vineger".
    """
    for one in head:
        if one.sort != "word" or plain_word(one):
            continue
        read = mended(one.stems[0])
        if not read:
            continue
        told = f"{work.row[one.start].text}>{read}"
        # The slip may be the last word of the name: "green baens".
        before = [e for e in head if e.end <= one.start and e.sort in ("word", "food")][-1:]
        if before:
            row = (*before[0].stems, read)
            food, length = food_at(row, 0)
            if length == len(row):
                return [Element("food", before[0].start, one.end, row, food, flag=told)]
        places = words_at(work.row, one.start, 4)
        words = [read, *(stem(work.row[p].text) for p in places[1:])]
        food, length = food_at(words, 0)
        if food and (length > 1 or not foods):
            end = places[length - 1] + 1
            return [Element("food", one.start, end, tuple(words[:length]), food, flag=told)]
    return []


def shared_noun(
    work: Line,
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


def narrow(work: Line, item: Item, more: Sequence[str] = ()) -> None:
    """A longer name made of words that stand apart: "lemon juice, bottled", "beans, green"."""
    base = {s for e in item.food_elements[:1] for s in e.stems}
    if not base and any(e.stems[0] in _ANOTHER for e in item.words):
        # "Instead of rice I use noodles" names no rice noodles.
        return
    near = [e for e in item.words if e not in item.tail and e.stems[0] not in _TAKEN_OFF]
    pool = {e.stems[0]: e for e in reversed(near) if len(e.stems) == 1}
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


def _vegetable(work: Line, item: Item) -> bool:
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


def count_unit(item: Item) -> None:
    """The unit that stands in the name: "6 garlic cloves" are cloves, "3 celery ribs" ribs."""
    measured = item.measured
    if measured and measured.unit == "cl" and item.food == "garlic":
        # Cards write "6 cl garlic" for cloves.
        number = [high.value / SIZES["cl"][1] for high in (measured.low, measured.high)]
        item.measured = replace(
            measured, low=Amount(number[0], "clove"), high=Amount(number[1], "clove")
        )
        return
    if measured is None or not measured.bare or not item.food_elements:
        return
    listed = {UNITS.get(t.plain, t.plain) for t in tokens(item.food) if t.sort == "word"}
    behind = [s for e in item.words if e.start >= item.food_elements[0].end for s in e.stems[:1]]
    last = item.food_elements[0].stems[-1]
    unit = UNITS.get(last) or UNITS.get((behind or [""])[0])
    if unit and unit in PIECES and unit not in listed:
        item.measured = replace(
            measured,
            low=Amount(measured.low.value, unit),
            high=Amount(measured.high.value, unit),
            unit_said=unit,
        )


def imply(work: Line, item: Item, title_food: str) -> bool:
    """The title's food for an amount that says only how it comes; cloves for "4 cloves"."""
    measured = item.measured
    if measured is None:
        return False
    if measured.unit_said and not any(not plain_word(w) for w in item.words):
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
    if title_food and weighed and all(plain_word(word) for word in item.words):
        item.food = title_food
        return True
    return False
