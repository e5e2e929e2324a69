"""Which minutes of a method are the process, and which are vent, boil, soak or other."""

import pytest

from stillroom.recipes.text.minutes import minutes_in

# Each sentence was read by hand; the wordings are ours, after the manner of kitchen cards.
TOLD = [
    ("Boil 5 min; half solids; 1 in.; vent; 60 min", [(5, "boil", ""), (60, "process", "")]),
    ("90 mins at 10 lb.", [(90, "process", "")]),
    ("Vent 10 min; 40 min", [(10, "vent", ""), (40, "process", "")]),
    ("Vent 10, 40 min pressure.", [(10, "vent", ""), (40, "process", "")]),
    ("pints 60 quarts 75 min", [(75, "process", "quart"), (60, "process", "pint")]),
    ("Process 1 hour 15 minutes", [(75, "process", "")]),
    ("Boiling water bath 3 hours", [(180, "process", "")]),
    ("Process 1 1/2 hours", [(90, "process", "")]),
    ("Process pints 20 minutes and quarts 25 minutes.",
     [(20, "process", "pint"), (25, "process", "quart")]),
    ("75 minutes for pints, 90 minutes for quarts",
     [(75, "process", "pint"), (90, "process", "quart")]),
    ("Soak 12 hours, boil 30 minutes", [(720, "soak", ""), (30, "boil", "")]),
    ("Let stand 1 hour", [(60, "soak", "")]),
    ("Simmer 10 min, pints, boiling water 15 min", [(10, "boil", ""), (15, "process", "")]),
    ("Boil 2-3 min", [(2, "boil", "")]),
    ("75 min as for pints", [(75, "process", "")]),
    ("BW 10", [(10, "process", "")]),
    ("half-pints 15 BW", [(15, "process", "half-pint")]),
    ("boil 5; pints; 75; vent 10", [(5, "boil", ""), (75, "process", ""), (10, "vent", "")]),
    ("Pints, half solids, 60 min vented", [(60, "process", "")]),
    ("Turn off heat and wait 5 minutes before removing the lid.", [(5, "other", "")]),
    ("Sterilize jars 10 minutes", [(10, "other", "")]),
    ("Exhaust steam for ten minutes", [(10, "vent", "")]),
    ("Boil the filled jars 45 minutes", [(45, "process", "")]),
    ("Blanch 3 minutes", [(3, "boil", "")]),
    ("Roast half an hour", [(30, "boil", "")]),
]  # fmt: skip


@pytest.mark.parametrize(("sentence", "told"), TOLD, ids=[row[0] for row in TOLD])
def test_minutes_of_a_short_method(sentence: str, told: list[tuple[int, str, str]]) -> None:
    got = [(m.minutes, m.what, m.jar) for m in minutes_in(sentence, 1, compact=True)]

    assert sorted(got) == sorted(told)


def test_in_a_long_method_a_time_that_stands_alone_is_no_process() -> None:
    (told,) = minutes_in("It took me 40 minutes.", 7, compact=False)

    assert (told.what, told.line, told.said) == ("other", 7, "40 minutes")


@pytest.mark.parametrize("sentence", ["", "1/0 hour", "no times here", "2 m", "vent 10 psi"])
def test_what_is_no_time(sentence: str) -> None:
    assert all(m.minutes <= 2 for m in minutes_in(sentence, 1, compact=True))
