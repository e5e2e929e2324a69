"""A loaded canner from cold to opening: how long it heats, vents, comes up and cools.

The state is two temperatures (``two_bodies.py``): the canner's metal and water, T, and the jars',
S, which follows with dS/dt = ln 10 (T - S)/fh, fh being the time a jar takes to a tenth of its
lag. The burner gives power to the first, which loses heat to the room. In turn:

- *heat*: full burner, until the water boils at the pressure outside;
- *vent*: held there, for the published minutes; what jars and room do not take leaves as steam;
- *come-up*: full burner, shut, until the temperature of the gauge;
- *hold*: held there for the published minutes, at whatever power that takes;
- *cool*: burner off, until the boiling point is reached again (zero on the gauge);
- *wait*: still cooling, until it is opened.

A boiling-water canner has no vent and no come-up, and its wait is all the cooling it gets. Every
phase is exact (no time step). All of it predicts durations; a process itself is published.
"""

from dataclasses import dataclass
from math import log

import numpy as np
from numpy.typing import NDArray

from stillroom.errors import OutOfRange
from stillroom.physics.array import Array
from stillroom.physics.history import COLDEST, HOTTEST, History
from stillroom.physics.two_bodies import (
    Course,
    free,
    held,
    inner_at,
    outer_at,
    outer_integral,
    time_until,
)

WATER_HEAT_CAPACITY = 4_210.0
"""Of liquid water, J/(kg K): the mean from 60 to 116 C on the saturation line (IAPWS-95; 4 185 at
60 C, 4 240 at 116 C)."""

_SETTLED = 1e7
"""Seconds after which every canner has settled."""

MOST_WATER_VENTED = 0.4
"""Share of its water that a canner may vent before one should be warned: this project's choice."""


@dataclass(frozen=True, slots=True, eq=False)
class Canner:
    """A canner on its burner, for n draws of what is not known; shapes (n,) or scalar.

    ``power``, W, reaches the pot at full burner; ``loss``, W/K, to the room, above 0; ``metal``,
    J/K; ``water``, kg; ``start`` of metal and water and ``room``, K; ``simmer``, W, is what a cook
    leaves on beyond what holds the temperature, and leaves as steam.
    """

    power: Array | float
    loss: Array | float
    metal: Array | float
    water: Array | float
    start: Array | float
    room: Array | float
    simmer: Array | float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Jars:
    """All jars of a load, shapes (n,) or scalar.

    ``heat`` of food and glass together, J/K; ``fh``, s, above 0; ``start``, K.
    """

    heat: Array | float
    fh: Array | float
    start: Array | float


@dataclass(frozen=True, slots=True, eq=False)
class Aims:
    """What a run is for: ``boil`` and ``target`` temperatures, K, and s to vent, hold and wait.

    ``hold`` is the published process time, given and never worked out here.
    """

    boil: float
    target: float
    vent: float
    hold: float
    wait: float


@dataclass(frozen=True, slots=True, eq=False)
class Phase:
    """A stretch of a run: when it starts, how long it lasts (shapes (n,), s), and its course."""

    name: str
    start: Array
    length: Array
    course: Course


@dataclass(frozen=True, slots=True, eq=False)
class Energy:
    """Where the heat went from the start to opening, shapes (n,), J.

    ``burner`` = ``stored`` (in metal, water and jars) + ``lost`` (to the room) + ``steam``.
    """

    burner: Array
    stored: Array
    lost: Array
    steam: Array


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """A canner's run, shapes (n,).

    ``heat``, ``come_up`` and ``cool`` in s; ``reached`` tells where the burner brings the canner
    to its aim at all, and where it does not they are infinite, ``holding`` and ``energy`` are no
    numbers. ``vented`` and ``steamed``, kg, left while venting and in all; ``vented_share`` of
    the water there was; ``dry`` where more was wanted than there was, so that nothing after it
    holds. ``holding``, W into the pot, keeps the aim at the end of the hold.
    """

    heat: Array
    come_up: Array
    cool: Array
    reached: NDArray[np.bool_]
    vented: Array
    vented_share: Array
    steamed: Array
    dry: NDArray[np.bool_]
    holding: Array
    energy: Energy
    phases: tuple[Phase, ...]


