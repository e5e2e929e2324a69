"""From typed words to foods: what is accepted, what is asked back, what is refused."""

import pytest

from stillroom.processes import library, lookup
from stillroom.processes.names import find
from stillroom.words import key


@pytest.mark.parametrize(
    ("typed", "food"),
    [
        ("green beans", "snap beans"),
        ("Beans, Snap", "snap beans"),
        ("snap bean", "snap beans"),
        ("string beans", "snap beans"),
        ("sliced carrots", "carrots"),
        ("carrots", "carrots"),
        ("creamed corn", "cream-style corn"),
        ("garden peas", "green peas"),
        ("beetroot", "beets"),
        ("kale", "spinach and other greens"),
        ("butternut squash", "winter squash"),
        ("venison cubes", "strips, cubes or chunks of meat"),
        ("ground venison", "ground or chopped meat"),
        ("chicken stock", "meat stock (broth)"),
        ("chicken", "chicken or rabbit"),
        ("chili con carne", "chile con carne"),
        ("crushed tomatoes", "tomatoes"),
        ("apple sauce", "applesauce"),
        ("blueberries", "berries"),
        ("dilly beans", "pickled dilled beans"),
        ("bread and butter pickles", "bread-and-butter pickles"),
        ("tomato sauce, standard, thick", "tomato sauce"),
        ("chile salsa (hot tomato-pepper sauce)", "chile salsa"),
        ("apple pie filling", "pie filling, apple"),
    ],
)
def test_a_name_people_use_finds_its_food(typed: str, food: str) -> None:
    found = find(typed)

    assert {f for f, _ in found.targets} == {food}
    assert found.read_as == ""


@pytest.mark.parametrize(
    ("typed", "food"),
    [("aspargus", "asparagus"), ("carots", "carrots"), ("peeches", "peaches"),
     ("sucotash", "succotash"), ("snap baens", None), ("mushrooom", "mushrooms")],
)  # fmt: skip
def test_a_small_slip_is_mended_and_told_or_asked_back(typed: str, food: str | None) -> None:
    answer = lookup(typed, elevation=500)

    if food is None:
        assert answer.refusal is not None
        assert answer.candidates
    else:
        assert {p.food for p in answer.processes} == {food}
        assert all(f'Read "{typed}" as {food}' in m.notes[0] for m in answer.matches)


@pytest.mark.parametrize("typed", ["peers", "beef", "yam", "jan", "beats", "pees", "perch"])
def test_a_short_word_is_never_turned_into_its_neighbour(typed: str) -> None:
    """Peas and pears, beef and beet, jam and ham stand one letter apart."""
    found = find(typed)

    assert found.read_as == ""


@pytest.mark.parametrize(
    ("typed", "among"),
    [("beans", "snap beans"), ("corn", "whole-kernel corn"), ("pickles", "dill pickles"),
     ("salsa", "chile salsa"), ("jam", "jam without added pectin"), ("fish", None),
     ("chili", "peppers"), ("sausage", "ground or chopped meat")],
)  # fmt: skip
def test_a_word_for_several_foods_lists_them_instead_of_guessing(
    typed: str, among: str | None
) -> None:
    answer = lookup(typed, elevation=500)

    if among is None:  # "fish" is the library's own name
        assert {p.food for p in answer.processes} == {"fish"}
    else:
        assert answer.refusal is not None
        assert answer.refusal.code == "unknown-food"
        assert among in answer.candidates


@pytest.mark.parametrize(
    "typed",
    ["zucchini", "summer squash", "pumpkin butter", "mashed pumpkin", "pumpkin puree",
     "white peaches", "elderberries", "cabbage", "broccoli", "eggs", "pickled eggs", "butter",
     "pasta", "rice", "wild mushrooms", "garlic in oil", "cream soup", "bacon"],
)  # fmt: skip
def test_food_without_a_process_is_refused_with_its_rule(typed: str) -> None:
    answer = lookup(typed, elevation=500)

    assert answer.matches == ()
    assert answer.refusal is not None
    assert answer.refusal.code == "no-row"


@pytest.mark.parametrize(
    "typed",
    [
        "mushroom soup",
        "beef jerky",
        "squash soup",
        "tomato bisque",
        "plutonium",
        "carrot cake",
        "grapes in syrup",
        "peaches in syrup",
        "dried prunes",
    ],
)
def test_words_left_over_are_never_dropped(typed: str) -> None:
    """A mushroom soup is not mushrooms: part of a phrase never answers for the whole."""
    assert lookup(typed, elevation=500).matches == ()


def test_every_other_name_answers_or_asks() -> None:
    for other in library.other_names():
        found = find(other.said)
        assert found.targets or found.candidates, other.said


def test_the_two_vocabularies_do_not_contradict_each_other() -> None:
    barred = {key(entry.said) for entry in library.no_process()}
    named = {key(other.said) for other in library.other_names()} | {
        key(food) for food in library.forms()
    }

    assert not barred & named


def test_no_refusal_calls_anything_safe() -> None:
    for entry in library.no_process():
        assert "safe" not in (entry.reason + entry.instead).lower()


def test_a_name_known_only_from_memory_says_so() -> None:
    turkey = lookup("turkey", elevation=500).matches
    chicken = lookup("chicken", elevation=500).matches

    assert all("from memory" in m.notes[0] for m in turkey)
    assert not any("from memory" in note for m in chicken for note in m.notes)


MEDIA = ("broth", "stock", "juice", "sauce", "syrup", "cream", "butter", "jam", "jelly", "vinegar")
HEADS = (
    "chicken", "beef", "turkey", "tomatoes", "cherries", "berries", "blueberries", "strawberries",
    "grapes", "apples", "corn", "peaches", "pears", "mushrooms", "pumpkin", "beans", "peas",
)  # fmt: skip


@pytest.mark.parametrize("joined", ["in", "with", "and", "&", "+", "of", "in own"])
def test_a_food_packed_in_something_is_never_answered_as_that_something(joined: str) -> None:
    """Chicken in broth is not chicken broth: the two have different processes."""
    liquids = {
        "meat stock (broth)", "apple juice", "grape juice", "tomato juice", "berry syrup",
        "applesauce", "tomato sauce", "cream-style corn", "apple butter", "fruit puree",
        "tomato and vegetable juice blend",
    }  # fmt: skip
    for head in HEADS:
        for medium in MEDIA:
            found = find(f"{head} {joined} {medium}")
            assert not {food for food, _ in found.targets} & liquids, (head, joined, medium)


@pytest.mark.parametrize(
    "typed",
    ["cream of corn", "small beans", "large beans", "tomatoes with added liquid", "without meat",
     "tuna salmon", "plums in tomato juice", "green tomatoes in juice", "pumpkin pie",
     "pumpkin sugar", "tamarillos", "chicken bones", "strawberries & syrup", "smoked turkey"],
)  # fmt: skip
def test_words_that_mean_something_else_do_not_answer(typed: str) -> None:
    assert lookup(typed, elevation=500).matches == ()
