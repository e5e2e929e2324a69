"""Lethality by definition, against closed forms, published figures, quadrature and properties.

Published values are those gathered with their sources in the project's science notes, whose
sections are named. Lines of the notes' sections 1 to 3 that no test holds, and why:

| line | why it is left out |
|---|---|
| 1.2, F0 14.6 of the FAO manual's 60-min process, 8.6 of it while heating | its list of readings is not in the text that was readable; only its L of 0.776 is held |
| 1.3, B of 21.68 min in example A | an arithmetic slip of the page: its own inputs give 22.03, which is held |
| 1.3, fh/U 13.41 of example B by linear interpolation | the notes carry the rows 10 and 20 of the table only, between which a straight line gives 13.98; the printed 13.41 is taken as read |
| 1.3, 42 % of the come-up credited | not for a home canner, whose come-up is no step; used for the example's arithmetic only |
| 1.1, survival curves that bend (Weibull) | no figure is printed beside it |
| 1.4, texture constants of peas and beans | shown as nothing but the check of z against its activation energy |
| 2.1, 2.2 | held by test_conduction.py and test_pack.py |
| 2.3, cp of peas and other foods drier in the list | named in test_food.py |
| 2.5, heat penetration in home packs | no table of fh and jh for home jars was readable; its one TEST line is held here |
| 3.1, 3.2 | held by test_steam.py and test_atmosphere.py |
| 3.3 | held by test_gauge_bands.py |
| 3.4 | held by test_air.py |
"""  # noqa: E501

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad, simpson

from stillroom.errors import OutOfRange
from stillroom.physics import lethality
from stillroom.physics.array import Array
from stillroom.physics.lethality import (
    APPROVES_NOTHING,
    T_REF_C100,
    T_REF_F0,
    Z_C100,
    Z_F0,
    by_trapezoid,
    c100,
    coarse,
    equivalent_time,
    equivalent_time_so_far,
    f0,
    lethal_rate,
    thiamin_retained,
)

C = 273.15
MINUTE = 60.0


def kelvin(fahrenheit: float) -> float:
    return (fahrenheit + 459.67) / 1.8


def hold(celsius: float, minutes: float) -> tuple[Array, Array]:
    return np.array([0.0, minutes * MINUTE]), np.full(2, celsius + C)


# Readings each 5 minutes of an invented run (science notes 1.2), C.
READINGS = np.array([80, 95, 105, 112, 116, 118, 119, 119.5, 110, 90, 70]) + C
EVERY_FIVE = 5 * MINUTE * np.arange(11.0)


@st.composite
def logs(draw: st.DrawFn, least: int = 2) -> tuple[Array, Array]:
    """Any log: gaps of a second to an hour, temperatures from deep frost to an oven."""
    count = draw(st.integers(least, 12))
    gaps = draw(st.lists(st.floats(1.0, 3600.0), min_size=count - 1, max_size=count - 1))
    temperatures = draw(st.lists(st.floats(250.0, 500.0), min_size=count, max_size=count))
    return np.concatenate([[0.0], np.cumsum(gaps)]), np.array(temperatures)


@pytest.mark.parametrize(("celsius", "rate"), [(111.1, 0.1), (101.1, 0.01), (131.1, 10.0)])
def test_lethal_rate_is_tenfold_for_each_ten_degrees(celsius: float, rate: float) -> None:
    """Definition, science notes 1.1; 1e-9 asked, of the rate."""
    assert float(lethal_rate(celsius + C)) == pytest.approx(rate, rel=1e-9)


@pytest.mark.parametrize(
    ("retort", "factor"), [(240, 3.594), (245, 1.896), (255, 0.5275), (250, 1.0)]
)
def test_fi_is_the_time_that_stands_for_a_minute_at_250_f(retort: float, factor: float) -> None:
    """Fi = 10^((250 - Tr)/18), science notes 1.1 (printed 1.9 and 0.53 there)."""
    rate = lethal_rate(kelvin(retort), reference=kelvin(250), z=Z_F0)

    assert 1 / float(rate) == pytest.approx(factor, rel=1e-3)


def test_the_two_references_in_use_are_0_26_percent_apart() -> None:
    """250 F is 121.111 C: a factor of 1.00256."""
    assert kelvin(250) - T_REF_F0 == pytest.approx(0.0111, abs=5e-5)
    assert float(lethal_rate(kelvin(250))) == pytest.approx(1.00256, abs=5e-6)


def test_rate_printed_by_the_fao_manual_is_that_of_120_c() -> None:
    """Warne (1988) prints L = 0.776."""
    assert float(lethal_rate(120 + C)) == pytest.approx(0.776, abs=5e-4)


