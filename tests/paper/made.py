"""A plan made by hand, to print: no solver stands between the test and the paper."""

from datetime import date
from fractions import Fraction
from itertools import count

from stillroom.day.model import Day
from stillroom.day.plan import Jars, Load, Phase, Plan, Spread, Task
from stillroom.kitchen import Canner, Kitchen, Person
from stillroom.processes.model import Process
from stillroom.recipes.scale import Item, Lists, Ware
from stillroom.units.amounts import Amount
from tests.day import small


def row(minutes: int, psi: int | None) -> Process:
    """A made-up row with a headspace and a place to read back."""
    made_up = small.row(minutes, psi)
    return made_up._replace(headspace_in=1.25, place="Guide 4 p. 4-8", edition="1994")


def load(
    number: int, canner: Canner, title: str, at: int, minutes: int, psi: int | None, burner: str
) -> Load:
    """Load 5, heat 15, (vent 10, come up 5,) process, cool 30, wait 10, unload 10 after 5 more."""
    lengths = {"load": 5, "heat": 15, "vent": 10, "come-up": 5}
    if psi is None:
        del lengths["vent"], lengths["come-up"]
    lengths |= {"process": minutes, "cool": 30, "wait": 10}
    phases = []
    for name, length in lengths.items():
        phases.append(Phase(name, at, at + length))
        at += length
    phases.append(Phase("unload", at + 5, at + 15))
    jars = (Jars(title, title, "pint", 7, "hot", row(minutes, psi)),)
    return Load(number, canner.name, canner.method, psi, minutes, burner, jars, tuple(phases))


def item(text: str) -> Item:
    return Item(text, "food", "", Amount(Fraction(1), "g"))


def plan(
    loads: tuple[tuple[int, int | None], ...] = ((75, 13), (20, None)),
    canners: int = 2,
    *,
    title: str = "Snap beans",
    name: str = "Test kitchen",
    people: tuple[str, ...] = ("Marit", "Jonas"),
    canner_name: str = "canner",
    lines: int = 1,
) -> Plan:
    """Loads of (minutes, psi), dealt to the canners in turn, each canner's one after another.

    A canner of even number has a dial gauge, the others boil; psi follows from the canner.
    """
    owned = tuple(
        Canner(f"{canner_name} {n}", "boiling-water" if n % 2 else "dial-gauge", {"pint": 9})
        for n in range(canners)
    )
    free = [7 * 60 + 30] * canners
    made: list[Load] = []
    tasks: list[Task] = []
    for number, (minutes, psi) in zip(count(1), loads, strict=False):
        n = (number - 1) % canners
        made.append(load(number, owned[n], title, free[n], minutes, psi, f"burner {n + 1}"))
        at, who = made[-1].start, (people[n % len(people)],)
        tasks.append(Task("Prepare", title, who, "counter", at - 15, at - 10, number))
        tasks.append(
            Task("Heat and keep hot", title, (), f"burner {canners + 1}", at - 20, at, number)
        )
        tasks.append(Task("Fill and load", title, who, owned[n].name, at - 10, at, number))
        lifted = made[-1].phases[-1]
        tasks.append(Task("Unload", title, who, owned[n].name, lifted.start, lifted.end, number))
        free[n] = made[-1].end + 15
    finish = max(one.end for one in made)
    hours = ((7 * 60, 24 * 60),)
    return Plan(
        day=Day(
            date=date(2026, 10, 17),
            start=7 * 60,
            finish_by=24 * 60,
            kitchen=Kitchen(
                name=name,
                elevation_ft=5430,
                canners=owned,
                burners=canners + 1,
                canner_burners=canners,
                people=tuple(Person(p, hours) for p in people),
                jars={},
                lids=0,
                bands=0,
                pantry={},
            ),
            helpers=(),
            orders=(),
            most_extra=0,
        ),
        optimal=False,
        start=7 * 60,
        finish=finish,
        bound=finish - 35,
        likely=Spread(finish + 10, finish + 40),
        seconds=1.0,
        loads=tuple(made),
        tasks=tuple(sorted(tasks, key=lambda t: t.start)),
        lists=Lists(
            buy=tuple(item(f"{title}: {n} lb, buy it") for n in range(1, lines + 1)),
            from_shelf=(item("canning salt: 7/8 cup from the shelf"),),
            prep=(item("beans, cut: 14 lb"),),
            liquids=(item("water, boiling: 9 cups"),),
            jars=(Ware("pint jars: 14 needed, none on hand, get 14", "pint jars", 14, 0, 14),),
            lids=(Ware("lids: 14 new ones needed, get 14", "lids", 14, 0, 14),),
            bands=(),
            cautions=("Cook these jars in 2 batches.",),
        ),
        warnings=("Dial gauge: use it only if it was tested this year.",),
    )
