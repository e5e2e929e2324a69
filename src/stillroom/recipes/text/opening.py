"""What stands before the first ingredient of a line: signs that only list, and a heading."""

from stillroom.recipes.text.elements import Element, elements
from stillroom.recipes.text.item import Line

_BULLETS = frozenset("-–—*•·☐□▢▪‣●○+✓|")


def bullet(work: Line) -> int:
    """Behind signs and numbers that only list: "-", "3.", "[ ]"."""
    row, at = work.row, 0
    while at < len(row) and (row[at].sort == "space" or row[at].text in _BULLETS):
        at += 1
    if at + 2 < len(row) and row[at].text == "[" and row[at + 2].text == "]":
        at += 3
    if (
        at + 2 < len(row)
        and row[at].sort == "number"
        and row[at + 1].text in (".", ")")
        and row[at + 2].sort == "space"
        and at + 3 < len(row)
    ):
        at += 2
    work.mark(0, at, "bullet")
    return at


def label(work: Line, at: int) -> tuple[int, str, str]:
    """A heading on the line itself: "For the brine:", "Per quart, raw:"."""
    row = work.row
    colon = next((p for p in range(at, len(row)) if row[p].text == ":"), -1)
    if colon < 0 or colon - at > 16:
        return at, "", ""
    before = elements(work.text, row, at, colon)
    per = next((e.flag[4:] for e in before if e.flag.startswith("per:")), "")
    behind = elements(work.text, row, colon + 1, len(row))
    foods = [e for e in before if e.sort == "food"]
    if _yield(before) and behind and behind[0].sort == "amount":
        # "7 qt: 4 qt green tomatoes, ..."
        said = work.said(at, colon)
        work.mark(at, colon + 1, "label")
        return colon + 1, said, ""
    if any(e.sort == "amount" for e in before) or (
        # "Tomatoes: 5 lb"
        len(foods) == 1 and behind and behind[0].sort == "amount"
        and not any(e.sort == "food" for e in behind)
    ):  # fmt: skip
        return at, "", ""
    said = work.said(at, colon)
    work.mark(at, colon + 1, "label")
    return colon + 1, said, per


def _yield(before: list[Element]) -> bool:
    """So many jars and nothing else."""
    measured = before[0].measured if len(before) == 1 else None
    return measured is not None and measured.unit in ("quart", "pint")
