"""Small changes of one canner that need no form: looked at today, taken out."""

from copy import deepcopy
from datetime import datetime

from sqlalchemy.orm import Session

from stillroom.errors import Conflict, InputError
from stillroom.kitchen.checks import checks
from stillroom.store.kitchens import StoredKitchen, kitchen, save_kitchen
from stillroom.web.views.kitchen_form import mark
from stillroom.web.views.kitchen_parts import canner_part, canners_of, fitting


def looked_at(
    session: Session, number: int, was: str, check: str, *, at: datetime, who: str
) -> int:
    """Write that a part was looked at on the day of ``at``. Returns the number of the change.

    Parameters
    ----------
    was : as for ``taken_out``

    Raises
    ------
    InputError
        There is no such canner or part.
    Conflict
        It was changed meanwhile, or another one has its number now.
    """
    stored = _seen(session, number, was)
    if check not in (one.check for one in checks()):
        raise InputError(f'"{check}" is no part that is looked at.')
    canners = deepcopy(canners_of(stored.document))
    canner = canners[number - 1]
    care = canner.get("care")
    canner["care"] = {**(care if isinstance(care, dict) else {}), check: at.date().isoformat()}
    if check == "gauge_tested":
        # What an older test found says nothing of this one.
        canner["care"].pop("gauge_reads_high", None)
    canners[number - 1] = fitting(canner)
    document = {**stored.document, "canner": canners}
    return save_kitchen(session, document, version=stored.version, at=at, who=who).change


def taken_out(session: Session, number: int, was: str, *, at: datetime, who: str) -> int:
    """Take a canner out. Returns the number of the change.

    Parameters
    ----------
    was : the mark of the canner as it was seen by who takes it out, "" where it was not

    Raises
    ------
    InputError
        There is no such canner.
    Conflict
        It was changed meanwhile, or another one has its number now.
    """
    stored = _seen(session, number, was)
    canners = canners_of(stored.document)
    document = {**stored.document, "canner": canners[: number - 1] + canners[number:]}
    return save_kitchen(session, document, version=stored.version, at=at, who=who).change


def _seen(session: Session, number: int, was: str) -> StoredKitchen:
    """The kitchen, if the canner of that number is still the one that was seen."""
    stored = kitchen(session)
    if stored is None or not 1 <= number <= len(canners_of(stored.document)):
        raise InputError("There is no such canner. Look at the kitchen again.")
    if was and was != mark(canner_part(number), stored.document):
        raise Conflict(
            "Somebody changed the canners meanwhile, so nothing was written of this one. "
            "Look at the kitchen again."
        )
    return stored
