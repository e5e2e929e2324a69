"""The published rows that a day's orders rest on, or why an order has none. No heat, no solver."""

from collections.abc import Sequence
from dataclasses import dataclass

from stillroom.day.model import Day, Order
from stillroom.kitchen import Canner, Kitchen
from stillroom.processes import Answer
from stillroom.processes.model import METHODS, Process
from stillroom.recipes.process import rows_of


@dataclass(frozen=True, slots=True)
class Rows:
    """Where an order may go.

    ``found`` are canners, by their place in the kitchen from 0, each with a published row;
    ``reasons`` why it may not go into others; ``small`` canners with a row that hold no such jar.
    """

    found: tuple[tuple[int, Process], ...]
    reasons: tuple[str, ...]
    small: tuple[Canner, ...]


def rows(day: Day, order: Order) -> Rows:
    """Every published row for the order on the kitchen's canners, or why there is none."""
    found: list[tuple[int, Process]] = []
    reasons: list[str] = []
    small: list[Canner] = []
    for place, canner in enumerate(day.kitchen.canners):
        if order.canners and canner.name not in order.canners:
            continue
        if kept := kept_for_others(day, order, canner):
            reasons.append(kept)
            continue
        answer = ask(day, order, canner.method)
        if answer.refusal:
            reasons.append(f"{order.recipe.title}: {answer.refusal.reason}")
        elif not canner.capacity(order.jar):
            small.append(canner)
        else:
            found += [(place, process) for process in answer.processes]
    return Rows(tuple(found), tuple(reasons), tuple(small))


def ask(day: Day, order: Order, method: str) -> Answer:
    """The rows published for an order in canners of one method, at the kitchen's elevation."""
    return rows_of(order.recipe, order.jar, day.kitchen.elevation_ft, method)


def kept_for_others(day: Day, order: Order, canner: Canner) -> str:
    """Why the canner is not for this order, or ""."""
    for keep in day.keeps:
        if keep.canner == canner.name and not keep.takes(order):
            meant = " and ".join(
                part for part in (", ".join(keep.recipes), ", ".join(keep.jars)) if part
            )
            return f"{order.recipe.title}: {keep.where} keeps the {canner.name} for {meant}."
    return ""


def mend_refused(day: Day) -> tuple[str, ...]:
    """For an order without a process here: a canner the tables have one for, or leaving it out."""
    kitchen = day.kitchen
    mend = []
    for order in day.orders:
        title = order.recipe.title
        for keep in day.keeps:
            if not keep.takes(order) and ask(day, order, _method(kitchen, keep.canner)).matches:
                mend.append(f"Take out {keep.where}, or let the {keep.canner} take {title} too.")
        fitting = {m for m in METHODS if ask(day, order, m).matches}
        named = order.canners or tuple(c.name for c in kitchen.canners)
        if any(c.method in fitting for c in kitchen.canners if c.name in named):
            continue
        owned = [c.name for c in kitchen.canners if c.method in fitting]
        if owned:
            mend.append(f"Name {' or '.join(owned)} among the canners of {title}, or none.")
        elif fitting:
            others = " or ".join(m for m in METHODS if m in fitting)
            mend.append(f"Add a {others} canner: {title} has a published process there.")
        mend.append(f"Leave out {title}, or choose another recipe or jar.")
    return tuple(dict.fromkeys(mend))


def too_small(order: Order, canners: Sequence[Canner]) -> str:
    """That none of the canners with a process for an order holds its jars."""
    names = ", ".join(f"{c.name} holds {', '.join(c.holds)}" for c in canners)
    return (
        f"{order.where}: no canner for {order.recipe.title} is big enough for {order.jar} jars "
        f"({names}). Order a smaller jar, or say in the kitchen file how many {order.jar} "
        "jars stand in a canner."
    )


def _method(kitchen: Kitchen, name: str) -> str:
    return next(canner.method for canner in kitchen.canners if canner.name == name)
