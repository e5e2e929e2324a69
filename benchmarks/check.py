"""How many pasted recipes a second are read and judged, and how long the first one takes.

    python -m benchmarks.check

A thousand recipes of the tests' case set, each made a little different so that no cache helps. The
baseline is the standard library's own look at the same texts: every word and number found by one
regular expression. The first check of a fresh command is held against a bare ``python -c pass``.
"""

import json
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from stillroom.recipes.check.verdict import check
from stillroom.recipes.text.page import read_paste

CASES = Path(__file__).parent.parent / "tests" / "recipes" / "check" / "cases.jsonl"
RECIPES = 1000
STARTS = 15


def main() -> None:
    """Measure and print."""
    rows = [json.loads(line) for line in CASES.read_text("utf-8").splitlines()]
    texts = [
        (row, f"{row['recipe_text']}\nNumber {n}")
        for n, row in enumerate(rows[n % len(rows)] for n in range(RECIPES))
    ]
    begun = time.perf_counter()
    words = sum(len(re.findall(r"[^\W\d_]+|\d+", text)) for _, text in texts)
    bare = time.perf_counter() - begun
    begun = time.perf_counter()
    pasted = [read_paste(text) for _, text in texts]
    reading = time.perf_counter() - begun
    begun = time.perf_counter()
    for (row, _), recipe in zip(texts, pasted, strict=True):
        check(recipe, base=row["base"], jar=row["jar"], method=row["method"], pack=row["pack"])
    judging = time.perf_counter() - begun
    whole = reading + judging
    print(f"{RECIPES} recipes, {words} words and numbers")
    print(f"read {reading:.2f} s, judged {judging:.2f} s: {RECIPES / whole:.0f} recipes a second")
    print(f"that is {whole / bare:.0f} times one regular expression over the same texts")
    status = Path("/proc/self/status").read_text("ascii")
    print(f"memory: {int(status.partition('VmHWM:')[2].split()[0]) / 1024:.0f} MiB at most")
    _first()


def _first() -> None:
    """The first check of a fresh command against a bare Python."""
    with tempfile.TemporaryDirectory() as folder:
        recipe = Path(folder) / "recipe.txt"
        recipe.write_text("Carrots\n11 lb carrots\nRaw pints, 1 in. Vent 10. 25 min.", "utf-8")
        asked = ["-m", "stillroom", "check", str(recipe), "--base", "carrots", "--jar", "pint",
                 "--method", "pressure", "--pack", "raw", "--json"]  # fmt: skip
        fresh = statistics.median(_seconds(asked) for _ in range(STARTS))
    bare = statistics.median(_seconds(["-c", "pass"]) for _ in range(STARTS))
    print(f"first check of a fresh command: {1000 * fresh:.0f} ms, "
          f"{fresh / bare:.1f} times python -c pass")  # fmt: skip


def _seconds(arguments: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
    return time.perf_counter() - begun


if __name__ == "__main__":
    main()
