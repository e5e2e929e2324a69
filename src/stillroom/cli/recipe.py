"""``stillroom recipe``: what was understood of a pasted recipe, line by line, and what was not."""

import argparse
import json
from pathlib import Path
from textwrap import fill

from stillroom.cli import ANSWERED
from stillroom.errors import InputError
from stillroom.recipes.pasted import Pasted
from stillroom.recipes.text.file import read_paste_file
from stillroom.recipes.told.read import pasted_json
from stillroom.recipes.told.words import facts_told, understood
from stillroom.recipes.write import to_file
from stillroom.units.jars import parse_jar


def run(arguments: argparse.Namespace) -> int:
    """Read, then show it, print it as JSON, or write it as a recipe file."""
    pasted = read_paste_file(Path(arguments.recipe), base=arguments.base or "")
    if arguments.toml:
        print(
            to_file(
                pasted,
                food=arguments.base or "",
                form=arguments.form or "",
                pack=arguments.pack or "",
                makes=_makes(arguments.makes),
            ),
            end="",
        )
    elif arguments.json:
        print(json.dumps(pasted_json(pasted), ensure_ascii=False))
    else:
        print(as_text(pasted))
    return ANSWERED


def _makes(said: str | None) -> tuple[int, str] | None:
    if not said:
        return None
    number, _, size = said.partition(" ")
    if not (number.isascii() and number.isdigit() and 1 <= int(number[:4]) <= 999 and size):
        raise InputError(f'--makes: "{said}" does not fit. Write such as "7 quarts".')
    return int(number), parse_jar(size, "--makes")


def as_text(pasted: Pasted) -> str:
    """For a person: line by line what was understood, then what was not."""
    lines = [pasted.title or "(no title)", ""]
    for one in pasted.lines:
        lines += [f'  {one.line:>3}  "{one.text}"', f"       = {understood(one)}"]
        lines += [f'       ? not understood: "{piece}"' for piece in one.left_over]
    if not pasted.lines:
        lines.append("  No ingredient line was found.")
    lines += ["", "The method says:", *(f"  - {told}" for told in facts_told(pasted.facts))]
    for sentence in pasted.method:
        lines.append(fill(sentence, 94, initial_indent="  > ", subsequent_indent="    "))
    kept_out = sorted({one.food for one in pasted.mentions if one.negated})
    served = sorted({one.food for one in pasted.mentions if one.at_serving})
    if kept_out:
        lines.append(f"Said to stay out: {', '.join(kept_out)}.")
    if served:
        lines.append(f"For serving day, not for the jar: {', '.join(served)}.")
    if pasted.not_understood:
        lines += ["", "Not understood; settle these yourself:"]
        lines += [f'  line {line}: "{text}"' for line, text in pasted.not_understood]
    return "\n".join(lines)
