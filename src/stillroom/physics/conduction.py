"""Heat soaking into a packed jar: the answer of a cylinder of food to a sudden bath.

Equation: dT/dt = a (1/r d/dr (r dT/dr) + d2T/dz2), a the diffusivity, in a cylinder of radius R
and height H. On each face -k dT/dn = U (T - bath), with U the glass and the film outside it in
series; glass and film hold no heat of their own. The food starts at one temperature.

With one U on each face the answer is the product of a round part in r and a flat part in z.
Each part is sought among Legendre polynomials (in 2 (r/R)^2 - 1 and in 2 z/H - 1), which hold the
even start exactly and close in on the true answer faster than any power of their number. Their
mass and stiffness are known in closed form, so that each jar costs one small symmetric eigenvalue
problem a part, and thousands of jars are solved at once.

Everything here is without unit: Fourier numbers a t/R^2 and a t/H^2 for time, Biot numbers U R/k
and U H/k for the faces. ``pack.py`` gives them meaning.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.polynomial import legendre

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array

ROUND_TERMS, FLAT_TERMS = 16, 22
"""Polynomials in each part. With a quart's own faces, doubling them moves the slowest place by less
than 0.001 of the step from the tenth second on (``tests/physics/test_conduction.py``)."""

BARE = 1e7
"""The largest Biot number: a face that follows the bath. Larger ones spoil the eigenvalues'
digits and change no temperature by 0.001 of the step."""


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One factor of the answer, a sum of dying terms: sum over m of weights e^(-rates Fo).

    ``rates`` has shape (n, m), per unit of Fourier number. ``slowest``, ``mean`` and ``face`` have
    the same shape: the weights at the place that heats last, averaged over the part, and at the
    outer face (for a flat part, at its top). ``where`` has shape (n,): the slowest place as a
    share of the radius or of the height from the bottom.
    """

    rates: Array
    slowest: Array
    mean: Array
    face: Array
    where: Array


def round_part(biot: Array, terms: int = ROUND_TERMS) -> Part:
    """The part across the jar, from the axis to the wall.

    Parameters
    ----------
    biot : shape (n,), U R/k, 0 to 10 000 000
    terms : how many polynomials

    Returns
    -------
    Part; its slowest place is the axis

    Raises
    ------
    OutOfRange
        A Biot number outside its range, by its place.

    Source
    ------
    Heat equation in a cylinder with convection (Carslaw and Jaeger, Conduction of Heat in Solids,
    chapter VII), by a Galerkin method. Checked against its Bessel series and a finite-element
    library. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> part = round_part(np.array([10.0]))  # printed first root 2.1795, first weight 1.5677
    >>> round(float(np.sqrt(part.rates[0, 0])), 4), round(float(part.slowest[0, 0]), 4)
    (2.1795, 1.5677)
    """
    stiffness, norm = _round_matrices(terms)
    faces = np.ones((terms, terms)) / np.outer(norm, norm)
    rates, modes = np.linalg.eigh(stiffness + _column(biot) * faces)
    start = modes[:, 0, :] * norm[0]
    axis = (-1.0) ** np.arange(terms) / norm
    return Part(
        rates=rates,
        slowest=start * np.einsum("i,nim->nm", axis, modes),
        mean=modes[:, 0, :] ** 2,
        face=start * np.einsum("i,nim->nm", 1.0 / norm, modes),
        where=np.zeros(len(rates)),
    )


