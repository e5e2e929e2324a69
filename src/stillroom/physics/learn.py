"""What a household's logged minutes teach of its canner.

Each figure is believed log-normal: a median, a spread of its logarithm, and how they hang
together. Logged times are predicted from the figures; the gap between the logarithms of what was
logged and of what was predicted moves the figures, by as much as the spreads allow and the noise of
logging does not forbid. That is Bayes' rule for a line, taken at the point it leads to (iterated
Gauss-Newton, or the iterated extended Kalman step, which are one and the same).

A time far outside what was thought possible is held to a bounded pull and told: a forgotten timer
must not undo ten good logs.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array

Predict = Callable[[Array], Array]
"""From figures, shape (k, p), to predicted times, shape (k, m), in any one unit of time."""

SURPRISING: Final = 2.5
"""Standard deviations beyond which a logged time pulls no harder: common practice in statistics."""

_STEP: Final = 1e-4
_ROUNDS: Final = 30
_LONGEST: Final = 1e6  # a prediction that never ends counts as this long, so that a slope is there


@dataclass(frozen=True, slots=True)
class Belief:
    """What is thought of p figures, as plain numbers that can be stored and read back.

    ``medians`` in the figures' own units (any, such as W or W/K), above 0; ``spreads`` of their
    logarithms; ``correlation`` of the logarithms, p rows of p.
    """

    names: tuple[str, ...]
    medians: tuple[float, ...]
    spreads: tuple[float, ...]
    correlation: tuple[tuple[float, ...], ...]

    def covariance(self) -> Array:
        """Covariance of the logarithms, shape (p, p)."""
        spread = np.array(self.spreads)
        made: Array = np.array(self.correlation) * spread[:, None] * spread
        return made

    def median(self, name: str) -> float:
        """One figure's median."""
        return self.medians[self.names.index(name)]


@dataclass(frozen=True, slots=True)
class Learned:
    """A belief after a log; for each logged time its surprise and what it counted.

    ``surprise`` is the gap in standard deviations of what was expected before, noise included;
    ``weight`` is 1 where the time counted in full and less where it was too surprising.
    """

    belief: Belief
    surprise: tuple[float, ...]
    weight: tuple[float, ...]


def independent(names: tuple[str, ...], medians: Array, spreads: Array) -> Belief:
    """A belief in figures that know nothing of each other.

    Parameters
    ----------
    names : p names
    medians : shape (p,), each in its own unit (such as W, W/K or J/K), above 0
    spreads : shape (p,), of the logarithms, without unit, above 0

    Returns
    -------
    Belief

    Raises
    ------
    OutOfRange
        A median or a spread that is not above zero; the message names the figure.

    Source
    ------
    Definition of a log-normal figure.

    Examples
    --------
    >>> independent(("loss",), np.array([4.0]), np.array([0.25])).correlation
    ((1.0,),)
    """
    for name, median, spread in zip(names, medians, spreads, strict=True):
        if not (median > 0 and spread > 0):
            raise OutOfRange(
                f"{name}: a median of {median} and a spread of {spread} are no belief; both must "
                "be above 0."
            )
    return _belief(names, np.log(np.asarray(medians)), np.diag(np.asarray(spreads) ** 2))


