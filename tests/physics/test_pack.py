"""Heat in a jar against closed forms, a finite-element library, an explicit scheme and energy."""

import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from benchmarks.heat import explicit, finite_elements
from benchmarks.heat.jar import Jar
from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.conduction import flat_part
from stillroom.physics.history import History
from stillroom.physics.pack import Blend, Brothy, Pack, Solid, conductance, heat_through

C = 273.15
BARE = 1e9
# A canning run: warm-up, vent, come-up, hold, natural cool-down.
RUN = History(
    np.array([0.0, 900.0, 1500.0, 1900.0, 6400.0, 9000.0]),
    np.array([345.0, 372.0, 372.0, 389.6, 389.6, 373.0]),
)
QUART = Jar(0.0475, 0.150, 1.6e-7, 0.6, 340.0, 250.0, 10.0, 330.0, RUN)
JARS = st.builds(
    lambda r, h, a, u, top: Jar(r, h, a, 0.6, u, 0.7 * u, top, 330.0, RUN),
    st.floats(0.03, 0.07),
    st.floats(0.05, 0.22),
    st.floats(1.2e-7, 1.9e-7),
    st.floats(50.0, 450.0),
    st.floats(0.0, 200.0),
)


def pack_of(*jars: Jar) -> Solid:
    names = ("radius", "height", "diffusivity", "conductivity", "side", "bottom", "top")
    return Solid(*(np.array([getattr(jar, name) for jar in jars]) for name in names))


def slowest_height(jar: Jar) -> float:
    share = flat_part(
        np.array([jar.bottom * jar.height / jar.conductivity]),
        np.array([jar.top * jar.height / jar.conductivity]),
    ).where[0]
    return float(share * jar.height)


def bath(temperature: float) -> History:
    return History(np.array([0.0]), np.array([temperature]))


def bare(diameter_mm: float, height_mm: float, diffusivity: float, side: float = BARE) -> Solid:
    """A can whose faces follow the bath, or have a film of the given conductance."""
    sizes = (diameter_mm / 2000, height_mm / 1000, diffusivity, 0.6, side, side, side)
    return Solid(*(np.array([value]) for value in sizes))


def test_pint_like_body_warms_as_the_finite_cylinder_series_says() -> None:
    """80 x 110 mm, 1.6e-7 m2/s, 70 C into steam of 115.6 C: the project's science notes, 2.2."""
    printed = {10: 71.35, 20: 80.71, 30: 91.13, 45: 102.16, 60: 108.41, 75: 111.78, 90: 113.58}

    times, inside = heat_through(bare(80, 110, 1.6e-7), 70 + C, bath(115.6 + C), 5400.0)

    for minute, centre in printed.items():
        assert inside[0, times == 60 * minute] - C == pytest.approx(centre, abs=0.05)


def test_can_of_the_textbook_example_reaches_its_series_centre() -> None:
    """81 x 111 mm, k 0.34, cp 3500, rho 900, h 2000, 35 C into 100 C, 30 min: 49.6 C, and 49.9 C
    where the face follows the bath (science notes, 2.1)."""
    can = replace(bare(81, 111, 0.34 / 3500 / 900, 2000.0), conductivity=np.array([0.34]))

    _, inside = heat_through(can, 35 + C, bath(100 + C), 1800.0)
    _, ideal = heat_through(bare(81, 111, 0.34 / 3500 / 900), 35 + C, bath(100 + C), 1800.0)

    assert inside[0, -1] - C == pytest.approx(49.6, abs=0.1)
    assert ideal[0, -1] - C == pytest.approx(49.9, abs=0.1)


@pytest.mark.parametrize(
    ("diameter", "height", "diffusivity", "minutes"),
    [
        (80.96, 111.13, 1.4e-7, 63.33),
        (80.96, 111.13, 1.5e-7, 59.11),
        (80.96, 111.13, 1.6e-7, 55.41),
        (80.96, 111.13, 1.7e-7, 52.15),
        (87.31, 115.89, 1.6e-7, 63.63),
        (80, 110, 1.6e-7, 54.14),
        (95, 150, 1.6e-7, 79.90),
        (65, 80, 1.6e-7, 34.18),
    ],
)
def test_missing_share_falls_to_a_tenth_in_the_f_of_the_geometry(
    diameter: float, height: float, diffusivity: float, minutes: float
) -> None:
    """f = ln 10 / (a (2.4048^2/R^2 + (pi/2)^2/b^2)), science notes 2.2; read off the late line."""
    _, inside = heat_through(
        bare(diameter, height, diffusivity), 300.0, bath(400.0), 5 * 60 * minutes, step=60.0
    )
    late = np.log10(400.0 - inside[0])[-60:]

    assert -1.0 / np.polyfit(np.arange(60.0), late, 1)[0] == pytest.approx(minutes, rel=1e-3)


