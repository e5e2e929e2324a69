"""Putting the elements of a line into an ingredient."""

from dataclasses import replace

from stillroom.recipes.text.elements import Element, elements
from stillroom.recipes.text.item import Item, Line, plain_word
from stillroom.recipes.text.kitchen_words import TURNS
from stillroom.recipes.text.measures import Measured
from stillroom.recipes.text.names import food_at

SIGNS = frozenset(",;.:-–—‒()[]{}/+&\"'’“”%°*•·~#!?|×=☐□▢▪‣●○✓")
# What stands behind these does not go in.
_UNTIL = (("until",), ("till",), ("til",))
_AWAY = frozenset(["instead", "rather", "without", "size"])


def describe(work: Line, item: Item, row: list[Element], foods: list[Element]) -> None:
    """Put the elements of a part into an item."""
    chosen = None
    if foods:
        # The longest name of a run, and among equals the last: "chicken bouillon cubes".
        chosen = max(_run(row, foods), key=lambda e: (len(e.stems), e.start))
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


def _run(row: list[Element], foods: list[Element]) -> list[Element]:
    """The foods that only words part from the first: "vinegar (5%) ... water" name two things."""
    run = [foods[0]]
    for one in row:
        if one.start < run[-1].end:
            continue
        if one in foods:
            run.append(one)
        elif one.sort not in ("word", "food"):
            break
    return run


def _put(work: Line, item: Item, one: Element) -> None:
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
        work.mark(one.start, one.end, "prep" if plain_word(one) else "left")
    elif one.sort == "food" and any(flag.startswith("per:") for flag in item.flags):
        # "2 cups water to each quart of corn"
        work.mark(one.start, one.end, "phrase")
    elif one.sort == "food":
        item.other_foods.append(one)
        work.mark(one.start, one.end, "left")
    elif work.row[one.start].text in SIGNS:
        work.mark(one.start, one.end, "sign")
    else:
        work.mark(one.start, one.end, "left")


def _measure(work: Line, item: Item, measured: Measured) -> None:
    """Give an item its amount; behind "red and green peppers" it is of all of them."""
    chain = [item]
    while chain[0].chained:
        chain.insert(0, work.items[work.items.index(chain[0]) - 1])
    if item is work.items[-1] and all(one.measured is None for one in chain):
        for one in chain[1:]:
            one.joint = True
        item = chain[0]
    item.measured = measured


def _group(work: Line, item: Item, group: Element) -> None:
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
    denied = any(word.stems[0] == "not" for word in words)
    if words and not foods and not denied and all(plain_word(word) for word in words):
        item.words += words
    if len(foods) == 1 and item.food_elements and not any(e.measured for e in inner):
        # "broth (chicken)", "vinegar (apple cider)"
        row = (*foods[0].stems, *item.food_elements[0].stems)
        longer, length = food_at(row, 0)
        if longer and length == len(row):
            item.food = longer
    if foods and inner[0].flag == "or":
        item.alternatives += [*([] if item.alternatives else [item.food]), foods[0].food]


def describe_tail(work: Line, item: Item, tail: list[Element]) -> None:
    """Words after "in", "with" and the like; an amount of a food there is an ingredient too."""
    if tail and tail[0].stems[:1] in _UNTIL and not {"amount", "food"} <= {e.sort for e in tail}:
        # "pressed down till the juice fills the gaps"
        item.remarks.append((tail[0].start, tail[-1].end))
        work.mark(tail[0].start, tail[-1].end, "remark")
        return
    place = 0
    opened = ""
    while place < len(tail):
        one = tail[place]
        if one.sort == "word" and one.stems[0] in TURNS:
            opened = one.stems[0]
        away = opened in _AWAY
        if not away and (
            one.sort == "amount" or (one.sort == "food" and opened in ("in", "with", "plus"))
        ):
            food = next((e for e in tail[place:] if e.sort == "food"), None)
            if food:
                until = tail.index(food) + 1
                new = Item(one.start)
                work.items.append(new)
                describe(work, new, tail[place:until], [food])
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
            item.tail.append(one)
        item.end = max(item.end, one.end)
        place += 1