def test_at_250_f_spores_die_3_594_times_as_fast_as_at_240_f() -> None:
    """Wolf and others (1978) measured about a third of the time at 15 psig in loose packs."""
    ratio = float(lethal_rate(kelvin(250)) / lethal_rate(kelvin(240)))

    assert ratio == pytest.approx(3.594, rel=1e-3)
    assert 1 / ratio == pytest.approx(1 / 3, abs=0.06)  # "about a third"


def test_exact_f0_of_the_five_minute_log() -> None:
    """Straight lines between the readings: 10.8386 min (1e-3)."""
    assert float(f0(EVERY_FIVE, READINGS)) / MINUTE == pytest.approx(10.8386, rel=1e-3)


@pytest.mark.parametrize(("reference", "minutes"), [(121.1, 11.6785), (121.111, 11.6487)])
def test_trapezoid_f0_of_the_five_minute_log(reference: float, minutes: float) -> None:
    found = by_trapezoid(EVERY_FIVE, READINGS, reference=reference + C)

    assert float(found) / MINUTE == pytest.approx(minutes, rel=1e-3)


def test_plain_sum_and_simpson_of_the_five_minute_log_differ_again() -> None:
    """11.6787 and 12.1452 min from our lethal rates and SciPy: four answers from one list."""
    rates = lethal_rate(READINGS)

    assert rates.sum() * 5 == pytest.approx(11.6787, rel=1e-3)
    assert simpson(rates, dx=5.0) == pytest.approx(12.1452, rel=1e-3)


def test_trapezoid_cook_value_of_the_five_minute_log() -> None:
    found = by_trapezoid(EVERY_FIVE, READINGS, reference=T_REF_C100, z=Z_C100)

    assert float(found) / MINUTE == pytest.approx(106.77, rel=1e-3)


def test_exact_f0_of_a_ramp_is_the_closed_form() -> None:
    """100 to 121.1 C in 20 min: t z/(ln 10 (T2 - T1)) (L2 - L1) = 4.0846 min."""
    found = float(f0(np.array([0.0, 1200.0]), np.array([100.0, 121.1]) + C)) / MINUTE
    by_hand = 20 * 10 / (math.log(10) * 21.1) * (1 - 10**-2.11)

    assert found == pytest.approx(by_hand, rel=1e-12)
    assert found == pytest.approx(4.0846, abs=5e-5)


@pytest.mark.parametrize(("step", "minutes"), [(1, 4.1046), (2, 4.1646), (5, 4.5748)])
def test_trapezoid_overstates_a_ramp_the_more_the_coarser_its_log(
    step: int, minutes: float
) -> None:
    times = MINUTE * np.arange(0.0, 21.0, step)
    temperatures = 100 + 21.1 * times / 1200 + C

    assert float(by_trapezoid(times, temperatures)) / MINUTE == pytest.approx(minutes, abs=5e-5)
    assert float(f0(times, temperatures)) / MINUTE == pytest.approx(4.0846, abs=5e-5)


@pytest.mark.parametrize(("celsius", "minutes"), [(121.1, 4.359), (115.56, 2.962), (110, 2.009)])
def test_cook_value_of_a_minute(celsius: float, minutes: float) -> None:
    """z 33, science notes 1.4 (0.1 %)."""
    assert float(c100(*hold(celsius, 1.0))) / MINUTE == pytest.approx(minutes, rel=1e-3)


@pytest.mark.parametrize(
    ("celsius", "minutes", "percent"),
    [(115.56, 25, 80.4), (115.56, 75, 51.9), (115.56, 90, 45.5), (121.1, 20, 74.7)],
)
def test_thiamin_left_after_a_hold(celsius: float, minutes: float, percent: float) -> None:
    """D 158 min at 121.1 C, z 25 C: science notes 1.4 (0.2 points)."""
    left = float(thiamin_retained(*hold(celsius, minutes)))

    assert 100 * left == pytest.approx(percent, abs=0.2)


def test_cooling_in_the_shut_canner_adds_to_the_6_minutes_of_heating() -> None:
    """fh 40, jh 1.8, 80 C into 115.56 C, 75 min: F0 6.0 (notes 1.3 and 2.5). It must grow."""
    heating = np.linspace(0.0, 75.0, 2001)
    cooling = np.linspace(75.0, 135.0, 1001)[1:]
    inside = 115.56 - 1.8 * (115.56 - 80) * 10 ** (-heating / 40)
    inside = np.minimum(np.maximum(inside, 80.0), 115.56)
    after = 25 + (inside[-1] - 25) * 10 ** (-(cooling - 75) / 150)
    times = MINUTE * np.concatenate([heating, cooling])

    so_far = equivalent_time_so_far(times, np.concatenate([inside, after]) + C) / MINUTE

    assert so_far[len(heating) - 1] == pytest.approx(6.0, abs=0.01)
    assert so_far[-1] > 6.5
    assert (np.diff(so_far) >= 0).all()


