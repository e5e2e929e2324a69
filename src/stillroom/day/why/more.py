"""What one canner, helper or burner more would buy: each solved, and told with its limit."""

from collections.abc import Iterator
from dataclasses import replace

from stillroom.day.model import Day
from stillroom.day.plan import Plan
from stillroom.day.solver import Control
from stillroom.day.why.solved import solved
from stillroom.kitchen import Person
from stillroom.units.clock import clock, lasting


def more(plan: Plan, seconds: float, control: Control) -> Iterator[str]:
    """A sentence for each thing more, with so many seconds for each."""
    for what, day in _richer(plan.day):
        found = solved(day, seconds, control)
        if found is None:
            continue
        finish = plan.day.start + found.solution.finish
        if finish < plan.finish:
            saved = lasting(plan.finish - finish)
            how = "proved" if found.solution.optimal else f"best found in {seconds:g} s"
            yield f"{what}: done by {clock(finish)}, {saved} earlier ({how})."
        elif plan.day.start + found.solution.bound >= plan.finish:
            yield f"{what}: no earlier finish (proved)."
        else:
            yield f"{what}: no earlier finish was found in {seconds:g} s."


def _richer(day: Day) -> Iterator[tuple[str, Day]]:
    kitchen = day.kitchen
    burner = replace(
        kitchen, burners=kitchen.burners + 1, canner_burners=kitchen.canner_burners + 1
    )
    for canner in {c.method: c for c in kitchen.canners}.values():
        another = replace(canner, name=f"another {canner.name}")
        orders = tuple(
            replace(o, canners=(*o.canners, another.name)) if canner.name in o.canners else o
            for o in day.orders
        )
        keeps = tuple(replace(k, canner=another.name) for k in day.keeps if k.canner == canner.name)
        yield (
            f"Another {canner.method} canner, with a burner for it",
            replace(
                day,
                kitchen=replace(burner, canners=(*kitchen.canners, another)),
                orders=orders,
                keeps=(*day.keeps, *keeps),
            ),
        )
    helper = Person("another helper", ((day.start, day.finish_by),))
    yield "Another helper, all day", replace(day, helpers=(*day.helpers, helper))
    yield "Another burner", replace(day, kitchen=burner)
