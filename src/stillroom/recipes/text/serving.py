"""Lines that stand below a heading of serving day: what they name is not in the jar."""

import re
from collections.abc import Sequence

_SERVING = re.compile(
    r"^\W*(?:to serve|for serving|serving|when serving|at serving time|on serving day"
    r"|for the table|serving (?:suggestions?|ideas?|day))\s*(?P<rest>:.*)?$"
)
# A line that fills or processes jars is none of serving day, nor are those above it.
_CANNED = re.compile(
    r"\bjars?\b|\bcanner\b|\bpressure\b|\bprocess\w*|\bheadspace\b|\bvent\w*|\bfill\w*|\bpack\b"
    r"|\bwater\s*bath|\bbwb?\b|\bquarts?\b|\bpints?\b|\blids?\b"
)
_HEADING = re.compile(r"^\W*[^\W\d][\w /&'-]{2,38}:\s*$|^\W*(?:[A-Z][A-Z ]{3,30})\W*$")
_KNOWN = re.compile(
    r"^\W*(?:ingredients?|directions?|method|instructions?|procedure|steps?|preparation"
    r"|process(?:ing)?|canning|to can|notes?|tips?|yield|storage|how to make it)\W*$"
)


def serving_lines(written: Sequence[tuple[int, str]]) -> frozenset[int]:
    """Numbers of the lines below a heading of serving day.

    Parameters
    ----------
    written : (line, text) of the lines that are not empty

    Examples
    --------
    >>> sorted(serving_lines([(1, "Soup"), (2, "To serve:"), (3, "Add noodles."), (4, "Notes")]))
    [2, 3]
    >>> sorted(serving_lines([(1, "To serve:"), (2, "Add rice."), (3, "Fill jars.")]))
    []
    """
    found: set[int] = set()
    at = 0
    while at < len(written):
        opened = _SERVING.match(written[at][1].lower())
        if not opened:
            at += 1
            continue
        block = [written[at]]
        at += 1
        alone = bool(opened["rest"] and opened["rest"].strip(" :"))
        while not alone and at < len(written) and not _headed(written[at][1]):
            block.append(written[at])
            at += 1
        if not any(_CANNED.search(line.lower()) for _, line in block):
            found |= {number for number, _ in block}
    return frozenset(found)


def _headed(line: str) -> bool:
    return bool(_SERVING.match(line.lower()) or _KNOWN.match(line.lower()) or _HEADING.match(line))