@given(logs(), st.sampled_from([(T_REF_F0, 10.0), (T_REF_C100, 33.0), (T_REF_F0, 25.0)]))
def test_any_log_agrees_with_quadrature(log: tuple[Array, Array], law: tuple[float, float]) -> None:
    """SciPy's adaptive quadrature of each straight piece, asked to 1e-10."""
    times, temperatures = log
    reference, z = law

    def rate(t: float) -> float:
        return float(10 ** ((np.interp(t, times, temperatures) - reference) / z))

    parts = [
        quad(rate, start, end, epsabs=0.0, epsrel=1e-10, limit=200)[0]
        for start, end in pairwise(times)
    ]

    assert float(equivalent_time(times, temperatures, reference, z)) == pytest.approx(
        sum(parts), rel=1e-8
    )


@given(st.floats(300.0, 400.0), st.floats(1e-13, 1e-3), st.sampled_from([-1.0, 1.0]))
def test_nearly_flat_pieces_keep_their_digits(level: float, rise: float, sign: float) -> None:
    """Against the first terms of the series 1 + x/2 + x^2/6, of which the next is below 1e-12."""
    temperatures = np.array([level, level + sign * rise])
    x = math.log(10) / 10 * (temperatures[1] - temperatures[0])
    series = 600 * 10 ** ((level - T_REF_F0) / 10) * (1 + x / 2 + x * x / 6)

    assert float(f0(np.array([0.0, 600.0]), temperatures)) == pytest.approx(series, rel=1e-12)


def test_a_flat_piece_counts_its_whole_time() -> None:
    assert float(f0(*hold(121.1, 7.0))) == pytest.approx(7 * MINUTE, rel=1e-12)


@given(logs(), st.data())
def test_hotter_never_has_less_lethality(log: tuple[Array, Array], data: st.DataObject) -> None:
    times, temperatures = log
    rises = [data.draw(st.floats(0.0, 500.0 - t)) for t in temperatures]
    hotter = np.minimum(temperatures + np.array(rises), 500.0)

    # Rounding alone: each piece is good to some 1e-14 of itself.
    assert float(f0(times, hotter)) >= float(f0(times, temperatures)) * (1 - 1e-12)
    assert float(c100(times, hotter)) >= float(c100(times, temperatures)) * (1 - 1e-12)
    cooler_keeps = float(thiamin_retained(times, temperatures))
    assert float(thiamin_retained(times, hotter)) <= cooler_keeps + 1e-12


@given(logs(), st.floats(0.0, 7200.0), st.integers(0, 11))
def test_a_longer_hold_never_lowers_f0(log: tuple[Array, Array], longer: float, which: int) -> None:
    """The canner stays at one of its readings for longer, and all that follows comes later."""
    times, temperatures = log
    at = which % len(times)
    assume(longer > 1e-6)
    held = np.concatenate([times[: at + 1], times[at:] + longer])
    kept = np.concatenate([temperatures[: at + 1], temperatures[at:]])

    assert float(f0(held, kept)) >= float(f0(times, temperatures)) * (1 - 1e-9)


@given(logs(), st.floats(0.01, 0.99), st.integers(0, 10))
def test_a_reading_more_on_the_straight_line_changes_nothing(
    log: tuple[Array, Array], share: float, which: int
) -> None:
    times, temperatures = log
    at = which % (len(times) - 1)
    moment = times[at] + share * (times[at + 1] - times[at])
    between = temperatures[at] + share * (temperatures[at + 1] - temperatures[at])

    more = float(f0(np.insert(times, at + 1, moment), np.insert(temperatures, at + 1, between)))

    assert more == pytest.approx(float(f0(times, temperatures)), rel=1e-9)


@given(logs())
def test_trapezoid_is_never_below_the_exact_integral(log: tuple[Array, Array]) -> None:
    """The rate is convex in temperature, so it hangs below its chords."""
    assert float(by_trapezoid(*log)) >= float(f0(*log)) * (1 - 1e-12)


@given(logs())
def test_running_total_rises_from_nothing_to_the_whole(log: tuple[Array, Array]) -> None:
    so_far = equivalent_time_so_far(*log)

    assert so_far.shape == log[0].shape
    assert so_far[0] == 0
    assert (np.diff(so_far) >= 0).all()
    assert so_far[-1] == pytest.approx(float(f0(*log)), rel=1e-12)


@given(logs(), st.floats(-1e5, 1e5))
def test_when_the_clock_started_does_not_matter(log: tuple[Array, Array], later: float) -> None:
    times, temperatures = log

    # Times of 1e5 s keep 1.5e-11 s, of gaps of a second or more.
    assert float(f0(times + later, temperatures)) == pytest.approx(
        float(f0(times, temperatures)), rel=1e-9
    )


