"""What to make first: enough, in proportion, and told with what stands behind it."""

from dataclasses import replace
from fractions import Fraction
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.recipes.build import build
from stillroom.recipes.first import First, make_first
from stillroom.recipes.line import read_line
from stillroom.recipes.read import starter, starters
from stillroom.recipes.scale import lists
from stillroom.recipes.totals import Order

read = cache(starter)
ORDERS = st.lists(
    st.sampled_from([(name, jar) for name in starters() for jar in read(name).jars]).flatmap(
        lambda asked: st.tuples(st.just(read(asked[0])), st.just(asked[1]), st.integers(1, 40))
    ),
    min_size=1,
    max_size=4,
)
CUP = 236.588e-6


def one(name: str, jar: str, count: int) -> First:
    (first,) = make_first([(read(name), jar, count)])
    return first


def test_a_published_brine_grows_by_a_tenth_and_as_a_whole() -> None:
    """8 cups of the recipe become 8.8; the estimate's least for 8 pints is below that."""
    brine = one("dilled-beans", "pint", 8)

    assert brine.name == "brine"
    assert brine.written == pytest.approx(8 * CUP, rel=1e-4)
    assert brine.make == pytest.approx(8.8 * CUP, rel=1e-4)
    parts = {part.food: part.amount.value for part in brine.parts}
    # A sixty-fourth of a teaspoon is as fine as parts are told.
    assert abs(parts["white vinegar"] - Fraction(48 * 44, 10)) <= Fraction(1, 64)
    assert abs(parts["white vinegar"] - parts["water"]) <= Fraction(1, 64)
    assert abs(parts["canning salt"] - Fraction(24 * 11, 10)) <= Fraction(1, 64)


def test_broth_is_enough_for_the_most_the_jars_may_take() -> None:
    soup = read("garden-chicken-soup")
    short = replace(soup, liquid=read_line("chicken stock, 2 cups", "line"))
    (broth,) = make_first([(short, "quart", 7)])
    each = build(short, "quart").liquid

    assert each is not None
    assert broth.make == pytest.approx(7 * each.high)
    assert broth.make > broth.written  # 2 cups a jar do not reach the line
    assert broth.text.startswith("chicken stock: make 5 quarts")
    assert "the recipe writes 14 cups" in broth.text


def test_one_liquid_of_several_recipes_is_added_up_and_a_mixture_is_not() -> None:
    made = make_first(
        [
            (read("snap-beans"), "quart", 7),
            (read("carrots"), "pint", 9),
            (read("dilled-beans"), "pint", 8),
            (read("peaches"), "quart", 7),
        ]
    )

    assert [(first.name, first.recipes) for first in made] == [
        ("water", ("snap-beans", "carrots")),
        ("brine", ("dilled-beans",)),
        ("syrup", ("peaches",)),
    ]


def test_food_with_nothing_poured_on_needs_nothing_made_first() -> None:
    assert (
        make_first([(read("venison-cubes"), "pint", 9), (read("berry-jam"), "half-pint", 7)]) == ()
    )


def test_a_recipe_of_the_day_that_makes_the_broth_is_named() -> None:
    day = lists(
        [(read("garden-chicken-soup"), "quart", 4), (read("chicken-stock"), "quart", 7)],
        pantry={}, jars={}, lids=0, bands=0,
    )  # fmt: skip

    assert "chicken-stock makes it that day, this much more than its jars take" in day.first[0].text


@given(ORDERS)
def test_there_is_never_less_than_a_tenth_over_the_recipe(orders: list[Order]) -> None:
    for first in make_first(orders):
        assert first.make >= first.written * 1.0999
        assert first.make >= first.taken.low
        assert 0 <= first.taken.low <= first.taken.high


@given(ORDERS)
def test_the_proportions_of_a_mixture_stay(orders: list[Order]) -> None:
    for recipe, jar, count in orders:
        for first in make_first([(recipe, jar, count)]):
            made = build(recipe, jar)
            (layer,) = (x for x in made.layers if x.name == made.poured)
            ratios = {
                float(part.amount.value / (item.amount.value * count))
                for part, item in zip(first.parts, layer.items, strict=True)
                if item.amount.value * count > 4  # the 64th is felt below
            }
            assert max(ratios, default=1.0) - min(ratios, default=1.0) < 0.01
