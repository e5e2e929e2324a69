"""``stillroom recipe``: what was understood of a pasted recipe, line by line, and what was not."""

import argparse
import json
from fractions import Fraction
from pathlib import Path
from textwrap import fill

from stillroom.cli import ANSWERED
from stillroom.errors import InputError
from stillroom.recipes.pasted import Facts, Pasted, PastedLine
from stillroom.recipes.text.file import read_paste_file
from stillroom.recipes.told.read import pasted_json
from stillroom.recipes.write import to_file
from stillroom.units.amounts import Amount
from stillroom.units.jars import parse_jar
from stillroom.units.speech import counted, say, say_metric


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
        lines += [f'  {one.line:>3}  "{one.text}"', f"       = {_understood(one)}"]
        lines += [f'       ? not understood: "{piece}"' for piece in one.left_over]
    if not pasted.lines:
        lines.append("  No ingredient line was found.")
    lines += ["", "The method says:", *(f"  - {told}" for told in _told(pasted.facts))]
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


def _understood(one: PastedLine) -> str:
    """Amount, food and prep in words."""
    said = []
    if one.high is not None and one.low is not None:
        low, high = _amount(one.low), _amount(one.high)
        said.append(high if one.low == one.high else f"{low} to {high}")
    elif one.joint:
        said.append("(shares the amount before)")
    else:
        said.append("no amount,")
    if one.per:
        said.append(f"for each {one.per},")
    food = " or ".join(one.alternatives) or one.food or "a food that is not in the food list"
    said.append(f"{food}{f' ({one.prep})' if one.prep else ''}")
    marks = [
        word
        for word, told in (
            ("optional", one.optional),
            ("to taste", one.to_taste),
            ("to cover", one.to_cover),
            ("for serving day", one.at_serving),
            ("food taken from the title", one.implied),
            ("found in the method", one.from_method),
            (f"remark: {one.remark}", bool(one.remark)),
            (one.mended, bool(one.mended)),
        )
        if told
    ]
    return " ".join(said) + (f"; {'; '.join(marks)}" if marks else "")


def _amount(amount: Amount) -> str:
    if amount.kind == "count":
        return counted(amount.value, amount.unit)
    return f"{say(amount)} ({say_metric(amount)})"


def _told(facts: Facts) -> list[str]:
    told = [
        ("pack", ", ".join(facts.packs)),
        ("jars", ", ".join(facts.jars)),
        ("makes", ", ".join(counted(Fraction(count), jar) for count, jar in facts.makes)),
        ("headspace", ", ".join(f"{inches:g} in" for inches in facts.headspaces)),
        ("how it is heated", ", ".join(facts.methods)),
        ("gauge pressure", ", ".join(f"{psi:g} lb" for psi in facts.psi)),
        ("venting", "said" if facts.vent_said else ""),
        ("solids", {True: "half the jar", False: "more than half"}.get(facts.half_solids, "")
         if facts.half_solids is not None else ""),
        ("strength of vinegar", ", ".join(f"{p:g} percent" for p in facts.vinegar_percent)),
        ("pureed or mashed", "yes" if facts.pureed else ""),
        ("thickened", "yes" if facts.thickened else ""),
        ("named source", facts.own_source),
    ]  # fmt: skip
    lines = [f"{name}: {text}" for name, text in told if text]
    lines += [f"{m.minutes} min: {m.what}{f' for {m.jar}' if m.jar else ''}" for m in facts.minutes]
    return lines or ["nothing about pack, jars or process"]
