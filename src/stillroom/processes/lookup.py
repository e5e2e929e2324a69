"""Ask the tables: food, form, pack, jar, method and elevation to printed rows, or a refusal."""

from stillroom.errors import InputError
from stillroom.processes import library, names, refusals
from stillroom.processes.library import Withheld
from stillroom.processes.model import METHODS, PRESSURE, Answer, Match, Process, Refusal
from stillroom.processes.refusals import Row
from stillroom.processes.unlisted import UNLISTED_METHODS, unlisted_method
from stillroom.units.elevation import parse_elevation
from stillroom.units.jars import SIZES, parse_jar
from stillroom.words import claimed, did_you_mean, key

_METHOD_SAID = {
    "boiling": ("boiling-water",),
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
        unknown = refusals.unknown_food(food.strip(), found.candidates)
        return Answer((), unknown, found.candidates, feet)
    if isinstance(methods, str):
        return Answer((), unlisted_method(methods), (), feet)

    matches, refusal = _ask(found.targets, form, packs, methods, size, feet)
    told = _of_the_name(food.strip(), found)
    return Answer(tuple(m._replace(notes=(*told, *m.notes)) for m in matches), refusal, (), feet)


def _of_the_name(typed: str, found: names.Found) -> list[str]:
    """What a person should know of how their words were taken."""
    food = found.targets[0][0]
    told = []
    if found.read_as:
        told.append(f'Read "{typed}" as {food}. Check that this is what you mean.')
    source = names.doubt(typed, food)
    if source:
        told.append(f'That "{typed}" is canned by this table: {source}. Ask the extension office.')
    return told


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
    every: tuple[Row, ...] = (*library.processes(food), *library.withheld(food))
    held = [r for r in every if "" in asked or r.form in asked]
    named = f"{food} ({', '.join(asked)})" if len(asked) == 1 and "" not in asked else food

    barred = refusals.barred_method(named, held, methods)
    if barred:
        return (), barred
    in_form = _in_form(form, held)
    if not in_form:
        return (), refusals.no_form(named, str(form), held)
    in_pack = [r for r in in_form if r.pack in packs]
    if not in_pack:
        return (), refusals.no_pack(named, packs[0], in_form)
    by_method = [r for r in in_pack if r.method in methods]
    if not by_method:
        return (), refusals.no_method(named, methods, in_pack)
    return _in_jars(named, by_method, size, feet)


def _in_jars(
    named: str, held: list[Row], size: str | None, feet: int
) -> tuple[tuple[Match, ...], Refusal | None]:
    """Rows for the jar asked for, group by group, then the elevation band."""
    groups: dict[tuple[str, str, str, str], list[Row]] = {}
    for row in held:
        groups.setdefault((row.form, row.pack, row.method, row.option), []).append(row)

    matches: list[Match] = []
    unread: list[Withheld] = []
    above: list[Process] = []
    for group in groups.values():
        listed = sorted({r.jar for r in group}, key=SIZES.index)
        for row_jar in [_row_jar(size, listed)] if size else listed:
            of_jar = [r for r in group if r.jar == row_jar]
            unread += [r for r in of_jar if isinstance(r, Withheld)]
            printed = [r for r in of_jar if isinstance(r, Process)]
            fitting = [r for r in printed if r.covers(feet)]
            matches += [_match(r, size or r.jar) for r in fitting]
            if not fitting:
                above += printed
    if matches:
        return tuple(_with_unread(m, unread) for m in matches), None
    if above:
        return (), refusals.above_table(named, above, feet)
    if unread:
        return (), refusals.withheld(named, unread)
    largest = max((r.jar for r in held), key=SIZES.index)
    return (), refusals.jar_too_large(named, str(size), largest)


def _with_unread(match: Match, unread: list[Withheld]) -> Match:
    """The match, told what else its own table prints that nobody could read."""
    same = [w for w in unread if w.form == match.process.form]
    if not same:
        return match
    return match._replace(notes=(*match.notes, refusals.unread_note(same)))


def _row_jar(size: str, listed: list[str]) -> str | None:
    """The listed size whose row serves this jar: its own, else the next larger one."""
    return next((j for j in listed if SIZES.index(j) >= SIZES.index(size)), None)


def _match(row: Process, jar: str) -> Match:
    notes = [row.note + "."] if row.note else []
    if jar != row.jar:
        notes.insert(0, f"{jar} jars take the {row.jar} row, the next larger printed size.")
    notes += reading_notes(row)
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
    if fact and fact.acid:
        requires.append(f"Acid: {fact.acid}.")
    if fact and fact.limits:
        notes.append(f"Limits: {fact.limits}.")
    return Match(row, jar, tuple(notes), tuple(requires))


def reading_notes(row: Process) -> list[str]:
    """How far to trust the reading of a row, where there is reason to look it up again."""
    notes = []
    if row.status == "single" or len(row.read_in) == 1:
        notes.append("Read in one reprint only: look the row up in AIB-539 itself if you can.")
    if "CONFIRM" in row.remark:
        notes.append("Its reprints are weak copies: check the row against AIB-539 itself.")
    return notes


def _in_form(asked: str | None, held: list[Row]) -> list[Row]:
    """Rows of the form asked for: the exact form where it is printed, else every one that fits."""
    if asked is None:
        return held
    exact = [r for r in held if r.form and key(r.form) == key(asked)]
    return exact or [r for r in held if _is_form(asked, r)]


def _is_form(asked: str, row: Row) -> bool:
    """Whether the table prints this cut, in its form, its own name or another name for it.

    What a form denies ("no added liquid", "without bones") is not what it prints.
    """
    words = key(asked)
    denies = words & {"no", "without", "except"}
    printed = key(row.form) if denies and denies <= key(row.form) else claimed(row.form)
    if words and words <= printed | key(row.food):
        return True
    return (row.food, row.form) in names.find(f"{asked} {row.food}").targets
