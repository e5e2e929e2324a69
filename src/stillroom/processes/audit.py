"""The proof that the process tables are whole, run before every wheel and by ``./do audit``.

It proves transcription, not truth: that each group of rows holds every altitude band its table
prints, that minutes never fall and pressures always rise with altitude, that a larger jar never
takes less time, and that every row names its source.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from stillroom.errors import DataError
from stillroom.processes import library
from stillroom.processes.model import METHODS, Process
from stillroom.units.jars import SIZES

Bands = tuple[tuple[int, int | None], ...]

# The shapes in which AIB-539 prints its tables (Guide 1, selecting the correct processing time).
PRINTED_BANDS: dict[str, tuple[Bands, ...]] = {
    "boiling-water": (
        ((0, 1000), (1001, 3000), (3001, 6000), (6001, None)),
        ((0, 1000), (1001, 6000), (6001, None)),
    ),
    "dial-gauge": (((0, 2000), (2001, 4000), (4001, 6000), (6001, 8000)),),
    "weighted-gauge": (((0, 1000), (1001, None)),),
}
# The 15 lb option of a tomato table stops at 1,000 ft: there is no heavier weight to go on with.
LAST_WEIGHT: Bands = ((0, 1000),)
STATUSES = ("agreed", "single")

Group = tuple[str, str, str, str, str, str]


@dataclass(frozen=True, slots=True)
class Counts:
    """What the audit went through."""

    rows: int
    groups: int
    foods: int
    withheld: int
    products: int
    names: int
    by_guide: tuple[tuple[str, int], ...]


def group_of(row: Process) -> Group:
    """What one printed table line covers: everything but the altitude band."""
    return (row.food, row.form, row.pack, row.jar, row.method, row.option)


def faults(rows: Iterable[Process]) -> Iterator[str]:
    """Every way in which the rows are not a whole, printed set of tables; none when they are."""
    groups: dict[Group, list[Process]] = {}
    for row in rows:
        groups.setdefault(group_of(row), []).append(row)
        yield from _row_faults(row)
    for name, group in groups.items():
        yield from _group_faults(" / ".join(part for part in name if part), group)
    yield from _jar_faults(groups)


def _row_faults(row: Process) -> Iterator[str]:
    where = f"{row.food} / {row.form} / {row.jar} / {row.method} from {row.from_ft} ft"
    if row.jar not in SIZES:
        yield f'{where}: "{row.jar}" is no jar size'
    if row.method not in METHODS:
        yield f'{where}: "{row.method}" is no method'
    if row.pack not in ("raw", "hot", "raw or hot"):
        yield f'{where}: "{row.pack}" is no pack'
    if row.status not in STATUSES:
        yield f'{where}: status "{row.status}"'
    if (row.psi is None) != (row.method == "boiling-water"):
        yield f"{where}: pressure and method disagree"
    if row.minutes < 1 or not 0 < row.headspace_in <= 2:
        yield f"{where}: {row.minutes} min, {row.headspace_in} in of headspace"
    if not row.place or not row.read_in:
        yield f"{where}: names no place or no reading"


def _group_faults(name: str, group: list[Process]) -> Iterator[str]:
    ordered = sorted(group, key=lambda r: r.from_ft)
    bands = tuple((r.from_ft, r.to_ft) for r in ordered)
    shapes = PRINTED_BANDS.get(ordered[0].method, ())
    last_weight = ordered[0].psi == 15 and ordered[0].option and bands == LAST_WEIGHT
    if bands not in shapes and not last_weight:
        yield f"{name}: bands {bands} are none that the guide prints"
    for lower, upper in pairwise(ordered):
        if upper.minutes < lower.minutes:
            yield f"{name}: minutes fall above {lower.to_ft} ft"
        if lower.psi is not None and upper.psi is not None and upper.psi <= lower.psi:
            yield f"{name}: pressure does not rise above {lower.to_ft} ft"


def _jar_faults(groups: dict[Group, list[Process]]) -> Iterator[str]:
    seen: dict[tuple[str, str, str, str, str, int], list[Process]] = {}
    for group in groups.values():
        for r in group:
            seen.setdefault((r.food, r.form, r.pack, r.method, r.option, r.from_ft), []).append(r)
    for same in seen.values():
        ordered = sorted(same, key=lambda r: SIZES.index(r.jar) if r.jar in SIZES else -1)
        for smaller, larger in pairwise(ordered):
            if smaller.jar == larger.jar:
                yield f"{smaller.food} / {smaller.jar} / {smaller.method}: printed twice"
            if larger.minutes < smaller.minutes:
                yield f"{larger.food}: {larger.jar} takes less time than {smaller.jar}"


def _reference_faults() -> Iterator[str]:
    sources = {line[0] for line in library.rows("sources.csv")}
    forms = library.forms()
    for row in library.processes():
        if row.source not in sources:
            yield f'{row.food}: source "{row.source}" is not in sources.csv'
        yield from (
            f'{row.food}: reading "{r}" is not in readings.csv'
            for r in row.read_in
            if r not in library.readings()
        )
    for fact in library.products():
        if fact.food and (
            fact.food not in forms or (fact.form and fact.form not in forms[fact.food])
        ):
            yield f"products.csv: {fact.product} points to no row"
    for other in library.other_names():
        if other.food not in forms or (other.form and other.form not in forms[other.food]):
            yield f"names.csv: {other.said} points to no row"
    for guide in library.GUIDES:
        if library.heading(f"guide{guide}.csv") != list(library.COLUMNS):
            yield f"guide{guide}.csv: columns differ"
    printed = {group_of(row) for row in library.processes()}
    for w in library.withheld():
        if (w.food, w.form, w.pack, w.jar, w.method, w.option) in printed:
            yield f"{w.food} / {w.jar}: both printed and withheld"


def audit() -> Counts:
    """Prove the library whole and count it.

    Raises
    ------
    DataError
        With every fault found, one a line.
    """
    rows = library.processes()
    found = [*faults(rows), *_reference_faults()]
    if found:
        raise DataError("The process tables do not prove whole:\n  " + "\n  ".join(found))
    by_guide = Counter(row.place[:7] if row.place.startswith("Guide") else "other" for row in rows)
    return Counts(
        rows=len(rows),
        groups=len({group_of(row) for row in rows}),
        foods=len({row.food for row in rows}),
        withheld=len(library.withheld()),
        products=len(library.products()),
        names=len({other.said for other in library.other_names()}),
        by_guide=tuple(sorted(by_guide.items())),
    )


if __name__ == "__main__":
    c = audit()
    print(f"Process tables whole: {c.rows} rows in {c.groups} groups, {c.foods} foods.")
    print("  " + ", ".join(f"{name}: {n}" for name, n in c.by_guide))
    print(f"  withheld groups: {c.withheld}; product facts: {c.products}; other names: {c.names}")
