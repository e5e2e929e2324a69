"""A household's canner: what it starts from, and what its timed runs teach."""

import numpy as np
import pytest

from stillroom.heat.durations import Times, durations
from stillroom.heat.household import household
from stillroom.heat.load import HeatedLoad, on_the_fire, untold
from stillroom.kitchen import Canner, Fire, TimedRun
from stillroom.physics.array import Array
from stillroom.physics.vessel import run

LOAD = HeatedLoad("dial-gauge", 500, 11, "quart", 7, "hot", liquid=True, minutes=60)
TRUE = np.array([[1_150.0, 4.9, 6_200.0, 1.1]])  # W into the pot, W/K, J/K, share of fh


def made(fire: Fire) -> Canner:
    return Canner("canner", "dial-gauge", {"quart": 7, "pint": 9}, fire=fire)


def truth(load: HeatedLoad, scores: Array | None = None) -> Array:
    """Minutes of a household whose figures are TRUE; scores tell how this run differs."""
    unknown = len(untold(load, 0.0))
    ran = run(*on_the_fire(load, TRUE, 0.0, np.zeros((1, unknown)) if scores is None else scores))
    return np.array([float(s[0]) / 60 for s in (ran.heat, ran.come_up, ran.cool)])


def logged(load: HeatedLoad, runs: int, seed: int) -> tuple[TimedRun, ...]:
    """Runs of that household: jars, water and room as they come, a clock good to 5 %."""
    dice = np.random.default_rng(seed)
    found = []
    for _ in range(runs):
        scores = dice.standard_normal((1, len(untold(load, 0.0))))
        heat, come_up, cool = truth(load, scores) * np.exp(0.05 * dice.standard_normal(3))
        found.append(TimedRun(load.jar, load.jars, load.pack, load.psi, heat, come_up, cool, True))
    return tuple(found)


def test_an_untimed_canner_stands_where_its_priors_do() -> None:
    """Gas: 3,200 W at 42 %; a heavy wall: 9 kg at 900 J/(kg K), 3.8 W/K (vessel_priors.csv)."""
    belief = household(made(Fire(kind="gas", wall="heavy")), 500).belief

    assert belief.median("power") == pytest.approx(3_200 * 0.42)
    assert belief.median("metal") == pytest.approx(9 * 900)
    assert belief.median("loss") == pytest.approx(3.8)


def test_told_power_and_weight_narrow_what_is_thought() -> None:
    silent = household(made(Fire(kind="gas")), 500).belief
    told = household(made(Fire(kind="gas", watts=3_000.0, kilograms=8.0)), 500).belief

    for figure in (0, 2):
        assert told.spreads[figure] < silent.spreads[figure]


@pytest.mark.parametrize("seed", range(4))
def test_five_timed_runs_bring_the_planned_figures_to_the_household_s_own(seed: int) -> None:
    """Its median run is foretold within 15 %, and what is left of the spread is what differs from
    run to run, which no log can take away: jars' start, food, water, room.

    These move heat-up by some 20 % and cool-down by 15 %; five logs leave about 9 %.
    """
    before = durations(made(Fire()), LOAD)
    after = durations(made(Fire(timed=logged(LOAD, 5, seed))), LOAD)
    assert isinstance(before, Times)
    assert isinstance(after, Times)

    middle = np.median(np.array(after.draws), axis=0)

    assert middle == pytest.approx(truth(LOAD), rel=0.15)
    for phase in ("come_up", "cool"):
        narrow, wide = getattr(after, phase), getattr(before, phase)
        assert np.log(narrow.high / narrow.low) < 2 / 3 * np.log(wide.high / wide.low)
    assert after.heat.high / after.heat.low < before.heat.high / before.heat.low
    assert after.timed == 5
    assert after.stand_ins[-1] == "all corrected by 5 timed runs"


def test_a_run_that_does_not_fit_is_told_and_planned_around() -> None:
    good = logged(LOAD, 4, 1)
    forgotten = TimedRun("quart", 7, "hot", 11, 0.0, 0.0, 230.0)
    with_it, without = (durations(made(Fire(timed=t)), LOAD) for t in ((*good, forgotten), good))
    assert isinstance(with_it, Times)
    assert isinstance(without, Times)

    assert any("timed run 5: its cool-down of 230 min does not fit" in w for w in with_it.warnings)
    # Five times what was expected moves the plan by no more than a surprising log would.
    assert with_it.cool.planned < 1.3 * without.cool.planned


def test_pressure_of_a_run_is_that_published_here_where_it_is_not_told() -> None:
    """Snap beans at 500 ft by dial gauge: 11 lb (AIB-539 Guide 4 p. 4-8)."""
    told, silent = (TimedRun("quart", 7, "hot", lb, 12.0, 6.0, 35.0) for lb in (11, 0))

    assert household(made(Fire(timed=(told,))), 500) == household(made(Fire(timed=(silent,))), 500)


def test_a_log_of_one_phase_teaches_too() -> None:
    """A cool-down of an hour: a canner that loses less heat than was thought."""
    slow = Fire(timed=(TimedRun("quart", 7, "hot", 11, 0.0, 0.0, 60.0),))

    before, after = household(made(Fire()), 500).belief, household(made(slow), 500).belief

    assert after.median("loss") < before.median("loss")
    assert after.spreads[1] < before.spreads[1]
