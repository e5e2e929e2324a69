"""Many jars of one load: their bands lie where one plain jar lies, and move the way heat moves."""

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from benchmarks.heat import explicit
from benchmarks.heat.jar import Jar
from stillroom.errors import OutOfRange
from stillroom.heat.inside import Filled, Inside, band, follow_log, follow_run
from stillroom.heat.run import Run, history
from stillroom.physics.food import composition, properties
from stillroom.physics.history import History
from stillroom.physics.jar import GLASS_CONDUCTIVITY, jar_body, pack_height
from stillroom.physics.lethality import f0
from stillroom.physics.pack import Solid, conductance, heat_through

RUN = Run(5430, 13, 90, water=343.0, heat=15, vent=10, come_up=5, cool=45, wait=10)
QUART = Filled(jar_body("quart"), 0.0254, composition("pumpkin"), solid=1.0)


@lru_cache
def followed(filled: Filled = QUART, run: Run = RUN, start: float = 350.0) -> Inside:
    return follow_run(filled, start, run)


def median(values: np.ndarray) -> float:
    return float(np.median(values))


def test_the_band_holds_a_plain_jar_with_no_differences() -> None:
    """The same jar built by hand from the physics, each figure at its middle."""
    food = properties(QUART.food, 0.5 * (history(RUN, np.zeros(1)).temperatures.max() + 350.0))
    wall = conductance(5000.0, GLASS_CONDUCTIVITY / QUART.body.wall)
    plain = Solid(*(np.array([value]) for value in (
        QUART.body.radius, pack_height(QUART.body, QUART.headspace), food.diffusivity,
        food.conductivity, wall, wall, 10.0)))  # fmt: skip

    times, inside = heat_through(plain, 350.0, history(RUN, np.zeros(1)), RUN.opened)

    low, _, high = band(followed().slowest)
    assert (low <= inside[0] + 0.05).all()
    assert (inside[0] <= high + 0.05).all()
    low, middle, high = band(followed().lethality)
    assert low < f0(times, inside)[0] < high
    assert middle == pytest.approx(f0(times, inside)[0], rel=0.05)


@pytest.mark.parametrize("food", ["pumpkin", "beef", "potatoes"])
@pytest.mark.parametrize("start", [295.0, 350.0])
def test_properties_that_follow_the_temperature_would_move_little(food: str, start: float) -> None:
    """The explicit scheme with Choi and Okos at each temperature against the same scheme with
    them at the middle: 2.5 K underway, a twelfth of the lethality (docs/why/heat.md)."""
    seen = history(RUN, np.zeros(1))
    canner = History(seen.times, seen.temperatures[0])
    middle = 0.5 * (start + canner.temperatures.max())
    made = properties(composition(food), middle)
    marks = np.linspace(280.0, 400.0, 61)
    course = np.array(
        [properties(composition(food), float(t)).diffusivity / made.diffusivity for t in marks]
    )
    jar = Jar(0.0475, 0.13, made.diffusivity, made.conductivity, 340.0, 340.0, 10.0, start, canner)
    step = explicit.longest_step(jar, (16, 26)) / course.max()

    times, constant = explicit.solve(jar, RUN.opened, (16, 26), 0.09, step=step)
    _, following = explicit.solve(
        jar, RUN.opened, (16, 26), 0.09, step=step, stretch=lambda t: np.interp(t, marks, course)
    )

    assert np.abs(following - constant).max() < 2.5
    assert f0(times, following) == pytest.approx(f0(times, constant), rel=0.08)


def test_jars_differ_and_the_same_seed_draws_the_same_jars() -> None:
    again = follow_run(QUART, 350.0, RUN)
    other = follow_run(QUART, 350.0, RUN, seed=2)

    assert np.ptp(followed().lethality) > 0
    assert (again.slowest == followed().slowest).all()
    assert (other.slowest != followed().slowest).any()


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"minutes": 120.0}, "a longer hold"),
        ({"psi": 14.0}, "a hotter canner"),
        ({"cool": 60.0}, "a slower cool-down, for cooling in the shut canner adds"),
    ],
)  # fmt: skip
def test_lethality_grows_with(change: dict[str, float], why: str) -> None:
    longer = followed(run=replace(RUN, **change))

    assert median(longer.lethality) > median(followed().lethality), why


def test_a_brothy_jar_is_ahead_of_a_solid_one_and_a_blend_lies_between() -> None:
    kinds = [followed(replace(QUART, solid=share)) for share in (0.0, 0.5, 1.0)]

    cooks = [median(kind.cook) for kind in kinds]
    assert cooks[0] > cooks[1] > cooks[2]


def test_most_of_a_solid_packs_lethality_comes_while_cooling_and_little_of_a_brothy_ones() -> None:
    """Pakola and Andress (IFT 2002, 46B-7) measured it in home jars of stewed tomatoes: most of
    the lethality came in cooling. A brothy jar has followed the canner by then."""
    assert median(followed().while_cooling) > 0.5
    assert median(followed(replace(QUART, solid=0.0)).while_cooling) < 0.3


def test_a_pint_is_ahead_of_a_quart_in_the_same_run() -> None:
    pint = followed(replace(QUART, body=jar_body("pint")))

    assert median(pint.cook) > median(followed().cook)


def test_boiling_water_has_no_gauge_to_differ_in() -> None:
    boiling = Run(0, None, 85, water=333.0, heat=25, vent=0, come_up=0, cool=5, wait=0)

    seen = follow_run(QUART, 300.0, boiling)

    assert np.ptp(seen.canner, axis=0).max() == 0
    assert seen.canner.max() == pytest.approx(373.12, abs=0.01)


def test_a_logged_run_is_followed_as_the_same_run_with_an_exact_gauge() -> None:
    exact = history(RUN, np.zeros(1))

    logged = follow_log(
        QUART, 350.0, replace(exact, temperatures=exact.temperatures[0]), RUN.heat_off
    )

    assert logged.times[-1] == pytest.approx(RUN.opened, abs=10)
    assert median(logged.lethality) == pytest.approx(median(followed().lethality), rel=0.05)


@pytest.mark.parametrize("solid", [-0.1, 1.5, float("nan")])
def test_a_share_that_is_none_is_refused(solid: float) -> None:
    with pytest.raises(OutOfRange, match="solid is"):
        replace(QUART, solid=solid)
