"""A whole paste: title, ingredients, method, what was not understood, and bad input."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.text.page import LARGEST, read_paste
from stillroom.units.amounts import Amount, parse_amount

CARD = """\
Barley-free beef soup for Alder Fork
Makes 7 quarts

Ingredients
- 4 lb beef chuck, trimmed and cubed
- 6 c carrots, sliced
- 1/2 tsp salt per quart
For the broth:
3 qt beef broth
1 handful snorp

Directions
1. Brown the beef. Boil everything 5 minutes.
2. Fill hot quarts half full of solids, 1 in. headspace.
3. Vent 10 minutes, process 75 minutes at 10 lb. No flour; thicken when serving.
"""


def foods(pasted: Pasted) -> list[str]:
    return [one.food for one in pasted.lines]


def test_a_card_with_headings_is_sorted_into_ingredients_and_method() -> None:
    card = read_paste(CARD)

    assert card.title == "Barley-free beef soup for Alder Fork"
    assert foods(card) == ["beef", "carrots", "canning salt", "beef stock", ""]
    assert [one.line for one in card.lines] == [5, 6, 7, 9, 10]
    assert [one.section for one in card.lines] == ["", "", "", "For the broth", "For the broth"]
    assert card.not_understood == ((10, "1 handful snorp"),)
    assert card.facts.makes == ((7, "quart"),)
    assert [(m.minutes, m.what) for m in card.facts.minutes] == [
        (5, "boil"),
        (10, "vent"),
        (75, "process"),
    ]
    assert card.facts.half_solids
    assert not card.facts.thickened
    assert [(m.food, m.negated) for m in card.mentions if m.food == "flour"] == [("flour", True)]


def test_a_line_may_hold_ingredients_and_method_both() -> None:
    card = read_paste("Plums\n14 lb plums, 1 c sugar; boil 2 min, hot pints 1/2 in, BW 20")

    assert foods(card) == ["plums", "sugar"]
    assert card.method == ("boil 2 min, hot pints 1/2 in, BW 20",)
    assert [(m.minutes, m.what) for m in card.facts.minutes] == [(2, "boil"), (20, "process")]


@pytest.mark.parametrize("line", ["water", "salt", "dill, garlic", "boiling water to cover"])
def test_a_food_alone_is_an_ingredient_though_it_may_be_a_verb(line: str) -> None:
    card = read_paste(f"Pears\n17 lb pears\n{line}\nHot pack quarts, BW 25 min")

    assert len(card.lines) >= 2
    assert card.lines[1].line == 3


def test_a_recipe_on_one_line_is_read() -> None:
    card = read_paste(
        "Tomatillos, 9 lb, husked. Boil 5 min. 1 T bottled lemon juice per pt. Pints hot, BW 40"
    )

    assert card.title == "Tomatillos"
    assert foods(card) == ["tomatillos", "bottled lemon juice"]
    assert card.lines[1].per == "pint"
    assert card.facts.packs == ("hot",)


def test_amounts_that_only_the_method_tells_are_found() -> None:
    card = read_paste(
        "Tomatoes\n21 lb tomatoes\nAdd 2 Tbsp bottled lemon juice to each quart. Process 45 min."
    )

    juice = card.lines[1]
    assert (juice.food, juice.per, juice.from_method) == ("bottled lemon juice", "quart", True)
    assert juice.amount == parse_amount("2 Tbsp")


def test_amounts_that_the_method_repeats_are_not_counted_twice() -> None:
    card = read_paste("Pears\n17 lb pears\n2 c sugar\nStir the 2 c sugar into 9 c water.")

    assert foods(card) == ["pears", "sugar", "water"]


def test_a_line_that_denies_a_food_is_no_ingredient() -> None:
    card = read_paste("Corn\n20 lb corn\nno salt\nPints, vent 10, 55 min")

    assert foods(card) == ["corn"]
    assert [m.negated for m in card.mentions if m.food == "canning salt"] == [True]


def test_jars_of_an_amount_tell_the_size_where_nothing_else_does() -> None:
    assert read_paste("Corn\n20 lb corn\n1 tsp salt per quart\nVent, 55 min").facts.jars == (
        "quart",
    )


def test_four_hundred_cups_of_salt_are_kept_as_written() -> None:
    (salt,) = read_paste("Brine\n400 cups salt").lines

    assert salt.amount == Amount(parse_amount("1 cup").value * 400, "tsp")


@pytest.mark.parametrize("text", ["", "   \n\t\n", "\ufeff", "\n" * 1000])
def test_an_empty_paste_is_told(text: str) -> None:
    with pytest.raises(InputError, match="empty"):
        read_paste(text)


def test_a_paste_of_two_megabytes_is_told() -> None:
    with pytest.raises(InputError, match="too many"):
        read_paste("2 cups salt\n" * 170_000)


@pytest.mark.parametrize("text", ["\x00" * 500, "PK\x03\x04\x00\x01\x02" * 40, "\ufffd" * 99])
def test_a_file_of_another_kind_is_told(text: str) -> None:
    with pytest.raises(InputError, match="not text"):
        read_paste(text)


def test_another_language_is_told_line_by_line() -> None:
    card = read_paste("Rotkohl\n2 Krautköpfe, gehobelt\nEssig nach Gefühl zugießen und umrühren\n")

    told = " ".join(text for _, text in card.not_understood) + " ".join(card.method)
    assert "Kraut" in told or "Krautköpfe" in told
    assert "umrühren" in told


def test_a_pasted_page_source_runs_nothing_and_keeps_no_script() -> None:
    card = read_paste(
        '<html><script>steal()</script><script type="application/ld+json">{"@type": "Recipe", '
        '"name": "Pears", "recipeIngredient": ["2 lb pears"]}</script></html>'
    )

    assert (card.kind, card.title, foods(card)) == ("page", "Pears", ["pears"])
    assert "steal" not in card.source_text


@given(st.text(max_size=400))
@settings(max_examples=200, deadline=None)
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        card = read_paste(text)
    except InputError:
        return

    # Every word stands in the title, an ingredient, the method or what was not understood.
    assert card.source_text == text or card.kind == "page"


piece = st.sampled_from(
    [
        "2 lb carrots", "salt", "(", ")", "Boil 5 min.", "1/4 in.", "quarts", "vent 10", "no flour",
        "½", "5%", "serve over rice", "Ingredients", "Directions:", "per jar", "\n", ", ", "; ",
        " and ", "or", "4–5 beets", "1 (14 oz) can tomatoes", "°", "\u00a0", "pH 4.6", "<b>",
    ]
)  # fmt: skip


@given(st.lists(piece, min_size=1, max_size=60).map(" ".join))
@settings(max_examples=200, deadline=None)
def test_no_word_of_a_paste_is_dropped(text: str) -> None:
    try:
        card = read_paste(text)
    except InputError:
        return

    kept = "\n".join(
        [card.title, *card.method, *(one.text for one in card.lines), *(one.section for one in
         card.lines), *(piece for _, piece in card.not_understood), *(one.sentence for one in
         card.mentions)]
    )  # fmt: skip
    for word in ("carrots", "Boil", "quarts", "vent", "beets", "can tomatoes", "serve over rice"):
        assert text.count(word) == 0 or word in kept


@pytest.mark.parametrize(
    "text",
    ["(" * 20_000, "1 " * 20_000, "1/2 c salt, " * 4_000, "a" * 50_000, "½" * 20_000,
     "no or " * 9_000, "salt and " * 5_000, "vent 10 min " * 4_000, "- " * 30_000],
    ids=lambda text: text[:12],
)  # fmt: skip
def test_absurd_nesting_and_repetition_come_to_an_end(text: str) -> None:
    assert len(text) < LARGEST
    assert read_paste("x\n" + text).title


def test_a_count_of_jars_below_the_title_is_what_it_makes_where_the_food_is_weighed() -> None:
    told = read_paste("Ola's carrots\n\n7 quarts\n\n17 1/2 lb carrots\n7 tsp salt")
    only = read_paste("Ola's carrots\n7 quarts\n7 tsp salt")

    assert told.facts.makes == ((7, "quart"),)
    assert [one.text for one in told.lines] == ["17 1/2 lb carrots", "7 tsp salt"]
    assert [one.food for one in only.lines] == ["carrots", "canning salt"]