def latent_heat(temperature: Array | float) -> Array | float:
    """Heat that one kilogram of boiling water takes to become steam.

    Parameters
    ----------
    temperature : shape (n,) or scalar, K, from 353 to 398

    Returns
    -------
    same shape, J/kg

    Source
    ------
    A straight line through the saturated steam tables of IAPWS-95 at 90 C (2 282.5 kJ/kg) and
    115 C (2 215.9); within 0.1 % from 80 to 125 C. At 100 C the tables have 2 256.4 kJ/kg.
    Explains and warns; never yields a process.

    Examples
    --------
    >>> round(latent_heat(373.15) / 1e6, 3)
    2.256
    """
    return 2_282_500.0 - 2_664.0 * (temperature - 363.15)


def run(canner: Canner, jars: Jars, aims: Aims) -> Run:
    """Durations, steam and temperatures of a canner's run.

    Parameters
    ----------
    canner, jars : n draws, or scalars; where one is scalar it serves all draws
    aims : temperatures in K, times in s; a boiling-water canner has ``target`` = ``boil`` and no
        vent. A start above ``boil`` counts as ``boil``

    Returns
    -------
    Run, shapes (n,). Not reaching the aim is an answer: ``reached`` is false there

    Raises
    ------
    OutOfRange
        A mass, a loss, a heat or fh that is not above zero, a negative power, or a temperature
        that is none; the message names it and gives the first wrong draw.

    Source
    ------
    Lumped energy balance in closed form, as the head of this module says. Explains and warns;
    never yields a process.

    Examples
    --------
    Seven quarts, 1,500 W into the pot, 240 F:

    >>> made = run(Canner(1_500.0, 4.4, 4_500.0, 2.84, 343.0, 295.0), Jars(26_500.0, 900.0, 348.0),
    ...     Aims(boil=373.1, target=388.7, vent=600.0, hold=1_500.0, wait=600.0))
    >>> [round(float(s[0]) / 60) for s in (made.heat, made.come_up, made.cool)]
    [12, 7, 25]
    """
    power, loss, metal, water, start, room, simmer, heat, fh, jar_start = np.broadcast_arrays(
        *(np.atleast_1d(np.asarray(v, dtype=float)) for v in (
            canner.power, canner.loss, canner.metal, canner.water, canner.start, canner.room,
            canner.simmer, jars.heat, jars.fh, jars.start,
        ))
    )  # fmt: skip
    _refuse(
        above={"loss": loss, "metal": metal, "water": water, "heat": heat, "fh": fh},
        not_below={"power": power, "simmer": simmer},
        kelvin={"start": start, "room": room, "start of jars": jar_start},
    )
    tau = fh / log(10)
    boil, target = np.full_like(power, aims.boil), np.full_like(power, aims.target)
    phases: list[Phase] = []

    def follow(name: str, course: Course, length: Array) -> tuple[Array, Array]:
        """Add a phase, and say where its bodies end; an endless one ends where it settles."""
        begun = phases[-1].start + phases[-1].length if phases else np.zeros_like(power)
        phases.append(Phase(name, begun, length, course))
        ended = np.minimum(length, _SETTLED)
        return outer_at(course, ended), inner_at(course, ended)

    def capacity(left: Array) -> Array:
        return metal + WATER_HEAT_CAPACITY * np.maximum(left, 0.0)

    cold = (np.minimum(start, boil), jar_start)
    course = free(cold, (capacity(water), heat), tau, loss, power, room)
    heating = np.where(start < boil, time_until(course, boil), 0.0)
    _, inner = follow("heat", course, heating)

    vent = np.full_like(power, aims.vent)
    course = held(boil, inner, tau)
    _, after = follow("vent", course, vent)
    to_steam = (power - loss * (boil - room)) * vent - heat * (after - inner)
    vented = np.maximum(to_steam / latent_heat(aims.boil), 0.0)

    course = free((boil, after), (capacity(water - vented), heat), tau, loss, power, room)
    coming_up = np.where(target > boil, time_until(course, target), 0.0)
    _, inner = follow("come-up", course, coming_up)

    hold = np.full_like(power, aims.hold)
    course = held(target, inner, tau)
    _, after = follow("process", course, hold)
    holding = loss * (target - room) + heat / tau * (target - after)
    simmered = simmer * hold / latent_heat(aims.target)
    held_energy = loss * (target - room) * hold + heat * (after - inner) + simmer * hold

    left = water - vented - simmered
    course = free((target, after), (capacity(left), heat), tau, loss, np.zeros_like(power), room)
    cooling = np.where(target > boil, time_until(course, boil), 0.0)
    end = follow("cool", course, cooling)
    course = free(end, (capacity(left), heat), tau, loss, np.zeros_like(power), room)
    end = follow("wait", course, np.full_like(power, aims.wait))

    reached = np.isfinite(heating + coming_up)
    none, never = np.where(reached & (left > 0), 1.0, np.nan), np.where(reached, 0.0, np.inf)
    at_full = np.where(reached, heating + vent + coming_up, 0.0)
    energy = Energy(
        burner=none * (power * at_full + held_energy),
        stored=none
        * (
            capacity(left) * (end[0] - boil)
            - capacity(water) * (cold[0] - boil)
            + heat * (end[1] - cold[1])
        ),
        lost=none * _lost(phases, loss, room),
        steam=none
        * (
            vented * latent_heat(aims.boil)
            + simmered * (latent_heat(aims.target) + WATER_HEAT_CAPACITY * (target - boil))
        ),
    )
    return Run(
        heat=heating,
        come_up=coming_up + never,
        cool=cooling + never,
        reached=reached,
        vented=vented,
        vented_share=vented / water,
        steamed=vented + simmered,
        dry=left <= 0,
        holding=none * holding,
        energy=energy,
        phases=tuple(phases),
    )


