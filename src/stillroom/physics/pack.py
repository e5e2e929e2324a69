"""What the slowest place in a jar feels of the canner around it.

A pack answers a sudden bath in a way of its own: the share of the step that is still missing after
a time t. Any canner history is a sum of small steps, so one answer serves them all. Three packs:

- *solid*: heat soaks in by conduction only (``conduction.py``), as in cubed pumpkin, raw meat or
  a tight mash;
- *brothy*: liquid moves and evens out. After a lag the missing share falls on a straight line on
  log paper: j 10^(-t/f), the two-parameter law of heat penetration tests;
- *blend*: a stated share of the one and of the other, a choice of this project. A share says how
  solid the jar is packed; no published table gives it, so show both ends beside it.

Between the instants of a step the canner's temperature runs straight, and the answer is then
exact: a longer step loses only what the straight pieces lose.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, fields
from typing import Literal

import numpy as np

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.conduction import BARE, Part, flat_part, round_part
from stillroom.physics.history import History

Place = Literal["slowest", "mean", "face"]

STEP = 10.0
"""Seconds between the instants at which a jar is followed."""

_BLOCK = 32  # jars followed at once: their work stays in a core's cache, and memory stays small


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """Packs that heat by conduction, shapes (n,) or scalar.

    ``radius`` and ``height`` of the food, m; ``diffusivity``, m2/s; ``conductivity``, W/(m K);
    ``side``, ``bottom`` and ``top``: the conductance of glass and film in series, W/(m2 K).
    """

    radius: Array
    height: Array
    diffusivity: Array
    conductivity: Array
    side: Array
    bottom: Array
    top: Array


@dataclass(frozen=True, slots=True, eq=False)
class Brothy:
    """Packs whose liquid moves, shapes (n,) or scalar.

    ``f``: s for the missing share to fall to a tenth; ``j``: the lag factor, where the straight
    line meets the start, 0 to 10.
    """

    f: Array
    j: Array


@dataclass(frozen=True, slots=True, eq=False)
class Blend:
    """Packs between the two: ``share`` of ``solid``, the rest of ``brothy``; shape (n,), 0 to 1."""

    solid: Solid
    brothy: Brothy
    share: Array


Pack = Solid | Brothy | Blend


def conductance(*layers: float) -> float:
    """Conductance of layers one behind the other.

    Parameters
    ----------
    layers : each layer's own conductance, W/(m2 K): a film, or conductivity over thickness

    Returns
    -------
    scalar, W/(m2 K), below the least of them

    Source
    ------
    Resistances in series add (any heat-transfer text). Explains and warns; no K or Pa here.

    Examples
    --------
    >>> conductance(400.0, 400.0)
    200.0
    """
    return 1.0 / sum(1.0 / layer for layer in layers)


def heat_through(
    pack: Pack,
    start: Array | float,
    canner: History,
    duration: float,
    *,
    step: float = STEP,
    place: Place = "slowest",
    threads: int = 1,
) -> tuple[Array, Array]:
    """Temperature inside n jars over time, in a canner of a known history.

    Parameters
    ----------
    pack : n jars, or fields that spread to n
    start : shape (n,) or scalar, K: the even temperature of the packed food
    canner : one history for all jars, or n histories
    duration : s, from the first instant on
    step : s between instants
    place : the slowest place, the mean of the whole jar, or (solid) the top of its wall
    threads : how many cores may work at it

    Returns
    -------
    times : shape (k,), s
    temperatures : shape (n, k), K

    Raises
    ------
    OutOfRange
        A size, conductance, lag or share that no jar has, by its name.

    Source
    ------
    Duhamel's superposition (Carslaw and Jaeger, chapter I) of the pack's answer to a step.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> still = History(np.array([0.0]), np.array([390.0]))
    >>> pack = Brothy(f=np.array([600.0]), j=np.array([1.0]))
    >>> times, inside = heat_through(pack, 300.0, still, 1200.0)
    >>> inside[0, [0, 60, 120]].round(2)
    array([300. , 381. , 389.1])
    """
    if not (step > 0 and duration > 0 and np.isfinite(step) and np.isfinite(duration)):
        raise OutOfRange(
            f"A jar is followed for some time in steps of some time, not for {duration} s "
            f"in steps of {step} s."
        )
    count = int(np.ceil(duration / step))
    times = canner.times[0] + step * np.arange(count + 1)
    around = np.atleast_2d(canner.at(times))
    starts = np.atleast_1d(np.asarray(start, dtype=np.float64))
    jars = max(len(around), len(starts), *(np.size(field) for field in _fields(pack)))
    around = np.broadcast_to(around, (jars, count + 1))
    starts = np.broadcast_to(starts, (jars,))
    inside = np.empty((jars, count + 1))

    def fill(first: int) -> None:
        block = slice(first, min(first + _BLOCK, jars))
        missing, between = _answer(_take(pack, jars, block), count, step, place)
        inside[block] = _follow(starts[block], around[block], missing, between)

    with ThreadPoolExecutor(threads) as pool:
        for _ in pool.map(fill, range(0, jars, _BLOCK)):
            pass
    return times, inside


def _follow(start: Array, around: Array, missing: Array, between: Array) -> Array:
    """The canner's temperature less what of each of its steps is still missing.

    ``missing`` (n, k+1) belongs to the step at the first instant, ``between`` (n, k) to the
    straight pieces after it, whose sum is a convolution.
    """
    rises = np.diff(around, axis=1)
    size = 2 * rises.shape[1]
    sums = np.fft.irfft(np.fft.rfft(rises, size) * np.fft.rfft(between, size), size)
    inside = around - (around[:, :1] - start[:, None]) * missing
    inside[:, 1:] -= sums[:, : rises.shape[1]]
    return inside


def _answer(pack: Pack, count: int, step: float, place: Place) -> tuple[Array, Array]:
    """Missing share of a step at each instant, and its average over each stretch between them."""
    match pack:
        case Solid():
            return _solid_answer(pack, count, step, place)
        case Brothy():
            return _brothy_answer(pack, count, step)
        case Blend():
            solid = _solid_answer(pack.solid, count, step, place)
            brothy = _brothy_answer(pack.brothy, count, step)
            _check("share", pack.share, 0.0, 1.0)
            share = pack.share[:, None]
            return (
                share * solid[0] + (1.0 - share) * brothy[0],
                share * solid[1] + (1.0 - share) * brothy[1],
            )


def _solid_answer(pack: Solid, count: int, step: float, place: Place) -> tuple[Array, Array]:
    _check("radius", pack.radius, 0.005, 0.5)
    _check("height", pack.height, 0.005, 1.0)
    _check("diffusivity", pack.diffusivity, 1e-9, 1e-5)
    _check("conductivity", pack.conductivity, 0.01, 100.0)
    for face in ("side", "bottom", "top"):
        _check(face, getattr(pack, face), 0.0, 1e9)
    across = _each_once(round_part, _biot(pack.side, pack.radius, pack.conductivity))
    along = _each_once(
        flat_part,
        _biot(pack.bottom, pack.height, pack.conductivity),
        _biot(pack.top, pack.height, pack.conductivity),
    )
    across_rates = across.rates * (pack.diffusivity / pack.radius**2)[:, None]
    along_rates = along.rates * (pack.diffusivity / pack.height**2)[:, None]
    rates = across_rates[:, :, None] + along_rates[:, None, :]
    weights = _weights(across, place)[:, :, None] * _weights(along, place)[:, None, :]
    # Over a stretch the average of e^(-rate t) is its value at the start times this.
    dying = rates * step
    averaged = np.where(dying == 0.0, 1.0, -np.expm1(-dying) / np.where(dying == 0.0, 1.0, dying))
    both = np.stack([weights, weights * averaged], axis=1)
    sums = _dying(both.reshape(*both.shape[:2], -1), across_rates, along_rates, step, count + 1)
    return sums[:, 0], sums[:, 1, :count]


def _dying(weights: Array, across: Array, along: Array, step: float, count: int) -> Array:
    """Sums over terms m, o of weights e^(-(across + along) t) at instants 0, step, 2 step, ...

    ``weights`` (n, s, m o) gives s sums a jar: shape (n, s, count). An instant is a whole number
    of rows plus a column, so that all sums are one matrix product of what has died by the row and
    by the column.
    """
    columns = int(np.ceil(np.sqrt(2 * count)))
    rows = -(-count // columns)

    def dead(instants: Array) -> Array:
        parts = [np.exp(-rates[:, None, :] * instants[:, None]) for rates in (across, along)]
        return (parts[0][:, :, :, None] * parts[1][:, :, None, :]).reshape(
            len(across), len(instants), -1
        )

    by_row = dead(step * columns * np.arange(rows))
    by_column = dead(step * np.arange(columns))
    left = weights[:, :, None, :] * by_row[:, None, :, :]
    left = left.reshape(len(left), -1, left.shape[-1])
    sums: Array = left @ by_column.transpose(0, 2, 1)
    return sums.reshape(*weights.shape[:2], -1)[:, :, :count]


def _brothy_answer(pack: Brothy, count: int, step: float) -> tuple[Array, Array]:
    _check("f", pack.f, 1.0, 1e6)
    _check("j", pack.j, 0.0, 10.0)
    rate = (np.log(10.0) / pack.f)[:, None]
    lag = np.log(np.maximum(pack.j, 1.0))[:, None] / rate
    level = np.minimum(pack.j, 1.0)[:, None]
    instants = step * np.arange(count + 1)
    late = np.maximum(instants - lag, 0.0)
    missing = level * np.exp(-rate * late)
    # With j above 1 nothing is felt until the lag is over; with j below 1 a part is felt at once.
    waited = np.minimum(instants, lag)
    area = waited * level + level * -np.expm1(-rate * late) / rate
    missing[:, 0] = np.where(level[:, 0] < 1.0, level[:, 0], missing[:, 0])
    return missing, np.diff(area, axis=1) / step


def _each_once(solve: Callable[..., Part], *biots: Array) -> Part:
    """Parts for all jars, those with the same faces solved once."""
    faces, which = np.unique(np.stack(biots), axis=1, return_inverse=True)
    part = solve(*faces)
    return Part(*(getattr(part, field.name)[which] for field in fields(part)))


def _weights(part: Part, place: Place) -> Array:
    match place:
        case "slowest":
            return part.slowest
        case "mean":
            return part.mean
        case "face":
            return part.face


def _biot(conductance: Array, length: Array, conductivity: Array) -> Array:
    return np.minimum(conductance * length / conductivity, BARE)


def _fields(pack: Pack) -> list[Array]:
    match pack:
        case Blend():
            return [*_fields(pack.solid), *_fields(pack.brothy), pack.share]
        case Solid():
            return [pack.radius, pack.height, pack.diffusivity, pack.conductivity,
                    pack.side, pack.bottom, pack.top]  # fmt: skip
        case Brothy():
            return [pack.f, pack.j]


def _take(pack: Pack, jars: int, block: slice) -> Pack:
    """The jars of one block, every field of one length."""

    def part(field: Array) -> Array:
        return np.broadcast_to(np.asarray(field, dtype=np.float64), (jars,))[block]

    match pack:
        case Blend(solid, brothy, share):
            taken = _take(solid, jars, block), _take(brothy, jars, block)
            assert isinstance(taken[0], Solid)
            assert isinstance(taken[1], Brothy)
            return Blend(taken[0], taken[1], part(share))
        case Solid():
            return Solid(*(part(field) for field in _fields(pack)))
        case Brothy():
            return Brothy(*(part(field) for field in _fields(pack)))


def _check(name: str, values: Array, least: float, most: float) -> None:
    fits = (values >= least) & (values <= most)
    if not np.all(fits):
        at = int(np.argmin(fits))
        raise OutOfRange(
            f"{name} of jar {at} is {np.ravel(values)[at]}: for a jar it lies between "
            f"{least:g} and {most:g}."
        )