def test_many_jars_are_each_as_alone() -> None:
    dice = np.random.default_rng(3)
    many = dice.uniform(280.0, 400.0, (5, 11))

    for law in (f0, c100, thiamin_retained, by_trapezoid, equivalent_time_so_far):
        together = law(EVERY_FIVE, many)
        assert together.shape == ((5, 11) if law is equivalent_time_so_far else (5,))
        for row in range(5):
            assert together[row] == pytest.approx(law(EVERY_FIVE, many[row]), rel=1e-12)


def test_one_reading_has_lasted_no_time() -> None:
    alone = np.array([10.0]), np.array([400.0])

    assert float(f0(*alone)) == 0
    assert float(thiamin_retained(*alone)) == 1
    assert equivalent_time_so_far(*alone).tolist() == [0.0]


def test_whole_numbers_are_readings_too() -> None:
    assert float(f0(np.array([0, 60]), np.array([394, 394]))) == pytest.approx(
        60 * 10 ** (-0.25 / 10)
    )


def test_coarse_marks_gaps_of_more_than_two_minutes() -> None:
    log = np.array([0.0, 60.0, 180.0, 300.5, 900.0])

    assert coarse(log).tolist() == [False, False, True, True]


def test_coarse_leaves_the_hold_and_the_cooling_alone() -> None:
    """Come-up is over at the first reading within half a kelvin of the hottest."""
    log = np.array([0.0, 120.0, 420.0, 720.0, 1020.0, 1320.0, 1620.0])
    run = np.array([[340.0, 365.0, 389.0, 389.2, 389.6, 389.5, 372.0]])
    expected = [False, True, True, False, False, False]

    assert coarse(log, run).tolist() == [expected]
    assert coarse(log, run[0]).tolist() == expected


@pytest.mark.parametrize(
    ("times", "temperatures", "named"),
    [
        ([0.0, 10.0, 10.0], [300.0, 310.0, 320.0], "Instant 2"),
        ([0.0, 10.0, 5.0], [300.0, 310.0, 320.0], "Instant 2"),
        ([0.0, math.nan, 20.0], [300.0, 310.0, 320.0], "Instant 1"),
        ([0.0, 10.0, math.inf], [300.0, 310.0, 320.0], "Instant 2"),
        ([0.0, 10.0, 20.0], [300.0, 116.0, 320.0], r"Temperature \(1,\)"),
        ([0.0, 10.0, 20.0], [300.0, 310.0, 501.0], r"Temperature \(2,\)"),
        ([0.0, 10.0, 20.0], [math.nan, 310.0, 320.0], r"Temperature \(0,\)"),
        ([0.0, 10.0], [300.0], "one temperature for each"),
        ([], [], "one temperature for each"),
    ],
)
def test_readings_out_of_order_or_range_are_refused_by_their_place(
    times: list[float], temperatures: list[float], named: str
) -> None:
    for law in (f0, c100, thiamin_retained, by_trapezoid, equivalent_time_so_far, coarse):
        with pytest.raises(OutOfRange, match=named):
            law(np.array(times), np.array(temperatures))


def test_a_reading_of_one_jar_of_many_is_named_by_both_its_places() -> None:
    many = np.full((3, 2), 300.0)
    many[2, 1] = 600.0

    with pytest.raises(OutOfRange, match=r"Temperature \(2, 1\)"):
        f0(np.array([0.0, 1.0]), many)
    with pytest.raises(OutOfRange, match=r"Temperature \(2, 1\)"):
        lethal_rate(many)


@pytest.mark.parametrize("z", [0.0, -10.0, 0.5, 500.0, math.nan])
def test_a_z_that_no_law_has_is_out_of_range(z: float) -> None:
    for law in (lethal_rate, lambda t, reference, z: equivalent_time(np.zeros(1), t, reference, z)):
        with pytest.raises(OutOfRange, match="between 1 and 200"):
            law(np.array([300.0]), T_REF_F0, z)
    with pytest.raises(OutOfRange, match="between 1 and 200"):
        by_trapezoid(EVERY_FIVE, READINGS, z=z)


@pytest.mark.parametrize("reference", [121.1, math.nan])
def test_a_reference_given_in_celsius_is_out_of_range(reference: float) -> None:
    with pytest.raises(OutOfRange, match="reference temperature"):
        equivalent_time(EVERY_FIVE, READINGS, reference, 10.0)


def test_the_sentence_beside_every_figure_leaves_the_published_process_in_charge() -> None:
    assert APPROVES_NOTHING.endswith("the published one stands.")
    assert "approve no process" in APPROVES_NOTHING
    for text in (APPROVES_NOTHING, lethality.METHOD, lethality.TRAPEZOID, lethality.__doc__ or ""):
        assert "safe" not in text.lower()
