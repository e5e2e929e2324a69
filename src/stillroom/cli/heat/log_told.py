"""What ``stillroom heat run`` knows of a log, and its JSON."""

from dataclasses import dataclass

from stillroom.heat.deviation import LONGEST_GAP, VENT, Deviation, Rule, cited, rule
from stillroom.heat.inside import JARS, SEED, Inside, band
from stillroom.heat.log import Log, Reading
from stillroom.heat.logged import TAKEN
from stillroom.physics.lethality import APPROVES_NOTHING, METHOD
from stillroom.units.temperature import celsius, fahrenheit


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """A log, what it shows, and what is inferred from it.

    ``source`` is that of the published row, "" where pounds and minutes were given by hand.
    """

    log: Log
    elevation_ft: int
    source: str
    found: Deviation
    inside_canner: tuple[tuple[Reading, float], ...]
    food: str
    jar: str
    packed: str
    inside: Inside | None

    @property
    def canner(self) -> str:
        """The kind of canner, as the rules know it."""
        return "pressure" if self.log.kind == "pressure" else "boiling-water"

    @property
    def target(self) -> str:
        """What had to hold: "13 lb" or "a full boil"."""
        return "a full boil" if self.found.target is None else f"{self.found.target:g} lb"

    @property
    def restart(self) -> Rule:
        """The rule for a pressure that fell, or a boil that stopped."""
        return rule("falls" if self.canner == "pressure" else "stops", self.canner)

    def time(self, at: float) -> str:
        """A time of the log as it was written."""
        near = min(self.log.lines, key=lambda line: abs(line.at - at))
        return near.time if self.log.clock else f"minute {near.time}"


def answer(told: Told) -> str:
    """What the log shows, in one sentence; it never says that the food is fine."""
    found, target = told.found, told.target
    longest = found.longest
    shown = minutes_said(longest.minutes) if longest else "0"
    published = f"the published {found.minutes:g}"
    pressure = found.target is not None
    fell = f"The pressure fell below {target}" if pressure else "The boil stopped"
    match found.shows:
        case "never reached":
            return f"The log shows no reading at {target} while the jars were timed."
        case "broken":
            return (
                f"{fell} while the jars were timed, and the log shows no full {found.minutes:g} "
                f"minutes without a break: the longest is {shown}."
            )
        case "too short":
            return f"The log shows {shown} minutes at {target}: fewer than {published}."
        case "gaps":
            return (
                f"Readings lie more than {LONGEST_GAP / 60:g} minutes apart: the log cannot show "
                f"that {target} held for {published} minutes."
            )
        case _:
            assert longest is not None
            before = [b for b in found.below if b.start < longest.end]
            so_far = f"{fell}; counting starts anew when it is back. " if before else ""
            after = "" if len(before) == len(found.below) else f" {fell} after that."
            return (
                f"{so_far}The log shows {shown} minutes at {target} without a break; "
                f"published are {found.minutes:g}.{after}"
            )


def to_do(told: Told) -> tuple[str, ...]:
    """What follows by the rules, in the order it is wanted."""
    found = told.found
    again = (
        f"Still on the stove: bring it back to {told.target} and time the full {found.minutes:g} "
        "minutes from then on."
    )
    late = rule("late", told.canner)
    apart = (
        "Over already: keep these jars apart, let nobody taste them, and ask your local extension "
        f"office. {late.text} {late.read}"
    )
    if found.shows == "unbroken":
        return (
            "A log shows what was read, and no more: not whether the gauge was right, the jars "
            "were packed as the guide says, or the lids sealed.",
        )
    return again, apart


def missing(told: Told) -> tuple[str, ...]:
    """What the log does not tell, or tells against the rules, beside pressure and minutes."""
    found, said = told.found, []
    if told.canner == "pressure":
        vent = rule("vent", "pressure")
        if found.vented is None:
            said.append(f"The log does not tell of venting (vent start, vent end). {vent.text}")
        elif found.vented < VENT - 1e-6:
            said.append(f"Vented for {minutes_said(found.vented / 60)} minutes only. {vent.text}")
    reached = "reading at target"
    if not found.begin_told and found.reached:
        said.append(f"It does not tell when timing started: the first {reached} is taken for it.")
    if not found.end_told and found.reached:
        said.append(f"It does not tell heat off: the last {reached} is taken for it.")
    said += [
        f"From {told.time(start)} to {told.time(end)}, {minutes_said((end - start) / 60)} minutes, "
        "nothing was read; what happened then is not known."
        for start, end in found.gaps
    ]
    return tuple(said)


