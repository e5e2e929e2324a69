"""What the person pinned down in a day file, and which of it leaves the day without a plan."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from stillroom.day.model import Day, Order
from stillroom.day.orders import Unplannable
from stillroom.units.clock import clock


@dataclass(frozen=True, slots=True)
class Pin:
    """A pin in words, what to do to be rid of it, and the same day without it."""

    told: str
    mend: str
    without: Day


def pins(day: Day) -> tuple[Pin, ...]:
    """Everything a day file pins down beyond hours, orders and hands, in the file's order."""
    return tuple(_pins(day))


def _pins(day: Day) -> Iterator[Pin]:
    if day.heat_off_by is not None:
        yield Pin(
            f"nothing on heat after {clock(day.heat_off_by)} (heat_off_by)",
            "Leave out heat_off_by, or write a later hour.",
            replace(day, heat_off_by=None),
        )
    for i, order in enumerate(day.orders):
        title = order.recipe.title
        if order.first:
            yield Pin(
                f"{title} first into the canners (first)",
                f"Leave out first at {title}.",
                _with(day, i, replace(order, first=False)),
            )
        if order.not_before is not None:
            yield Pin(
                f"no work on {title} before {clock(order.not_before)} (not_before)",
                f"Leave out not_before at {title}, or write an earlier hour.",
                _with(day, i, replace(order, not_before=None)),
            )
        if order.done_by is not None:
            yield Pin(
                f"{title} out by {clock(order.done_by)} (done_by)",
                f"Leave out done_by at {title}, or write a later hour.",
                _with(day, i, replace(order, done_by=None)),
            )
    for i, rest in enumerate(day.breaks):
        yield Pin(
            f"the break of {', '.join(rest.who)} from {clock(rest.start)} to {clock(rest.end)}",
            f"Leave out or move {rest.where}.",
            replace(day, breaks=(*day.breaks[:i], *day.breaks[i + 1 :])),
        )
    for i, keep in enumerate(day.keeps):
        yield Pin(
            f"the {keep.canner} kept for {', '.join((*keep.recipes, *keep.jars))}",
            f"Leave out {keep.where}.",
            replace(day, keeps=(*day.keeps[:i], *day.keeps[i + 1 :])),
        )


def _with(day: Day, i: int, order: Order) -> Day:
    return replace(day, orders=(*day.orders[:i], order, *day.orders[i + 1 :]))


def binding_pins(day: Day, opens: Callable[[Day], bool]) -> Unplannable | None:
    """The pins without any one of which the day was found to have a plan, or ``None``.

    Where no single one does it but leaving out all of them does, they are named together.

    Parameters
    ----------
    day : one without a plan
    opens : whether a changed day was found to have a plan
    """
    there = pins(day)
    if not there:
        return None
    alone = [pin for pin in there if opens(pin.without)]
    if alone:
        because = tuple(
            f"No plan keeps this pin: {pin.told}; without it one was found." for pin in alone
        )
        return Unplannable(because, tuple(pin.mend for pin in alone))
    bare = replace(
        day,
        heat_off_by=None,
        breaks=(),
        keeps=(),
        orders=tuple(replace(o, first=False, not_before=None, done_by=None) for o in day.orders),
    )
    if len(there) > 1 and opens(bare):
        together = "; ".join(pin.told for pin in there)
        return Unplannable(
            (f"No plan keeps these pins together: {together}.",),
            ("Leave out some of them: without all of them a plan was found.",),
        )
    return None