def _refuse(above: dict[str, Array], not_below: dict[str, Array], kelvin: dict[str, Array]) -> None:
    """Refuse what no canner and no jar can be."""
    told = [(name, v, v > 0, "it must be above zero") for name, v in above.items()]
    told += [(name, v, v >= 0, "it cannot be below zero") for name, v in not_below.items()]
    told += [
        (name, v, (v >= COLDEST) & (v <= HOTTEST), "that is no temperature of a kitchen, in K")
        for name, v in kelvin.items()
    ]
    for name, values, fits, rule in told:
        wrong = ~(fits & np.isfinite(values))
        if wrong.any():
            at = int(np.argmax(wrong))
            raise OutOfRange(f"{name} of draw {at} is {values[at]}: {rule}.")


def _lost(phases: list[Phase], loss: Array, room: Array) -> Array:
    """Heat to the room over all phases, J; an endless phase counts for a while only."""
    total = np.zeros_like(loss)
    for phase in phases:
        length = np.minimum(phase.length, _SETTLED)
        total += loss * (outer_integral(phase.course, length) - room * length)
    return total


def history(made: Run, step: float = 10.0, *, of_jars: bool = False) -> History:
    """The temperatures of a run's canner, or of its jars, as straight pieces.

    Parameters
    ----------
    made : a run of n draws
    step : scalar, s between instants; the canner's corners are rounded by it
    of_jars : the jars' mean temperature instead of the canner's

    Returns
    -------
    History, K, of shape (n, k), from the start to the opening of the slowest draw that gets there

    Source
    ------
    The closed form of each phase at the instants asked for.

    Examples
    --------
    >>> made = run(Canner(1_500.0, 4.4, 4_500.0, 2.84, 343.0, 295.0), Jars(26_500.0, 900.0, 348.0),
    ...     Aims(boil=373.1, target=388.7, vent=600.0, hold=1_500.0, wait=600.0))
    >>> history(made).at(np.array([0.0, 1_000.0, 2_500.0])).round(1)
    array([[343. , 373.1, 388.7]])
    """
    last = made.phases[-1].start + made.phases[-1].length
    there = last[made.reached]
    until = float(there.max()) if there.size else 3_600.0
    times = np.arange(0.0, until + step, step)
    values = np.empty((len(times), len(last)))
    for phase in made.phases:
        since = times[:, None] - phase.start
        began = since >= 0
        local = np.where(began, np.minimum(since, phase.length), 0.0)
        at = (inner_at if of_jars else outer_at)(phase.course, local)
        values = np.where(began, at, values)
    return History(times, values.T)
