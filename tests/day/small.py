"""Small days in sight: problems whose optimum can be found in the head or by trying everything."""

from stillroom.day.problem import Crew, Job, Oven, Problem, Way
from stillroom.processes.model import Process


def row(minutes: int, psi: int | None = None, *, jar: str = "pint", pack: str = "hot") -> Process:
    """A made-up row: these tests are about time, not about food."""
    return Process(
        food="made-up food",
        form="",
        pack=pack,
        jar=jar,
        method="dial-gauge" if psi else "boiling-water",
        option="",
        from_ft=0,
        to_ft=None,
        minutes=minutes,
        psi=psi,
        headspace_in=1.0,
        source="usda-aib539",
        place="nowhere",
        edition="none",
        read_in=("nothing",),
        status="agreed",
        note="",
        remark="",
    )


def oven(
    name: str = "canner",
    *,
    vent: int = 0,
    wait: int = 0,
    own_plug: bool = False,
) -> Oven:
    return Oven(name, "boiling-water", own_plug, vent, wait)


def way(
    canner: int, capacity: int, process: Process, cool: int, *, heat: int = 10, come_up: int = 0
) -> Way:
    """A made-up way; unless said otherwise the canner heats up in ten minutes."""
    return Way(canner, capacity, process, heat, come_up, cool)


def job(
    name: str,
    count: int,
    *ways: Way,
    prep: int = 0,
    fill: int = 0,
    heat: int = 0,
    make: int = 0,
    hot: bool = True,
    perishable: bool = False,
    not_before: int = 0,
    done_by: int | None = None,
    first: bool = False,
) -> Job:
    """An order; prep and fill in whole minutes per jar."""
    return Job(
        name,
        name,
        "pint",
        count,
        hot,
        perishable,
        10 * prep,
        10 * fill,
        heat,
        make,
        tuple(ways),
        not_before,
        done_by,
        first,
    )


def day(
    *jobs: Job,
    ovens: tuple[Oven, ...] | None = None,
    people: int = 1,
    burners: int = 4,
    horizon: int = 1000,
    most_extra: int = 60,
    away: tuple[tuple[int, int], ...] = (),
) -> Problem:
    return Problem(
        jobs=jobs,
        ovens=ovens or (oven(),),
        crews=(Crew(tuple(f"person {n}" for n in range(1, people + 1)), away),),
        burners=burners,
        canner_burners=burners,
        horizon=horizon,
        load=5,
        unload=10,
        most_extra=most_extra,
    )
