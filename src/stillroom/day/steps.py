"""A plan told by the clock, how good it is known to be, and the cautions that go with any day."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from stillroom.day.plan import Load, Phase, Plan, Task
from stillroom.units.clock import clock
from stillroom.units.speech import counted

CAUTIONS = (
    "Pressure drops below the target at any moment: bring it back up and time the full process "
    "again from the start (second hand, from the 2015 guide).",
    "A boil that stops: bring it back and time the full process again from the start.",
    "Never force a canner to cool or open it under pressure. Steam burns.",
    "Times between heat-up and opening are planning figures; the gauge, the weight and the boil "
    "decide when timing starts.",
    "Follow your canner's manual. Your local extension office answers what is unclear here.",
)

# Heads what the plan took where the kitchen file is silent (``Plan.stand_ins``).
TAKEN_FOR = "Taken for what the kitchen file does not tell"


@dataclass(frozen=True, slots=True)
class Step:
    """Something that happens, in minutes after midnight.

    ``who`` is a person or persons, or the canner or burner that works by itself. ``load`` is 0
    where the work belongs to a whole order.
    """

    start: int
    end: int
    who: str
    what: str
    load: int

    @property
    def told(self) -> str:
        """What happens, with its load, in one line."""
        return f"{self.what} (load {self.load})" if self.load else self.what


def steps(plan: Plan) -> tuple[Step, ...]:
    """Everything that happens in a day, by the clock.

    Parameters
    ----------
    plan : any plan

    Returns
    -------
    every task once, and for each load when to vent (pressure only), when to start timing and
    when the heat goes off; minutes after midnight, in the order they start

    Source
    ------
    The plan alone. What a canner needs at each phase: AIB-539 Guide 1, as in
    ``data/durations.csv``.
    """
    told = [_task(task) for task in plan.tasks]
    for load in plan.loads:
        told += _canner(load)
    return tuple(sorted(told, key=lambda s: (s.start, s.end, s.load)))


def jars_in_loads(plan: Plan) -> str:
    """How much the day holds: "59 jars in 8 loads"."""
    jars = sum(j.count for load in plan.loads for j in load.jars)
    return f"{counted(Fraction(jars), 'jar')} in {counted(Fraction(len(plan.loads)), 'load')}"


def proof(plan: Plan) -> str:
    """How good the plan is known to be, in one sentence.

    The bound is the earliest finish (clock time) that the solver could not rule out.
    """
    if plan.optimal:
        return "Optimal: no plan under these rules and durations finishes earlier."
    gap = plan.finish - plan.bound
    return (
        f"Feasible: no plan can finish before {clock(plan.bound)}, "
        f"{gap} min earlier than this one; whether one does is not known."
    )


def likely(plan: Plan) -> str:
    """When the day is likely to end, in one sentence (``risk.spread`` says how it is known)."""
    return (
        f"Likely done by {clock(plan.likely.p50)}; by {clock(plan.likely.p90)} in nine days of ten."
    )


def _task(task: Task) -> Step:
    place = f", {task.where}" if task.name in ("Fill and load", "Unload") else ""
    who = ", ".join(task.who) or task.where
    return Step(task.start, task.end, who, f"{task.name}: {task.recipe}{place}", task.load)


def _canner(load: Load) -> Iterator[Step]:
    phases = {phase.name: phase for phase in load.phases}
    process = phases["process"]
    if "vent" in phases:
        vent = phases["vent"]
        what = f"vent {_length(vent)} min, close the vent"
        yield Step(vent.start, vent.end, load.canner, what, load.number)
    reached = f"at {load.psi} lb" if load.psi else "at a full boil"
    what = f"{reached} start timing {load.minutes} min"
    yield Step(process.start, process.end, load.canner, what, load.number)
    ready = load.phases[-2].end
    yield Step(process.end, ready, load.canner, _cooling(load, phases), load.number)


def _cooling(load: Load, phases: dict[str, Phase]) -> str:
    if not load.psi:
        wait = f", wait {_length(phases['cool'])} min" if "cool" in phases else ""
        return f"heat off, lid off{wait}; the jars may come out"
    wait = f", wait {_length(phases['wait'])} min" if "wait" in phases else ""
    return f"heat off; let it cool to zero by itself, open the vent{wait}, open the lid"


def _length(phase: Phase) -> int:
    return phase.end - phase.start
