"""The timetable as a drawing: canners, people and burners over the hours."""

from xml.sax.saxutils import escape

from stillroom.day.plan import Plan
from stillroom.day.steps import CAUTIONS, steps
from stillroom.paper.day_sheet import sheet_data
from stillroom.paper.letters import printable
from stillroom.paper.typeset import Kind, typeset
from stillroom.units.clock import clock

# The caution of every sheet that a drawing of times needs most.
_NOTE = next(words for words in CAUTIONS if "planning figures" in words)


def day_chart(plan: Plan, kind: Kind) -> bytes:
    """The timetable of the day sheet alone, 11 inches wide and as high as it needs.

    Parameters
    ----------
    plan : any plan
    kind : what to draw it as

    Returns
    -------
    bytes, the same for the same plan. Phases differ by word, shape and pattern, so that it reads
    in grey. The letters of an SVG are drawn, and look alike on any machine; the same is told in
    words in its ``title`` and ``desc``.

    Source
    ------
    The plan alone; pressures and minutes are the published ones it carries.
    """
    drawn = typeset("day_chart.typ", "sheet", {**sheet_data(plan), "note": _NOTE}, kind)
    return _told(drawn, plan) if kind == "svg" else drawn


def _told(svg: bytes, plan: Plan) -> bytes:
    """The drawing with what it says, for who does not see it (SVG 2, 5.7)."""
    day = plan.day.date
    title = f"Timetable, {day:%A} {day.day} {day:%B %Y}"
    lines = [
        f"{clock(s.start)} to {clock(s.end)}, {printable(s.who)}: {printable(s.told)}"
        for s in steps(plan)
    ]
    told = f"<title>{escape(title)}</title><desc>{escape('; '.join(lines))}</desc>"
    head, end, rest = svg.decode("utf-8").partition(">")
    return f'{head} role="img"{end}{told}{rest}'.encode()
