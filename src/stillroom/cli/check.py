"""``stillroom check``: a recipe judged by the published processes, or its changes one by one."""

import argparse
import json
from dataclasses import replace
from pathlib import Path
from textwrap import fill

from stillroom.cli import ANSWERED
from stillroom.cli.process import CAUTION
from stillroom.errors import InputError
from stillroom.recipes.check.compare import Asked, Compared, compare
from stillroom.recipes.check.finding import Finding
from stillroom.recipes.check.verdict import Checked, check
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.text.file import read_paste_file
from stillroom.recipes.told.judged import checked_json, compared_json
from stillroom.units.jars import parse_jar

METHODS = ("boiling-water", "pressure", "dial-gauge", "weighted-gauge")
_MARKS = {"barred": "BARRED", "unconfirmed": "UNCONFIRMED", "note": "note"}
_MEANS = {
    "tested": "it follows a printed process, or a change that its source allows",
    "unconfirmed": "nothing published covers it as it stands",
    "barred": "a published rule forbids it as it stands",
}


def run(arguments: argparse.Namespace) -> int:
    """Read, judge, show."""
    asked = _asked(arguments)
    pasted = read_paste_file(Path(arguments.recipe), base=asked.base)
    if arguments.changed:
        after = replace(asked, jar=_jar(arguments.changed_jar, "--changed-jar") or asked.jar)
        compared = compare(
            pasted, read_paste_file(Path(arguments.changed), base=asked.base), asked, after
        )
        if arguments.json:
            print(json.dumps(compared_json(compared), ensure_ascii=False))
        else:
            print(compared_text(compared))
        return ANSWERED
    judged = check(pasted, base=asked.base, jar=asked.jar, method=asked.method, pack=asked.pack)
    if arguments.json:
        print(json.dumps(checked_json(judged), ensure_ascii=False))
    else:
        print(as_text(pasted, judged))
    return ANSWERED


def _asked(arguments: argparse.Namespace) -> Asked:
    if arguments.changed_jar and not arguments.changed:
        raise InputError("--changed-jar: no changed copy is named. Name it with --changed FILE.")
    if arguments.method and arguments.method not in METHODS:
        raise InputError(
            f'--method: "{arguments.method}" does not fit. Write {", ".join(METHODS)}.'
        )
    if arguments.pack and arguments.pack not in ("raw", "hot"):
        raise InputError(f'--pack: "{arguments.pack}" does not fit. Write raw or hot.')
    return Asked(
        base=arguments.base or "",
        jar=_jar(arguments.jar),
        method=arguments.method or "",
        pack=arguments.pack or "",
    )


def _jar(text: str | None, option: str = "--jar") -> str:
    return parse_jar(text, option) if text else ""


def as_text(pasted: Pasted, judged: Checked) -> str:
    """For a person: the verdict first, then one paragraph a cause."""
    lines = [f"{judged.verdict.upper()}: {_MEANS[judged.verdict]}."]
    if pasted.title:
        lines.insert(0, pasted.title)
    if judged.process:
        row = judged.process.process
        at = f"{row.psi} lb" if row.psi else "boiling water"
        feet = judged.elevation_ft
        where = f"at {feet:,} ft" if feet else "at the lowest elevation"
        lines += [
            "",
            f"Printed process {where}: {row.food}, {row.pack} pack, {judged.process.jar}:"
            f" {row.minutes} min, {at}, {row.headspace_in:g} in headspace",
            f"  {row.citation}",
            "  For your elevation and canner: stillroom process",
        ]
    for one in judged.findings:
        lines += ["", *_paragraph(one)]
    left = [line for line in judged.ingredients if line.left_over]
    if left:
        lines += ["", "Not understood, for you to settle:"]
        lines += [f"  line {one.line}: {'; '.join(one.left_over)}" for one in left]
    return "\n".join([*lines, "", CAUTION])


def _paragraph(one: Finding) -> list[str]:
    where = f" (line {one.line})" if one.line else ""
    text = [fill(f"{_MARKS[one.kind]}: {one.message}{where}", 96, subsequent_indent="  ")]
    if one.instead:
        text.append(fill(f"Instead: {one.instead}", 96, initial_indent="  ",
                         subsequent_indent="  "))  # fmt: skip
    return [*text, fill(f"Source: {one.source}", 96, initial_indent="  ", subsequent_indent="  ")]


def compared_text(compared: Compared) -> str:
    """For a person: before, after, and one line a change."""
    lines = [f"Before: {compared.before.verdict}. After: {compared.after.verdict}.", ""]
    lines += [fill(f"- {one.says}", 96, subsequent_indent="  ") for one in compared.changes]
    if not compared.changes:
        lines.append("No change was found.")
    return "\n".join([*lines, "", CAUTION])
