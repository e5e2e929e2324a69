"""What logged minutes teach: the closed form, a household found again, and stubborn slips."""

import json
from functools import partial

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.learn import (
    SURPRISING,
    Belief,
    Predict,
    independent,
    learn,
    recalled,
    stored,
)
from stillroom.physics.vessel import Aims, Canner, Jars, run

POWER_AND_LOSS = independent(("power", "loss"), np.array([1_500.0, 4.0]), np.array([0.35, 0.3]))
WATCH = 0.05  # spread of the logarithm of a logged time: a minute of twenty


def noise(*spreads: float) -> Array:
    return np.diag(np.array(spreads) ** 2)


def straight(slopes: Array, at_medians: Array, medians: Array) -> Predict:
    """Times whose logarithms are straight in the logarithms of the figures."""

    def predict(figures: Array) -> Array:
        times: Array = at_medians * np.exp(np.log(figures / medians) @ slopes.T)
        return times

    return predict


def test_a_straight_rule_is_learned_as_its_closed_form_says() -> None:
    """Linear and normal: covariance (P^-1 + H' R^-1 H)^-1, mean from the same sum (Bayes)."""
    medians, before = np.array([1_500.0, 4.0]), np.diag([0.35**2, 0.3**2])
    slopes = np.array([[-1.2, 0.3], [0.1, -0.9]])
    logged, expected = np.array([14.0, 33.0]), np.array([12.0, 30.0])
    watch = np.array([[0.02, 0.004], [0.004, 0.01]])

    made = learn(
        POWER_AND_LOSS,
        straight(slopes, expected, medians),
        logged,
        watch,
    ).belief

    precision = np.linalg.inv(before) + slopes.T @ np.linalg.inv(watch) @ slopes
    after = np.linalg.inv(precision)
    shift = after @ slopes.T @ np.linalg.inv(watch) @ np.log(logged / expected)
    # Slopes are taken over a step of 1e-4: exact here but for rounding.
    assert np.log(made.medians) == pytest.approx(np.log(medians) + shift, abs=1e-9)
    assert made.covariance() == pytest.approx(after, abs=1e-9)


JARS = {"quarts": Jars(27_000.0, 800.0, 350.0), "pints": Jars(17_000.0, 540.0, 350.0)}
AIMS = Aims(boil=373.1, target=389.0, vent=600.0, hold=1_500.0, wait=600.0)


def timed(load: str, figures: Array) -> Array:
    """Heat-up, come-up and cool-down, min, of canners with these figures, shape (k, 2)."""
    made = run(Canner(figures[:, 0], figures[:, 1], 5_000.0, 2.84, 343.0, 296.0), JARS[load], AIMS)
    return np.stack([made.heat, made.come_up, made.cool], axis=1) / 60


def follow(belief: Belief, truth: tuple[float, float], loads: list[str], seed: int) -> Belief:
    """The belief after logs of a household whose true figures are these, with a shaky watch."""
    dice = np.random.default_rng(seed)
    for load in loads:
        said = timed(load, np.array([truth]))[0] * np.exp(WATCH * dice.standard_normal(3))
        belief = learn(belief, partial(timed, load), said, noise(WATCH, WATCH, WATCH)).belief
    return belief


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("truth", [(1_000.0, 5.0), (2_300.0, 3.0)])
def test_after_five_logs_a_household_s_next_run_is_foretold(
    truth: tuple[float, float], seed: int
) -> None:
    """Five logs of quarts, a watch good to 5 %: pints, never logged, are foretold within 8 %.

    Five logs leave 5 % / sqrt(5) = 2.2 % of scatter in each length; 8 % is more than three of it.
    What was thought before misses them by 40 % and more.
    """
    belief = follow(POWER_AND_LOSS, truth, ["quarts"] * 5, seed)

    wanted = timed("pints", np.array([truth]))[0]
    foretold = timed("pints", np.array([belief.medians]))[0]
    before = timed("pints", np.array([POWER_AND_LOSS.medians]))[0]
    assert foretold == pytest.approx(wanted, rel=0.08)
    assert abs(np.log(before[0] / wanted[0])) > 0.4


