"""What matters today: the day under way or next, and what needs a decision."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Any, Literal

from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.kitchen.checks import State, open_checks
from stillroom.recipes.check.own import judge
from stillroom.store.days import DayLine, StoredPlan, days, plan_of
from stillroom.store.household import Household, household
from stillroom.store.recipes import recipe_titles
from stillroom.units.clock import clock
from stillroom.web.views.days_plan import StepLine
from stillroom.web.views.recipes_called import called
from stillroom.web.words.mark import _
from stillroom.web.words.on_page import on_page

# What is further ahead can wait; choices of this project.
_AHEAD = timedelta(days=45)
_MOST_DAYS = 6
_NEXT_STEPS = 5


@dataclass(frozen=True, slots=True)
class Line:
    """A day ahead. ``state`` is "open", "planned", "stale" or "impossible"."""

    day: DayLine
    plan: StoredPlan | None
    titles: Mapping[str, str] = field(default_factory=dict)

    @property
    def key(self) -> str:
        """Its address below /days."""
        return self.day.key

    @property
    def title(self) -> str:
        """What the household calls it, "" where it did not."""
        return self.day.title

    @property
    def date(self) -> date:
        """Its date; a day without one is not ahead."""
        return self.day.date or date.max

    @property
    def orders(self) -> list[Mapping[str, Any]]:
        """What is wanted, as it was written."""
        said = self.day.document.get("order")
        return [one for one in said if isinstance(one, dict)] if isinstance(said, list) else []

    @property
    def jars(self) -> int:
        """How many jars are wanted."""
        counts = (one.get("jars") for one in self.orders)
        return sum(count for count in counts if isinstance(count, int))

    @property
    def what(self) -> str:
        """What the recipes are called."""
        names = (called(one.get("recipe"), self.titles) for one in self.orders)
        return ", ".join(dict.fromkeys(names))

    @property
    def state(self) -> str:
        """How far it is."""
        if self.plan is None:
            return "open"
        if not self.plan.current:
            return "stale"
        return "impossible" if "infeasible" in self.plan.answer else "planned"

    @property
    def finish(self) -> str:
        """When its plan ends, by the clock; "" without a plan."""
        said = self.plan.answer.get("finish") if self.plan else None
        return _clock(said, self.date) if said else ""


@dataclass(frozen=True, slots=True)
class Today:
    """A day that is today. ``under_way`` are steps that have begun, ``ahead`` the next ones.

    ``more`` counts the steps after those; ``is_over`` that the last one has ended.
    """

    line: Line
    under_way: tuple[StepLine, ...] = ()
    ahead: tuple[StepLine, ...] = ()
    more: int = 0
    is_over: bool = False


@dataclass(frozen=True, slots=True)
class Decision:
    """Something that wants deciding: words with figures for the catalogue, and where it is done."""

    words: str
    path: str
    figures: Mapping[str, object]
    mark: Literal["unconfirmed", "barred"] = "unconfirmed"


@dataclass(frozen=True, slots=True)
class Now:
    """The first page. ``feet`` is None where the kitchen's elevation is not known."""

    feet: int | None
    kitchen_name: str
    today: tuple[Today, ...]
    following: Line | None
    decisions: tuple[Decision, ...]
    has_kitchen: bool
    has_days: bool

    @property
    def is_new(self) -> bool:
        """Whether the household has steps of the beginning before it."""
        return not (self.has_kitchen and self.has_days)


def shown(session: Session, moment: datetime) -> Now:
    """The first page at a moment of the household's own clock."""
    home, every = household(session), days(session)
    ahead = sorted(
        (one for one in every if one.date and one.date >= moment.date()),
        key=lambda one: (one.date or date.max, one.key),
    )
    # Plans are large: only those that are looked at are read.
    near = [one for one in ahead if one.date and one.date <= moment.date() + _AHEAD] or ahead[:1]
    titles = recipe_titles(session)
    coming = [Line(one, plan_of(session, one.key), titles) for one in near[:_MOST_DAYS]]
    later = [line for line in coming if line.date > moment.date()]
    return Now(
        feet=home.elevation_ft,
        kitchen_name=home.kitchen.name if home.kitchen else "",
        today=tuple(_today(line, moment) for line in coming if line.date == moment.date()),
        following=later[0] if later else None,
        decisions=(*_of_kitchen(home, moment.date()), *_of_days(home, coming)),
        has_kitchen=home.kitchen is not None,
        has_days=bool(every),
    )


