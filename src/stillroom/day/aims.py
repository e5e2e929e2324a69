"""What makes a day a good one, in words a day file may put in order, and what a plan reaches."""

from dataclasses import dataclass

from stillroom.units.clock import lasting

# The order a plan cares for them in, unless the day file says otherwise.
AIMS = ("finish", "hot hours", "waiting", "extra processing", "tidy work")

# What each is, for messages and printed plans.
MEANT = {
    "finish": "from the day's earliest start to the last jar",
    "hot hours": "canners and pots on heat, added up",
    "waiting": "cut food, hot pots and jars ready to lift out wait, added up",
    "extra processing": "beyond their own published times, foods in shared loads added up",
    "tidy work": "preparing, filling and unloading, counted for each person at it",
}


@dataclass(frozen=True, slots=True)
class Reached:
    """What a plan reaches of one aim.

    ``value`` is in ``unit``, "min" or "pieces"; ``bound`` is what no plan that holds the aims
    before it can beat.
    """

    aim: str
    value: int
    bound: int
    unit: str

    @property
    def proved(self) -> bool:
        """Whether the value is known to be the best."""
        return self.value <= self.bound

    @property
    def told(self) -> str:
        """The aim with its value, what it is, and how good the value is known to be, in a line."""
        value = lasting(self.value) if self.unit == "min" else f"{self.value} {self.unit}"
        known = "the least there can be" if self.proved else "perhaps not the least"
        return f"{self.aim}: {value}, {known} ({MEANT[self.aim]})"
