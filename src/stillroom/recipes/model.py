"""A recipe as it is written, with the published headspace it rests on."""

from dataclasses import dataclass

from stillroom.units.amounts import Amount

# Food that has been brought to heat does not stand raw at room temperature.
HEATED = frozenset(["boiled", "boiling", "cooked", "hot", "simmering", "stewed"])


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe.

    ``food`` is the name in the food list, ``prep`` how it goes in, "" where as it is.
    ``as_bought`` tells whether the amount counts the food untrimmed. ``perishable`` is food that
    must not stand raw at room temperature. ``line`` is the line as written.
    """

    food: str
    prep: str
    amount: Amount
    as_bought: bool
    optional: bool
    perishable: bool
    line: str


@dataclass(frozen=True, slots=True)
class Work:
    """Minutes of work, all editable in the recipe file.

    ``prep_per_quart`` is hands per quart of jars, ``None`` where it is worked out from the
    ingredients (``prep.py``); ``heat`` a burner just before filling;
    ``fill_per_jar`` hands per jar; ``make`` one pot for the whole order on a burner before
    anything is filled, 0 where there is none.
    """

    prep_per_quart: float | None
    heat: float
    fill_per_jar: float
    make: float
    source: str


@dataclass(frozen=True, slots=True)
class Recipe:
    """A recipe that rests on a published process.

    ``food``, ``form`` and ``pack`` are the process library's; ``jars`` are its sizes.
    ``makes_quarts`` is the jar capacity the amounts are for, in US quarts. ``headspace_in`` is
    the published headspace in inches. ``gives`` is a food of the food list that the jars hold
    and another recipe may use, or "". ``single_batch`` marks food that is not cooked in larger
    batches.
    """

    name: str
    title: str
    source: str
    food: str
    form: str
    pack: str
    jars: tuple[str, ...]
    makes_quarts: float
    ingredients: tuple[Ingredient, ...]
    liquid: Ingredient | None
    headspace_in: float
    fill: tuple[str, ...]
    notes: tuple[str, ...]
    work: Work
    gives: str = ""
    single_batch: bool = False

    @property
    def lines(self) -> tuple[Ingredient, ...]:
        """The ingredients, with the covering liquid last where there is one."""
        return (*self.ingredients, *((self.liquid,) if self.liquid else ()))

    @property
    def perishable(self) -> bool:
        """Whether anything raw in it must not stand at room temperature."""
        return any(line.perishable for line in self.lines)
