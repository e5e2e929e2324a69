"""Rules of what a recipe follows: a published food that it names, or the person's own source."""

import re
from collections.abc import Iterator

from stillroom.foods.vocabulary import find_food
from stillroom.processes import lookup, names
from stillroom.recipes.check.case import Case, Item
from stillroom.recipes.check.content_rules import ALWAYS_FREE, KEPT_OUT
from stillroom.recipes.check.finding import Finding, finding
from stillroom.recipes.check.tables import bases, own_words

# Words of a title that name a kind of preserve without telling which; the longer first.
_KINDS = (
    "pie filling", "preserves", "pickles", "relish", "stewed", "jelly", "salsa", "sauce", "syrup",
    "broth", "stock", "soup", "stew", "jam",
)  # fmt: skip
# In these no food stands alone: only the preserve is published, or is not.
_MADE_OF_MANY = frozenset(
    ["pie filling", "preserves", "pickles", "relish", "jelly", "salsa", "jam"]
)  # fmt: skip
_SEASONING = ALWAYS_FREE | {
    "sugar", "sweetener", "acid", "vinegar", "broth", "pectin", "fresh herb",
}  # fmt: skip
_NEAREST = 4


def base(case: Case) -> Iterator[Finding]:
    """A published food is named, and it is one that has a printed process."""
    found = case.found
    if found.barred:
        yield finding("never", found.barred.said, why=found.barred.reason,
                      instead=found.barred.instead,
                      source=f"{found.barred.source}, {found.barred.place}")  # fmt: skip
    elif found.targets:
        refusal = case.answer.refusal if case.answer else None
        if refusal and refusal.code == "withheld":
            yield finding("withheld", case.food_name, why=refusal.reason)
    elif case.base and found.candidates:
        yield finding("ambiguous-base", case.base, why="; ".join(found.candidates))
    elif case.base:
        yield finding("unknown-base", case.base)
    else:
        yield from _unnamed(case)


def _unnamed(case: Case) -> Iterator[Finding]:
    """No published food is named: what the recipe calls itself, and foods that have no process."""
    told = [word for word in own_words() if case.holds(word.word)]
    for word in {one.why: one for one in reversed(told)}.values():
        yield finding("never" if word.kind == "barred" else "own-mixture", word.word,
                      why=word.why, instead=word.instead, source=word.cited)  # fmt: skip
    cold = {"refrigerator", "freezer"} & set(case.pasted.facts.methods)
    kind = next((one for one in _KINDS if one in case.title_words), "")
    mains = _mains(case)
    alone = [] if kind in _MADE_OF_MANY and not told else [i for i in mains if _has_none(i)]
    if not (told or cold) and (not alone or len(alone) < len(mains)):
        title = case.pasted.title or "this recipe"
        about = kind or (f"{title} (mixture)" if len(mains) > 1 else title)
        yield finding("no-base", about, title=title, near=_near(case, mains))
    if alone and not case.kept_cold:
        several = len(alone) > 1
        yield finding(
            "no-process-alone", _listed([item.said for item in alone]),
            line=0 if several else alone[0].line,
            alone="by themselves" if several else "by itself", them="them" if several else "it",
            near=_near(case, mains) if len(alone) == len(mains) else "",
        )  # fmt: skip


def _has_none(item: Item) -> bool:
    """Whether a food has no process alone; a food that is barred is told by its own rule."""
    if item.food.canning == "never" or item.food.roles & KEPT_OUT:
        return False
    return item.food.canning != "own process" or names.find(item.food.food).barred is not None


def _mains(case: Case) -> list[Item]:
    """Foods of the recipe that are more than its seasoning; of the title where no line has one."""
    mains = [item for item in case.items if item.lines and not item.food.roles & _SEASONING]
    return mains or [
        Item(find_food(one.food), one.said, one.line, ())
        for one in case.pasted.mentions
        if not one.negated and not find_food(one.food).roles & _SEASONING
    ]


def _near(case: Case, mains: list[Item]) -> str:
    """Published foods near the recipe: what its title may mean, and what holds most of it."""
    items = [item for item in case.items if item.lines]
    held: dict[str, tuple[int, int]] = {}
    for (food, _), row in bases().items():
        many = sum(row.holds(item.food, fresh=item.fresh) for item in items)
        held[food] = max(held.get(food, (0, 0)), (many, -len(row.may)))
    meant = names.find(case.pasted.title) if case.pasted.title else names.Found()
    titled = [*(food for food, _ in meant.targets), *meant.candidates]
    titled.sort(key=lambda food: -held.get(food, (0, 0))[0])
    best = max(held, key=lambda food: held[food])
    many = held[best][0]
    fits = many > 1 and all(held.get(food, (0, 0))[0] < many for food in titled)
    own = [item.food.process.partition("|")[0] for item in mains[:1]]
    close = [*([best] if fits else []), *titled, *own]
    nearest = list(dict.fromkeys(filter(None, close)))[:_NEAREST]
    return f" (such as {', '.join(nearest)})" if nearest else ""


def _listed(said: list[str]) -> str:
    """Names in a sentence, each once."""
    once = list(dict.fromkeys(one.lower() for one in said))
    return " and ".join(filter(None, [", ".join(once[:-1]), once[-1]]))


_OWN = re.compile(r"\b(?:book|manual|handout|class|lab[- ]tested)\b(?:\s+(?:says?|time|recipe))?")


def own_source(case: Case) -> Iterator[Finding]:
    """A time by the person's own source, against the longest printed one among the foods."""
    told = case.pasted.facts.own_source or (
        found.group(0) if (found := _OWN.search(case.text)) else ""
    )
    if not told or case.target:
        return
    yield finding("own-source", told)
    said = [m.minutes for m in case.process_minutes]
    longest = max((_printed(case, item) for item in case.items if item.lines), default=(0, ""))
    if said and max(said) < longest[0]:
        yield finding("own-source-short", f"{max(said)} min", got=str(max(said)),
                      want=str(longest[0]), food=longest[1])  # fmt: skip


def _printed(case: Case, item: Item) -> tuple[int, str]:
    """The longest printed minutes for one food alone, in this jar and pack."""
    if item.food.canning != "own process":
        return (0, "")
    name = item.food.process.partition("|")[0]
    answer = lookup(name, elevation=case.feet, jar=case.jar or None, method=case.method or None)
    return max(((row.minutes, item.said) for row in answer.processes), default=(0, ""))


RULES = (base, own_source)
