"""From the orders of a day to the problem the solver sees."""

from dataclasses import dataclass, replace

from stillroom.day.crews import crews
from stillroom.day.durations import minutes
from stillroom.day.lengths import planned
from stillroom.day.model import Day, Order
from stillroom.day.problem import Job, Oven, Problem, Way
from stillroom.day.rows import mend_refused, rows, too_small
from stillroom.errors import InputError
from stillroom.heat.durations import durations
from stillroom.heat.load import HeatedLoad
from stillroom.kitchen import Canner
from stillroom.processes.model import Process
from stillroom.recipes.prep import minutes_per_quart
from stillroom.units.jars import quarts


@dataclass(frozen=True, slots=True)
class Unplannable:
    """Why a day cannot be planned, and what was found to mend it. An answer, not an error."""

    because: tuple[str, ...]
    mend: tuple[str, ...]


def make_problem(day: Day) -> Problem | Unplannable:
    """The day in whole minutes from its start, every jar with its published processes.

    Raises
    ------
    InputError
        A jar that none of the canners for its food can hold.
    """
    kitchen = day.kitchen
    jobs: list[Job] = []
    refused: list[str] = []
    for number, order in enumerate(day.orders, 1):
        ways, reasons = _ways(day, order)
        refused += reasons if not ways else []
        jobs.append(replace(_job(day, order, ways), order=number))
    if refused:
        return Unplannable(tuple(dict.fromkeys(refused)), mend_refused(day))
    return Problem(
        jobs=tuple(jobs),
        ovens=tuple(_oven(c) for c in kitchen.canners),
        crews=crews(day),
        burners=kitchen.burners,
        canner_burners=kitchen.canner_burners,
        horizon=day.finish_by - day.start,
        load=minutes("load", "any"),
        unload=minutes("unload", "any"),
        most_extra=day.most_extra,
        aims=day.aims,
        jars_wait=day.jars_wait,
        counters=kitchen.counters,
        heat_off_by=None if day.heat_off_by is None else max(0, day.heat_off_by - day.start),
    )


def _ways(day: Day, order: Order) -> tuple[tuple[Way, ...], tuple[str, ...]]:
    """Every published row for the order on the kitchen's canners, or why there is none."""
    told = rows(day, order)
    if not told.found and told.small:
        raise InputError(too_small(order, told.small))
    return tuple(_way(day, order, place, row) for place, row in told.found), told.reasons


def _way(day: Day, order: Order, index: int, process: Process) -> Way:
    """One row with what the canner takes when it is full of these jars.

    A canner less than full takes no longer, or (boiling water, filled up with water) about as long,
    so that a full one's minutes serve every load.
    """
    canner, recipe = day.kitchen.canners[index], order.recipe
    capacity = canner.capacity(order.jar)
    load = HeatedLoad(
        method=canner.method,
        elevation_ft=day.kitchen.elevation_ft,
        psi=process.psi or 0,
        jar=order.jar,
        jars=capacity,
        pack=recipe.pack,
        liquid=recipe.liquid is not None,
        minutes=process.minutes,
    )
    times = durations(canner, load)
    heat, come_up, cool = planned(canner.method, order.jar, times)
    return Way(index, capacity, process, heat, come_up, cool, times)


def _job(day: Day, order: Order, ways: tuple[Way, ...]) -> Job:
    work, rates = order.recipe.work, day.kitchen.rates
    not_before, done_by = order.not_before, order.done_by
    return Job(
        name=order.recipe.name,
        title=order.recipe.title,
        jar=order.jar,
        count=order.count,
        hot=order.recipe.pack == "hot",
        perishable=order.recipe.perishable,
        prep_tenths=round(10 * minutes_per_quart(order.recipe, rates) * quarts(order.jar)),
        fill_tenths=round(10 * work.fill_per_jar),
        # A pot made once is brought to the boil again where it stands.
        heat=0 if work.make else round(work.heat),
        make=round(work.make + work.heat) if work.make else 0,
        ways=ways,
        not_before=0 if not_before is None else max(0, not_before - day.start),
        done_by=None if done_by is None else max(0, done_by - day.start),
        first=order.first,
    )


def _oven(canner: Canner) -> Oven:
    method = canner.method
    return Oven(
        name=canner.name,
        method=method,
        own_plug=canner.own_plug,
        vent=minutes("vent", method),
        wait=minutes("wait", method),
    )
