"""From an exact need to what a shop sells, and from what stands on the shelf to what is needed."""

from fractions import Fraction

from stillroom.foods.vocabulary import Food, as_bought, cup_grams, measures
from stillroom.units.amounts import COUNTS, CUP, POUND, QUART, Amount
from stillroom.units.speech import counted, mixed, say

# Steps in which a shop weighs, in pounds: below the first number, steps of the second.
_STEPS = ((Fraction(2), Fraction(1, 4)), (Fraction(10), Fraction(1, 2)))
_VOLUMES = {"cup": (CUP, Fraction(1)), "quart": (QUART, Fraction(1, 2))}


def rounded_weight(grams: Fraction) -> Fraction:
    """The next weight a person buys, in pounds, never below the need.

    Parameters
    ----------
    grams : need as bought, g

    Returns
    -------
    Fraction, lb : next quarter pound under 2 lb, next half pound under 10 lb, next pound above

    Source
    ------
    Common practice.

    Examples
    --------
    >>> [str(rounded_weight(Fraction(g))) for g in (894, 1000, 5000)]
    ['2', '5/2', '12']
    """
    pounds = grams / POUND
    step = next((step for below, step in _STEPS if pounds < below), Fraction(1))
    return -(-pounds // step) * step


def rounded(food: Food, amount: Amount) -> tuple[Amount, str]:
    """The amount to buy, and how one says it.

    Parameters
    ----------
    food : from the food list; its ``buy_in`` says how it is sold
    amount : need; a weight is as bought

    Returns
    -------
    (Amount, text) : never below the need

    Source
    ------
    Common practice; pieces in a bought unit (cloves in a head) as ``data/foods.csv`` notes.

    Examples
    --------
    >>> from stillroom.foods.vocabulary import find_food
    >>> rounded(find_food("garlic"), Amount(Fraction(12), "clove"))[1]
    '2 heads'
    >>> rounded(find_food("white vinegar"), Amount(Fraction(500), "tsp"))[1]
    '3 quarts'
    """
    if amount.kind == "weight":
        pounds = rounded_weight(amount.value)
        return Amount(pounds * POUND, "g"), f"{mixed(pounds)} lb {food.bought_as}".rstrip()
    if amount.kind == "volume":
        if food.buy_in not in _VOLUMES:
            return amount, "that much"
        size, step = _VOLUMES[food.buy_in]
        number = -(-amount.value / size // step) * step
        return Amount(number * size, "tsp"), counted(number, food.buy_in)
    unit = amount.unit
    value = amount.value
    if food.pieces > 1 and unit != food.buy_in:
        unit, value = food.buy_in, value / food.pieces
    whole = Amount(Fraction(-(-value // 1)), unit)
    return whole, counted(whole.value, unit)


def weighing(food: Food, amount: Amount) -> str:
    """The weight as bought beside an amount that is bought by measure or by the piece.

    Parameters
    ----------
    food : from the food list
    amount : to buy

    Returns
    -------
    str : ", about 0.9 lb"; "" for what is bought by weight or poured, or where no weight is known

    Source
    ------
    USDA SR28: cup weights, and pieces where the tables weigh one of that very name.

    Examples
    --------
    >>> from stillroom.foods.vocabulary import find_food
    >>> weighing(find_food("celery seed"), Amount(Fraction(8), "tsp"))
    ', about 1/2 oz'
    >>> weighing(find_food("garlic"), Amount(Fraction(2), "head"))  # 20 cloves of 3 g, 13 % skins
    ', about 2 1/2 oz'
    """
    if amount.kind == "weight" or food.kind in ("acid", "liquid", "stock"):
        return ""
    if amount.kind == "volume":
        cup = cup_grams(food)
        grams = cup * amount.value / CUP if cup else None
    else:
        piece = _piece_grams(food, amount.unit)
        grams = piece * amount.value if piece else None
    return f", about {say(Amount(as_bought(food, grams), 'g'))}" if grams else ""


def _piece_grams(food: Food, unit: str) -> Fraction | None:
    """Edible grams of one piece that the tables weigh under its very name: a clove, a stalk."""
    of_food = [m for m in measures() if food.ndb and m.ndb == food.ndb]
    for measure in of_food:
        if measure.measure == unit:
            return measure.grams / measure.amount
    if food.pieces > 1 and unit == food.buy_in:
        # A head is so many of the one piece that its foods are counted in.
        counted_in = [m for m in of_food if m.measure in COUNTS]
        return counted_in[0].grams / counted_in[0].amount * food.pieces if counted_in else None
    return None


def converted(food: Food, amount: Amount, unit: str) -> Amount | None:
    """What stands on the shelf, in the unit of the need; ``None`` where no figure joins the two.

    Parameters
    ----------
    food : from the food list
    amount : as the person counts it
    unit : "tsp" (prepared), "g" (as bought) or a count word

    Source
    ------
    Cup weights of USDA SR28 (``foods.cup_grams``).

    Examples
    --------
    >>> from stillroom.foods.vocabulary import find_food
    >>> converted(find_food("sugar"), Amount(Fraction(400), "g"), "tsp")  # 200 g a cup
    Amount(value=Fraction(96, 1), unit='tsp')
    """
    if amount.unit == unit:
        return amount
    cup = cup_grams(food)
    if cup is not None and {amount.unit, unit} == {"tsp", "g"}:
        # A cup is of prepared food, a weight as bought.
        teaspoon = as_bought(food, cup / CUP)
        return Amount(amount.value * (teaspoon if unit == "g" else 1 / teaspoon), unit)
    if food.pieces > 1 and amount.unit == food.buy_in and unit not in ("tsp", "g"):
        return Amount(amount.value * food.pieces, unit)
    return None
