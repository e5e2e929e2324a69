"""``stillroom process``: a question to the tables, answered as a table or as JSON."""

import argparse
import json
import sys
from collections.abc import Iterable

from stillroom.cli import ANSWERED, REFUSED
from stillroom.processes.lookup import lookup
from stillroom.processes.model import Answer, Match
from stillroom.processes.told import answer_json

CAUTION = (
    "Caution: a wrong time, pressure or change to the food can make people gravely ill.\n"
    "Use a dial gauge checked this year, follow your canner's own manual, and ask your local\n"
    "extension office where anything here is unclear."
)


def run(arguments: argparse.Namespace) -> int:
    """Look up, show, and say by the exit status whether there was an answer."""
    answer = lookup(
        arguments.food,
        elevation=arguments.elevation,
        form=arguments.form,
        pack=arguments.pack,
        jar=arguments.jar,
        method=arguments.method,
    )
    if arguments.json:
        print(json.dumps(answer_json(answer), ensure_ascii=False))
    elif answer.refusal:
        print(answer.refusal.reason, file=sys.stderr)
    else:
        print(as_text(answer))
    return REFUSED if answer.refusal else ANSWERED


def as_text(answer: Answer) -> str:
    """The answer for a person: one block a food and pack, minutes and pounds to the fore."""
    blocks: dict[tuple[str, str, str], list[Match]] = {}
    for match in answer.matches:
        row = match.process
        blocks.setdefault((row.food, row.form, row.pack), []).append(match)
    parts = [_block(name, matches, answer.elevation_ft) for name, matches in blocks.items()]
    return "\n\n".join([*parts, CAUTION])


def _block(name: tuple[str, str, str], matches: list[Match], feet: int) -> str:
    food, form, pack = name
    title = f"{food[0].upper()}{food[1:]}" + (f", {form}" if form else "")
    lines = [f"{title}: {pack} pack, at {feet:,} ft", ""]
    table = [["jar", "canner", "minutes", "pressure", "headspace", "option"]]
    for m in matches:
        row = m.process
        table.append(
            [
                m.jar,
                row.method,
                str(row.minutes),
                f"{row.psi} lb" if row.psi else "boiling",
                f"{row.headspace_in:g} in",
                row.option,
            ]
        )
    if not any(line[-1] for line in table[1:]):
        table = [line[:-1] for line in table]
    widths = [max(len(cell) for cell in column) for column in zip(*table, strict=True)]
    for line in table:
        cells = (
            cell.rjust(width) if place in (2, 3) else cell.ljust(width)
            for place, (cell, width) in enumerate(zip(line, widths, strict=True))
        )
        lines.append(("  " + "   ".join(cells)).rstrip())
    lines += _section("Before you start", (r for m in matches for r in m.requires))
    lines += _section("Notes", (n for m in matches for n in m.notes))
    lines += _section("Source", (m.process.citation for m in matches))
    return "\n".join(lines)


def _section(title: str, items: Iterable[str]) -> list[str]:
    from textwrap import fill

    told = dict.fromkeys(items)
    if not told:
        return []
    return [
        "",
        f"{title}:",
        *(fill(i, 96, initial_indent="  - ", subsequent_indent="    ") for i in told),
    ]
