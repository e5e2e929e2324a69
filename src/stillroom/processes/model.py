"""A published process and the answer to a question about one.

Named tuples, where the rest of the house has frozen dataclasses: importing ``dataclasses`` alone
would take a fifth of the time in which ``stillroom process`` has to answer
(``python -m benchmarks.start_up``).
"""

from typing import NamedTuple

METHODS = ("boiling-water", "dial-gauge", "weighted-gauge")
PRESSURE = ("dial-gauge", "weighted-gauge")

# What a refusal may say of itself.
CODES = ("unknown-food", "no-row", "method-barred", "jar-too-large", "above-table", "withheld")


class Process(NamedTuple):
    """One printed cell of a process table, as printed.

    ``psi`` is gauge pressure, ``None`` for boiling water. ``to_ft`` is ``None`` where the table
    prints "above". ``option`` tells apart the alternatives a tomato table offers.
    """

    food: str
    form: str
    pack: str
    jar: str
    method: str
    option: str
    from_ft: int
    to_ft: int | None
    minutes: int
    psi: int | None
    headspace_in: float
    source: str
    place: str
    edition: str
    read_in: tuple[str, ...]
    status: str
    note: str
    remark: str

    def covers(self, feet: int) -> bool:
        """Whether the altitude band holds this elevation; below sea level is the lowest band."""
        return self.from_ft <= max(feet, 0) and (self.to_ft is None or feet <= self.to_ft)

    @property
    def citation(self) -> str:
        """Publication, edition and place in one line."""
        if self.source == "usda-aib539":
            return f"USDA AIB-539 (edition read: {self.edition}), {self.place}"
        return f"Univ. of Georgia Extension, web text ({self.place})"


class Match(NamedTuple):
    """A process that fits the question, with what goes with it.

    ``jar`` is the jar asked for; it differs from ``process.jar`` where a smaller jar takes the
    row of the next larger listed size.
    """

    process: Process
    jar: str
    notes: tuple[str, ...]
    requires: tuple[str, ...]


class Refusal(NamedTuple):
    """No published process answers the question: one of ``CODES``, and why in plain words."""

    code: str
    reason: str


class Answer(NamedTuple):
    """All rows that fit, or a refusal. ``candidates`` are foods the words may have meant."""

    matches: tuple[Match, ...]
    refusal: Refusal | None
    candidates: tuple[str, ...] = ()
    elevation_ft: int = 0

    @property
    def processes(self) -> tuple[Process, ...]:
        """The matching rows alone."""
        return tuple(m.process for m in self.matches)