def minutes_said(minutes: float) -> str:
    """Minutes without needless digits, never rounded up.

    Examples
    --------
    >>> minutes_said(24.999), minutes_said(25.0), minutes_said(9.25)
    ('24.9', '25', '9.2')
    """
    tenths = int(minutes * 10 + 1e-6)
    return f"{tenths // 10}" if tenths % 10 == 0 else f"{tenths / 10:.1f}"


def as_json(told: Told) -> dict[str, object]:
    """The log, what it shows and the rule, in one document; keys may be added."""
    found = told.found

    def when(at: float) -> dict[str, object]:
        return {"time": told.time(at), "minute": round(at / 60, 3)}

    return {
        "log": told.log.file,
        "elevation_ft": told.elevation_ft,
        "target_psi": found.target,
        "process_minutes": found.minutes,
        "source": told.source or None,
        "shows": found.shows,
        "answer": answer(told),
        "reached": when(found.reached.at) if found.reached else None,
        "timing": {
            "from": when(found.begin),
            "from_told": found.begin_told,
            "to": when(found.end),
            "to_told": found.end_told,
        },
        "below": [
            {
                "from": when(span.start),
                "to": when(span.end),
                "came_back": span.back,
                "lowest_psi": span.lowest.psi,
                "lowest_at": when(span.lowest.at),
                "short_psi": round(span.short, 3),
            }
            for span in found.below
        ],
        "stretches": [
            {
                "from": when(stretch.start),
                "to": when(stretch.end),
                "minutes": round(stretch.minutes, 3),
            }
            for stretch in found.stretches
        ],
        "gaps": [{"from": when(start), "to": when(end)} for start, end in found.gaps],
        "unbroken_minutes": round(found.longest.minutes, 3) if found.longest else 0.0,
        "vented_minutes": None if found.vented is None else round(found.vented / 60, 3),
        "rule": {
            "text": told.restart.text,
            "read": told.restart.read,
            "source": cited(told.restart),
            "status": told.restart.status,
        },
        "to_do": list(to_do(told)),
        "missing": list(missing(told)),
        "readings": [_reading_json(line, dict(told.inside_canner)) for line in told.log.lines],
        "taken": TAKEN if told.inside_canner else None,
        "inside": _inside_json(told) if told.inside else None,
        "refusal": None,
        "approves": APPROVES_NOTHING,
    }


def _reading_json(line: Reading, inferred: dict[Reading, float]) -> dict[str, object]:
    kelvin = inferred.get(line)
    return {
        "line": line.line,
        "time": line.time,
        "minute": round(line.at / 60, 3),
        "psi": None if line.psi is None else round(line.psi, 3),
        "boil": line.boils,
        "inferred_f": None if kelvin is None else round(fahrenheit(kelvin), 1),
        "inferred_c": None if kelvin is None else round(celsius(kelvin), 1),
        "event": line.event or None,
        "note": line.note or None,
    }


def _inside_json(told: Told) -> dict[str, object]:
    inside = told.inside
    assert inside is not None
    every = max(1, len(inside.times) // 120)
    edges = zip(("low", "median", "high"), band(inside.slowest), strict=True)
    hottest = zip(("low", "median", "high"), band(inside.slowest.max(axis=1)), strict=True)
    lethality = zip(("low", "median", "high"), band(inside.lethality) / 60, strict=True)
    return {
        "food": told.food,
        "jar": told.jar,
        "packed": told.packed,
        "jars": JARS,
        "seed": SEED,
        "times_min": [round(float(t) / 60, 2) for t in inside.times[::every]],
        "slowest_f": {
            name: [round(fahrenheit(float(k)), 2) for k in edge[::every]] for name, edge in edges
        },
        "hottest_f": {name: round(fahrenheit(float(k)), 2) for name, k in hottest},
        "f0_minutes": {name: round(float(value), 4) for name, value in lethality},
        "f0_method": METHOD,
    }
