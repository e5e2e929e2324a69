"""The step answer of a packed cylinder, against printed roots, its Bessel series and energy.

Printed values: one-term tables of transient conduction, as gathered with their sources in the
project's science notes; the series itself is summed here with SciPy's Bessel functions.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.special import j0, j1

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.conduction import (
    BARE,
    FLAT_TERMS,
    ROUND_TERMS,
    flat_part,
    round_part,
)

BIOTS = st.floats(1e-3, 1e4)


def one(value: float) -> Array:
    return np.array([value])


def slab(biot: float, terms: int = FLAT_TERMS) -> tuple[Array, Array]:
    """Roots and weights of the even slab, with the Biot number of its half height."""
    part = flat_part(one(min(2 * biot, BARE)), one(min(2 * biot, BARE)), terms)
    return np.sqrt(part.rates[0]) / 2, part.slowest[0]


def cylinder(biot: float, terms: int = ROUND_TERMS) -> tuple[Array, Array]:
    part = round_part(one(biot), terms)
    return np.sqrt(part.rates[0]), part.slowest[0]


def bessel_roots(biot: float, count: int) -> Array:
    """z J1(z) = Bi J0(z), one root between neighbouring zeros of J1 and J0."""
    edges = [0.0, *(brentq(j1, (m + 0.1) * np.pi, (m + 0.4) * np.pi) for m in range(1, count))]
    zeros = [brentq(j0, (m + 0.6) * np.pi, (m + 0.9) * np.pi) for m in range(count)]
    return np.array(
        [
            brentq(lambda z: z * j1(z) - biot * j0(z), low + 1e-12, high, xtol=1e-13)
            for low, high in zip(edges, zeros, strict=True)
        ]
    )


def slab_roots(biot: float, count: int) -> Array:
    """z tan z = Bi, one root in each period."""
    return np.array(
        [
            brentq(
                lambda z: z * np.sin(z) - biot * np.cos(z),
                m * np.pi + 1e-12,
                (m + 0.5) * np.pi,
                xtol=1e-13,
            )
            for m in range(count)
        ]
    )


@pytest.mark.parametrize(
    ("biot", "flat_root", "flat_weight", "round_root", "round_weight"),
    [
        (0.1, 0.3111, 1.0161, 0.4417, 1.0246),
        (1.0, 0.8603, 1.1191, 1.2558, 1.2071),
        (10.0, 1.4289, 1.2620, 2.1795, 1.5677),
        (100.0, 1.5552, 1.2731, 2.3809, 1.6015),
        (BARE, 1.570796, 1.2732, 2.404826, 1.6020),
    ],
)
def test_first_roots_and_weights_are_those_of_the_printed_one_term_table(
    biot: float, flat_root: float, flat_weight: float, round_root: float, round_weight: float
) -> None:
    """The table prints four decimals."""
    roots, weights = slab(biot)
    assert (roots[0], weights[0]) == pytest.approx((flat_root, flat_weight), abs=1e-4)

    roots, weights = cylinder(biot)
    assert (roots[0], weights[0]) == pytest.approx((round_root, round_weight), abs=1e-4)


def test_roots_of_a_face_that_follows_the_bath_are_those_of_cosine_and_bessel() -> None:
    """pi/2, 3 pi/2, 5 pi/2 and the zeros of J0, to the six decimals printed. The slab's terms
    that vanish in the middle lie between them."""
    assert slab(BARE)[0][[0, 2, 4]] == pytest.approx([1.570796, 4.712389, 7.853982], abs=2e-6)
    assert cylinder(BARE)[0][:3] == pytest.approx([2.404826, 5.520078, 8.653728], abs=2e-6)


@pytest.mark.parametrize(
    ("fourier", "flat", "round_"),
    [
        (0.05, 0.996869, 0.987099),
        (0.1, 0.949305, 0.848355),
        (0.2, 0.772312, 0.501487),
        (0.5, 0.370777, 0.088890),
        (1.0, 0.107977, 0.004932),
    ],
)
def test_centre_of_a_step_bath_matches_the_series(
    fourier: float, flat: float, round_: float
) -> None:
    roots, weights = slab(BARE)
    assert weights @ np.exp(-(roots**2) * fourier) == pytest.approx(flat, abs=1e-5)

    roots, weights = cylinder(BARE)
    assert weights @ np.exp(-(roots**2) * fourier) == pytest.approx(round_, abs=1e-5)


def test_lag_factor_of_the_centre_is_that_of_the_finite_cylinder() -> None:
    """1.27324 times 1.60197."""
    lag = slab(BARE)[1][0] * cylinder(BARE)[1][0]

    assert lag == pytest.approx(2.0397, abs=3e-4)


@given(biot=BIOTS, fourier=st.floats(0.02, 2.0))
def test_centre_matches_the_bessel_series_for_any_face(biot: float, fourier: float) -> None:
    """Sixty terms of the textbook series, summed with SciPy. A three-thousandth of a step of
    90 K is 0.03 K."""
    z = bessel_roots(biot, 60)
    series = np.sum(2 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2) * np.exp(-z * z * fourier))

    roots, weights = cylinder(biot)

    assert weights @ np.exp(-(roots**2) * fourier) == pytest.approx(series, abs=3e-4)


@given(biot=BIOTS, fourier=st.floats(0.02, 2.0))
def test_middle_matches_the_cosine_series_for_any_face(biot: float, fourier: float) -> None:
    z = slab_roots(biot, 60)
    series = np.sum(4 * np.sin(z) / (2 * z + np.sin(2 * z)) * np.exp(-z * z * fourier))

    roots, weights = slab(biot)

    assert weights @ np.exp(-(roots**2) * fourier) == pytest.approx(series, abs=1e-4)


@pytest.mark.parametrize("biot", [0.1, 1.0, 10.0, 100.0])
def test_first_root_lies_on_the_printed_approximation(biot: float) -> None:
    """Yovanovich, University of Waterloo ME651 notes: within a quarter of a percent at these."""
    zero, n = 2.4048255, 2.238
    printed = zero / (1 + (zero / np.sqrt(2 * biot)) ** n) ** (1 / n)

    assert cylinder(biot)[0][0] == pytest.approx(printed, rel=2.5e-3)


def test_glass_slows_a_wet_packs_radial_part_by_nine_percent() -> None:
    """Biot 22.4: glass of conductivity 1.0 and 2.75 mm against food of 0.65 and 40 mm radius.
    The science notes print 1.090 from the approximation above, which is off by 0.15 % here."""
    slower = (2.404826 / cylinder(22.4)[0][0]) ** 2

    assert slower == pytest.approx((2.404826 / bessel_roots(22.4, 1)[0]) ** 2, abs=1e-6)
    assert slower == pytest.approx(1.090, abs=0.004)


def test_doubling_the_polynomials_moves_no_quart_by_a_thousandth_after_ten_seconds() -> None:
    """Food 95 mm wide and 150 mm high, 1.6e-7 m2/s; faces from thin liquid film to bare glass."""
    biots = np.array([1.0, 5.0, 30.0, 60.0])
    seconds = np.array([10.0, 20.0, 60.0, 300.0, 1800.0, 7200.0])

    def answer(terms: tuple[int, int]) -> Array:
        across, along = round_part(biots, terms[0]), flat_part(biots, biots / 20, terms[1])
        parts = [
            np.einsum("nm,nmf->nf", p.slowest, np.exp(-p.rates[:, :, None] * fourier))
            for p, fourier in (
                (across, 1.6e-7 * seconds / 0.0475**2),
                (along, 1.6e-7 * seconds / 0.150**2),
            )
        ]
        product: Array = parts[0] * parts[1]
        return product

    coarse, fine = answer((ROUND_TERMS, FLAT_TERMS)), answer((2 * ROUND_TERMS, 2 * FLAT_TERMS))

    assert np.abs(coarse - fine).max() < 1e-3


def test_error_falls_faster_than_any_power_of_the_number_of_polynomials() -> None:
    """A second-order grid would cut it to a quarter at each doubling; here it falls a hundredfold
    from 4 to 8 terms, then again, until rounding is left."""
    z = bessel_roots(10.0, 60)
    series = np.sum(2 / z * j1(z) / (j0(z) ** 2 + j1(z) ** 2) * np.exp(-z * z * 0.02))

    errors = []
    for terms in (4, 8, 16):
        roots, weights = cylinder(10.0, terms)
        errors.append(abs(weights @ np.exp(-(roots**2) * 0.02) - series))

    assert errors[1] < errors[0] / 100
    assert errors[2] < errors[1] / 100


@given(biot=BIOTS)
def test_heat_through_the_wall_is_the_heat_the_food_gains_term_by_term(biot: float) -> None:
    """d(mean)/dFo = -2 Bi (wall): the wall's area over the volume is 2/R."""
    part = round_part(one(biot))

    assert part.rates * part.mean == pytest.approx(2 * biot * part.face, rel=1e-6, abs=1e-9)


