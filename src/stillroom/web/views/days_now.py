"""The form of a day under way: the time, and which loads, canners and people are not as planned."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from stillroom.day.replan.previous import previous_from
from stillroom.errors import InputError
from stillroom.store.days import StoredPlan
from stillroom.units.clock import clock
from stillroom.web.views.days_form import Form, field_id

_LOAD = re.compile(r"load\[(\d{1,4})\]\.state")
_ROW = re.compile(r"(load|canner|gone)\[(\d+)\]\.?(\w*)")


@dataclass(frozen=True, slots=True)
class NowLoad:
    """A load of the plan: what it is by the clock, and what the person says of it."""

    number: int
    jars: str
    canner: str
    start: str
    end: str
    by_clock: str
    state: str
    late: str

    @property
    def id(self) -> str:
        """What the addresses of its fields begin with."""
        return f"load-{self.number}"


@dataclass(frozen=True, slots=True)
class NowForm:
    """The whole form; ``wrong_at`` is the field that ``wrong`` belongs to, "" for none."""

    now: str
    loads: tuple[NowLoad, ...]
    canners: tuple[str, ...]
    people: tuple[str, ...]
    out: frozenset[str]
    gone: frozenset[str]
    wrong: str
    wrong_at: str

    @property
    def wrong_id(self) -> str:
        """The address of the field that is wrong, "" for none."""
        return field_id(self.wrong_at)

    def is_wrong(self, load: NowLoad, key: str) -> bool:
        """Whether a field of a load is what is wrong."""
        return self.wrong_at == f"load[{load.number}].{key}"


def now_form(
    plan: StoredPlan, now: datetime, form: Form | None = None, wrong: InputError | None = None
) -> NowForm:
    """The form as it stands: what was typed, or the time and what the clock says."""
    answer, previous = plan.answer, previous_from(plan.answer)
    same_day = now.date().isoformat() == previous.date
    minute = now.hour * 60 + now.minute if same_day else _minute(answer.get("now"), answer)
    said = form.one("now") if form else clock(minute).zfill(5)
    titles = answer.get("said", {}).get("titles", {})
    loads = tuple(
        NowLoad(
            load.number,
            ", ".join(f"{j.count} {j.jar} {titles.get(j.recipe, j.recipe)}" for j in load.jars),
            load.canner,
            clock(load.begun),
            clock(load.unload.end),
            load.by_the_clock(_typed(said, minute), 0),
            form.one(f"load[{load.number}].state") if form else "",
            form.one(f"load[{load.number}].late") if form else "",
        )
        for load in previous.loads
    )
    people = answer.get("said", {}).get("people", ())
    return NowForm(
        said,
        loads,
        tuple(dict.fromkeys(load.canner for load in previous.loads)),
        tuple(person["name"] for person in people),
        frozenset(form.values.get("out", ())) if form else frozenset(),
        frozenset(form.values.get("gone", ())) if form else frozenset(),
        _words(wrong) if wrong else "",
        _place(wrong, form) if wrong and form else "",
    )


def status_of(form: Form) -> dict[str, Any]:
    """The status document of what was typed."""
    made: dict[str, Any] = {"now": form.one("now").strip().removeprefix("0")}
    loads = list(_loads(form))
    if loads:
        made["load"] = loads
    for table, field, key in (("canner", "out", "name"), ("gone", "gone", "who")):
        names = [name for name in form.values.get(field, ()) if name]
        if names:
            made[table] = [{key: name} for name in names]
    return made


def _loads(form: Form) -> Iterator[dict[str, Any]]:
    for name in form.values:
        found = _LOAD.fullmatch(name)
        if not found:
            continue
        row: dict[str, Any] = {"number": int(found[1])}
        late = form.one(f"load[{found[1]}].late").strip()
        if form.one(name):
            row["state"] = form.one(name)
        if late:
            plain = re.fullmatch(r"[+-]?\d{1,5}", late)
            row["late"] = int(late) if plain else late
        if len(row) > 1:
            yield row


def _minute(iso: str | None, answer: Mapping[str, Any]) -> int:
    said = iso or answer["start"]
    return int(said[11:13]) * 60 + int(said[14:16])


def _typed(said: str, else_minute: int) -> int:
    found = re.fullmatch(r"(\d{1,2}):(\d{2})", said.strip())
    return int(found[1]) * 60 + int(found[2]) if found else else_minute


def _place(wrong: InputError, form: Form) -> str:
    """The field of a slip: rows of the document name loads by their place in it."""
    row = _ROW.match(wrong.place)
    if not row:
        return "now" if wrong.place == "now" else ""
    if row[1] == "load":
        loads = list(_loads(form))
        number = loads[min(int(row[2]), len(loads)) - 1]["number"] if loads else 0
        return f"load[{number}].{row[3] if row[3] == 'late' else 'state'}"
    return "out" if row[1] == "canner" else "gone"


def _words(wrong: InputError) -> str:
    said = str(wrong)
    lead, colon, rest = said.partition(": ")
    return rest[:1].upper() + rest[1:] if colon and lead.startswith("status") else said
