"""What a kitchen is: its canners and burners, its people, what is on hand."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from stillroom.units.amounts import Amount
from stillroom.units.jars import SIZES
from stillroom.units.prices import Price


@dataclass(frozen=True, slots=True)
class TimedRun:
    """A run of a canner that the household timed, in minutes; 0 where a phase was not timed.

    ``lb`` is the pressure it was held at, 0 where that is not told; ``liquid`` whether the food
    stood in liquid, ``None`` where that is not told.
    """

    jar: str
    jars: int
    pack: str
    lb: int
    heat: float
    come_up: float
    cool: float
    liquid: bool | None = None


@dataclass(frozen=True, slots=True)
class Fire:
    """What is known of a canner as a heated pot; "" or 0 where the kitchen file does not tell.

    ``watts`` is what the burner uses, ``kilograms`` the empty canner with lid and rack,
    ``water`` U.S. quarts. From it durations are foretold (``heat/durations.py``).
    """

    kind: str = ""
    watts: float = 0.0
    wall: str = ""
    kilograms: float = 0.0
    water: float = 0.0
    timed: tuple[TimedRun, ...] = ()


@dataclass(frozen=True, slots=True)
class Care:
    """When parts of a canner were last looked at; None where that is not written.

    ``gauge_reads_high`` is by how many pounds the dial gauge read high when it was tested, below
    0 where it read low.
    """

    gauge_tested: date | None = None
    gauge_reads_high: float = 0.0
    has_gasket: bool = True
    gasket_checked: date | None = None
    vent_checked: date | None = None
    plug_checked: date | None = None
    rack_checked: date | None = None


@dataclass(frozen=True, slots=True)
class Canner:
    """One canner. ``holds`` counts jars of each size it takes at once, all layers together."""

    name: str
    method: str
    holds: Mapping[str, int]
    own_plug: bool = False
    fire: Fire = Fire()
    care: Care = Care()

    def capacity(self, jar: str) -> int:
        """Jars of one size in a load; a size not listed takes the count of the next larger one.

        Zero where the jar is larger than any the canner is said to hold.
        """
        larger = [size for size in SIZES[SIZES.index(jar) :] if size in self.holds]
        return self.holds[larger[0]] if larger else 0


@dataclass(frozen=True, slots=True)
class Person:
    """A pair of hands and the hours it is there, in minutes after midnight.

    ``leaves`` is the work left to others: "lifting" (filling and emptying canners), "pressure
    canner" (that too, and answering for one on heat).
    """

    name: str
    hours: tuple[tuple[int, int], ...]
    leaves: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What a household owns and where it stands.

    ``canner_burners`` of the ``burners`` can carry a canner; the rest carry pots only. ``prices``
    are what the household wrote of its shop, by food; none is guessed. ``rates`` are the
    household's own minutes of preparing a pound, by kind of work; ``counters`` places to prepare
    food at, ``None`` where there are enough.
    """

    name: str
    elevation_ft: int
    canners: tuple[Canner, ...]
    burners: int
    canner_burners: int
    people: tuple[Person, ...]
    jars: Mapping[str, int]
    lids: int
    bands: int
    pantry: Mapping[str, Amount]
    prices: Mapping[str, Price] = field(default_factory=dict)
    rates: Mapping[str, float] = field(default_factory=dict)
    counters: int | None = None
