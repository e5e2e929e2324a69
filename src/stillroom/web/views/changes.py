"""Changes in the words of a page."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from stillroom.store.changes import StoredChange
from stillroom.web.words.mark import _

Translate = Callable[[str], str]

_SAID = {
    ("kitchen", "add"): _("Kitchen written down"),
    ("kitchen", "change"): _("Kitchen changed: %(keys)s"),
    ("kitchen", "remove"): _("Kitchen removed"),
    ("kitchen", "undo"): _("Undone: change of the kitchen"),
    ("recipe", "add"): _("Recipe added: %(title)s"),
    ("recipe", "change"): _("Recipe changed: %(title)s"),
    ("recipe", "remove"): _("Recipe removed: %(title)s"),
    ("recipe", "undo"): _("Undone: change of the recipe %(title)s"),
    ("day", "add"): _("Day added: %(title)s"),
    ("day", "change"): _("Day changed: %(title)s"),
    ("day", "remove"): _("Day removed: %(title)s"),
    ("day", "undo"): _("Undone: change of the day %(title)s"),
}
_KEYS = {
    "name": _("name"),
    "elevation": _("elevation"),
    "canner": _("canners"),
    "person": _("people"),
    "burners": _("burners"),
    "burners_for_canners": _("burners"),
    "burner_kind": _("burners"),
    "burner_power": _("burners"),
    "counters": _("counters"),
    "jars": _("jars"),
    "lids": _("lids"),
    "bands": _("bands"),
    "pantry": _("pantry"),
    "prices": _("prices"),
    "rates": _("work rates"),
}


@dataclass(frozen=True, slots=True)
class Line:
    """A change as the page lists it.

    ``latest``: it stands there as this change left it, so that it can be undone. ``path`` shows
    what was changed; "" where that is no longer there.
    """

    change: StoredChange
    latest: bool
    path: str


def told(made: StoredChange, translate: Translate) -> str:
    """A change in one line."""
    said = translate(_SAID[made.kind, made.what])
    keys = dict.fromkeys(translate(_KEYS[key]) for key in _changed(made) if key in _KEYS)
    title = made.title if made.kind != "day" else made.title or made.row
    return said % {"title": title, "keys": ", ".join(keys) or translate(_("nothing"))}


def place_of(made: StoredChange) -> str:
    """The page that shows what was changed; its list where that is no longer there."""
    if made.kind == "kitchen":
        return "/kitchen"
    room = "/recipes" if made.kind == "recipe" else "/days"
    return room if made.after.get("removed") else f"{room}/{made.row}"


def lines(made: Iterable[StoredChange]) -> list[Line]:
    """Changes as they are listed, newest first, when they begin with the newest of all."""
    stands: dict[tuple[str, str], dict[str, Any]] = {}
    listed = []
    for one in made:
        # An undoing leaves what an earlier change left: then that one can be undone, too.
        now = stands.setdefault((one.kind, one.row), one.after)
        path = "" if now.get("removed") else place_of(one)
        listed.append(Line(one, one.after == now, path))
    return listed


def _changed(made: StoredChange) -> list[str]:
    """The document's keys that a change wrote."""
    before = (made.before or {}).get("document") or {}
    after = made.after.get("document") or {}
    return [key for key in {**before, **after} if before.get(key) != after.get(key)]
