"""Printed rows sorted by the household's canners, and the canners that have none."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from stillroom.kitchen import Canner
from stillroom.processes import Answer, Match
from stillroom.processes.model import METHODS, PRESSURE


@dataclass(frozen=True, slots=True)
class Setting:
    """One printed row as it is shown: the household's canners it is for, and the row."""

    match: Match
    canners: tuple[str, ...]

    @property
    def method(self) -> str:
        """The kind of canner."""
        return self.match.process.method

    @property
    def is_pressure(self) -> bool:
        """Whether it is held at a pressure."""
        return self.method in PRESSURE


class Without(NamedTuple):
    """A kind of canner for which nothing is printed here: which of the household's, and why."""

    method: str
    canners: tuple[str, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class Printed:
    """The rows for one kitchen.

    ``own`` are rows for the household's canners, ``others`` for other kinds; where the kitchen
    has no canner written, all rows are ``own``. ``without`` are kinds that have no row: figures
    of another kind must not stand where somebody looks for theirs.
    """

    own: tuple[Setting, ...] = ()
    others: tuple[Setting, ...] = ()
    without: tuple[Without, ...] = ()


def printed(
    matches: Sequence[Match], canners: Sequence[Canner], ask: Callable[[str], Answer]
) -> Printed:
    """Rows sorted by the household's kinds of canner.

    Who has written no canner is told of a kind that is barred or whose table ends below them.

    Parameters
    ----------
    matches : what was found for every kind of canner; none where all of it was refused
    canners : the household's
    ask : the same question for one kind of canner
    """
    if not matches:
        return Printed()
    by_method = {method: tuple(c.name for c in canners if c.method == method) for method in METHODS}
    settings = tuple(Setting(m, by_method[m.process.method]) for m in matches)
    found = {one.method for one in settings}
    asked = [m for m in METHODS if m not in found and (by_method[m] or not canners)]
    without = []
    for method in asked:
        refusal = ask(method).refusal
        if refusal and (canners or refusal.code in ("method-barred", "above-table")):
            without.append(Without(method, by_method[method], refusal.reason))
    own = tuple(one for one in settings if one.canners or not canners)
    others = tuple(one for one in settings if one not in own)
    return Printed(own, others, tuple(without))