def _today(line: Line, moment: datetime) -> Today:
    """A day with its steps, where a plan that still holds tells them."""
    plan = line.plan
    if plan is None or line.state != "planned":
        return Today(line)
    local = moment.replace(tzinfo=None)
    steps = [
        (datetime.fromisoformat(step["start"]), datetime.fromisoformat(step["end"]), step)
        for step in plan.answer.get("said", {}).get("steps", ())
    ]
    begun = [_step(step, moment) for start, end, step in steps if start <= local < end]
    ahead = [_step(step, moment) for start, _end, step in steps if start > local]
    is_over = bool(steps) and not begun and not ahead
    return Today(
        line, tuple(begun), tuple(ahead[:_NEXT_STEPS]), max(0, len(ahead) - _NEXT_STEPS), is_over
    )


def _step(step: Mapping[str, Any], moment: datetime) -> StepLine:
    start, end = (_clock(step[key], moment.date()) for key in ("start", "end"))
    return StepLine(start, end, step["who"], step["what"], step["load"])


def _clock(iso: str, day: date) -> str:
    at = datetime.fromisoformat(iso)
    return clock((at.date() - day).days * 24 * 60 + at.hour * 60 + at.minute)


def _of_kitchen(home: Household, today: date) -> Iterator[Decision]:
    if home.lacks and home.stored:
        said = on_page(str(home.lacks))
        yield Decision(_("The kitchen is not finished: %(said)s"), "/kitchen", {"said": said})
    if not home.kitchen:
        return
    canners = home.kitchen.canners
    rest = 0
    for standing in open_checks(canners, today):
        if standing.check.check != "gauge_tested":
            rest += 1
            continue
        path = f"/kitchen/canners/{canners.index(standing.canner) + 1}"
        figures = {"canner": standing.canner.name}
        if standing.state is State.REPLACE:
            words = _("The dial gauge of %(canner)s was off by more than 1 lb: replace it")
            yield Decision(words, path, figures, "barred")
        elif standing.state is State.NEVER:
            words = _("When was the dial gauge of %(canner)s last tested?")
            yield Decision(words, path, figures)
        else:
            words = _("The dial gauge of %(canner)s is due for its yearly test")
            yield Decision(words, path, figures)
    if rest:
        words = _("Canners: checks to do or to write down: %(count)s")
        yield Decision(words, "/kitchen#canners", {"count": rest})


_DAY = {
    "open": _("%(day)s is not planned yet"),
    "stale": _("%(day)s: something changed since it was planned. Plan it again"),
    "impossible": _("%(day)s cannot be done as it is written"),
}


def _of_days(home: Household, coming: Iterable[Line]) -> Iterator[Decision]:
    for line in coming:
        figures = {"day": line.title or line.date}
        if line.state in _DAY:
            mark: Literal["unconfirmed", "barred"] = (
                "barred" if line.state == "impossible" else "unconfirmed"
            )
            yield Decision(_DAY[line.state], f"/days/{line.key}", figures, mark)
        yield from _of_recipes(home, line)


def _of_recipes(home: Household, line: Line) -> Iterator[Decision]:
    """Recipes of a day that are not tested."""
    names = (order.get("recipe") for order in line.orders)
    for name in dict.fromkeys(name for name in names if isinstance(name, str)):
        figures: dict[str, object] = {"day": line.title or line.date}
        try:
            recipe = home.recipe(name)
        except InputError as wrong:
            figures["said"] = str(wrong)
            yield Decision(_("%(day)s: %(said)s"), f"/days/{line.key}", figures)
            continue
        verdict = judge(recipe).verdict
        figures |= {"recipe": recipe.title}
        if verdict == "barred":
            words = _("%(recipe)s, for %(day)s: a published rule forbids it")
            yield Decision(words, f"/recipes/{name}/check", figures, "barred")
        elif verdict != "tested":
            words = _("%(recipe)s, for %(day)s: nothing published covers it")
            yield Decision(words, f"/recipes/{name}/check", figures)
