"""Foods named loosely in title or method, read as the ingredient that they mean."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache

from stillroom.foods.vocabulary import Food, foods
from stillroom.recipes.pasted import Mention, PastedLine
from stillroom.recipes.text.names import stem
from stillroom.recipes.text.tokens import tokens

# What "the meat" or "the vegetables" of a method may stand for.
_MEANS: dict[str, Callable[[Food], bool]] = {
    "meat": lambda food: food.kind in ("meat", "poultry") or "game" in food.roles,
    "vegetables": lambda food: food.kind in ("vegetable", "dry beans"),
    "fruit": lambda food: food.kind == "fruit",
    "spices": lambda food: food.kind in ("spice", "herb"),
    "beans": lambda food: "bean" in food.food or bool(food.roles & {"fresh bean", "dried bean"}),
    "broth": lambda food: food.kind == "stock",
    "vinegar": lambda food: "vinegar" in food.roles,
    "peppers": lambda food: "pepper" in food.roles,
    "squash": lambda food: "squash" in food.food or food.food in ("zucchini", "pumpkin"),
    "greens": lambda food: "leafy green" in food.roles,
    "seafood": lambda food: "seafood" in food.roles,
}
# Products that a title names: "ladle the jam into jars" adds nothing to the jam.
_PRODUCTS = frozenset(["condiment", "ready sauce", "juice"])


@lru_cache(maxsize=1)
def _by_name() -> dict[str, Food]:
    return {food.food: food for food in foods()}


def settled(mentions: Sequence[Mention], lines: Sequence[PastedLine]) -> tuple[Mention, ...]:
    """Mentions of title and method, each read as the listed ingredient where it means one.

    Parameters
    ----------
    mentions : in order of the text
    lines : the ingredients

    Returns
    -------
    tuple : "the beans" become the listed green beans; a product that the title names is left out
        of the method, unless it is listed
    """
    listed = {one.food: one for one in lines if one.food}
    listed |= {food: one for one in lines for food in one.alternatives if food}
    heads = {food: _heads(food, one) for food, one in listed.items()}
    title = {m.food for m in mentions if m.where == "title"}
    made = []
    for one in mentions:
        if one.where == "ingredient" or one.food in listed:
            made.append(one)
            continue
        meant = _meant(one, heads)
        if meant:
            made.append(replace(one, food=meant))
        elif not (
            one.where == "method" and one.food in title and _by_name()[one.food].roles & _PRODUCTS
        ):
            made.append(one)
    return tuple(made)


def _heads(food: str, line: PastedLine) -> tuple[tuple[str, ...], ...]:
    return tuple(
        tuple(stem(t.text) for t in tokens(text) if t.sort == "word")
        for text in (line.food_said, food)
        if text
    )


def _meant(one: Mention, heads: dict[str, tuple[tuple[str, ...], ...]]) -> str:
    """The listed food that a looser word means: the same noun, or one of its kind."""
    said = [stem(t.text) for t in tokens(one.said) if t.sort == "word"]
    for food, names in heads.items():
        if any(name and name[-1] == said[-1] and set(said) <= set(name) for name in names):
            return food
    kind, _, untold = one.food.partition(", ")
    if untold == "kind not told" and kind in _MEANS:
        return next((food for food in heads if _MEANS[kind](_by_name()[food])), "")
    if one.food == "sugar" and said[-1] == "syrup":
        return next((food for food in heads if "sugar" in _by_name()[food].roles), "")
    return ""