@pytest.mark.parametrize("start", [295.0, 330.0, 353.0])
def test_a_run_agrees_with_the_finite_element_library_at_equal_mesh(start: float) -> None:
    """scikit-fem, quadratic cells with 17 x 23 nodes, against 16 x 22 polynomials: 0.1 K asked."""
    jar = replace(QUART, start=start)

    times, ours = heat_through(pack_of(jar), start, RUN, 9000.0)
    there, theirs = finite_elements.solve(jar, 9000.0, 5.0, (8, 11), slowest_height(jar))

    assert np.abs(ours[0] - np.interp(times, there, theirs)).max() < 0.1


@settings(max_examples=8)
@given(jar=JARS)
def test_any_jar_agrees_with_the_finite_element_library(jar: Jar) -> None:
    times, ours = heat_through(pack_of(jar), jar.start, RUN, 6000.0)
    there, theirs = finite_elements.solve(jar, 6000.0, 10.0, (7, 9), slowest_height(jar))

    assert np.abs(ours[0] - np.interp(times, there, theirs)).max() < 0.1


def test_explicit_scheme_closes_in_at_second_order_in_its_grid() -> None:
    """Halving the cells (and quartering the step) leaves a quarter of the error, or less."""
    smooth = replace(QUART, start=345.0)
    _, ours = heat_through(pack_of(smooth), 345.0, RUN, 4000.0, step=5.0)

    errors = []
    for cells in ((8, 16), (16, 32), (32, 64)):
        _, theirs = explicit.solve(smooth, 4000.0, cells, slowest_height(smooth))
        errors.append(abs(theirs[-1] - ours[0, -1]))

    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert orders == pytest.approx(2.0, abs=0.25)


def test_a_longer_step_loses_only_what_straight_pieces_lose() -> None:
    """A canner that warms along a curve, known at the ends of the steps: order two. Known at the
    corners of its straight pieces: no loss at all."""
    instants = np.arange(0.0, 3601.0, 1.0)
    curve = History(instants, 340.0 + 45.0 * np.sin(np.pi * instants / 7200.0) ** 2)
    jar = pack_of(QUART)
    _, exact = heat_through(jar, 340.0, curve, 3600.0, step=5.0)

    errors = []
    for step in (450.0, 225.0, 112.5):
        coarse = History(
            step * np.arange(3600 / step + 1), curve.at(step * np.arange(3600 / step + 1))
        )
        errors.append(
            abs(heat_through(jar, 340.0, coarse, 3600.0, step=step)[1][0, -1] - exact[0, -1])
        )

    assert np.log2(np.array(errors[:-1]) / errors[1:]) == pytest.approx(2.0, abs=0.15)

    _, fine = heat_through(jar, 330.0, RUN, 9000.0, step=10.0)
    _, long = heat_through(jar, 330.0, RUN, 9000.0, step=100.0)
    assert long[0] == pytest.approx(fine[0, ::10], abs=1e-9)


@given(jar=JARS)
def test_heat_that_passes_the_faces_is_heat_the_food_holds(jar: Jar) -> None:
    """Only the wall lets heat in here, so that its temperature tells the whole flow. Over any run
    the heat through it equals the rise of the mean, to what the time steps allow."""
    alone = replace(pack_of(jar), bottom=np.zeros(1), top=np.zeros(1))
    times, mean = heat_through(alone, jar.start, RUN, 9000.0, step=2.0, place="mean")
    _, wall = heat_through(alone, jar.start, RUN, 9000.0, step=2.0, place="face")
    flow = jar.side * (RUN.at(times) - wall[0]) * 2 / jar.radius

    passed = np.trapezoid(flow, times)
    held = jar.conductivity / jar.diffusivity * (mean[0, -1] - jar.start)

    assert passed == pytest.approx(held, rel=2e-3)


@given(jar=JARS, hotter=st.floats(0.0, 10.0))
def test_a_hotter_canner_never_leaves_a_colder_jar(jar: Jar, hotter: float) -> None:
    warm = History(RUN.times, RUN.temperatures + hotter)

    _, inside = heat_through(pack_of(jar), jar.start, RUN, 9000.0, step=30.0)
    _, warmer = heat_through(pack_of(jar), jar.start, warm, 9000.0, step=30.0)

    # 0.005 of the difference: what the polynomials leave in the first seconds.
    assert (warmer - inside).min() >= -0.005 * hotter - 1e-9


