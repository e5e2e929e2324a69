"""A canner's run: lumped checks of the science reference, energy, other solvers, and sense."""

from dataclasses import replace

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from stillroom.errors import OutOfRange
from stillroom.physics.vessel import (
    MOST_WATER_VENTED,
    WATER_HEAT_CAPACITY,
    Aims,
    Canner,
    Jars,
    Run,
    history,
    latent_heat,
    run,
)

C = 273.15
QUARTS = Jars(heat=26_500.0, fh=900.0, start=75 + C)
PRESSURE = Aims(boil=100 + C, target=116.4 + C, vent=600.0, hold=1_500.0, wait=600.0)
CANNER = Canner(power=2_000.0, loss=0.40 * 11, metal=4_500.0, water=2.84, start=70 + C, room=22 + C)


def minutes(seconds: object) -> float:
    return float(np.asarray(seconds)[0]) / 60


# --- the table of the lumped check --------------------------------------------------------------

LUMPED = [
    # (total heat kJ/K, start C, net W, minutes to 100 C, on to 116.4 C, cooling to 100.5 C, kg)
    (42.9, 73.1, 2_000.0, 11.2, 7.2, 30.0, 0.44),
    (33.4, 72.6, 2_000.0, 8.9, 5.7, 23.4, 0.44),
    (42.9, 73.1, 1_400.0, 17.2, 11.5, 30.0, 0.28),
    (42.9, 30.6, 2_000.0, 27.5, 7.2, 30.0, 0.44),
]


def lumped(total: float, start: float, power: float, aims: Aims) -> Run:
    """Jars that are always as hot as the canner: fh of a second, and one heat capacity."""
    metal, water = 4_500.0, 2.84
    jars = Jars(total * 1e3 - metal - water * WATER_HEAT_CAPACITY, fh=1.0, start=start + C)
    return run(Canner(power, 4.4, metal, water, start + C, 22 + C), jars, aims)


@pytest.mark.parametrize(("total", "start", "power", "heat", "up", "cool", "steam"), LUMPED)
def test_one_lump_takes_the_minutes_of_the_lumped_check_table(
    total: float, start: float, power: float, heat: float, up: float, cool: float, steam: float
) -> None:
    """The project's science reference, section 4.4, prints three digits of a one-node balance.

    5 %: it keeps the vented water in the balance (so here nothing is vented before come-up and
    cooling) and rounds its inputs. Its cooling ends at 100.5 C, ours where this run is said to.
    """
    still = replace(PRESSURE, vent=0.0)
    made = lumped(total, start, power, still)

    assert minutes(made.heat) == pytest.approx(heat, rel=0.05)
    assert minutes(made.come_up) == pytest.approx(up, rel=0.05)
    ends_at_half_a_degree = replace(still, boil=100.5 + C)
    cooled = lumped(total, start, power, ends_at_half_a_degree)
    assert minutes(cooled.cool) == pytest.approx(cool, rel=0.05)
    vented = lumped(total, start, power, PRESSURE)
    assert float(vented.vented[0]) == pytest.approx(steam, rel=0.05)


def test_quarts_cool_1_28_times_as_long_as_pints_in_one_lump() -> None:
    """Science reference, section 4.4: 1.28 in the lumped balance."""
    still = replace(PRESSURE, vent=0.0)
    quarts, pints = lumped(42.9, 73.1, 2_000.0, still), lumped(33.4, 72.6, 2_000.0, still)

    assert minutes(quarts.cool) / minutes(pints.cool) == pytest.approx(1.28, abs=0.01)


@pytest.mark.parametrize("power", [1_400.0, 1_800.0, 2_200.0, 2_600.0])
def test_one_lump_of_seven_quarts_meets_the_spans_of_the_science_reference(power: float) -> None:
    """Section 4.4: 8-18 min to the vent, 25-50 min cooling, 0.25-0.65 kg vented, 350-500 W."""
    made = lumped(42.9, 73.1, power, PRESSURE)

    assert 8 <= minutes(made.heat) <= 18
    assert 25 <= minutes(made.cool) <= 50
    assert 0.25 <= made.vented[0] <= 0.65
    assert made.vented_share[0] < MOST_WATER_VENTED
    assert 350 <= made.holding[0] <= 500


def test_burners_give_what_the_science_reference_says() -> None:
    """Section 4.2, unit checks, 0.5 %: a British thermal unit is 1,055.06 J (ISO 31-4)."""
    btu = 1_055.06

    assert 12_000 * btu / 3_600 * 0.42 == pytest.approx(1_477, rel=0.005)
    burnt = 7_000 * 8.5 / 60
    assert burnt == pytest.approx(992, rel=0.005)
    assert 0.126 * 3.6e6 / btu == pytest.approx(430, rel=0.005)


# --- other people's answers ---------------------------------------------------------------------


