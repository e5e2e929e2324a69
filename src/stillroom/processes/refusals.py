"""Refusals in plain words: what is missing, where the tables end, and what to do instead."""

from collections.abc import Iterable, Sequence

from stillroom.processes import library
from stillroom.processes.library import Withheld
from stillroom.processes.model import Process, Refusal

Row = Process | Withheld


def unknown_food(typed: str, candidates: Sequence[str]) -> Refusal:
    """A name the library does not hold, or that could mean several foods."""
    if candidates:
        return Refusal(
            "unknown-food",
            f'"{typed}" could mean: {"; ".join(candidates)}. Ask again with one of them.',
        )
    return Refusal(
        "unknown-food",
        f'"{typed}" is not a food of the process library. No row, no answer: ask the local '
        "extension office.",
    )


def barred_method(named: str, held: Sequence[Row], methods: tuple[str, ...]) -> Refusal | None:
    """Low-acid food asked for in boiling water; nothing otherwise."""
    if methods != ("boiling-water",) or any(r.method in methods for r in held):
        return None
    if not all(_low_acid(r) for r in held):
        return None
    return Refusal(
        "method-barred",
        f"{named[0].upper()}{named[1:]}: canned as a low-acid food. Boiling water does not reach "
        "the heat that destroys botulinum spores; only a pressure canner does (AIB-539 Guide 1). "
        f"Printed methods: {_listed(r.method for r in held)}.",
    )


def _low_acid(row: Row) -> bool:
    fact = library.product(row.food, row.form)
    return fact is not None and fact.acidity == "low-acid"


def no_form(named: str, form: str, held: Sequence[Row]) -> Refusal:
    """A cut or style that no row of the food prints."""
    printed = _listed(r.form for r in held)
    if printed:
        told = f"Printed forms: {printed}."
    else:
        told = "Its table names no form: ask without one, and prepare the food as the guide tells."
    limits = _listed(
        fact.limits for r in held if (fact := library.product(r.food, r.form)) is not None
    )
    told += f" Limits: {limits}." if limits else ""
    return Refusal("no-row", f'No process is published for {named} as "{form}". {told}')


def no_pack(named: str, pack: str, held: Sequence[Row]) -> Refusal:
    """Raw asked for where only hot is printed, or the other way round."""
    printed = _listed(r.pack for r in held)
    return Refusal(
        "no-row", f"No {pack}-pack process is published for {named}. Printed: {printed} pack."
    )


def no_method(named: str, methods: tuple[str, ...], held: Sequence[Row]) -> Refusal:
    """A kind of canner for which the food has no table."""
    printed = _listed(r.method for r in held)
    return Refusal(
        "no-row",
        f"No {' or '.join(methods)} process is published for {named}. Printed methods: {printed}.",
    )


def jar_too_large(named: str, jar: str, largest: str) -> Refusal:
    """A jar larger than the largest printed one."""
    return Refusal(
        "jar-too-large",
        f"No process is published for {named} in {jar} jars: the largest printed is {largest}. "
        "A larger jar heats more slowly; its time is not known. Use the printed size.",
    )


def above_table(named: str, above: Sequence[Process], feet: int) -> Refusal:
    """Higher than the last printed band; says which table does reach that high."""
    top = max(above, key=lambda r: r.to_ft or 0)
    reason = (
        f"No process is published for {named}, {top.jar}, {top.method}, at {feet:,} ft: "
        f"the table ends at {top.to_ft:,} ft ({top.place})."
    )
    reaching = next(
        (
            r.method
            for r in library.processes(top.food)
            if r.covers(feet) and (r.form, r.jar) == (top.form, top.jar)
        ),
        "",
    )
    if reaching:
        reason += (
            f" The {reaching} table covers your elevation: ask again with --method {reaching}."
        )
    return Refusal("above-table", reason)


def unread_note(unread: Sequence[Withheld]) -> str:
    """What the guide prints beside the rows given, but nobody could read."""
    jars: dict[str, list[str]] = {}
    for w in unread:
        jars.setdefault(f"{w.method}{w.option and f', option {w.option}'}", []).append(w.jar)
    groups = "; ".join(f"{what} ({_listed(sizes)})" for what, sizes in jars.items())
    return f"Also printed, but not readable for this library: {groups}. See AIB-539 itself."


def withheld(named: str, unread: Sequence[Withheld]) -> Refusal:
    """The guide prints a process that this library could not read."""
    first = unread[0]
    what = ", ".join(
        part for part in (first.pack and f"{first.pack} pack", first.jar, first.method) if part
    )
    return Refusal(
        "withheld",
        f"AIB-539 {first.place} prints a process for {named} ({what}), but {first.why}, so it is "
        "not given here. Look it up in the printed guide or ask the local extension office.",
    )


def _listed(items: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(i for i in items if i))
