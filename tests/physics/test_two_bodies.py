"""Two bodies that share heat: the closed form against its own equations, solved otherwise."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from stillroom.physics.array import Array
from stillroom.physics.two_bodies import (
    Course,
    free,
    held,
    inner_at,
    outer_at,
    outer_integral,
    time_until,
)

# A canner of 16 kJ/K at 343 K and jars of 26 kJ/K at 348 K in a room of 295 K, 1,500 W.
START, HEAT, TAU, LOSS, POWER, ROOM = (343.0, 348.0), (16e3, 26e3), 400.0, 4.4, 1_500.0, 295.0


def one(*values: float) -> Array:
    return np.array(values)


def pair(power: float = POWER, loss: float = LOSS, tau: float = TAU) -> Course:
    start, heat = (one(START[0]), one(START[1])), (one(HEAT[0]), one(HEAT[1]))
    return free(start, heat, one(tau), one(loss), one(power), one(ROOM))


def slopes(state: Array, power: float = POWER) -> Array:
    """The two equations, written again for the solvers below."""
    outer, inner = state
    flow = HEAT[1] * (outer - inner) / TAU
    return np.array([(power - LOSS * (outer - ROOM) - flow) / HEAT[0], flow / HEAT[1]])


def test_the_closed_form_agrees_with_a_general_solver_of_the_same_equations() -> None:
    times = np.linspace(0.0, 7_200.0, 50)
    made = solve_ivp(
        lambda _, state: slopes(state), (0, 7_200), START, t_eval=times, rtol=1e-10, atol=1e-9
    )

    course = pair()

    # The solver is asked for ten digits of about 400 K.
    assert outer_at(course, times[:, None])[:, 0] == pytest.approx(made.y[0], abs=1e-6)
    assert inner_at(course, times[:, None])[:, 0] == pytest.approx(made.y[1], abs=1e-6)


def test_stepping_the_equations_closes_in_on_the_closed_form_with_the_order_of_the_scheme() -> None:
    """The midpoint rule is of second order: half the step, a quarter of the error."""

    def stepped(steps: int) -> float:
        state, size = np.array(START), 1_200.0 / steps
        for _ in range(steps):
            state = state + size * slopes(state + size / 2 * slopes(state))
        return float(state[0])

    exact = float(outer_at(pair(), one(1_200.0))[0])
    errors = [abs(stepped(n) - exact) for n in (80, 160, 320)]

    orders = np.log2([errors[0] / errors[1], errors[1] / errors[2]])
    assert orders == pytest.approx(2.0, abs=0.1)  # the next term shrinks with the step


def test_the_integral_is_that_of_the_temperatures() -> None:
    times = np.linspace(0.0, 3_600.0, 20_001)
    course = pair()

    by_hand = np.trapezoid(outer_at(course, times[:, None])[:, 0], times)

    # The trapezoid rule misses h^2/12 of the slope's change: here below 1e-3 of 1.3e6 K s.
    assert outer_integral(course, one(3_600.0))[0] == pytest.approx(by_hand, rel=1e-8)


def test_a_held_body_warms_the_other_by_nine_tenths_of_the_gap_in_ln_10_tau() -> None:
    course = held(one(390.0), one(350.0), one(600.0))

    assert outer_at(course, one(1e4))[0] == 390.0
    assert inner_at(course, one(600.0 * np.log(10)))[0] == pytest.approx(386.0, abs=1e-9)
    assert outer_integral(course, one(10.0))[0] == pytest.approx(3_900.0)


@given(
    power=st.floats(0.0, 4_000.0),
    target=st.floats(296.0, 420.0),
    tau=st.floats(1e-3, 6_000.0),
    loss=st.floats(0.5, 20.0),
)
def test_the_time_found_is_the_first_at_the_target(
    power: float, target: float, tau: float, loss: float
) -> None:
    course = pair(power, loss, tau)

    at = time_until(course, one(target))

    settled = ROOM + power / loss
    if np.isinf(at[0]):
        assert (target - START[0]) * (settled - target) <= 0
        return
    # Twelve digits of the time, of a body that moves by less than 1 K/s.
    assert outer_at(course, at)[0] == pytest.approx(target, abs=1e-6)
    before = outer_at(course, np.linspace(0.0, 0.999, 200)[:, None] * at)[:, 0]
    assert (np.sign(target - START[0]) * (target - before) >= -1e-6).all()


def test_without_jars_one_body_remains_whose_course_is_known() -> None:
    """T = settled + (start - settled) exp(-loss t / heat)."""
    course = free(
        (one(343.0), one(343.0)),
        (one(16e3), one(0.0)),
        one(TAU),
        one(LOSS),
        one(1_500.0),
        one(ROOM),
    )

    settled = ROOM + 1_500.0 / LOSS
    expected = settled + (343.0 - settled) * np.exp(-LOSS * 900.0 / 16e3)
    assert outer_at(course, one(900.0))[0] == pytest.approx(expected, abs=1e-9)
