"""Ask the tables: food, form, pack, jar, method and elevation to printed rows, or a refusal."""

from collections.abc import Iterable

from stillroom.errors import InputError
from stillroom.processes import library, names
from stillroom.processes.library import Withheld
from stillroom.processes.model import METHODS, PRESSURE, Answer, Match, Process, Refusal
from stillroom.processes.unlisted import UNLISTED_METHODS, unlisted_method
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar
from stillroom.words import did_you_mean, key

_METHOD_SAID = {
    "boiling water": ("boiling-water",),
    "water bath": ("boiling-water",),
    "waterbath": ("boiling-water",),
    "boiling water bath": ("boiling-water",),
    "dial": ("dial-gauge",),
    "dial gauge": ("dial-gauge",),
    "weighted": ("weighted-gauge",),
    "weighted gauge": ("weighted-gauge",),
    "pressure": PRESSURE,
    "pressure canner": PRESSURE,
}


def lookup(
    food: str,
    *,
    elevation: str | int,
    form: str | None = None,
    pack: str | None = None,
    jar: str | None = None,
    method: str | None = None,
) -> Answer:
    """Published processes that fit what was asked; nothing is computed.

    Parameters
    ----------
    food : as a person types it
    elevation : "5,430 ft" or "1655 m"; an int is feet
    form, pack, jar, method : narrow the question; left out, every printed one comes back

    Returns
    -------
    Answer : rows to the minute and pound, in table order; or a refusal with its code. An
        uncertain name answers ``unknown-food`` with candidates.

    Raises
    ------
    InputError
        A jar size, pack, method or elevation that cannot be read.

    Source
    ------
    USDA AIB-539, Guides 2 to 7, compiled from reprints; each row names its place. A smaller jar
    takes the row of the next larger listed size (K-State Research and Extension 2019, 2022).

    Examples
    --------
    >>> answer = lookup("green beans", jar="quart", method="dial-gauge", elevation="5,430 ft")
    >>> [(m.process.minutes, m.process.psi) for m in answer.matches]
    [(25, 13)]
    >>> lookup("green beans", method="boiling-water", elevation="0 ft").refusal.code
    'method-barred'
    """
    feet = elevation if isinstance(elevation, int) else parse_elevation(elevation, "--elevation")
    methods = _methods(method)
    size = parse_jar(jar, "--jar") if jar else None
    packs = _packs(pack)

    if not food.strip():
        raise InputError('FOOD: nothing was typed. Name one, such as "green beans".')
    found = names.find(food)
    if found.barred:
        entry = found.barred
        reason = f"{entry.reason} {entry.instead} ({entry.source}, {entry.place})"
        return Answer((), Refusal("no-row", reason), (), feet)
    if not found.targets:
        return _unknown(food, found.candidates, feet)
    if isinstance(methods, str):
        return Answer((), unlisted_method(methods), (), feet)

    matches, refusal = _ask(found.targets, form, packs, methods, size, feet)
    if found.read_as:
        target = found.targets[0][0]
        told = f'Read "{food.strip()}" as {target}. Check that this is what you mean.'
        matches = tuple(Match(m.process, m.jar, (told, *m.notes), m.requires) for m in matches)
    return Answer(matches, refusal, (), feet)


def _unknown(food: str, candidates: tuple[str, ...], feet: int) -> Answer:
    if candidates:
        reason = (
            f'"{food.strip()}" could mean: {", ".join(candidates)}. Ask again with one of them.'
        )
    else:
        reason = (
            f'"{food.strip()}" is not a food of the process library. '
            "No row, no answer: ask the local extension office."
        )
    return Answer((), Refusal("unknown-food", reason), candidates, feet)


def _methods(said: str | None) -> tuple[str, ...] | str:
    """Methods to look under, or the name of one that no table covers."""
    if not said:
        return METHODS
    plain = " ".join(said.lower().replace("-", " ").replace("_", " ").split())
    if plain in _METHOD_SAID:
        return _METHOD_SAID[plain]
    for name, words in UNLISTED_METHODS.items():
        if plain == name or plain in words:
            return name
    options = (*METHODS, "pressure")
    raise InputError(
        f'--method: "{said}" is not a method.{did_you_mean(said, options)} '
        f"Methods: {', '.join(options)}."
    )


