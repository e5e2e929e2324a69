"""An answer of the tables in plain data: what a command prints as JSON and a program is told."""

from stillroom.processes.model import Answer, Match


def answer_json(answer: Answer) -> dict[str, object]:
    """The answer in the shape outside checks read; keys may be added, never taken away."""
    return {
        "matches": [match_json(m) for m in answer.matches],
        "refusal": (
            {"code": answer.refusal.code, "reason": answer.refusal.reason}
            if answer.refusal
            else None
        ),
        "candidates": list(answer.candidates),
        "elevation_ft": answer.elevation_ft,
    }


def match_json(match: Match) -> dict[str, object]:
    """One printed row with its notes; ``jar`` is the row's, ``for_jar`` the one asked for."""
    row = match.process
    return {
        "food": row.food,
        "form": row.form,
        "pack": row.pack,
        "jar": row.jar,
        "for_jar": match.jar,
        "method": row.method,
        "minutes": row.minutes,
        "pressure_psi": row.psi,
        "headspace_in": row.headspace_in,
        "band_ft": [row.from_ft, row.to_ft],
        "option": row.option or None,
        "source": row.citation,
        "notes": list(match.notes),
        "requires": list(match.requires),
    }
