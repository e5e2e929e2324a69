"""Ingredient lines: what each gives, and that no character of a line is dropped."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.recipes.pasted import PastedLine
from stillroom.recipes.text.lines import read_line
from stillroom.units.amounts import Amount, parse_amount

# Each row: a line as people write it and what it says, read by hand: "AMOUNT FOOD" joined by
# " + ", "LOW..HIGH UNIT FOOD" for a range, "- FOOD" where no amount stands.
with (Path(__file__).parent / "lines.csv").open(encoding="utf-8", newline="") as f:
    ROWS = [(row["line"], row["read"]) for row in csv.DictReader(f)]


def amount(text: str) -> Amount:
    try:
        return parse_amount(text)
    except InputError:
        # "2 can": a count that our own recipe files do not know.
        number, _, unit = text.rpartition(" ")
        return Amount(parse_amount(number).value, unit)


def ends(said: str) -> tuple[Amount | None, Amount | None]:
    if said == "-":
        return None, None
    low, dots, high = said.partition("..")
    if dots:
        return amount(f"{low} {high.rpartition(' ')[2]}"), amount(high)
    return amount(said), amount(said)


@pytest.mark.parametrize(("line", "read"), ROWS, ids=[row[0] for row in ROWS])
def test_a_line_gives_its_amounts_and_foods(line: str, read: str) -> None:
    got = read_line(line).lines

    for one, piece in zip(got, read.split(" + "), strict=True):
        assert one.food
        assert piece.endswith(f" {one.food}")
        assert (one.low, one.high) == ends(piece.removesuffix(f" {one.food}"))
        assert one.explained


@pytest.mark.parametrize("line", [row[0] for row in ROWS])
def test_the_pieces_of_a_known_line_joined_are_the_line(line: str) -> None:
    assert "".join(piece.text for piece in read_line(line).pieces) == line


words = st.sampled_from(
    "1 1/2 ½ 2-3 4–5 1,000 .5 cups c T tsp. lb # oz (14 oz) can cans salt pepper onions beans "
    "green vinegar 5% peeled, chopped; and or + & / - : per pint to taste foozle optional ( ) [ ] "
    'quarts half a dozen in with instead of no 1" 10 min° juice lemon'.split(" ")
)


@given(st.lists(words, max_size=25).map(" ".join))
def test_no_character_of_a_line_is_dropped(line: str) -> None:
    reading = read_line(line)

    assert "".join(piece.text for piece in reading.pieces) == line
    left = [piece.text.strip() for piece in reading.pieces if piece.role == "left"]
    told = [piece for one in reading.lines for piece in one.left_over]
    # What nothing explains stands at an ingredient, unless the line gave none.
    assert not reading.lines or all(any(text in said for said in told) for text in left if text)


@given(st.text(max_size=120))
def test_any_text_is_read_and_kept_whole(line: str) -> None:
    assert "".join(piece.text for piece in read_line(line).pieces) == line


def only(line: str, title_food: str = "") -> PastedLine:
    (one,) = read_line(line, title_food=title_food).lines
    return one


@pytest.mark.parametrize(
    ("line", "prep"),
    [
        ("carrots, peeled and sliced", "peeled and sliced"),
        ("2 lb lean pork, cooked, cubed", "lean, cooked, cubed"),
        ("2 cups fresh parsley", "fresh"),
        ("1 tsp dried thyme", "dried"),
        ("thyme (dried)", "dried"),
        ("10 lb butternut, roasted and pureed", "roasted and pureed"),
        ("3 large onions", "large"),
        ("2 lb red onions", "red"),
    ],
)
def test_how_a_food_goes_in_is_kept_as_written(line: str, prep: str) -> None:
    assert only(line).prep == prep


def test_fresh_and_bottled_lemon_juice_stay_apart() -> None:
    assert only("2 Tbsp bottled lemon juice").food == "bottled lemon juice"
    assert only("lemon juice, bottled, 2 Tbsp").food == "bottled lemon juice"
    assert only("2 Tbsp fresh lemon juice").food == "fresh lemon juice"
    assert only("juice of 2 lemons").food == "fresh lemon juice"


def test_fresh_and_dried_herbs_stay_apart() -> None:
    assert only("1/4 cup fresh parsley").food == "parsley"
    assert only("1/4 cup dried parsley").food == "dried parsley"
    assert only("1 tsp thyme").food == "thyme"
    assert only("fresh thyme").food == "thyme sprigs"


@pytest.mark.parametrize(
    ("line", "per"),
    [
        ("1/2 tsp salt per pint", "pint"),
        ("1/2 tsp salt/pint", "pint"),
        ("1 tsp salt a quart", "quart"),
        ("2 Tbsp bottled lemon juice in each jar", "jar"),
        ("2 Tbsp bottled lemon juice to each quart", "quart"),
        ("1/4 tsp salt each", "jar"),
        ("1/4 cup bottled lemon juice per half-gallon jar", "half-gallon"),
        ("Per quart, raw: 2 c sausage", "quart"),
        ("1 tsp salt per half pint", "half-pint"),
        ("1 tsp salt (per quart)", "quart"),
        ("1 tsp salt", ""),
    ],
)
def test_what_an_amount_is_for(line: str, per: str) -> None:
    assert only(line).per == per


def test_flags_of_a_line() -> None:
    assert only("salt to taste").to_taste
    assert only("beef broth to cover").to_cover
    assert only("boiling water as needed").to_cover
    assert only("1 tsp salt (optional)").optional
    assert only("1 tsp salt, if desired").optional
    assert only("1/2 cup cream, for serving").at_serving
    assert not only("1 tsp salt").optional


def test_remarks_are_kept_as_written() -> None:
    assert only("1 c vinegar (5% acidity)").remark == "(5% acidity)"
    assert only("4 cups onions (about 1 1/2 lb)").remark == "(about 1 1/2 lb)"
    assert only("1 (14 oz) can tomato sauce").remark == "(14 oz)"
    assert only("2 cups sugar (instead of 4 c)").remark == "(instead of 4 c)"


def test_alternatives_are_listed_with_the_first_food_first() -> None:
    read = only("2 Tbsp bottled lemon juice or 1/2 tsp citric acid per quart")

    assert read.alternatives == ("bottled lemon juice", "citric acid")
    assert read.amount == parse_amount("2 Tbsp")
    assert read.per == "quart"
    assert only("bottled lemon or lime juice").alternatives == (
        "bottled lemon juice",
        "bottled lime juice",
    )


def test_one_amount_of_two_foods_is_counted_once() -> None:
    first, second = read_line("2 lb yellow bell + jalapeno peppers mixed").lines

    assert first.amount == parse_amount("2 lb")
    assert second.amount is None
    assert second.joint
    behind, after = read_line("red and green bell peppers, 4 cups").lines
    assert behind.amount == parse_amount("4 cups")
    assert after.joint


def test_an_amount_that_names_no_food_takes_the_titles() -> None:
    read = only("18 lb in pods, shelled", title_food="lima beans")

    assert (read.food, read.implied) == ("lima beans", True)
    assert only("18 lb of gravel", title_food="lima beans").food == ""


def test_what_is_not_understood_stands_in_left_over() -> None:
    assert only("2 cups foozle").left_over == ("foozle",)
    assert only("1/2 tsp salt of snorp").left_over == ("snorp",)
    assert not only("1/2 tsp salt of snorp").explained


@pytest.mark.parametrize(
    ("line", "food", "told"),
    [
        ("2 cups brocolli", "broccoli", '"brocolli" read as "broccoli"'),
        ("1 cup cider vineger", "cider vinegar", '"vineger" read as "vinegar"'),
        ("2 qt turky broth", "chicken stock", '"turky" read as "turkey"'),
    ],
)
def test_a_slip_of_spelling_is_read_and_told(line: str, food: str, told: str) -> None:
    read = only(line)

    assert (read.food, read.mended) == (food, told)


@pytest.mark.parametrize("line", ["2 cups beers", "1 lb quarts", "3 lb peers"])
def test_a_word_near_to_several_foods_or_to_none_is_not_guessed_at(line: str) -> None:
    assert all(not one.mended for one in read_line(line).lines)


def test_denied_foods_are_no_ingredients() -> None:
    assert [one.food for one in read_line("21 lb apples, no sugar, cinnamon").lines] == [
        "apples",
        "cinnamon",
    ]
    (peaches, honey) = read_line("5 c peaches, 3 c honey instead of 4 c sugar").lines
    assert honey.food == "honey"
    assert honey.amount == parse_amount("3 c")
    assert peaches.food == "peaches"
