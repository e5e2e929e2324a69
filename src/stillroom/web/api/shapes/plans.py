"""Plans of days, why they are as they are, and tasks that make them."""

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import BaseModel, Field

from stillroom.web.api.shapes.asked import Question, Short

Local = Annotated[
    str,
    Field(
        pattern=r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d$",
        description="ISO 8601, local time of the kitchen",
    ),
]
Kind = Literal["plan", "rest", "what-if", "why"]


class LoadJars(BaseModel):
    """Jars of one recipe in a load."""

    recipe: str
    jar: str
    count: int
    pack: str
    order: int | None = Field(default=None, description="Which order of the day, from 1")
    published_minutes: int = Field(description="Process time printed for these jars, minutes")
    headspace_in: float = Field(description="Inches")
    source: str


class Phase(BaseModel):
    """One phase of a canner's run, in local time."""

    name: Literal["load", "heat", "vent", "come-up", "process", "cool", "wait", "unload"]
    start: Local
    end: Local


class Duration(BaseModel):
    """How long a phase is taken to last; an estimate, but for the process."""

    phase: str
    minutes: float = Field(description="Minutes")
    low: float = Field(description="Minutes, a short one")
    high: float = Field(description="Minutes, a long one")
    basis: str
    source: str


class Load(BaseModel):
    """The jars of one run of a canner."""

    number: int
    canner: str
    method: str
    burner: str = Field(description='Such as "burner 2", or "own plug"')
    pressure_psi: int | None = Field(description="Gauge pressure, psi; null for boiling water")
    process_minutes: int = Field(description="The longest time printed for its jars, minutes")
    source: str
    jars: list[LoadJars]
    phases: list[Phase]
    durations: list[Duration]


class Task(BaseModel):
    """One piece of work of the day, in local time."""

    name: str
    recipe: str
    who: list[str]
    where: str
    load: int | None = Field(description="Number of the load it belongs to")
    order: int | None = Field(default=None, description="Which order of the day, from 1")
    start: Local
    end: Local


class Lists(BaseModel):
    """What to have ready, in sentences."""

    buy: list[str]
    from_shelf: list[str]
    prep: list[str]
    liquids: list[str]
    jars: list[str]
    lids: list[str]


class Threat(BaseModel):
    """What most often makes the day late."""

    step: str
    share: float = Field(description="Part of the late days")
    minutes_over: int = Field(description="Minutes that it then lasts longer")


class Aim(BaseModel):
    """How far one aim was reached."""

    aim: str
    value: float
    unit: str
    bound: float = Field(description="No plan can do better than this")
    proved: bool


class DoneJars(BaseModel):
    """Jars that were in a canner already."""

    recipe: str
    jar: str
    count: int
    published_minutes: int = Field(description="Process time printed for these jars, minutes")
    order: int | None = Field(default=None, description="Which order of the day, from 1")


class Done(BaseModel):
    """A load that was done before the rest was planned."""

    number: int | None
    jars: list[DoneJars]


class Why(BaseModel):
    """Why a plan ends when it does; as ``stillroom plan --why --json``."""

    chain: list[dict[str, Any]] = Field(description="Steps that lead to the end")
    binds: list[dict[str, Any]] = Field(description="What is busy in them, and for how long")
    trades: list[str]
    more: list[str] = Field(description="What more of something would bring")


class Plan(BaseModel):
    """A plan; as ``stillroom plan --json``. Times are local, ISO 8601."""

    status: Literal["optimal", "feasible"]
    start: Local
    finish: Local
    makespan_minutes: int = Field(description="From the day's start to its finish, minutes")
    bound_minutes: int = Field(description="No plan can be shorter, minutes")
    finish_p50: Local = Field(description="Half of such days end by then")
    finish_p90: Local = Field(description="Nine in ten such days end by then")
    threat: Threat | None
    loads: list[Load]
    tasks: list[Task]
    lists: Lists
    make_first: list[str]
    cost: list[str]
    warnings: list[str]
    stand_ins: list[str]
    aims: list[Aim]
    stopped: bool
    day_start: Local
    now: Local | None = Field(description="When the rest of a day under way was planned")
    done: list[Done]
    elevation_ft: int = Field(description="Feet")
    solver_seconds: float = Field(description="How long the solver took, seconds")
    said: dict[str, Any] | None = Field(None, description="The plan in sentences and steps")


class Because(BaseModel):
    """Why there is no plan."""

    because: list[str]
    try_: list[str] = Field(alias="try", description="What was found to mend it")


class Infeasible(BaseModel):
    """The day cannot be planned. This is an answer, not an error."""

    infeasible: Because


class KeptPlan(BaseModel):
    """The newest plan of a day."""

    day: str
    made_at: datetime
    day_version: int = Field(description="Version of the day that it was made for")
    current: bool = Field(description="Whether day, kitchen and recipes are as they were then")
    answer: Plan | Infeasible
    why: Why | None
    files: list[str] = Field(description="Sheets that were made: pdf, people, calendar, chart")


class News(BaseModel):
    """How far a search is."""

    aim: str = Field(description='What is being improved, or "printing"')
    finish: Local = Field(description="The best finish so far, local time")
    bound: Local | None = Field(description="No plan can end sooner; null where not known yet")
    seconds: float = Field(description="Seconds since it began")


class Solve(BaseModel):
    """A plan being made, or a question about one."""

    id: int
    day: str
    kind: Kind
    change: str = Field(description="Of a what-if: the change")
    state: Literal["waiting", "running", "done", "failed", "dropped"]
    stopping: bool
    news: News | None = Field(description="The latest; null before a first plan is found")
    wrong: str = Field(description='Why there is no answer, "" where there is or may be one')
    answer: Plan | Infeasible | Why | None = Field(description="Once the state is done")


class Ask(Question):
    """What to solve of a day."""

    kind: Kind = Field(
        "plan",
        description="plan: the day. rest: what is left of it, from its status. what-if: the day "
        "with a change. why: why the newest plan is as it is",
    )
    seconds: float = Field(
        20, gt=0, le=3600, allow_inf_nan=False, description="The solver's limit for a plan, seconds"
    )
    change: Short = Field("", description="Of a what-if: one of the day's changes")
    status: dict[str, Any] = Field(
        {}, description="Of a rest: the keys of a status file, without plan"
    )
