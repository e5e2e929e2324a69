"""Two bodies that share heat, one of them on a burner and losing heat to the room.

Equations, for the outer body (a canner with its water) at T and the inner one (its jars) at S:
C dT/dt = power - loss (T - room) - G (T - S) and dS/dt = (T - S)/tau, with G = (inner heat)/tau.
With a constant power they are linear, so that T and S are each a settled value and two dying
exponentials, known at once for any time: nothing is stepped, and no step can be too long.
"""

from dataclasses import dataclass

import numpy as np

from stillroom.physics.array import Array

_MOST_ROUNDS = 80
"""Halvings of a bracket that exhaust double precision."""


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """How two bodies go on from a start, all shapes (n,).

    The outer body is at ``settled + outer[0] exp(slow t) + outer[1] exp(fast t)``, the inner one
    the same with ``inner``. ``settled`` and the parts in K, the rates in 1/s, not above zero.
    """

    settled: Array
    slow: Array
    fast: Array
    outer: tuple[Array, Array]
    inner: tuple[Array, Array]


def free(
    start: tuple[Array, Array],
    heat: tuple[Array, Array],
    tau: Array,
    loss: Array,
    power: Array,
    room: Array,
) -> Course:
    """The course of both bodies under a constant power.

    Parameters
    ----------
    start : outer and inner temperature, shapes (n,), K
    heat : outer and inner heat capacity, shapes (n,), J/K; the outer above 0
    tau : shape (n,), s, above 0; the inner body's lag behind a steady outer one
    loss : shape (n,), W/K, above 0
    power : shape (n,), W
    room : shape (n,), K

    Returns
    -------
    Course

    Source
    ------
    Closed form of the two equations at the head of this module: both rates are the roots of
    x^2 + ((loss + G)/C + 1/tau) x + loss/(C tau), real, apart and not above zero.

    Examples
    --------
    1,000 W against a loss of 5 W/K settle 200 K above the room.

    >>> at = np.array([350.0])
    >>> course = free((at, at), (16e3 + 0 * at, 20e3 + 0 * at), 300 + 0 * at, 5 + 0 * at,
    ...     1_000 + 0 * at, 295 + 0 * at)
    >>> course.settled
    array([495.])
    """
    settled = room + power / loss
    exchange = heat[1] / tau
    quick = (loss + exchange) / heat[0]
    total = quick + 1 / tau
    apart = np.sqrt((quick - 1 / tau) ** 2 + 4 * exchange / (heat[0] * tau))
    fast = -(total + apart) / 2
    # The product of the roots, so that a small rate is not the difference of two large ones.
    slow = loss / (heat[0] * tau) / fast
    outer, inner = start[0] - settled, start[1] - settled
    outer_rate = -quick * outer + exchange / heat[0] * inner
    inner_rate = (outer - inner) / tau
    return Course(
        settled, slow, fast, _parts(outer, outer_rate, slow, fast),
        _parts(inner, inner_rate, slow, fast),
    )  # fmt: skip


def held(outer: Array, inner: Array, tau: Array) -> Course:
    """The course while the outer body is held at one temperature.

    Parameters
    ----------
    outer : shape (n,), K, at which it is held
    inner : shape (n,), K, where the inner body starts
    tau : shape (n,), s, above 0

    Returns
    -------
    Course

    Source
    ------
    Closed form of dS/dt = (T - S)/tau with a constant T.

    Examples
    --------
    >>> course = held(np.array([390.0]), np.array([290.0]), np.array([100.0]))
    >>> inner_at(course, np.array([100 * np.log(10)])).round(6)
    array([380.])
    """
    none = np.zeros_like(outer)
    return Course(outer, -1 / tau, none, (none, none), (inner - outer, none))


def outer_at(course: Course, t: Array) -> Array:
    """Temperature of the outer body.

    Parameters
    ----------
    course : of n pairs
    t : shape (n,), or (m, n), s from the start of the course

    Returns
    -------
    shape of ``t``, K

    Source
    ------
    The closed form at the head of this module.

    Examples
    --------
    >>> outer_at(held(np.array([390.0]), np.array([290.0]), np.array([100.0])), np.array([50.0]))
    array([390.])
    """
    return _at(course, course.outer, t)


