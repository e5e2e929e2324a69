"""Which ingredient goes into the jar at which step of a recipe's fill list.

A fill list is written for people: "salt, if wanted", "hot solids", "hot stock to the headspace".
Every ingredient is found a place: at the step that names it or its kind, else in what is poured
to the headspace, else at a step of its own. Nothing is dropped.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from stillroom.foods.vocabulary import Food, find_food
from stillroom.recipes.model import Ingredient, Recipe
from stillroom.words import key

Role = Literal["acid", "seasoning", "sweet", "solids", "liquid"]
Kind = Literal["acid", "seasoning", "solids", "liquid", "whole"]

_ROLES: Final[dict[str, Role]] = {
    "acid": "acid",
    "herb": "seasoning",
    "liquid": "liquid",
    "pectin": "sweet",
    "salt": "seasoning",
    "spice": "seasoning",
    "stock": "liquid",
    "sugar": "sweet",
}
# Vegetables that are put in for their taste, a clove to the jar.
_FLAVORINGS: Final = frozenset(["garlic"])

# Words of a step that mean every food of a role or kind.
_OF_ROLE: Final[dict[Role, frozenset[str]]] = {
    "acid": key("acid lemon vinegar citric"),
    "seasoning": key("seasonings spices herbs flavorings"),
    "sweet": key("sugar syrup"),
    "solids": key("solids food pieces mixture"),
    "liquid": key("liquid"),
}
_OF_KIND: Final = {
    "fish": key("fish seafood"),
    "fruit": key("fruit"),
    "meat": key("meat"),
    "poultry": key("meat poultry"),
    "vegetable": key("vegetables"),
    "dry beans": key("vegetables beans peas"),
}
# What one pours: its word names the layer. The first that a step has is taken.
_POURED: Final = (
    "brine pickle syrup stock broth juice sauce jam jelly marmalade relish salsa puree soup "
    "cooking-water water wine vinegar liquid"
).split()
_SEASONED: Final = key("brine pickle syrup vinegar sauce jam jelly marmalade relish salsa marinade")
# Jars of these hold what ran off; the pieces stay behind.
_STRAINED: Final = frozenset(["broth", "jelly", "juice", "stock", "syrup"])


@dataclass(frozen=True, slots=True)
class Step:
    """One step of filling: its words, what goes in, and of which kind it is.

    ``word`` names what is poured, "" where the foods name themselves. ``ours`` marks a step that
    the fill list does not have: the ingredient stands in the recipe and had no place.
    """

    text: str
    kind: Kind
    word: str
    lines: tuple[Ingredient, ...]
    ours: bool = False


@dataclass(frozen=True, slots=True)
class Filling:
    """The steps of a recipe in order, and what is strained out before the jars are filled."""

    steps: tuple[Step, ...]
    strained: tuple[Ingredient, ...]


def role_of(food: Food) -> Role:
    """What a food does in a jar.

    Examples
    --------
    >>> role_of(find_food("garlic")), role_of(find_food("onions")), role_of(find_food("sugar"))
    ('seasoning', 'solids', 'sweet')
    """
    if food.food in _FLAVORINGS:
        return "seasoning"
    # Fresh juice is sold as fruit and poured as a liquid.
    return _ROLES.get(food.kind, "liquid" if "juice" in food.roles else "solids")


def filling(recipe: Recipe) -> Filling:
    """Every ingredient of a recipe at its step.

    Parameters
    ----------
    recipe : Recipe, with its fill list

    Returns
    -------
    Filling : each line of ``recipe.lines`` stands in it exactly once

    Source
    ------
    The recipe's own fill list; what it does not name is placed by common practice.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> [(s.kind, [i.food for i in s.lines]) for s in filling(starter("whole-tomatoes")).steps]
    [('acid', ['bottled lemon juice']), ('seasoning', ['canning salt']), ('solids', ['tomatoes']), \
('liquid', ['water'])]
    """
    texts = list(recipe.fill)
    # The last step to the headspace is poured or ladled until the jar is full.
    pouring = [n for n, text in enumerate(texts) if "headspace" in text.lower()]
    filler = pouring[-1] if pouring else None
    held: dict[int, list[Ingredient]] = {n: [] for n in range(len(texts))}
    left: list[Ingredient] = []
    for line in recipe.lines:
        place = _named(line, texts, filler)
        (left if place is None else held[place]).append(line)

    strained = [line for line in recipe.lines if _is_strained(recipe, line)]
    for lines in (left, *held.values()):
        lines[:] = [line for line in lines if line not in strained]
    own: list[Ingredient] = []
    whole = filler is not None and not any(
        role_of(find_food(line.food)) == "solids"
        for n, lines in held.items()
        if n != filler
        for line in lines
    )
    for line in left:
        place = _unnamed(line, texts, held, filler, whole)
        (own if place is None else held[place]).append(line)
    steps = [
        _step(recipe, text, held[n], whole if n == filler else None)
        for n, text in enumerate(texts)
        if held[n] or n == filler
    ]
    return Filling(tuple(_with_own(steps, own)), tuple(strained))


def _words(line: Ingredient) -> frozenset[str]:
    """The words by which a step may name an ingredient: the last of each of its names."""
    food = find_food(line.food)
    names = (food.food, *food.other_names, line.line.partition(",")[0])
    heads = frozenset().union(*(key(name.split()[-1]) for name in names if name.split()))
    return heads | (key("dill") if "dill" in food.food else frozenset())


def _named(line: Ingredient, texts: list[str], filler: int | None) -> int | None:
    """The step that names the ingredient, or its kind."""
    food = find_food(line.food)
    role = role_of(food)
    kinds = _OF_ROLE[role] | _OF_KIND.get(food.kind, frozenset())
    order = [n for n in range(len(texts)) if n != filler]
    if filler is not None:
        # "Hot chicken stock" names no chicken, and "hot water" is not the water of a raw pack.
        order = [filler, *order] if role == "liquid" else [*order, filler]
    for words in (_words(line), kinds):
        for n in order:
            if n == filler and role == "solids" and words is kinds:
                continue
            if words & key(texts[n]):
                return n
    return None


def _unnamed(
    line: Ingredient,
    texts: list[str],
    held: dict[int, list[Ingredient]],
    filler: int | None,
    whole: bool,
) -> int | None:
    """Where an ingredient goes that no step names; ``None`` for a step of its own."""
    role = role_of(find_food(line.food))
    if role == "solids" and not whole:
        return None
    if role == "seasoning" and not whole:
        return filler if filler is not None and _SEASONED & key(texts[filler]) else None
    return filler


def _is_strained(recipe: Recipe, line: Ingredient) -> bool:
    food = find_food(line.food)
    if "bones" in food.food or _is_drained(recipe, food):
        return True
    made = key(recipe.gives) | key(recipe.food)
    return bool(made & _STRAINED) and role_of(food) == "solids"


def _is_drained(recipe: Recipe, food: Food) -> bool:
    """Salt that draws water from vegetables before they are heated, and runs off with it."""
    told = " ".join(recipe.notes).lower()
    draws = "salt" in told and ("drain" in told or "rinse" in told)
    return food.kind == "salt" and draws and "salt" not in key(" ".join(recipe.fill))


def _step(recipe: Recipe, text: str, lines: list[Ingredient], whole: bool | None) -> Step:
    """``whole`` is ``None`` for a step that is not the one to the headspace."""
    roles = [role_of(find_food(line.food)) for line in lines]
    if whole is not None and (whole or "solids" in roles):
        return Step(text, "whole", recipe.gives or recipe.food, tuple(lines))
    if whole is not None:
        return Step(text, "liquid", _poured(text, lines), tuple(lines))
    if "solids" in roles:
        return Step(text, "solids", "", tuple(lines))
    if roles and all(role == "liquid" for role in roles):
        return Step(text, "liquid", _poured(text, lines), tuple(lines))
    return Step(text, "acid" if "acid" in roles else "seasoning", "", tuple(lines))


def _poured(text: str, lines: list[Ingredient]) -> str:
    said = key(text)
    for word in _POURED:
        if key(word) <= said:
            return word.replace("-", " ")
    return lines[0].food if lines else "liquid"


def _with_own(steps: list[Step], own: list[Ingredient]) -> Iterator[Step]:
    """Steps that the fill list lacks: dry ones first, so that they do not float; solids and
    liquid before what is poured last."""
    first = [line for line in own if role_of(find_food(line.food)) in ("acid", "seasoning")]
    later = [line for line in own if line not in first]
    for line in first:
        role = role_of(find_food(line.food))
        kind: Kind = "acid" if role == "acid" else "seasoning"
        yield Step(_into(line), kind, "", (line,), ours=True)
    poured = steps and steps[-1].kind in ("liquid", "whole")
    yield from steps[:-1] if poured else steps
    for line in later:
        role = role_of(find_food(line.food))
        if role == "liquid":
            yield Step(f"{line.food} to the headspace", "liquid", line.food, (line,), ours=True)
        else:
            yield Step(_into(line), "solids", "", (line,), ours=True)
    if poured:
        yield steps[-1]


def _into(line: Ingredient) -> str:
    return f"{line.food} (the fill list does not name it)"