def flat_part(biot_bottom: Array, biot_top: Array, terms: int = FLAT_TERMS) -> Part:
    """The part along the jar, from its bottom to the top of the food.

    Parameters
    ----------
    biot_bottom, biot_top : shape (n,), U H/k, 0 to 10 000 000
    terms : how many polynomials

    Returns
    -------
    Part; its slowest place is where the slowest term is largest

    Raises
    ------
    OutOfRange
        A Biot number outside its range, by its place.

    Source
    ------
    Heat equation in a slab with convection (Carslaw and Jaeger, Conduction of Heat in Solids,
    chapter III), by a Galerkin method. Explains and warns; no K or Pa here.

    Examples
    --------
    >>> part = flat_part(np.array([5.0]), np.array([5.0]))  # half height: Bi 10 means 20 for H
    >>> round(float(part.where[0]), 4)
    0.5
    """
    stiffness, norm = _flat_matrices(terms)
    signs = (-1.0) ** np.arange(terms)
    top = 1.0 / np.outer(norm, norm)
    bottom = np.outer(signs, signs) * top
    whole = stiffness + _column(biot_bottom) * bottom + _column(biot_top) * top
    rates, modes = np.linalg.eigh(whole)
    start = modes[:, 0, :] * norm[0]
    where = _peak(modes[:, :, 0] / norm)
    there = legendre.legvander(2.0 * where - 1.0, terms - 1) / norm
    return Part(
        rates=rates,
        slowest=start * np.einsum("ni,nim->nm", there, modes),
        mean=modes[:, 0, :] ** 2,
        face=start * np.einsum("i,nim->nm", 1.0 / norm, modes),
        where=where,
    )


def _column(biot: Array) -> Array:
    fits = (biot >= 0) & (biot <= BARE)
    if not fits.all():
        at = int(np.argmin(fits))
        raise OutOfRange(
            f"Biot number {at} is {biot[at]}: it lies between 0 (no heat passes the face) and "
            f"{BARE:.0f} (the face follows the bath)."
        )
    return np.asarray(biot, dtype=np.float64)[:, None, None]


@lru_cache(maxsize=8)
def _round_matrices(terms: int) -> tuple[Array, Array]:
    """Stiffness over the normed polynomials, and their norms, for the measure x dx."""
    # With u = 2 x^2 - 1: x dx = du/4, and (dP/dx)^2 x dx = 2 (1 + u) P'^2 du.
    norm = np.sqrt(1.0 / (2.0 * (2.0 * np.arange(terms) + 1.0)))
    return _stiffness(terms, norm, lambda u: 2.0 * (1.0 + u)), norm


@lru_cache(maxsize=8)
def _flat_matrices(terms: int) -> tuple[Array, Array]:
    """Stiffness over the normed polynomials, and their norms, for the measure dy."""
    # With v = 2 y - 1: dy = dv/2, and (dP/dy)^2 dy = 2 P'^2 dv.
    norm = np.sqrt(1.0 / (2.0 * np.arange(terms) + 1.0))
    return _stiffness(terms, norm, lambda v: np.full_like(v, 2.0)), norm


def _stiffness(terms: int, norm: Array, measure: Callable[[Array], Array]) -> Array:
    points, weights = legendre.leggauss(terms + 1)
    slopes = np.stack(
        [legendre.legval(points, legendre.legder(np.eye(terms)[i])) for i in range(terms)]
    )
    slopes = slopes / norm[:, None]
    matrix: Array = (slopes * (weights * measure(points))) @ slopes.T
    return matrix


def _peak(mode: Array) -> Array:
    """Where between bottom (0) and top (1) a first term, given by its coefficients, is largest."""
    grid = np.linspace(0.0, 1.0, 65)
    heights = np.abs(mode @ legendre.legvander(2.0 * grid - 1.0, mode.shape[1] - 1).T)
    at = np.clip(np.argmax(heights, axis=1), 1, len(grid) - 2)
    rows = np.arange(len(at))
    left, middle, right = (heights[rows, at + side] for side in (-1, 0, 1))
    bend = left - 2.0 * middle + right
    shift = np.where(bend < 0, 0.5 * (left - right) / np.where(bend < 0, bend, -1.0), 0.0)
    peak: Array = np.clip(grid[at] + np.clip(shift, -1.0, 1.0) * grid[1], 0.0, 1.0)
    return peak
