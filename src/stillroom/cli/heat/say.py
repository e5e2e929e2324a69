"""What the heat commands share: amounts asked for, and paragraphs that fit a terminal."""

from collections.abc import Iterable, Sequence
from textwrap import fill

from stillroom.errors import InputError
from stillroom.units.amounts import parse_amount
from stillroom.units.si import METRES_PER_INCH

CAUTION = (
    "Caution: a wrong time, pressure or change to the food can make people gravely ill. Follow the "
    "published process and your canner's own manual, and ask your local extension office where "
    "anything here is unclear."
)


def parse_inches(text: str, where: str, most: float) -> float:
    """Metres of a length in inches.

    Raises
    ------
    InputError
        No number, or one beyond ``most`` inches.

    Examples
    --------
    >>> round(parse_inches("1 1/4 in", "--headspace", 4) / 0.0254, 3)
    1.25
    """
    said = text.strip().lower()
    for unit in ("inches", "inch", "in.", "in", '"'):
        said = said.removesuffix(unit).strip()
    try:
        amount = parse_amount(said)
    except InputError:
        amount = None
    if amount is None or amount.kind != "count" or amount.unit != "each":
        raise InputError(
            f'{where}: "{text}" is no length. Write inches, such as "1 in" or "1/2 in".'
        )
    inches = float(amount.value)
    if not inches <= most:
        raise InputError(f'{where}: "{text}" does not fit: at most {most:g} in.')
    return inches * METRES_PER_INCH


def paragraph(text: str) -> str:
    """Wrapped for a terminal."""
    return fill(text, 96)


def bullets(title: str, items: Iterable[str]) -> list[str]:
    """A headed list, or nothing where there are no items."""
    told = [
        fill(i, 96, initial_indent="  - ", subsequent_indent="    ") for i in dict.fromkeys(items)
    ]
    return ["", f"{title}:", *told] if told else []


def table(rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> list[str]:
    """Rows under each other, the columns named in ``right`` set to the right."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    return [
        (
            "  "
            + "   ".join(
                cell.rjust(width) if place in right else cell.ljust(width)
                for place, (cell, width) in enumerate(zip(row, widths, strict=True))
            )
        ).rstrip()
        for row in rows
    ]