@pytest.mark.parametrize("celsius", [80, 90, 100, 110, 125])
def test_latent_heat_is_that_of_coolprop(celsius: float) -> None:
    kelvin = celsius + C
    steam, water = (PropsSI("H", "T", kelvin, "Q", q, "Water") for q in (1, 0))

    assert latent_heat(kelvin) == pytest.approx(steam - water, rel=1e-3)  # as its sheet says


def test_the_heat_capacity_of_water_is_that_of_coolprop_between_60_and_116_c() -> None:
    warm, hot = (PropsSI("H", "T", c + C, "Q", 0, "Water") for c in (60, 116))

    assert pytest.approx((hot - warm) / 56, rel=2e-3) == WATER_HEAT_CAPACITY


def solved(state: list[float], power: float, water: float, until: float) -> tuple[float, float]:
    """Seconds until the canner is at a temperature, and where its jars are then, by solve_ivp.

    The two equations of the module's head for 7 quarts, with the numbers of CANNER and QUARTS.
    """
    heat, jars, tau = 4_500.0 + water * WATER_HEAT_CAPACITY, 26_500.0, 900.0 / np.log(10)

    def slopes(_: float, x: list[float]) -> list[float]:
        flow = jars * (x[0] - x[1]) / tau
        return [(power - 4.4 * (x[0] - 22 - C) - flow) / heat, flow / jars]

    def there(_: float, x: list[float]) -> float:
        return x[0] - until

    there.terminal = True  # type: ignore[attr-defined]
    made = solve_ivp(slopes, (0, 20_000), state, events=there, rtol=1e-10, atol=1e-9)
    return float(made.t[-1]), float(made.y[1, -1])


def test_a_general_solver_finds_the_same_run() -> None:
    """Phase by phase; where the canner is held, its jars close nine tenths of the gap in fh."""
    boil, target = 100 + C, 116.4 + C
    heating, inner = solved([70 + C, 75 + C], 2_000.0, 2.84, boil)
    after = boil - (boil - inner) * 10 ** (-600 / 900)
    spare = (2_000 - 4.4 * 78) * 600 - 26_500 * (after - inner)
    vented = spare / float(latent_heat(boil))
    coming_up, inner = solved([boil, after], 2_000.0, 2.84 - vented, target)
    inner = target - (target - inner) * 10 ** (-1_500 / 900)
    cooling, _ = solved([target, inner], 0.0, 2.84 - vented, boil)

    made = run(CANNER, QUARTS, PRESSURE)

    # The solver is asked for ten digits.
    assert made.heat[0] == pytest.approx(heating, rel=1e-7)
    assert made.vented[0] == pytest.approx(vented, rel=1e-7)
    assert made.come_up[0] == pytest.approx(coming_up, rel=1e-7)
    assert made.cool[0] == pytest.approx(cooling, rel=1e-7)


# --- energy, histories, answers -----------------------------------------------------------------

canners = st.builds(
    Canner,
    power=st.floats(600.0, 4_000.0),
    loss=st.floats(1.0, 12.0),
    metal=st.floats(1_000.0, 12_000.0),
    water=st.floats(1.0, 12.0),
    start=st.floats(290.0, 362.0),  # below any boil, so that the burner brings it there
    room=st.floats(280.0, 310.0),
    simmer=st.floats(0.0, 400.0),
)
loads = st.builds(
    Jars,
    heat=st.floats(1_000.0, 60_000.0),
    fh=st.floats(120.0, 6_000.0),
    start=st.floats(280.0, 365.0),
)
aims_of_any = st.builds(
    Aims,
    boil=st.floats(363.0, 373.0),
    target=st.just(373.0) | st.floats(380.0, 394.0),
    vent=st.sampled_from([0.0, 600.0]),
    hold=st.floats(600.0, 6_000.0),
    wait=st.just(600.0),
)


@given(canner=canners, jars=loads, aims=aims_of_any)
def test_what_the_burner_gives_is_stored_lost_or_steam(
    canner: Canner, jars: Jars, aims: Aims
) -> None:
    made = run(canner, jars, aims)
    assume(made.reached[0] and not made.dry[0])

    energy = made.energy
    given_up = energy.stored + energy.lost + energy.steam

    # Sums of a few MJ, of which double precision keeps about ten digits after the exponentials.
    assert given_up[0] == pytest.approx(energy.burner[0], rel=1e-8, abs=0.1)


def test_a_history_goes_through_the_corners_of_its_run() -> None:
    made = run(CANNER, QUARTS, PRESSURE)
    course = history(made, 1.0)
    corners = np.array([float(p.start[0]) for p in made.phases])

    at = course.at(corners)[0] - C

    # Steps of one second at less than 0.1 K/s.
    assert at == pytest.approx([70.0, 100.0, 100.0, 116.4, 116.4, 100.0], abs=0.05)
    assert course.temperatures.max() <= 116.4 + C + 1e-9


