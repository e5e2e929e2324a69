"""The log of a run: what was read off a gauge, a pot or a thermometer, line by line."""

from dataclasses import dataclass
from typing import Final, Literal

Kind = Literal["pressure", "boil", "temperature"]

READINGS: Final[dict[str, Kind]] = {
    "psi": "pressure",
    "kpa": "pressure",
    "boil": "boil",
    "temp_f": "temperature",
    "temp_c": "temperature",
}
"""The columns of readings; a file has one of them."""

COLUMNS: Final = ("time", *READINGS, "event", "note")

EVENTS: Final = (
    "lid on", "vent start", "vent end", "timing starts", "heat off", "zero pressure", "lid off",
)  # fmt: skip
"""What the event column may hold. Anything else belongs into the note column."""

REPEATED: Final = "timing starts"
"""The one event that may stand more than once: after a fall, timing starts again."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of a log.

    ``at`` is in s from the first line; ``time`` as it was written. ``psi`` is gauge pressure,
    ``boils`` tells of a full boil, ``kelvin`` is a temperature: the one the file has, ``None`` on
    a line that holds an event or a note only. ``event`` is one of ``EVENTS`` or "".
    """

    line: int
    at: float
    time: str
    psi: float | None = None
    boils: bool | None = None
    kelvin: float | None = None
    event: str = ""
    note: str = ""

    @property
    def has_value(self) -> bool:
        """Whether something was read off at this time, and not only noted."""
        return not (self.psi is None and self.boils is None and self.kelvin is None)


@dataclass(frozen=True, slots=True)
class Log:
    """A whole file: its name, what kind of readings it holds, and every line in order.

    ``clock`` tells whether times were written as times of day.
    """

    file: str
    kind: Kind
    clock: bool
    lines: tuple[Reading, ...]

    @property
    def read_off(self) -> tuple[Reading, ...]:
        """The lines that hold a reading."""
        return tuple(line for line in self.lines if line.has_value)

    def event(self, name: str) -> Reading | None:
        """The first line of an event, or ``None`` where the log does not tell it."""
        return next((line for line in self.lines if line.event == name), None)
