"""D-values, log reductions and z, against published figures (science notes 1.1 and 1.4)."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.lethality import D_THIAMIN, T_REF_F0, Z_F0, Z_THIAMIN, f0
from stillroom.physics.survival import (
    D_BOTULINUM,
    decimal_reduction_time,
    log_reductions,
    z_of,
)

C = 273.15
MINUTE = 60.0


@pytest.mark.parametrize(
    ("celsius", "minutes"), [(110.0, 2.705), (115.56, 0.752), (100.0, 27.05), (121.1, 0.21)]
)
def test_d_of_spores(celsius: float, minutes: float) -> None:
    """D121.1 of 0.21 min, z 10 C (0.1 %; the second is printed to three digits, hence 0.0005)."""
    found = decimal_reduction_time(celsius + C, D_BOTULINUM, T_REF_F0, Z_F0) / MINUTE

    assert float(found) == pytest.approx(minutes, rel=1e-3)


@pytest.mark.parametrize(("celsius", "minutes"), [(115.56, 9.02), (100.0, 325.0)])
def test_time_for_twelve_log_reductions(celsius: float, minutes: float) -> None:
    """Twelve times 0.21 min at 121.1 C; 0.5 %. It explains; it is no process."""
    times = np.array([0.0, minutes * MINUTE])
    reached = log_reductions(f0(times, np.full(2, celsius + C)), D_BOTULINUM)

    assert float(reached) == pytest.approx(12.0, rel=5e-3)


@pytest.mark.parametrize(
    ("celsius", "minutes"),
    [(101.1, 240.0), (111.1, 24.0), (121.1, 2.4), (131.1, 0.24), (141.1, 0.024)],
)
def test_lecture_notes_table_of_twelve_log_times(celsius: float, minutes: float) -> None:
    """With the rounded 2.4 min of the lecture notes "Thermal process calculation": 4 h, 24 min,
    2.4 min, about 15 s, about 1.5 s (5 %)."""
    found = decimal_reduction_time(celsius + C, 2.4 * MINUTE, T_REF_F0, Z_F0)

    assert float(found) / MINUTE == pytest.approx(minutes, rel=0.05)


def test_classical_minimum_is_12_times_0_21_minutes() -> None:
    assert float(log_reductions(2.52 * MINUTE, D_BOTULINUM)) == pytest.approx(12.0)


# Odlaug and Pflug (1977): D in minutes of strain A16037 at 115.6, 110.0 and 104.4 C.
MEASURED_AT = np.array([115.6, 110.0, 104.4])
BUFFER = np.array([1.3, 4.4, 17.6])
TOMATO_JUICE = np.array([0.4, 1.6, 6.0])


@pytest.mark.parametrize(("minutes", "z"), [(BUFFER, 9.90), (TOMATO_JUICE, 9.52)])
def test_measured_d_values_of_the_outbreak_strain_give_the_z_of_the_notes(
    minutes: Array, z: float
) -> None:
    """Regression of log D on temperature: 9.90 (paper 9.9) and 9.52 (paper 9.4; its D are
    rounded), each within 0.05. Our law with that z returns each D within its rounding."""
    slope, constant = np.polyfit(MEASURED_AT, np.log10(minutes), 1)
    at_121 = 10 ** (constant + slope * 121.1) * MINUTE

    assert -1 / slope == pytest.approx(z, abs=0.05)
    again = decimal_reduction_time(MEASURED_AT + C, at_121, T_REF_F0, -1 / slope) / MINUTE
    # The middle one lies 4 to 6 % off the line of three.
    assert again == pytest.approx(minutes, rel=0.07)


def test_buffer_line_extrapolates_to_0_352_minutes_at_121_1_c() -> None:
    slope, constant = np.polyfit(MEASURED_AT, np.log10(BUFFER), 1)

    assert 10 ** (constant + slope * 121.1) == pytest.approx(0.352, rel=0.01)


def test_the_same_spore_dies_some_three_times_sooner_in_tomato_juice() -> None:
    """pH 4.2 against 7; each of the three temperatures, one digit."""
    assert pytest.approx(3.0, abs=0.3) == BUFFER / TOMATO_JUICE


def test_d_of_thiamin_at_240_f() -> None:
    """D121.1 158 min, z 25 C: 263.2 min at 115.56 C."""
    found = decimal_reduction_time(115.56 + C, D_THIAMIN, T_REF_F0, Z_THIAMIN) / MINUTE

    assert float(found) == pytest.approx(263.2, rel=1e-3)


@pytest.mark.parametrize(
    ("energy", "z", "celsius"), [(94_900.0, 28.5, 102.7), (130_800.0, 21.3, 108.3)]
)
def test_printed_pairs_of_z_and_activation_energy_belong_to_one_temperature(
    energy: float, z: float, celsius: float
) -> None:
    """Hardness of peas and white beans (Van Loey 1995): the pair implies 102.7 and 108.3 C, each
    within 0.5 C."""
    low, high = (z_of(energy, celsius + off + C) for off in (-0.5, 0.5))

    assert low <= z <= high


@given(st.floats(250.0, 500.0), st.floats(1e-3, 1e6), st.floats(1.0, 200.0))
def test_z_degrees_hotter_takes_a_tenth_of_the_time(
    temperature: float, at_reference: float, z: float
) -> None:
    hotter = min(500.0, temperature + z)
    pair = decimal_reduction_time(np.array([temperature, hotter]), at_reference, T_REF_F0, z)

    assert pair[0] / pair[1] == pytest.approx(10 ** ((hotter - temperature) / z), rel=1e-9)


@pytest.mark.parametrize("at_reference", [0.0, -1.0, math.nan, math.inf])
def test_a_d_value_that_is_no_time_is_out_of_range(at_reference: float) -> None:
    with pytest.raises(OutOfRange, match="D-value"):
        decimal_reduction_time(394.25, at_reference, T_REF_F0, Z_F0)
    with pytest.raises(OutOfRange, match="D-value"):
        log_reductions(60.0, at_reference)


@pytest.mark.parametrize(("energy", "temperature"), [(0.0, 373.0), (1e5, 0.0), (math.nan, 373.0)])
def test_no_z_comes_of_no_energy(energy: float, temperature: float) -> None:
    with pytest.raises(OutOfRange, match="No z"):
        z_of(energy, temperature)
