"""Recipes of any shape for property tests: foods of the list, amounts, fill lists in any words."""

from fractions import Fraction

from hypothesis import strategies as st

from stillroom.foods.vocabulary import foods
from stillroom.recipes.model import Ingredient, Recipe, Work
from stillroom.units.amounts import Amount

WORK = Work(10, 10, 2, 0, "common practice")
AMOUNTS = st.one_of(
    st.builds(Amount, st.fractions(Fraction(1, 8), 2000, max_denominator=8), st.just("tsp")),
    st.builds(Amount, st.fractions(1, 5000, max_denominator=4), st.just("g")),
    st.builds(Amount, st.fractions(1, 20, max_denominator=2), st.sampled_from(["each", "clove"])),
)
LINES = st.builds(
    Ingredient,
    food=st.sampled_from([food.food for food in foods()]),
    prep=st.sampled_from(["", "sliced", "chopped", "peeled and cubed", "crushed"]),
    amount=AMOUNTS,
    as_bought=st.booleans(),
    optional=st.booleans(),
    perishable=st.booleans(),
    line=st.just("food, amount"),
)
STEPS = st.sampled_from(
    [
        "salt, if wanted",
        "acid first",
        "hot solids",
        "raw cubes of meat, with no liquid",
        "vegetables and spices",
        "boiling water to the headspace",
        "hot brine to the headspace",
        "boiling jam to the headspace",
        "whatever is left",
        "",
    ]
)


@st.composite
def recipes(draw: st.DrawFn) -> Recipe:
    """A recipe that need not make sense."""
    return Recipe(
        name="any",
        title="Any recipe",
        source="invented",
        food=draw(st.sampled_from(["soups", "carrots", "meat stock (broth)", "peaches"])),
        form=draw(st.sampled_from(["", "without seafood"])),
        pack="hot",
        jars=("half-pint", "pint", "quart"),
        makes_quarts=draw(st.sampled_from([0.25, 1.0, 7.0])),
        ingredients=tuple(draw(st.lists(LINES, min_size=1, max_size=7))),
        liquid=draw(st.none() | LINES),
        headspace_in=draw(st.sampled_from([0.25, 0.5, 1.0, 1.25])),
        fill=tuple(draw(st.lists(STEPS, max_size=5))),
        notes=tuple(draw(st.sampled_from([(), ("Salt the slices and drain them.",)]))),
        work=WORK,
        gives=draw(st.sampled_from(["", "", "chicken stock"])),
    )
