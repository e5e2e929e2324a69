"""What a day needs: its orders as lists, less what the kitchen has on hand."""

from stillroom.day.model import Day
from stillroom.recipes.scale import Lists, lists


def day_lists(day: Day) -> Lists:
    """What to buy, take from the shelf, prepare, heat and wash for all orders of a day."""
    kitchen = day.kitchen
    return lists(
        [(order.recipe, order.jar, order.count) for order in day.orders],
        pantry=kitchen.pantry,
        jars=kitchen.jars,
        lids=kitchen.lids,
        bands=kitchen.bands,
        prices=kitchen.prices,
    )
