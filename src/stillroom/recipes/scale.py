"""Jars turned into lists: what to buy, take from the shelf, prepare, heat, and put it in."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from stillroom.errors import InputError
from stillroom.foods.vocabulary import find_food, foods
from stillroom.recipes.buying import converted, rounded, weighing
from stillroom.recipes.cost import Cost, added_up, by_food, price_of
from stillroom.recipes.first import First, make_first
from stillroom.recipes.totals import Need, Order, Share, Totals, totals
from stillroom.recipes.wording import MEASURED, POURED, less, recipes, said, told
from stillroom.units.amounts import Amount
from stillroom.units.jars import SIZES, quarts
from stillroom.units.prices import Price, money
from stillroom.units.speech import say

_NOT_CUT = POURED | {"dairy", "fat", "pectin", "salt", "spice", "sugar", "thickening"}


@dataclass(frozen=True, slots=True)
class Item:
    """One line of a list: ``text`` as a person reads it, and the numbers behind it.

    ``amount`` is exact; ``buy`` is rounded up to what a shop sells; weights in grams; ``cost`` is
    of ``buy``, ``None`` where no price is known.
    """

    text: str
    food: str
    prep: str
    amount: Amount
    buy: Amount | None = None
    prepared_g: Fraction | None = None
    bought_g: Fraction | None = None
    optional: bool = False
    shares: tuple[Share, ...] = ()
    cost: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Ware:
    """Jars of a size, lids or bands: how many are needed, on hand, and still to get."""

    text: str
    name: str
    needed: int
    on_hand: int
    get: int


@dataclass(frozen=True, slots=True)
class Lists:
    """The lists of a day. ``first`` is what to make before any jar is filled; ``cost`` is ``None``
    where no price is written."""

    buy: tuple[Item, ...]
    from_shelf: tuple[Item, ...]
    prep: tuple[Item, ...]
    liquids: tuple[Item, ...]
    jars: tuple[Ware, ...]
    lids: tuple[Ware, ...]
    bands: tuple[Ware, ...]
    cautions: tuple[str, ...]
    first: tuple[First, ...] = ()
    cost: Cost | None = None


def lists(
    orders: Sequence[Order],
    *,
    pantry: Mapping[str, Amount],
    jars: Mapping[str, int],
    lids: int,
    bands: int,
    prices: Mapping[str, Price] | None = None,
) -> Lists:
    """The lists for some jars of some recipes.

    Parameters
    ----------
    orders : (recipe, jar size, number of jars)
    pantry : what stands on the shelf, by food as people say it
    jars : empty jars on hand, by size
    lids : unused lids on hand; every jar takes a new one
    bands : bands on hand; a jar wears one only until it is cool
    prices : what a shop asks, by food as people say it; without a price no cost is told

    Returns
    -------
    Lists : water is never bought, nor food that another order of the day makes

    Raises
    ------
    InputError
        An order of no jars, or a food of the pantry or the prices that is not in the food list.

    Source
    ------
    Cup weights and trim: USDA SR28 (``foods``). New lids for every jar: AIB-539 Guide 1.

    Examples
    --------
    >>> from stillroom.recipes.read import starter
    >>> order = (starter("bread-and-butter-pickles"), "pint", 7)
    >>> day = lists([order], pantry={}, jars={"pint": 12}, lids=0, bands=12)
    >>> day.buy[1].text
    'onions, thinly sliced: 7 cups, about 1.8 lb, buy 2 lb'
    >>> day.lids[0].text
    'lids: 7 new ones needed, none on hand, get 7'
    """
    day = totals(orders)
    shelf = _shelf(pantry)
    priced = by_food(prices or {})
    makers = {recipe.gives: recipe.name for recipe, _, _ in orders if recipe.gives}
    lines = [_bought(group, shelf, priced) for group in _groups(day, makers)]
    buy = tuple(item for item, _ in lines if item)
    count = sum(number for _, _, number in orders)
    return Lists(
        buy=buy,
        from_shelf=tuple(taken for _, taken in lines if taken),
        prep=tuple(_prep(need) for need in day.needs if _is_cut(need)),
        liquids=tuple(_liquid(need, makers) for need in (*day.liquids, *_poured(day.needs))),
        jars=tuple(_ware(f"{size} jars", n, jars.get(size, 0)) for size, n in _sizes(orders)),
        lids=(_ware("lids", count, lids, "new ones "),),
        bands=(_ware("bands", count, bands),),
        cautions=tuple(_cautions(orders)),
        first=make_first(orders, makers),
        cost=added_up([(item.food, item.cost) for item in buy], priced),
    )


def _shelf(pantry: Mapping[str, Amount]) -> dict[str, Amount]:
    """The pantry by the names of the food list; one food under two names is added up."""
    shelf: dict[str, Amount] = {}
    for said_name, held in pantry.items():
        food = find_food(said_name, f"pantry, {said_name}")
        before = shelf.get(food.food, Amount(Fraction(0), held.unit))
        more = converted(food, held, before.unit)
        if more is None:
            raise InputError(
                f"pantry, {said_name}: {food.food} stands there twice in amounts that cannot be "
                "added. Write it once."
            )
        shelf[food.food] = before + more
    return shelf


def _groups(day: Totals, makers: Mapping[str, str]) -> Iterator[list[Need]]:
    """The needs of each food that is bought, in shop order, in one unit a group."""
    order = {food.food: place for place, food in enumerate(foods())}
    by_food: dict[str, list[Need]] = {}
    for need in (*day.needs, *day.liquids):
        if need.food != "water" and need.food not in makers:
            by_food.setdefault(need.food, []).append(need)
    for food in sorted(by_food, key=order.__getitem__):
        by_unit: dict[str, list[Need]] = {}
        for need in by_food[food]:
            by_unit.setdefault(_unit(need), []).append(need)
        yield from by_unit.values()


def _unit(need: Need) -> str:
    """The unit a need is bought in: weight as bought wherever one is known."""
    weighed = need.bought_g is not None and find_food(need.food).kind not in MEASURED
    return "g" if weighed else need.amount.unit


def _bought(
    group: list[Need], shelf: dict[str, Amount], prices: Mapping[str, Price]
) -> tuple[Item | None, Item | None]:
    """The line to buy and the line to take from the shelf; what is taken leaves the shelf."""
    food, unit = find_food(group[0].food), _unit(group[0])
    values = [need.bought_g if unit == "g" else need.amount.value for need in group]
    whole = Amount(sum((v for v in values if v is not None), Fraction(0)), unit)
    held = shelf.get(food.food)
    on_shelf = converted(food, held, unit) if held else None
    taken = Amount(min(on_shelf.value if on_shelf else Fraction(0), whole.value), unit)
    rest = Amount(whole.value - taken.value, unit)

    if on_shelf:
        shelf[food.food] = Amount(on_shelf.value - taken.value, unit)
    line = told(group)
    from_shelf = buy = None
    if taken.value:
        part = line if not rest.value else f"{line}, of it {said(food, taken)}"
        from_shelf = _item(f"{part} from the shelf", group, taken)
    if rest.value:
        amount, shop = rounded(food, rest)
        text = f"{line}{less(food, taken, held, on_shelf)}, buy {shop}{weighing(food, amount)}"
        cost = price_of(food, amount, prices)
        if cost is not None:
            text += f", costs {money(cost)}"
        if food.pantry and not held:
            text += " (a staple: look on the shelf first)"
        buy = replace(_item(text, group, rest, amount), cost=cost)
    return buy, from_shelf


def _item(text: str, group: list[Need], amount: Amount, buy: Amount | None = None) -> Item:
    prepared = [need.prepared_g for need in group]
    bought = [need.bought_g for need in group]
    return Item(
        text,
        group[0].food,
        group[0].prep if len({need.prep for need in group}) == 1 else "",
        amount,
        buy,
        None if None in prepared else sum((g for g in prepared if g), Fraction(0)),
        None if None in bought else sum((g for g in bought if g), Fraction(0)),
        all(need.optional for need in group),
        tuple(share for need in group for share in need.shares),
    )


def _is_cut(need: Need) -> bool:
    return bool(need.prep) and find_food(need.food).kind not in _NOT_CUT


def _poured(needs: Iterable[Need]) -> Iterator[Need]:
    return (need for need in needs if find_food(need.food).kind in POURED)


def _prep(need: Need) -> Item:
    text = told([need])
    if need.amount.kind == "weight" and need.as_bought and need.prepared_g != need.bought_g:
        text += f" as bought, about {say(Amount(need.prepared_g or Fraction(0), 'g'))} prepared"
    elif need.amount.kind == "volume" and need.bought_g and need.prepared_g != need.bought_g:
        text += f" prepared, from about {say(Amount(need.bought_g, 'g'))} as bought"
    return _item(f"{text} ({recipes(need)})", [need], need.amount)


def _liquid(need: Need, makers: Mapping[str, str]) -> Item:
    """A liquid to have ready, rounded up so that it is enough; water never, for it thins brine."""
    amount = say(need.amount, round_up=need.food != "water")
    text = f"{need.name}: {amount} ({recipes(need)})"
    if need.food in makers:
        maker = makers[need.food]
        text += f"; not bought: {maker} makes it that day, this much more than its jars take"
    return _item(text, [need], need.amount)


def _sizes(orders: Sequence[Order]) -> list[tuple[str, int]]:
    counts = {size: sum(n for _, jar, n in orders if jar == size) for size in SIZES}
    return [(size, n) for size, n in counts.items() if n]


def _ware(name: str, needed: int, on_hand: int, what: str = "") -> Ware:
    get = max(0, needed - on_hand)
    text = f"{name}: {needed} {what}needed, {on_hand or 'none'} on hand"
    text += f", get {get}" if get else ", enough"
    if name == "bands":
        text += "; a band is only needed until its jar is cool"
    return Ware(text, name, needed, on_hand, get)


def _cautions(orders: Sequence[Order]) -> Iterator[str]:
    for recipe in dict.fromkeys(recipe for recipe, _, _ in orders if recipe.single_batch):
        wanted = sum(quarts(jar) * n for other, jar, n in orders if other == recipe)
        batches = -(-Fraction(wanted) // Fraction(recipe.makes_quarts))
        if batches > 1:
            yield (
                f"{recipe.title}: cook these jars in {batches} batches, each "
                "by itself. A larger batch may not set."
            )