@given(jar=JARS, thicker=st.floats(1.0, 4.0))
def test_more_glass_never_heats_faster(jar: Jar, thicker: float) -> None:
    """The slowest place of a jar with the thicker wall is never ahead while the bath is hotter."""
    film, wall = 2 * jar.side, 2 * jar.side
    thick = replace(jar, side=conductance(film, wall / thicker))

    _, inside = heat_through(pack_of(jar), 330.0, bath(390.0), 7200.0, step=30.0)
    _, behind = heat_through(pack_of(thick), 330.0, bath(390.0), 7200.0, step=30.0)

    assert (inside - behind).min() >= -0.05


@given(jar=JARS, start=st.floats(280.0, 370.0))
def test_food_never_leaves_the_span_of_its_start_and_its_canner(jar: Jar, start: float) -> None:
    _, inside = heat_through(pack_of(jar), start, RUN, 9000.0, step=30.0)

    # 0.1 K is the accuracy asked of the slowest place.
    assert inside.min() >= min(start, 345.0) - 0.1
    assert inside.max() <= 389.6 + 0.1


@pytest.mark.parametrize(("f", "j"), [(600.0, 1.0), (900.0, 1.8), (900.0, 0.6), (1500.0, 2.04)])
def test_brothy_pack_in_a_sudden_bath_lies_on_the_two_parameter_line(f: float, j: float) -> None:
    """T = bath - j (bath - start) 10^(-t/f) once the lag is over (Ball's law of heating)."""
    pack = Brothy(f=np.array([f]), j=np.array([j]))

    times, inside = heat_through(pack, 300.0, bath(400.0), 3600.0)

    late = times >= f * np.log10(max(j, 1.0))
    line = 400.0 - j * 100.0 * 10 ** (-times / f)
    assert inside[0, late] == pytest.approx(line[late], abs=1e-9)
    assert inside[0, ~late] == pytest.approx(np.full((~late).sum(), 300.0), abs=1e-9)


def test_well_mixed_pack_follows_a_run_as_an_integrator_says() -> None:
    """dT/dt = (bath - T) ln 10 / f by SciPy's Runge-Kutta."""
    solved = solve_ivp(
        lambda t, y: (np.interp(t, RUN.times, RUN.temperatures) - y) * np.log(10) / 700.0,
        (0.0, 9000.0), [330.0], t_eval=np.arange(0.0, 9001.0, 10.0),
        rtol=1e-9, atol=1e-9, max_step=50.0,
    )  # fmt: skip

    _, inside = heat_through(Brothy(np.array([700.0]), np.array([1.0])), 330.0, RUN, 9000.0)

    assert inside[0] == pytest.approx(solved.y[0], abs=1e-4)


@given(j=st.floats(0.1, 3.0), f=st.floats(100.0, 5000.0))
def test_lag_in_a_run_is_a_delay_of_the_same_mixing(j: float, f: float) -> None:
    """With j above 1 the pack is a well-mixed one that feels everything f log10(j) later."""
    pack = Brothy(np.array([f]), np.array([j]))
    lag = f * np.log10(max(j, 1.0))
    _, inside = heat_through(pack, 345.0, RUN, 9000.0, step=10.0)

    assert inside[0, 0] == pytest.approx(345.0)
    if j > 1:
        shifted = History(RUN.times + lag, RUN.temperatures)
        held = History(np.concatenate(([0.0], shifted.times)),
                       np.concatenate(([345.0], shifted.temperatures)))  # fmt: skip
        plain = Brothy(np.array([f]), np.array([1.0]))
        _, delayed = heat_through(plain, 345.0, held, 9000.0, step=10.0)
        # Straight pieces of ten seconds cut the shifted corners: 0.1 K at most.
        assert inside[0] == pytest.approx(delayed[0], abs=0.1)


@given(share=st.floats(0.0, 1.0))
def test_blend_lies_between_its_ends_in_its_share(share: float) -> None:
    solid, brothy = pack_of(QUART), Brothy(np.array([700.0]), np.array([1.2]))
    blend = Blend(solid, brothy, np.array([share]))

    parts = [heat_through(p, 330.0, RUN, 9000.0, step=60.0)[1] for p in (solid, brothy, blend)]

    assert parts[2] == pytest.approx(share * parts[0] + (1 - share) * parts[1])


