"""One ingredient line of a recipe: food, prep and amount."""

from stillroom.errors import InputError
from stillroom.foods.vocabulary import Food, find_food
from stillroom.recipes.model import HEATED, Ingredient
from stillroom.units.amounts import parse_amount

HOW_WRITTEN = '"FOOD, PREP, AMOUNT", such as "carrots, sliced, 1/2 cup"'


def read_line(line: str, where: str) -> Ingredient:
    """One ingredient line, "FOOD, PREP, AMOUNT" with "optional", "as bought" or "prepared" after.

    Parameters
    ----------
    line : as written; a weight or count is taken as bought, a volume as prepared, unless said
    where : what to name in an error

    Raises
    ------
    InputError
        No amount, an amount of nothing, or a food that is not in the food list.

    Examples
    --------
    >>> read = read_line("carrots, peeled, sliced, 2 lb, prepared", "line 1")
    >>> read.food, read.prep, read.as_bought
    ('carrots', 'peeled, sliced', False)
    """
    parts = [part.strip() for part in line.split(",")]
    said = set()
    while parts and parts[-1].lower() in ("optional", "as bought", "prepared"):
        said.add(parts.pop().lower())
    if len(parts) < 2 or not parts[0] or {"as bought", "prepared"} <= said:
        raise InputError(f'{where}: "{line}" cannot be read. Write {HOW_WRITTEN}.')
    amount = parse_amount(parts[-1], where)
    if not amount.value:
        raise InputError(f'{where}: "{line}" is an amount of nothing. Write how much goes in.')
    food = find_food(parts[0], where)
    prep = ", ".join(part for part in parts[1:-1] if part)
    return Ingredient(
        food=food.food,
        prep=prep,
        amount=amount,
        as_bought="as bought" in said or (amount.kind != "volume" and "prepared" not in said),
        optional="optional" in said,
        perishable=food.perishable and not _heated(food, prep),
        line=line,
    )


def _heated(food: Food, prep: str) -> bool:
    return bool(HEATED & set(f"{food.food} {prep}".lower().replace(",", " ").split()))