def test_jars_follow_their_canner_and_never_pass_it_while_it_heats() -> None:
    made = run(CANNER, replace(QUARTS, start=20 + C), PRESSURE)
    heating = made.phases[4].start[0]
    times = np.arange(0.0, heating, 30.0)

    assert (history(made, of_jars=True).at(times) <= history(made).at(times) + 1e-9).all()


def test_a_burner_too_weak_is_an_answer_beside_those_that_are_not() -> None:
    """300 W hold (300 / 4.4) = 68 K above the room; 390 W 89 K; 415 W are lost at 116.4 C."""
    made = run(replace(CANNER, power=np.array([300.0, 390.0, 420.0])), QUARTS, PRESSURE)

    assert made.reached.tolist() == [False, False, True]
    assert np.isinf(made.heat).tolist() == [True, False, False]
    assert np.isinf(made.come_up).tolist() == [True, True, False]
    assert np.isfinite(made.energy.burner).tolist() == [False, False, True]
    assert history(made).temperatures[0].max() < 100 + C


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (replace(CANNER, loss=np.array([4.4, 0.0])), "loss of draw 1 is 0.0"),
        (replace(CANNER, power=-1.0), "power of draw 0"),
        (replace(CANNER, water=float("nan")), "water of draw 0 is nan"),
        (replace(CANNER, start=70.0), "start of draw 0 is 70.0: that is no temperature"),
    ],
)
def test_what_no_canner_can_be_is_refused_by_name(wrong: Canner, told: str) -> None:
    with pytest.raises(OutOfRange, match=told):
        run(wrong, QUARTS, PRESSURE)


def test_boiling_water_neither_vents_nor_comes_up_nor_cools_to_a_gauge() -> None:
    bath = Aims(boil=100 + C, target=100 + C, vent=0.0, hold=1_200.0, wait=300.0)
    made = run(replace(CANNER, water=10.0, simmer=300.0), QUARTS, bath)

    assert made.heat[0] > 0
    assert (made.come_up[0], made.cool[0], made.vented[0]) == (0.0, 0.0, 0.0)
    # 300 W for 20 min at 2.256 MJ/kg.
    assert made.steamed[0] == pytest.approx(0.1596, rel=1e-3)


def test_strong_heat_and_little_water_vents_more_than_is_well() -> None:
    """3,500 W less about 350 lost and little taken up, for 600 s: some 0.8 kg of 1.5."""
    made = run(replace(CANNER, power=3_500.0, water=1.5), QUARTS, PRESSURE)

    assert made.vented_share[0] > MOST_WATER_VENTED


# --- sense ---------------------------------------------------------------------------------------


def to_pressure(canner: Canner, jars: Jars, aims: Aims = PRESSURE) -> tuple[float, float]:
    """Heat-up alone, and all from cold to the start of the process."""
    made = run(canner, jars, aims)
    return float(made.heat[0]), float(made.heat[0] + aims.vent + made.come_up[0])


def no_slower(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return all(a <= b + 1e-6 for a, b in zip(one, other, strict=True))


@given(canner=canners, jars=loads, more=st.floats(1.0, 2_000.0))
def test_more_power_never_takes_longer(canner: Canner, jars: Jars, more: float) -> None:
    stronger = replace(canner, power=canner.power + more)

    assert no_slower(to_pressure(stronger, jars), to_pressure(canner, jars))


@given(canner=canners, jars=loads, more=st.floats(100.0, 20_000.0))
def test_a_heavier_load_no_hotter_than_its_canner_is_never_faster(
    canner: Canner, jars: Jars, more: float
) -> None:
    colder = replace(jars, start=min(jars.start, canner.start))
    heavier = replace(colder, heat=colder.heat + more)

    assert no_slower(to_pressure(canner, colder), to_pressure(canner, heavier))


@given(canner=canners, jars=loads, more=st.floats(0.01, 10.0))
def test_larger_losses_never_heat_faster(canner: Canner, jars: Jars, more: float) -> None:
    leakier = replace(canner, loss=canner.loss + more)

    assert no_slower(to_pressure(canner, jars), to_pressure(leakier, jars))


@given(canner=canners, jars=loads, more=st.floats(0.1, 60.0))
def test_a_hotter_start_is_never_slower(canner: Canner, jars: Jars, more: float) -> None:
    hotter = replace(canner, start=canner.start + more), replace(jars, start=jars.start + more)

    assert no_slower(to_pressure(*hotter), to_pressure(canner, jars))


@given(canner=canners, jars=loads)
def test_a_longer_process_never_cools_faster(canner: Canner, jars: Jars) -> None:
    """The jars take up heat to its end and give it back; but water may simmer away: none here."""
    short, long = (
        run(replace(canner, simmer=0.0), jars, replace(PRESSURE, hold=hold)).cool[0]
        for hold in (600.0, 6_000.0)
    )

    assert short <= long + 1e-6