def learn(belief: Belief, predict: Predict, logged: Array, noise: Array) -> Learned:
    """The belief after some times were logged.

    No spread is ever larger after it than before.

    Parameters
    ----------
    belief : p figures, each in its own unit
    predict : the times that figures of shape (k, p) lead to, shape (k, m), s or min
    logged : shape (m,), in the same unit as ``predict``, above 0
    noise : shape (m, m), covariance of the logarithms of the logged times (without unit): the
        watch, and what differs from run to run

    Returns
    -------
    Learned

    Raises
    ------
    OutOfRange
        A logged time that is not above zero.

    Source
    ------
    Bayes' rule for normal laws, linearized at its own answer: B. M. Bell and F. W. Cathey, The
    iterated Kalman filter update as a Gauss-Newton method, IEEE Trans. Automatic Control 38, 1993
    (from memory). The bound on a surprising time is Huber's.

    Examples
    --------
    A time that falls as the power rises, logged at half of what was expected (10 min), with noise
    as large as the doubt: the truth is sought halfway.

    >>> made = learn(independent(("power",), np.array([1_500.0]), np.array([0.3])),
    ...     lambda figures: 15_000 / figures, np.array([5.0]), np.array([[0.09]]))
    >>> round(made.belief.median("power") / 1_500.0, 3), round(made.belief.spreads[0], 3)
    (1.414, 0.212)
    """
    if not (np.isfinite(logged).all() and (logged > 0).all()):
        raise OutOfRange(f"Logged times are above zero: {logged.tolist()} are not.")
    told, start, before = np.log(logged), np.log(belief.medians), belief.covariance()
    expected, slope = _around(predict, start)
    variance = np.diag(slope @ before @ slope.T + noise)
    surprise = (told - expected) / np.sqrt(variance)
    # A surprising time is taken as if it had been logged with so much more noise that its pull is
    # that of a time SURPRISING deviations off, however far it is.
    excess = np.maximum(np.abs(surprise) / SURPRISING, 1.0)
    noise = noise + np.diag(variance * (excess - 1.0))

    def cost(at: Array, said: Array) -> float:
        off, gap = at - start, told - said
        return float(off @ np.linalg.solve(before, off) + gap @ np.linalg.solve(noise, gap))

    at, said = start, expected
    gain = _gain(before, slope, noise)
    for _ in range(_ROUNDS):
        aim = start + gain @ (told - said - slope @ (start - at))
        step, here = aim - at, cost(at, said)
        if np.abs(step).max() < 1e-9:
            break
        for share in (1.0, 0.5, 0.25, 0.125, 0.0625):
            tried = _log_times(predict, (at + share * step)[None])[0]
            if cost(at + share * step, tried) <= here:
                break
        else:
            break
        at = at + share * step
        said, slope = _around(predict, at)
        gain = _gain(before, slope, noise)
    rest = np.eye(len(at)) - gain @ slope
    # Joseph's form: the same as rest @ before, and no rounding can make it lose its sign.
    after = rest @ before @ rest.T + gain @ noise @ gain.T
    return Learned(
        _belief(belief.names, at, after, belief.spreads),
        tuple(surprise.tolist()),
        tuple((1.0 / excess).tolist()),
    )


def stored(belief: Belief) -> dict[str, Any]:
    """A belief as lists and numbers, for any file.

    Parameters
    ----------
    belief : of p figures in their own units (such as W or W/K)

    Returns
    -------
    dict of lists, units as in the belief

    Source
    ------
    Plain renaming.

    Examples
    --------
    >>> recalled(stored(independent(("loss",), np.array([4.0]), np.array([0.25])))).medians
    (4.0,)
    """
    return {
        "names": list(belief.names),
        "medians": list(belief.medians),
        "spreads": list(belief.spreads),
        "correlation": [list(row) for row in belief.correlation],
    }


def recalled(stored: dict[str, Any]) -> Belief:
    """The belief that ``stored`` told.

    Parameters
    ----------
    stored : dict of lists; medians in the figures' own units (such as W or W/K)

    Returns
    -------
    Belief

    Source
    ------
    Plain renaming.

    Examples
    --------
    >>> recalled({"names": ["a"], "medians": [2.0], "spreads": [0.1], "correlation": [[1.0]]}).names
    ('a',)
    """
    return Belief(
        tuple(stored["names"]),
        tuple(stored["medians"]),
        tuple(stored["spreads"]),
        tuple(tuple(row) for row in stored["correlation"]),
    )


def _log_times(predict: Predict, logs: Array) -> Array:
    """Logarithms of what is predicted from the figures' logarithms."""
    return np.log(np.clip(predict(np.exp(logs)), 1e-6, _LONGEST))


def _around(predict: Predict, at: Array) -> tuple[Array, Array]:
    """Predicted logarithms at a point, shape (m,), and their slopes, shape (m, p)."""
    steps = _STEP * np.eye(len(at))
    said = _log_times(predict, np.concatenate([at[None], at + steps, at - steps]))
    up, down = said[1 : len(at) + 1], said[len(at) + 1 :]
    return said[0], ((up - down) / (2 * _STEP)).T


def _gain(before: Array, slope: Array, noise: Array) -> Array:
    gain: Array = np.linalg.solve(slope @ before @ slope.T + noise, slope @ before).T
    return gain


def _belief(
    names: tuple[str, ...], logs: Array, covariance: Array, most: tuple[float, ...] | None = None
) -> Belief:
    spread = np.sqrt(np.diag(covariance))
    correlation = covariance / spread / spread[:, None]
    np.fill_diagonal(correlation, 1.0)
    if most is not None:
        # Rounding in the last digit only: the rule itself never widens a spread.
        spread = np.minimum(spread, most)
    return Belief(
        names,
        tuple(np.exp(logs).tolist()),
        tuple(spread.tolist()),
        tuple(tuple(row) for row in ((correlation + correlation.T) / 2).tolist()),
    )
