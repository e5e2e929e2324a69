"""One form of the kitchen: what stands in it, what is wrong with it, and keeping it."""

import json
import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256
from typing import Any

from sqlalchemy.orm import Session

from stillroom.errors import InputError
from stillroom.kitchen import kitchen_from
from stillroom.store.kitchens import StoredKitchen, kitchen, save_kitchen
from stillroom.toml_file import table_of
from stillroom.web.views.fields import Day, Pairs, Rows, Typed
from stillroom.web.views.kitchen_parts import Document, Part, canners_of
from stillroom.web.words.mark import _

# A message that quotes a whole page of what was pasted helps nobody.
_LONGEST_TOLD = 500


@dataclass(frozen=True, slots=True)
class Form:
    """A form as it is shown.

    ``values`` are the fields by the browser's names. ``wrong`` is what is wrong and ``at`` the
    field it is about, "" for none. ``theirs`` is what somebody else wrote meanwhile, None where
    that is not why it was not kept. ``was`` marks what the form was made from.
    """

    part: Part
    values: Typed
    was: str
    wrong: str = ""
    at: str = ""
    theirs: Typed | None = None

    def is_wrong(self, at: str) -> bool:
        """Whether it is this field that is wrong."""
        return bool(self.wrong) and self.at == at

    def described(self, at: str, help: str) -> str:
        """The ids of what is told beside a field, for who hears the page; "" for nothing."""
        ids = [f"{at}-help".replace(" ", "_")] if help else []
        return " ".join([*ids, *([f"{at}-wrong".replace(" ", "_")] if self.is_wrong(at) else [])])

    def has(self, names: Collection[str]) -> bool:
        """Whether something stands in one of these fields."""
        return any(said and name.split(".")[0] in names for name, said in self.values.items())

    @property
    def status(self) -> int:
        """The HTTP status of a page that shows it."""
        return 409 if self.theirs is not None else 422 if self.wrong else 200


def form(part: Part, document: Document) -> Form:
    """The form of a part as the kitchen stands."""
    return Form(part, _shown(part, document), mark(part, document))


def mark(part: Part, document: Document) -> str:
    """Tells one state of a part from another, and one canner from another of the same care."""
    held = json.dumps([part.owner(document), part.held(document)], sort_keys=True)
    return sha256(held.encode()).hexdigest()[:16]


def keep(
    session: Session, part: Part, typed: Typed, *, at: datetime, who: str
) -> StoredKitchen | Form:
    """Keep what a form sent, or give the form back with what is wrong.

    Only the part's own keys are written: who edits another part meanwhile is not in the way.

    Returns
    -------
    StoredKitchen : it was kept
    Form : it was not: with what was typed, what is wrong, and what others wrote meanwhile
    """
    stored = kitchen(session)
    document = stored.document if stored else {}
    now = mark(part, document)
    try:
        values = read(part, typed, document, today=at.date())
    except InputError as wrong:
        return Form(part, typed, typed.get("was", ""), _told(wrong), wrong.place)
    if typed.get("was", now) != now:
        told = _("Somebody changed this meanwhile.")
        return Form(part, typed, now, told, theirs=_shown(part, document))
    made = part.into(document, values)
    try:
        return save_kitchen(session, made, version=stored.version if stored else 0, at=at, who=who)
    except InputError as wrong:
        return Form(part, typed, now, _told(wrong), "")


def read(part: Part, typed: Typed, document: Document, *, today: date) -> Document:
    """What was typed as the document's keys, held against the readers.

    Raises
    ------
    InputError
        Its ``place`` is the browser's name of the field.
    """
    values = {one.name: one.read(typed) for one in part.fields}
    _check_typed(part, typed, values, today)
    try:
        kitchen_from(table_of(part.probe(document, values), "kitchen"))
    except InputError as wrong:
        raise _placed(part, typed, wrong) from None
    others = [c.get("name") for n, c in enumerate(canners_of(document), 1) if n != part.canner]
    if part.name == "canner" and values["name"] in others:
        raise _wrong("name", _("Another canner has this name. Give each its own."))
    return values


def _check_typed(part: Part, typed: Typed, values: Mapping[str, Any], today: date) -> None:
    """What a form can say better than the readers of a file."""
    for one in part.fields:
        if one.must and values[one.name] is None:
            raise _wrong(one.place("", typed), _("This cannot be left empty."))
        if isinstance(one, Pairs):
            doubled, halved = one.doubled(typed), one.halved(typed)
            if halved:
                raise _wrong(halved, _("Half of this line is empty. Fill it in or empty it."))
            if doubled:
                raise _wrong(doubled, _("This food stands here twice. Keep one line of it."))
        if isinstance(one, Day) and (values[one.name] or "") > today.isoformat():
            raise _wrong(one.name, _("This day is still to come. Write when it was done."))
        if isinstance(one, Rows) and not isinstance(one, Pairs):
            for number, row in enumerate(values[one.name] or (), 1):
                missing = next((f for f in one.fields if f.must and f.name not in row), None)
                if missing:
                    at = one.place(f"[{number}].{missing.name}", typed)
                    raise _wrong(at, _("This cannot be left empty."))


def _placed(part: Part, typed: Typed, wrong: InputError) -> InputError:
    """The same complaint, at the browser's name of the field, without the file's name of it."""
    prefix = part.prefix.replace(f"[{part.canner}]", "[1]")
    rest = wrong.place.removeprefix(prefix)
    one = next((f for f in part.fields if re.match(re.escape(f.name) + r"(?:[.\[]|$)", rest)), None)
    message = str(wrong).removeprefix(f"kitchen, {wrong.place}: ")
    message = re.sub(r"^kitchen, [\w.\[\]]+(?:, item \d+)?: ", "", message)
    placed = InputError(message[:1].upper() + message[1:])
    placed.place = one.place(rest.removeprefix(one.name).lstrip("."), typed) if one else ""
    return placed


def _wrong(at: str, message: str) -> InputError:
    made = InputError(message)
    made.place = at
    return made


def _told(wrong: InputError) -> str:
    said = str(wrong)
    if len(said) <= _LONGEST_TOLD:
        return said
    return f"{said[: _LONGEST_TOLD // 2]} … {said[-_LONGEST_TOLD // 2 :]}"


def _shown(part: Part, document: Document) -> dict[str, str]:
    table = part.of(document)
    shown: dict[str, str] = {}
    for one in part.fields:
        shown |= one.show(table.get(one.name))
    return shown


def differences(form: Form) -> list[tuple[str, str, str]]:
    """Label, what was typed and what somebody else wrote, for each field that differs."""
    told = []
    theirs = form.theirs or {}
    for one in form.part.fields:
        for name in {**theirs, **form.values}:
            if name != one.name and not name.startswith(f"{one.name}."):
                continue
            mine, other = form.values.get(name, "").strip(), theirs.get(name, "")
            if mine != other:
                beyond = name.removeprefix(f"{one.name}.") if name != one.name else ""
                told.append((one.inner_label(beyond) if beyond else one.label, mine, other))
    return told