def _packs(said: str | None) -> tuple[str, ...]:
    if not said:
        return ("raw", "hot", "raw or hot")
    plain = said.lower().removesuffix("-pack").removesuffix(" pack").strip()
    if plain not in ("raw", "hot"):
        raise InputError(f'--pack: "{said}" is not a pack. Say raw or hot.')
    return (plain, "raw or hot")


def _ask(
    targets: tuple[names.Target, ...],
    form: str | None,
    packs: tuple[str, ...],
    methods: tuple[str, ...],
    size: str | None,
    feet: int,
) -> tuple[tuple[Match, ...], Refusal | None]:
    """Narrow the food's rows step by step; the first step that leaves none says why."""
    food = targets[0][0]
    asked = {f for _, f in targets}
    held: tuple[Process | Withheld, ...] = tuple(
        r
        for r in (*library.processes(food), *(w for w in library.withheld() if w.food == food))
        if "" in asked or r.form in asked
    )
    named = _named(food, asked)

    in_form = [r for r in held if form is None or _is_form(form, r.form)]
    if not in_form:
        return (), _no_form(named, str(form), held)
    in_pack = [r for r in in_form if r.pack in packs]
    if not in_pack:
        printed = _list(r.pack for r in in_form)
        return (), Refusal(
            "no-row", f"No {packs[0]}-pack process is published for {named}: {printed} pack only."
        )
    by_method = [r for r in in_pack if r.method in methods]
    if not by_method:
        return (), _no_method(named, in_pack, methods)
    return _in_jars(named, by_method, size, feet)


def _in_jars(
    named: str, held: list[Process | Withheld], size: str | None, feet: int
) -> tuple[tuple[Match, ...], Refusal | None]:
    """Rows for the jar asked for, group by group, then the elevation band."""
    groups: dict[tuple[str, str, str, str], list[Process | Withheld]] = {}
    for row in held:
        groups.setdefault((row.form, row.pack, row.method, row.option), []).append(row)

    matches: list[Match] = []
    unread: list[Withheld] = []
    above: list[Process] = []
    largest = ""
    for group in groups.values():
        listed = sorted({r.jar for r in group}, key=SIZES.index)
        largest = max(largest or listed[-1], listed[-1], key=SIZES.index)
        jars = [_row_jar(size, listed)] if size else listed
        for row_jar in (j for j in jars if j):
            of_jar = [r for r in group if r.jar == row_jar]
            unread += [r for r in of_jar if isinstance(r, Withheld)]
            printed = [r for r in of_jar if isinstance(r, Process)]
            fitting = [r for r in printed if _in_band(r, feet)]
            matches += [_match(r, size or r.jar) for r in fitting]
            if printed and not fitting:
                above.append(max(printed, key=lambda r: r.to_ft or 0))
    if matches:
        if unread:
            told = _unread_note(unread)
            matches = [Match(m.process, m.jar, (*m.notes, told), m.requires) for m in matches]
        return tuple(matches), None
    if above:
        return (), _above(named, above, held, feet)
    if unread:
        return (), _withheld(named, unread)
    return (), Refusal(
        "jar-too-large",
        f"No process is published for {named} in {size} jars: the largest printed is {largest}. "
        "A larger jar heats more slowly; its time is not known. Use the printed size.",
    )


def _row_jar(size: str, listed: list[str]) -> str | None:
    """The listed size whose row serves this jar: its own, else the next larger one."""
    return next((j for j in listed if SIZES.index(j) >= SIZES.index(size)), None)


def _in_band(row: Process, feet: int) -> bool:
    """Below sea level counts as the lowest band."""
    return row.from_ft <= max(feet, 0) and (row.to_ft is None or feet <= row.to_ft)


