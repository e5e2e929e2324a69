"""Rules of jar, pack and headspace."""

from collections.abc import Iterator

from stillroom.processes import library
from stillroom.processes.model import PRESSURE
from stillroom.recipes.check.case import Case
from stillroom.recipes.check.finding import Finding, finding
from stillroom.units.jars import SIZES

_RAW_NO_LIQUID = frozenset(["meat", "poultry", "seafood", "smoked fish"])
_LIQUIDS = ("broth", "water", "juice", "oil", "alcohol")


def jar_size(case: Case) -> Iterator[Finding]:
    """No jar larger than printed; half-gallons for two juices only; smaller ones take the next."""
    if not case.jar:
        return
    if case.kept_cold:
        return
    refusal = case.answer.refusal if case.answer else None
    if case.jar == "half-gallon" and (not case.target or refusal):
        yield finding("half-gallon", "half-gallon jars")
        return
    printed = [row.jar for row in case.any_row if not case.method or _fits(case, row.method)]
    if not printed and case.target:
        printed = [one.jar for one in library.withheld() if one.food == case.target[0]]
    if refusal and printed and SIZES.index(case.jar) > max(SIZES.index(j) for j in printed):
        sizes = sorted(set(printed), key=SIZES.index)
        yield finding(
            "jar-too-large", f"{case.jar} jars", jar=case.jar.capitalize(), food=case.food_name,
            sizes=" and ".join(sizes), largest=sizes[-1],
        )  # fmt: skip
    elif case.rows and all(row.jar != case.jar for row in case.rows):
        yield finding("smaller-jar", f"{case.jar} jars", jar=case.jar.capitalize())


def _fits(case: Case, method: str) -> bool:
    return method in PRESSURE if case.under_pressure else method == case.method


def pack(case: Case) -> Iterator[Finding]:
    """Raw or hot as printed: a time belongs to its pack."""
    if not case.pack:
        return
    if not case.target:
        meal = [i for i in case.items if i.food.roles & {"meat", "poultry", "game", "cured meat"}]
        vegetables = [i for i in case.items if "vegetable" in i.food.roles]
        if case.pack == "raw" and meal and vegetables:
            yield finding("raw-meal", "raw pack")
        return
    packs = {row.pack for row in case.any_row if not case.method or _fits(case, row.method)}
    if packs and not any(case.pack in one for one in packs):
        other = "hot" if case.pack == "raw" else "raw"
        yield finding("pack-not-printed", f"{case.pack} pack", pack=case.pack,
                      food=case.food_name, other=other)  # fmt: skip


def raw_without_liquid(case: Case) -> Iterator[Finding]:
    """Raw meat, poultry and fish stand in their own juice."""
    if case.pack != "raw" or case.family not in _RAW_NO_LIQUID:
        return
    for item in case.with_role(*_LIQUIDS):
        denied = [m for m in case.pasted.mentions if m.food == item.food.food and m.negated]
        bones = item.food.food.endswith("bones")
        if not (denied or bones) and (item.lines or "boiling" not in item.said):
            yield finding("raw-liquid", f"{item.said} (liquid)", food=case.food_name,
                          line=item.line)  # fmt: skip


def headspace(case: Case) -> Iterator[Finding]:
    """The headspace as written against the printed one."""
    printed = sorted({row.headspace_in for row in case.rows})
    said = case.pasted.facts.headspaces
    # Metric ones are rounded by whoever wrote them.
    if printed and said and not any(abs(s - p) < 0.06 for s in said for p in printed):
        yield finding("headspace", f"headspace of {said[0]:g} in.", got=f"{said[0]:g}",
                      want=" or ".join(f"{p:g}" for p in printed))  # fmt: skip


def sterile(case: Case) -> Iterator[Finding]:
    """A process under 10 min goes into sterile jars."""
    if case.rows and case.rows[0].psi is None and min(r.minutes for r in case.rows) < 10:
        yield finding("sterile", "jars")


RULES = (jar_size, pack, raw_without_liquid, headspace, sterile)
