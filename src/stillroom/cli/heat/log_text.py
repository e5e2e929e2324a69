"""``stillroom heat run`` for a person: what the log shows, the rule, and what is missing."""

from stillroom.cli.heat.log_told import Told, answer, minutes_said, missing, to_do
from stillroom.cli.heat.say import CAUTION, bullets, paragraph, table
from stillroom.heat.deviation import cited
from stillroom.heat.inside import JARS, band
from stillroom.heat.logged import TAKEN
from stillroom.physics.lethality import APPROVES_NOTHING, METHOD
from stillroom.units.temperature import fahrenheit, said


def as_text(told: Told) -> str:
    """What matters first: the answer, then the figures behind it, then the rest."""
    found, rule = told.found, told.restart
    lines = [paragraph(answer(told)), "", *table(_figures(told)), ""]
    if found.shows != "unbroken" or found.below:
        lines += [paragraph(f"The rule: {rule.text}")]
        lines += [paragraph(f"Source: {cited(rule)}. {rule.read}")]
    lines += bullets("What follows", to_do(told))
    lines += bullets("What the log does not show", missing(told))
    lines += bullets("Notes in the log", _notes(told))
    lines += _heat(told)
    lines += ["", paragraph(CAUTION)]
    return "\n".join(lines).replace("\n\n\n", "\n\n")


def _figures(told: Told) -> list[list[str]]:
    found, target = told.found, told.target
    published = f"{found.minutes:g} min at {target} at {told.elevation_ft:,} ft"
    if found.target is None:
        published = f"{found.minutes:g} min of {target} at {told.elevation_ft:,} ft"
    rows = [["published", f"{published} ({told.source or 'as given, not looked up'})"]]
    if found.reached:
        rows.append([f"first at {target}", told.time(found.reached.at)])
    rows.append(["timed", f"{told.time(found.begin)} to {told.time(found.end)}"])
    for span in found.below:
        lasted = minutes_said((span.end - span.start) / 60)
        text = f"{told.time(span.start)} to {told.time(span.end)}, {lasted} min at most"
        if not span.back:
            text += ", and not seen back"
        if span.lowest.psi is not None:
            text += (
                f"; lowest {span.lowest.psi:.3g} lb at {told.time(span.lowest.at)}, "
                f"{span.short:.2g} lb short"
            )
        rows.append([f"below {target}" if found.target is not None else "no full boil", text])
    for stretch in found.stretches:
        text = f"{told.time(stretch.start)} to {told.time(stretch.end)}"
        rows.append([f"held {target}", f"{text}, {minutes_said(stretch.minutes)} min"])
    if found.vented is not None:
        rows.append(["vented", f"{minutes_said(found.vented / 60)} min"])
    return rows


def _notes(told: Told) -> list[str]:
    return [f"{told.time(line.at)}: {line.note}" for line in told.log.lines if line.note]


def _heat(told: Told) -> list[str]:
    """Temperatures inferred while timing, and the jars by model."""
    timed = [
        (line, kelvin)
        for line, kelvin in told.inside_canner
        if told.found.begin <= line.at <= told.found.end
    ]
    if not timed:
        return []
    coldest = min(timed, key=lambda pair: pair[1])
    hottest = max(timed, key=lambda pair: pair[1])
    lines = [
        "",
        paragraph(
            f"In the canner while timed: {said(coldest[1])} at {told.time(coldest[0].at)} to "
            f"{said(hottest[1])} at {told.time(hottest[0].at)}. Inferred: {TAKEN}."
        ),
    ]
    if told.inside:
        low, middle, high = band(told.inside.lethality) / 60
        peak = band(told.inside.slowest.max(axis=1))
        lines += [
            "",
            paragraph(
                f"In the jars by the model ({told.food}, {told.jar}, packed {told.packed}): the "
                f"slowest place came to {fahrenheit(peak[0]):.0f} to {fahrenheit(peak[2]):.0f} F "
                f"(middle {said(float(peak[1]))}) in nine of ten of {JARS} jars. F0 {low:.1f} to "
                f"{high:.1f} min (middle {middle:.1f}), 121.1 C, z 10 C, {METHOD}; cooling that "
                "was not logged is not in it. For comparison only."
            ),
        ]
    return [*lines, paragraph(APPROVES_NOTHING)]
