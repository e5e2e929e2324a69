"""What the kitchen page shows."""

from dataclasses import dataclass
from datetime import date

from stillroom.errors import InputError
from stillroom.kitchen import Canner, Kitchen
from stillroom.kitchen.checks import Standing, State, open_checks, standings
from stillroom.store.household import Household
from stillroom.web.views.kitchen_bands import Table, tables
from stillroom.web.views.kitchen_form import Form, form
from stillroom.web.views.kitchen_parts import FIRST_PART, PARTS, Document, canners_of

# From memory: a canner of 16 quarts holds so many. Shown as a suggestion to be checked.
SUGGESTED = {"holds.quart": "7", "holds.pint": "9", "burners": "4"}


@dataclass(frozen=True, slots=True)
class CannerShown:
    """A canner as the page lists it: its number from 1, and how its checks stand.

    ``canner`` is None where it cannot be read yet; ``document`` is what was written.
    """

    number: int
    document: Document
    canner: Canner | None
    checks: tuple[Standing, ...]

    @property
    def is_blank(self) -> bool:
        """Whether none of its checks was ever written down."""
        return all(standing.state is State.NEVER for standing in self.checks)


@dataclass(frozen=True, slots=True)
class Shown:
    """The kitchen page. ``first`` is the short form of a newcomer, else None."""

    document: Document
    kitchen: Kitchen | None
    lacks: InputError | None
    feet: int | None
    bands: tuple[Table, ...]
    canners: tuple[CannerShown, ...]
    due: tuple[Standing, ...]
    forms: dict[str, Form]
    first: Form | None
    opened: str
    today: date


def shown(
    home: Household,
    today: date,
    *,
    opened: str = "",
    elevation: str = "",
    sent: Form | None = None,
) -> Shown:
    """The page as the kitchen stands.

    Parameters
    ----------
    home : of an open session
    today : checks are due by it
    opened : the part that is asked for
    elevation : as a newcomer typed it elsewhere
    sent : a form that was not kept, shown in place of that part's own
    """
    document = home.stored.document if home.stored else {}
    read = home.kitchen.canners if home.kitchen else ()
    forms = {name: form(part, document) for name, part in PARTS.items()}
    first = None
    if not canners_of(document) or home.elevation_ft is None:
        plain = form(FIRST_PART, document)
        first = Form(FIRST_PART, {**SUGGESTED, "elevation": elevation, **plain.values}, plain.was)
    if sent is not None and sent.part.name in forms:
        forms[sent.part.name] = sent
    elif sent is not None and sent.part is FIRST_PART:
        first = sent
    feet = home.elevation_ft
    canners = tuple(
        CannerShown(
            number,
            written,
            read[number - 1] if read else None,
            standings(read[number - 1], today) if read else (),
        )
        for number, written in enumerate(canners_of(document), 1)
    )
    return Shown(
        document=document,
        kitchen=home.kitchen,
        lacks=home.lacks,
        feet=feet,
        bands=tables(feet) if feet is not None else (),
        canners=canners,
        due=open_checks(read, today),
        forms=forms,
        first=first,
        opened=sent.part.name if sent else opened,
        today=today,
    )
