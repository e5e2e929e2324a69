"""A plan's page: from its document to what is shown, without the plan's own value."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stillroom.day.aims import MEANT
from stillroom.errors import InputError
from stillroom.recipes.wording import titled
from stillroom.store.days import StoredPlan
from stillroom.units.clock import lasting, parse_clock
from stillroom.web.views.days_timetable import Timetable, clock_of, minute_of, timetable
from stillroom.web.words.mark import _

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class JarsLine:
    """Jars of a load."""

    title: str
    count: int
    jar: str
    pack: str
    headspace_in: float
    longer: int


@dataclass(frozen=True, slots=True)
class LoadCard:
    """A load as one works from it. ``minutes`` and ``psi`` are the published ones."""

    number: int
    canner: str
    burner: str
    minutes: int
    psi: int | None
    in_at: str
    timed_from: str
    timed_to: str
    out_at: str
    jars: tuple[JarsLine, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StepLine:
    """Something that happens: clock times, who, what, and of which load (0: of none)."""

    start: str
    end: str
    who: str
    what: str
    load: int


@dataclass(frozen=True, slots=True)
class ShownPlan:
    """A plan as its page shows it."""

    made_at: Any
    current: bool
    start: str
    finish: str
    p50: str
    p90: str
    half_at: int
    optimal: bool
    stopped: bool
    counts: str
    proof: str
    threat: str
    now: str
    done: tuple[str, ...]
    table: Timetable
    loads: tuple[LoadCard, ...]
    steps: tuple[StepLine, ...]
    lists: tuple[tuple[str, tuple[str, ...]], ...]
    aims: tuple[str, ...]
    warnings: tuple[str, ...]
    taken: tuple[str, ...]
    cautions: tuple[str, ...]
    why: Json | None
    files: tuple[str, ...]

    def late(self, finish_by: object) -> bool:
        """Whether half of such days end after the hour that the household asked for."""
        try:
            return self.half_at > parse_clock(str(finish_by))
        except InputError:
            return False


_LISTS = (
    ("make_first", _("Make first")),
    ("buy", _("Buy")),
    ("from_shelf", _("From the shelf")),
    ("prep", _("Prepare")),
    ("liquids", _("Liquids")),
    ("jars", _("Jars")),
    ("lids", _("Lids and bands")),
    ("cost", _("Cost")),
)


def shown_plan(plan: StoredPlan, zoom: str = "") -> ShownPlan:
    """The page of a plan that was made."""
    answer = plan.answer
    said = answer.get("said", {})
    return ShownPlan(
        made_at=plan.made_at,
        current=plan.current,
        start=clock_of(answer["start"]),
        finish=_ends(answer, "finish"),
        p50=_ends(answer, "finish_p50"),
        p90=_ends(answer, "finish_p90"),
        half_at=_minute(answer, "finish_p50"),
        optimal=answer["status"] == "optimal",
        stopped=bool(answer.get("stopped")),
        counts=said.get("counts", ""),
        proof=said.get("proof", ""),
        threat=said.get("threat", ""),
        now=clock_of(answer["now"]) if answer.get("now") else "",
        done=tuple(_done(answer.get("done", ()), said)),
        table=timetable(answer, zoom),
        loads=tuple(_load(load, said) for load in answer["loads"]),
        steps=tuple(_steps(said.get("steps", ()))),
        lists=tuple(_lists(answer)),
        aims=tuple(said.get("aims", ())),
        warnings=tuple(answer["warnings"]),
        taken=tuple(answer.get("stand_ins", ())),
        cautions=tuple(said.get("cautions", ())),
        why=plan.why,
        files=plan.files,
    )


def _ends(answer: Json, key: str) -> str:
    """When it ends; past midnight with the day, for "0:40" alone reads as earlier."""
    same = answer[key][:10] == answer["day_start"][:10]
    return clock_of(answer[key]) if same else f"{clock_of(answer[key])} ({answer[key][:10]})"


def _load(load: Json, said: Json) -> LoadCard:
    phases = load["phases"]
    process = next(phase for phase in phases if phase["name"] == "process")
    return LoadCard(
        number=load["number"],
        canner=load["canner"],
        burner=load["burner"],
        minutes=load["process_minutes"],
        psi=load["pressure_psi"],
        in_at=clock_of(phases[0]["start"]),
        timed_from=clock_of(process["start"]),
        timed_to=clock_of(process["end"]),
        out_at=clock_of(phases[-1]["end"]),
        jars=tuple(
            JarsLine(
                said.get("titles", {}).get(jars["recipe"], jars["recipe"]),
                jars["count"],
                jars["jar"],
                jars["pack"],
                jars["headspace_in"],
                load["process_minutes"] - jars["published_minutes"],
            )
            for jars in load["jars"]
        ),
        sources=tuple(dict.fromkeys(jars["source"] for jars in load["jars"])),
    )


def _steps(steps: Iterable[Json]) -> Iterator[StepLine]:
    for step in steps:
        yield StepLine(
            clock_of(step["start"]), clock_of(step["end"]), step["who"], step["what"], step["load"]
        )


def _lists(answer: Json) -> Iterator[tuple[str, tuple[str, ...]]]:
    for key, title in _LISTS:
        lines = answer["lists"].get(key) or answer.get(key) or ()
        if lines:
            titles = answer.get("said", {}).get("titles", {})
            yield title, tuple(titled(line, titles) for line in lines)


def _done(done: Iterable[Json], said: Json) -> Iterator[str]:
    titles = said.get("titles", {})
    for load in done:
        jars = ", ".join(
            f"{j['count']} {j['jar']} {titles.get(j['recipe'], j['recipe'])}" for j in load["jars"]
        )
        yield f"{load['number']}: {jars}" if load["number"] else jars


@dataclass(frozen=True, slots=True)
class Tried:
    """What a change would bring: minutes earlier (below 0 later), and how well that is known."""

    told: str
    state: str
    earlier: int
    finish: str
    loads: int
    hot: int
    proved: bool
    wrong: str

    @property
    def how_much(self) -> str:
        """The minutes, as people say them."""
        return lasting(abs(self.earlier))


def difference(told: str, state: str, wrong: str, before: Json, after: Json | None) -> Tried:
    """A changed day's plan held against the plan that is there.

    Parameters
    ----------
    before, after : documents of plans; ``after`` is ``None`` while it is being made
    """
    if after is None or "infeasible" in after:
        reasons = after["infeasible"]["because"] if after else []
        return Tried(told, state, 0, "", 0, 0, False, wrong or " ".join(reasons))
    earlier = _finish(before) - _finish(after)
    # A finish that no plan can beat makes the difference certain on that side.
    proved = after["status"] == "optimal" and before["status"] == "optimal"
    loads = len(after["loads"]) - len(before["loads"])
    hot = _aim(after, "hot hours") - _aim(before, "hot hours")
    return Tried(told, state, earlier, clock_of(after["finish"]), loads, hot, proved, "")


def _finish(plan: Json) -> int:
    return _minute(plan, "finish")


def _minute(plan: Json, key: str) -> int:
    return minute_of(plan[key], datetime.fromisoformat(plan["day_start"]).date())


def _aim(plan: Json, name: str) -> int:
    assert name in MEANT
    return next((aim["value"] for aim in plan.get("aims", ()) if aim["aim"] == name), 0)
