"""A verdict, and two of them compared, in plain data."""

from stillroom.processes.told import match_json
from stillroom.recipes.check.compare import Compared
from stillroom.recipes.check.finding import Finding
from stillroom.recipes.check.verdict import Checked
from stillroom.recipes.pasted import PastedLine


def checked_json(judged: Checked) -> dict[str, object]:
    """The verdict in the shape outside checks read; keys may be added, never taken away."""
    return {
        "verdict": judged.verdict,
        "process": match_json(judged.process) if judged.process else None,
        "ingredients": [_line_json(line) for line in judged.ingredients],
        "findings": [_finding_json(one) for one in judged.findings],
        "elevation_ft": judged.elevation_ft,
    }


def _line_json(line: PastedLine) -> dict[str, object]:
    low, high = line.low, line.high
    return {
        "line": line.text,
        "food": line.food,
        "quantity": float(high.value) if high else None,
        "quantity_low": float(low.value) if low else None,
        "unit": high.unit if high else line.unit_said,
        "prep": line.prep,
        "optional": line.optional,
        "per": line.per,
        "not_understood": list(line.left_over),
    }


def _finding_json(one: Finding) -> dict[str, object]:
    return {
        "about": one.about,
        "kind": one.kind,
        "message": one.message,
        "source": one.source,
        "instead": one.instead,
        "line": one.line or None,
        "rule": one.rule,
    }


def compared_json(compared: Compared) -> dict[str, object]:
    """Both verdicts, and each change with what it touches."""
    return {
        "before": checked_json(compared.before),
        "after": checked_json(compared.after),
        "changes": [
            {
                "about": one.about,
                "before": one.before,
                "after": one.after,
                "effects": list(one.effects),
                "says": one.says,
            }
            for one in compared.changes
        ],
    }