@given(biot=BIOTS)
def test_heat_through_the_top_is_the_heat_the_food_gains_when_nothing_passes_the_bottom(
    biot: float,
) -> None:
    part = flat_part(one(0.0), one(biot))

    assert part.rates * part.mean == pytest.approx(biot * part.face, rel=1e-6, abs=1e-9)


@given(biot=BIOTS)
def test_every_place_starts_whole(biot: float) -> None:
    """At the first instant all of the step is missing, everywhere."""
    for part in (round_part(one(biot)), flat_part(one(biot), one(biot / 7))):
        for weights in (part.slowest, part.mean, part.face):
            assert weights.sum() == pytest.approx(1.0, abs=1e-6)


@given(bottom=BIOTS, top=BIOTS)
def test_slowest_place_lies_toward_the_face_that_lets_less_heat_in(
    bottom: float, top: float
) -> None:
    where = flat_part(one(bottom), one(top)).where[0]

    assert 0 <= where <= 1
    if bottom > 1.01 * top:
        assert where >= 0.5
    if top > 1.01 * bottom:
        assert where <= 0.5


def test_with_no_heat_through_the_top_the_slowest_place_is_the_top() -> None:
    assert flat_part(one(20.0), one(0.0)).where[0] == pytest.approx(1.0, abs=0.02)


@pytest.mark.parametrize("biot", [-1.0, np.nan, 1e9])
def test_a_face_no_jar_has_is_refused_with_its_place(biot: float) -> None:
    with pytest.raises(OutOfRange, match="Biot number 1"):
        round_part(np.array([1.0, biot]))
