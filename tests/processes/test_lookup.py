"""Questions to the tables as a person asks them. Figures: AIB-539, place beside each test."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import InputError
from stillroom.processes import library, lookup
from stillroom.processes.audit import group_of
from stillroom.processes.model import CODES, Process


def only(food: str, elevation: str, **narrowed: str) -> tuple[int, int | None]:
    """The one row that answers, as (minutes, psi)."""
    answer = lookup(food, elevation=elevation, **narrowed)
    assert answer.refusal is None, answer.refusal
    (row,) = answer.processes
    return row.minutes, row.psi


def refused(food: str, elevation: str = "500 ft", **narrowed: str) -> str:
    answer = lookup(food, elevation=elevation, **narrowed)
    assert answer.matches == ()
    assert answer.refusal is not None
    return answer.refusal.code


@pytest.mark.parametrize(
    ("elevation", "psi"),
    [("-30 ft", 11), ("0 ft", 11), ("2,000 ft", 11), ("2,001 ft", 12), ("4000ft", 12),
     ("4001 ft", 13), ("6000 ft", 13), ("6001 ft", 14), ("8000 ft", 14)],
)  # fmt: skip
def test_snap_bean_quarts_by_dial_gauge_step_up_at_the_printed_band_edges(
    elevation: str, psi: int
) -> None:
    """AIB-539 Guide 4 p. 4-8: quarts 25 min at 11/12/13/14 lb."""
    assert only("snap beans", elevation, jar="quart", method="dial-gauge") == (25, psi)


@pytest.mark.parametrize(
    ("elevation", "psi"), [("1,000 ft", 10), ("1,001 ft", 15), ("9500 ft", 15)]
)
def test_weighted_gauge_steps_up_above_1000_ft(elevation: str, psi: int) -> None:
    """AIB-539 Guide 4: weighted gauge 10 lb to 1,000 ft, 15 lb above."""
    assert only("carrots", elevation, jar="pint", method="weighted-gauge") == (25, psi)


@pytest.mark.parametrize(
    ("elevation", "minutes"),
    [("1000 ft", 25), ("1001 ft", 30), ("3000 ft", 30), ("3001 ft", 35), ("6000 ft", 35),
     ("6001 ft", 40)],
)  # fmt: skip
def test_hot_peach_quarts_in_boiling_water_follow_four_bands(elevation: str, minutes: int) -> None:
    """AIB-539 Guide 2 p. 2-19: quarts, hot pack 25/30/35/40."""
    assert only("peaches", elevation, pack="hot", jar="quart", method="boiling-water") == (
        minutes,
        None,
    )


def test_a_metre_reading_just_over_an_edge_takes_the_higher_band() -> None:
    """304.8 m is 1,000 ft exactly; 304.9 m is 1,000.3 ft and so lies above the edge."""
    assert only("carrots", "304.8 m", jar="pint", method="weighted-gauge") == (25, 10)
    assert only("carrots", "304.9 m", jar="pint", method="weighted-gauge") == (25, 15)


def test_dial_gauge_above_the_last_printed_band_is_refused_not_extended() -> None:
    answer = lookup("snap beans", elevation="8,001 ft", jar="quart", method="dial-gauge")

    assert answer.matches == ()
    assert answer.refusal is not None
    assert answer.refusal.code == "above-table"
    assert "8,000 ft" in answer.refusal.reason
    assert "--method weighted-gauge" in answer.refusal.reason


def test_leaving_out_the_jar_lists_every_printed_jar() -> None:
    answer = lookup("snap beans", elevation="5430 ft", method="dial-gauge")

    assert [(p.jar, p.minutes) for p in answer.processes] == [("pint", 20), ("quart", 25)]


def test_a_smaller_jar_takes_the_next_larger_printed_size_and_says_so() -> None:
    """K-State Research and Extension 2019, 2022: half-pints of beans take the pint time."""
    answer = lookup("snap beans", elevation="5430 ft", jar="half-pint", method="dial-gauge")

    (match,) = answer.matches
    assert (match.process.jar, match.process.minutes, match.jar) == ("pint", 20, "half-pint")
    assert "half-pint jars take the pint row" in match.notes[0]


def test_24_oz_jars_take_the_quart_row() -> None:
    answer = lookup("snap beans", elevation="5430 ft", jar="24 oz", method="dial-gauge")

    assert [(p.jar, p.minutes) for p in answer.processes] == [("quart", 25)]


@pytest.mark.parametrize(
    ("food", "jar"),
    [("snap beans", "half-gallon"), ("cream-style corn", "quart"), ("mushrooms", "1.5-pint"),
     ("chile con carne", "quart"), ("oysters", "quart")],
)  # fmt: skip
def test_a_jar_larger_than_the_largest_printed_is_refused(food: str, jar: str) -> None:
    assert refused(food, jar=jar) == "jar-too-large"


@pytest.mark.parametrize(
    "food", ["snap beans", "chicken or rabbit", "soups", "spaghetti sauce without meat", "beets"]
)
def test_low_acid_food_in_boiling_water_is_barred_with_the_reason(food: str) -> None:
    answer = lookup(food, elevation="500 ft", method="boiling-water")

    assert answer.matches == ()
    assert answer.refusal is not None
    assert answer.refusal.code == "method-barred"
    assert "botulinum" in answer.refusal.reason


def test_an_acid_food_without_a_pressure_table_is_no_row_not_barred() -> None:
    assert refused("apple butter", method="dial-gauge") == "no-row"


def test_tomatoes_show_every_printed_option_labelled() -> None:
    """AIB-539 Guide 3 p. 3-9, quarts in water to 1,000 ft: 15 min at 5, 10 at 10, 1 at 15 lb."""
    answer = lookup(
        "tomatoes", form="packed in water", elevation="900 ft", jar="quart", method="weighted-gauge"
    )

    assert [(p.option, p.minutes, p.psi) for p in answer.processes] == [
        ("1 of 3", 15, 5),
        ("2 of 3", 10, 10),
        ("3 of 3", 1, 15),
    ]


def test_tomato_options_without_a_heavier_weight_drop_out_above_1000_ft() -> None:
    answer = lookup(
        "tomatoes",
        form="packed in water",
        elevation="1,001 ft",
        jar="quart",
        method="weighted-gauge",
    )

    assert [(p.minutes, p.psi) for p in answer.processes] == [(15, 10), (10, 15)]


def test_acid_is_required_of_every_tomato_jar() -> None:
    answer = lookup("tomatoes", form="crushed", elevation="5430 ft", jar="quart")

    assert all(any("lemon juice" in r for r in m.requires) for m in answer.matches)


@pytest.mark.parametrize(
    ("food", "narrowed"),
    [("mango salsa", {}), ("tomatoes", {"form": "crushed", "method": "weighted-gauge"}),
     ("fish", {"jar": "quart"}), ("smoked fish", {}), ("sauerkraut", {"jar": "quart"}),
     ("jam without added pectin", {"jar": "pint"})],
)  # fmt: skip
def test_a_row_nobody_could_read_is_withheld_and_says_where_to_look(
    food: str, narrowed: dict[str, str]
) -> None:
    answer = lookup(food, elevation="500 ft", **narrowed)

    assert answer.refusal is not None
    assert answer.refusal.code == "withheld"
    assert "extension office" in answer.refusal.reason


def test_processes_under_ten_minutes_ask_for_sterile_jars() -> None:
    """MSU Extension 01600107. At 5,430 ft dilled beans take 10 minutes and need none."""
    low = lookup("pickled dilled beans", elevation="500 ft")
    high = lookup("pickled dilled beans", elevation="5,430 ft")

    assert any("Sterile jars" in r for r in low.matches[0].requires)
    assert not any("Sterile jars" in r for r in high.matches[0].requires)


def test_pressure_always_asks_for_ten_minutes_of_venting() -> None:
    for match in lookup("beets", elevation="5430 ft").matches:
        assert any("10 minutes before closing the vent" in r for r in match.requires)


@pytest.mark.parametrize(
    ("method", "code", "told"),
    [("electric", "no-row", "appliance"), ("multi-cooker", "no-row", "appliance"),
     ("steam canner", "no-row", "45 minutes"), ("oven", "method-barred", "not recommended")],
)  # fmt: skip
def test_ways_without_a_table_say_what_the_published_rules_say(
    method: str, code: str, told: str
) -> None:
    answer = lookup("green beans", elevation="500 ft", method=method)

    assert answer.refusal is not None
    assert answer.refusal.code == code
    assert told in answer.refusal.reason


def test_a_form_that_is_not_printed_is_refused_and_the_printed_ones_named() -> None:
    answer = lookup("beets", form="pureed", elevation="500 ft")

    assert answer.refusal is not None
    assert answer.refusal.code == "no-row"
    assert "whole, cubed or sliced" in answer.refusal.reason


@pytest.mark.parametrize(
    ("key", "value"),
    [("elevation", "high"), ("elevation", "5200"), ("elevation", "90000 ft"), ("jar", "bucket"),
     ("method", "boil"), ("pack", "cold")],
)  # fmt: skip
def test_a_word_that_cannot_be_read_names_the_option_and_the_choices(key: str, value: str) -> None:
    asked = {"elevation": "500 ft", key: value}

    with pytest.raises(InputError) as wrong:
        lookup("green beans", **asked)

    assert f"--{key}" in str(wrong.value)
    assert value in str(wrong.value)


def test_every_printed_row_is_found_by_its_own_words() -> None:
    """Each row, asked for by its own columns at both edges of its band, answers itself."""
    for row in library.processes():
        for feet in (row.from_ft, row.to_ft or 12_000):
            answer = lookup(
                row.food,
                form=row.form or None,
                pack=row.pack if row.pack != "raw or hot" else None,
                jar=row.jar,
                method=row.method,
                elevation=feet,
            )
            assert row in answer.processes


@given(st.sampled_from(library.processes()), st.integers(-1000, 20_000))
def test_an_answer_is_always_a_printed_row_or_a_refusal(row: Process, feet: int) -> None:
    """Whatever the elevation, nothing is interpolated: every answer stands in the files."""
    answer = lookup(row.food, jar=row.jar, method=row.method, elevation=feet)

    printed = set(library.processes())
    assert all(p in printed for p in answer.processes)
    assert all(
        p.from_ft <= max(feet, 0) and (p.to_ft is None or feet <= p.to_ft) for p in answer.processes
    )
    assert bool(answer.matches) != bool(answer.refusal)


@given(st.text(max_size=60))
def test_any_words_get_an_answer_or_a_plain_error(words: str) -> None:
    try:
        answer = lookup(words, elevation=500)
    except InputError:
        return
    assert answer.matches or (answer.refusal and answer.refusal.code in CODES)


@given(st.sampled_from(library.processes()), st.integers(0, 8000), st.integers(0, 8000))
def test_higher_never_gets_less_time_or_pressure(row: Process, one: int, other: int) -> None:
    low, high = sorted((one, other))
    group = [r for r in library.processes(row.food) if group_of(r) == group_of(row)]

    def at(feet: int) -> list[Process]:
        return [r for r in group if r.from_ft <= feet and (r.to_ft is None or feet <= r.to_ft)]

    for below in at(low):
        for above in at(high):
            assert above.minutes >= below.minutes
            assert (above.psi or 0) >= (below.psi or 0)


@pytest.mark.parametrize(
    ("food", "form", "printed"),
    [
        ("soups", "with seafood", {"with seafood"}),
        ("soups", "without seafood", {"without seafood"}),
        ("chicken", "with bones", {"with bones"}),
        ("chicken", "without bones", {"without bones"}),
        ("tomatoes", "crushed", {"crushed, no added liquid"}),
        ("tomatoes", "with added liquid", set()),
        ("fish", "tuna", set()),
        ("pumpkin", "pie", set()),
    ],
)
def test_a_form_never_matches_what_it_denies(food: str, form: str, printed: set[str]) -> None:
    answer = lookup(food, form=form, elevation=500)

    assert {p.form for p in answer.processes} == printed


@pytest.mark.parametrize("elevation", ["1.600 m", "1.500 m", "1,5 m", "10,00 ft", "5,43 ft"])
def test_an_elevation_that_reads_two_ways_is_asked_back(elevation: str) -> None:
    """1.600 m is 1,600 m to a European and 1.6 m to an American: the wrong band for one of them."""
    with pytest.raises(InputError, match="--elevation"):
        lookup("peaches", elevation=elevation)