def test_the_order_of_two_logs_does_not_matter() -> None:
    """One household, a watch off by 5 % in turn: each step is linear at its own answer only, and
    the two differ by less than a tenth of the spread that is left."""
    truth, off = np.array([[1_200.0, 4.8]]), np.array([1.05, 0.95, 1.05])
    quarts, pints = timed("quarts", truth)[0] * off, timed("pints", truth)[0] / off

    def after(*logs: tuple[str, Array]) -> Belief:
        belief = POWER_AND_LOSS
        for load, said in logs:
            belief = learn(belief, partial(timed, load), said, noise(WATCH, WATCH, WATCH)).belief
        return belief

    one, other = (
        after(("quarts", quarts), ("pints", pints)),
        after(("pints", pints), ("quarts", quarts)),
    )
    for name, spread in zip(one.names, one.spreads, strict=True):
        assert abs(np.log(one.median(name) / other.median(name))) < 0.1 * spread


def test_a_forgotten_timer_is_told_and_undoes_nothing() -> None:
    """Five good logs, then a heat-up logged ten times too long: the figures stay near."""
    truth = (1_400.0, 4.5)
    good = follow(POWER_AND_LOSS, truth, ["quarts"] * 5, 3)
    wild = timed("quarts", np.array([truth]))[0] * np.array([10.0, 1.0, 1.0])

    made = learn(good, partial(timed, "quarts"), wild, noise(WATCH, WATCH, WATCH))

    assert made.surprise[0] > 10
    assert made.weight[0] < 0.25
    assert made.weight[1] == 1.0
    for name, spread in zip(good.names, good.spreads, strict=True):
        moved = abs(np.log(made.belief.median(name) / good.median(name)))
        assert moved < SURPRISING * spread  # what a time just surprising might do, and no more


def test_a_time_however_wrong_pulls_no_harder_than_a_surprising_one() -> None:
    """One figure, one time in proportion: the pull is that of SURPRISING deviations."""
    belief = independent(("figure",), np.array([1.0]), np.array([0.3]))
    spread = np.hypot(0.3, 0.1)
    bound = 0.3**2 / spread * SURPRISING

    moved = [
        np.log(learn(belief, lambda f: f, np.array([t]), noise(0.1)).belief.medians[0])
        for t in (np.exp(SURPRISING * spread), 1e2, 1e5)
    ]

    assert moved == pytest.approx([bound] * 3, rel=1e-6)


@given(
    power=st.floats(500.0, 5_000.0),
    loss=st.floats(1.5, 10.0),
    said=st.lists(st.floats(0.5, 400.0), min_size=3, max_size=3),
    watch=st.floats(0.02, 0.5),
)
def test_no_log_ever_widens_a_spread(
    power: float, loss: float, said: list[float], watch: float
) -> None:
    belief = independent(("power", "loss"), np.array([power, loss]), np.array([0.35, 0.3]))

    made = learn(
        belief, partial(timed, "quarts"), np.array(said), noise(watch, watch, watch)
    ).belief

    assert all(a <= b for a, b in zip(made.spreads, belief.spreads, strict=True))
    assert all(-1 - 1e-9 <= c <= 1 + 1e-9 for row in made.correlation for c in row)
    assert all(np.isfinite(made.medians))


def test_a_belief_is_plain_numbers_that_come_back_from_a_file() -> None:
    belief = follow(POWER_AND_LOSS, (1_200.0, 4.4), ["quarts", "pints"], 1)

    again = recalled(json.loads(json.dumps(stored(belief))))

    assert again == belief


def test_what_cannot_be_learned_from_is_refused() -> None:
    with pytest.raises(OutOfRange, match="above zero"):
        learn(POWER_AND_LOSS, lambda f: f, np.array([12.0, 0.0]), noise(0.1, 0.1))
    with pytest.raises(OutOfRange, match="loss"):
        independent(("loss",), np.array([-1.0]), np.array([0.3]))