@pytest.mark.parametrize("threads", [1, 2])
def test_many_jars_are_each_as_alone(threads: int) -> None:
    """More than fill one block, each with its own body, start and canner."""
    dice = np.random.default_rng(5)
    jars = [
        replace(QUART, height=h, radius=r)
        for h, r in dice.uniform([0.1, 0.03], [0.2, 0.06], (70, 2))
    ]
    starts = dice.uniform(290.0, 350.0, 70)
    canners = History(RUN.times, RUN.temperatures + dice.normal(0, 1, (70, 1)))

    _, together = heat_through(pack_of(*jars), starts, canners, 6000.0, step=30.0, threads=threads)

    for at in (0, 31, 32, 69):
        own = History(RUN.times, canners.temperatures[at])
        _, alone = heat_through(pack_of(jars[at]), starts[at], own, 6000.0, step=30.0)
        assert together[at] == pytest.approx(alone[0], abs=1e-9)


def test_mean_is_ahead_of_the_slowest_place_and_behind_the_wall_while_heating() -> None:
    by_place = {
        place: heat_through(pack_of(QUART), 330.0, bath(390.0), 3600.0, place=place)[1][0]
        for place in ("slowest", "mean", "face")
    }

    assert (by_place["mean"] > by_place["slowest"])[30:].all()
    assert (by_place["face"] > by_place["slowest"])[30:].all()


@pytest.mark.parametrize(
    ("pack", "named"),
    [
        (replace(pack_of(QUART), radius=np.array([95.0])), "radius of jar 0 is 95"),
        (replace(pack_of(QUART), side=np.array([-1.0])), "side of jar 0"),
        (replace(pack_of(QUART), diffusivity=np.array([np.nan])), "diffusivity of jar 0"),
        (Brothy(np.array([600.0, 0.0]), np.array([1.0])), "f of jar 1 is 0"),
        (Blend(pack_of(QUART), Brothy(np.full(1, 600.0), np.ones(1)), np.full(1, 1.5)), "share"),
    ],
)  # fmt: skip
def test_a_jar_that_cannot_be_is_refused_by_name(pack: Pack, named: str) -> None:
    with pytest.raises(OutOfRange, match=named):
        heat_through(pack, 330.0, RUN, 600.0)


@pytest.mark.parametrize(("duration", "step"), [(0.0, 10.0), (600.0, 0.0), (np.inf, 10.0)])
def test_no_time_is_refused(duration: float, step: float) -> None:
    with pytest.raises(OutOfRange, match="some time"):
        heat_through(pack_of(QUART), 330.0, RUN, duration, step=step)


@pytest.mark.parametrize(
    ("times", "temperatures", "named"),
    [
        ([0.0, 10.0, 10.0], [300.0, 310.0, 320.0], "Instant 2"),
        ([0.0, np.nan], [300.0, 310.0], "Instant 1"),
        ([0.0, 10.0], [300.0, 600.0], r"Temperature \(1,\)"),
        ([0.0, 10.0], [100.0, 300.0], r"Temperature \(0,\)"),
        ([0.0, 10.0], [300.0], "one temperature for each"),
        ([], [], "one temperature for each"),
    ],
)
def test_a_history_out_of_order_or_range_is_refused_by_its_place(
    times: list[float], temperatures: list[float], named: str
) -> None:
    with pytest.raises(OutOfRange, match=named):
        History(np.array(times), np.array(temperatures))


@given(count=st.integers(1, 6), dice=st.randoms(use_true_random=False))
def test_histories_that_share_instants_are_read_as_each_alone(
    count: int, dice: random.Random
) -> None:
    times: Array = np.cumsum([dice.uniform(1, 100) for _ in range(count)])
    temperatures = np.array([[dice.uniform(260, 400) for _ in range(count)] for _ in range(3)])
    asked = np.array([dice.uniform(-50, 700) for _ in range(20)])

    together = History(times, temperatures).at(asked)

    for row in range(3):
        assert together[row] == pytest.approx(np.interp(asked, times, temperatures[row]))


def test_a_jar_that_lets_no_heat_through_stays_as_it_was() -> None:
    shut = Solid(*(np.array([v]) for v in (0.04, 0.1, 1.6e-7, 0.6, 0.0, 0.0, 0.0)))

    _, inside = heat_through(shut, 300.0, History(np.array([0.0]), np.array([390.0])), 3_600.0)

    assert inside[0] == pytest.approx(np.full(361, 300.0), abs=1e-6)
