"""What one canner, helper or burner more would buy: each solved, and told with its limit."""

from collections.abc import Iterator

from stillroom.day.changes import with_burner, with_canner, with_helper
from stillroom.day.model import Day
from stillroom.day.plan import Plan
from stillroom.day.solver import Control
from stillroom.day.why.solved import solved
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
    for canner in {c.method: c for c in day.kitchen.canners}.values():
        yield f"Another {canner.method} canner, with a burner for it", with_canner(day, canner)
    yield "Another helper, all day", with_helper(day)
    yield "Another burner", with_burner(day)