def _match(row: Process, jar: str) -> Match:
    notes = [row.note + "."] if row.note else []
    if jar != row.jar:
        notes.insert(0, f"{jar} jars take the {row.jar} row, the next larger printed size.")
    if row.status == "single":
        notes.append("Read in one reprint only.")
    fact = library.product(row.food, row.form)
    requires = []
    if row.method in PRESSURE:
        requires.append("Vent steam for 10 minutes before closing the vent (AIB-539 Guide 1).")
        requires.append(
            "Let the canner cool by itself to zero pressure, then wait 10 minutes before opening."
        )
    else:
        requires.append("Water at least 1 inch over the jars, at a full boil the whole time.")
        if row.minutes < 10:
            requires.append(
                "Sterile jars: boil the empty jars 10 minutes, and 1 minute more for each "
                "1,000 ft above 1,000 ft (MSU Extension 01600107)."
            )
    if fact and fact.acid_required and not fact.acid_required.startswith("none"):
        requires.append(f"Acid: {fact.acid_required}.")
    if fact and fact.prohibitions and not fact.prohibitions.startswith("none"):
        notes.append(f"Limits: {fact.prohibitions}.")
    return Match(row, jar, tuple(notes), tuple(requires))


def _is_form(asked: str, printed: str) -> bool:
    words = key(asked)
    return bool(words) and words <= key(printed)


def _named(food: str, asked: set[str]) -> str:
    forms = {f for f in asked if f}
    return f"{food} ({next(iter(forms))})" if len(forms) == 1 else food


def _list(items: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(i for i in items if i))


def _no_form(named: str, form: str, held: tuple[Process | Withheld, ...]) -> Refusal:
    printed = _list(r.form for r in held)
    if printed:
        told = f"Printed forms: {printed}."
    else:
        told = "Its table names no form: ask without one, and prepare the food as the guide tells."
    return Refusal("no-row", f'No process is published for {named} as "{form}". {told}')


def _no_method(named: str, in_pack: list[Process | Withheld], methods: tuple[str, ...]) -> Refusal:
    printed = _list(r.method for r in in_pack)
    acidity = {
        fact.acidity for r in in_pack if (fact := library.product(r.food, r.form)) is not None
    }
    if methods == ("boiling-water",) and acidity == {"low-acid"}:
        return Refusal(
            "method-barred",
            f"{named} is canned as a low-acid food. Boiling water does not reach the heat that "
            "destroys botulinum spores; only a pressure canner does (AIB-539 Guide 1). "
            f"Printed methods: {printed}.",
        )
    return Refusal(
        "no-row",
        f"No {' or '.join(methods)} process is published for {named}. Printed methods: {printed}.",
    )


def _above(named: str, above: list[Process], held: list[Process | Withheld], feet: int) -> Refusal:
    top = max(above, key=lambda r: r.to_ft or 0)
    reason = (
        f"No process is published for {named}, {top.jar}, {top.method}, at {feet:,} ft: "
        f"the table ends at {top.to_ft:,} ft ({top.place})."
    )
    reaching = {r.method for r in library.processes(top.food) if _in_band(r, feet)}
    if top.method in PRESSURE and "weighted-gauge" in reaching and top.method != "weighted-gauge":
        reason += " The weighted-gauge table covers your elevation: ask again with --method weighted-gauge."
    return Refusal("above-table", reason)


def _unread_note(unread: list[Withheld]) -> str:
    groups = _list(
        " ".join(
            part for part in (w.form, w.jar, w.method, w.option and f"option {w.option}") if part
        )
        for w in unread
    )
    return f"Also printed but not readable for this library: {groups}. See AIB-539 or ask the local extension office."


def _withheld(named: str, unread: list[Withheld]) -> Refusal:
    first = unread[0]
    what = " ".join(
        part for part in (first.pack and f"{first.pack} pack", first.jar, first.method) if part
    )
    return Refusal(
        "withheld",
        f"AIB-539 {first.place} prints a process for {named} ({what}), but {first.why}, so it is "
        "not given here. Look it up in the printed guide or ask the local extension office.",
    )
