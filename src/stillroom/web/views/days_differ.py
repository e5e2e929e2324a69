"""Where a day as it was typed and as somebody else wrote it meanwhile differ, field by field."""

import re
from dataclasses import dataclass

from stillroom.web.views.days_form import Form
from stillroom.web.words.mark import _

_ROW = re.compile(r"(\w+)\[(\d+)\]\.?(\w*)")
# What the form itself sends, and no field of the day.
_OWN = ("csrf", "version", "do")

WORDS = {
    "date": _("Date"),
    "start": _("Start"),
    "finish_by": _("Finish by"),
    "title": _("What you call it"),
    "heat_off_by": _("Heat off by"),
    "jars_wait_minutes": _("A filled jar waits at most, minutes"),
    "most_extra_minutes": _("Longer than published at most, minutes"),
    "prices": _("Prices of this day"),
    "aim": _("What makes a good day"),
    "order": _("Recipe"),
    "helper": _("Helper"),
    "break": _("Break"),
    "keep": _("Kept canner"),
    "recipe": _("Recipe"),
    "jars": _("Jars"),
    "jar": _("Size"),
    "first": _("First into the canners"),
    "not_before": _("No work before"),
    "done_by": _("Last jar out by"),
    "canners": _("Only in these canners"),
    "name": _("Name"),
    "hours": _("Hours"),
    "leaves": _("Leaves to others"),
    "from": _("From"),
    "to": _("To"),
    "who": _("Whose"),
    "canner": _("Canner"),
    "recipes": _("Only for"),
}


@dataclass(frozen=True, slots=True)
class Differs:
    """One field: words of its table and its own, for the catalogue, and both values as text.

    ``table`` is "" and ``number`` 0 for a field at the top of the form.
    """

    table: str
    number: int
    field: str
    mine: str
    theirs: str


def differing(mine: Form, theirs: Form) -> tuple[Differs, ...]:
    """The fields in which two forms of one day are not alike, in the order of the form.

    Examples
    --------
    >>> from stillroom.web.views.days_form import typed
    >>> [d] = differing(typed([("order[2].jars", "7")]), typed([("order[2].jars", "9")]))
    >>> d.table, d.number, d.field, d.mine, d.theirs
    ('Recipe', 2, 'Jars', '7', '9')
    """
    names = [name for name in dict.fromkeys([*mine.values, *theirs.values]) if name not in _OWN]
    told = []
    for name in names:
        typed, written = (", ".join(filter(None, f.values.get(name, ()))) for f in (mine, theirs))
        if typed != written:
            row = _ROW.fullmatch(name)
            table, number, key = (row[1], int(row[2]), row[3] or row[1]) if row else ("", 0, name)
            said = WORDS.get(table, "") if row and row[3] else ""
            told.append(Differs(said, number, WORDS.get(key, key), typed, written))
    return tuple(told)