def inner_at(course: Course, t: Array) -> Array:
    """Temperature of the inner body; as ``outer_at``.

    Parameters
    ----------
    course : of n pairs
    t : shape (n,), or (m, n), s from the start of the course

    Returns
    -------
    shape of ``t``, K

    Source
    ------
    The closed form at the head of this module.

    Examples
    --------
    >>> inner_at(held(np.array([390.0]), np.array([290.0]), np.array([100.0])), np.array([0.0]))
    array([290.])
    """
    return _at(course, course.inner, t)


def outer_integral(course: Course, t: Array) -> Array:
    """Integral of the outer temperature over time, from the start of the course to ``t``.

    Parameters
    ----------
    course : of n pairs
    t : shape (n,), s

    Returns
    -------
    shape (n,), K s

    Source
    ------
    The closed form at the head of this module, integrated term by term.

    Examples
    --------
    >>> outer_integral(held(np.array([390.0]), np.array([290.0]), np.array([9.0])), np.array([2.0]))
    array([780.])
    """
    total = course.settled * t
    for rate, part in zip((course.slow, course.fast), course.outer, strict=True):
        total += part * np.where(rate < 0, np.expm1(rate * t) / np.where(rate < 0, rate, 1.0), t)
    return total


def time_until(course: Course, target: Array) -> Array:
    """How long until the outer body is at a temperature on its way to its settled one.

    Two exponentials and a constant that has the other sign than the start cross zero once, so the
    crossing found is the only one.

    Parameters
    ----------
    course : of n pairs
    target : shape (n,), K

    Returns
    -------
    shape (n,), s; infinite where it does not settle beyond the target

    Source
    ------
    Newton's rule on the closed form, kept inside a bracket that is halved where it would leave it.

    Examples
    --------
    A body alone, 10 K above its room, halves that in C/loss ln 2.

    >>> one = np.array([1.0])
    >>> alone = free((305 * one, 305 * one), (2e3 * one, 0 * one), one, 5 * one, 0 * one, 295 * one)
    >>> time_until(alone, 300 * one) / (400 * np.log(2))
    array([1.])
    """
    slow_part, fast_part = course.outer
    start = course.settled + slow_part + fast_part
    way = np.sign(target - start)
    gap = way * (course.settled - target)  # how far beyond the target it would settle
    found = (way != 0) & (gap > 0)
    size = np.abs(slow_part) + np.abs(fast_part)
    with np.errstate(divide="ignore", invalid="ignore"):
        high = np.where(found, np.log(size / gap) / -course.slow, 0.0)
    low, at = np.zeros_like(high), high / 2
    for _ in range(_MOST_ROUNDS):
        slow, fast = slow_part * np.exp(course.slow * at), fast_part * np.exp(course.fast * at)
        missing = -way * (slow + fast) - gap
        rate = -way * (course.slow * slow + course.fast * fast)
        low, high = np.where(missing > 0, at, low), np.where(missing > 0, high, at)
        with np.errstate(divide="ignore", invalid="ignore"):
            step = at - missing / rate
        last, at = at, np.where((step >= low) & (step <= high), step, (low + high) / 2)
        if np.all(np.abs(at - last) <= 1e-12 * high):
            break
    return np.where(way == 0, 0.0, np.where(found, at, np.inf))


def _parts(start: Array, rate: Array, slow: Array, fast: Array) -> tuple[Array, Array]:
    """The shares of the two exponentials from a start and its rate."""
    of_slow = (rate - fast * start) / (slow - fast)
    return of_slow, start - of_slow


def _at(course: Course, parts: tuple[Array, Array], t: Array) -> Array:
    slow = parts[0] * np.exp(course.slow * t)
    fast = parts[1] * np.exp(course.fast * t)
    value: Array = course.settled + slow + fast
    return value
