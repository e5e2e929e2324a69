"""The planner on twelve days against a person's rule and the plain model.

Run: ``python -m benchmarks.days`` (half an hour), or ``--quick`` (the six smallest, 10 s each).
For each day: jars, canners, seconds to the first plan and to the proof, the finish and its gap to
the best bound known after 10 and 60 seconds, memory, and the same of (a) the rule a person would
use, load by load, and (b) the model without first plan, strengthening and improvement.
"""

import argparse
import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from benchmarks.days.one import read

DATA = Path(__file__).parent / "data"
QUICK = 6


@dataclass(frozen=True, slots=True)
class Ran:
    """What one way made of a day. Times in seconds, finishes in minutes from the day's start."""

    events: list[tuple[float, int, int]]
    proved: bool
    rule: int | None
    megabytes: int

    @property
    def first(self) -> float | None:
        """Seconds to the first plan."""
        return self.events[0][0] if self.events else None

    def finish(self, by: float) -> int | None:
        """The best finish after so many seconds."""
        return min((f for t, f, _ in self.events if t <= by), default=None)

    def bound(self, by: float) -> int:
        """The best bound after so many seconds; a proof at the end counts for its own time."""
        return max((b for t, _, b in self.events if t <= by), default=0)


def days() -> list[Path]:
    """The day files in order of size."""
    return sorted(p for p in DATA.glob("*.toml") if ".kitchen." not in p.name)


def run(path: Path, way: str, limit: float) -> Ran:
    """One day in a process of its own."""
    words = [sys.executable, "-m", "benchmarks.days.one", str(path), way, str(limit)]
    done = subprocess.run(words, capture_output=True, encoding="utf-8", check=True)
    told = json.loads(done.stdout)
    events = [(float(t), int(f), int(b)) for t, f, b in told["events"]]
    return Ran(events, told["proved"], told["rule"], told["megabytes"])


def gap(finish: int | None, bound: int) -> str:
    """How far the finish may be from the best, in percent of the finish."""
    return f"{100 * (finish - bound) / finish:.0f} %" if finish else "none"


def line(ran: Ran, limit: float, best: int) -> str:
    """Seconds to first plan and proof, finish and gap at 10 s and at the limit, memory.

    ``best`` is the best bound that any way has proved, so that gaps of two ways compare.
    """
    first = f"{ran.first:.1f} s" if ran.first is not None else "none"
    proof = f"{ran.events[-1][0]:.1f}" if ran.proved else "none"
    cells = [f"first {first}", f"proof {proof}{' s' if ran.proved else ''}"]
    for by in (10.0, limit) if limit > 10 else (limit,):
        finish = ran.finish(by + 0.5)
        cells.append(f"{by:g} s: {finish or 'none'} ({gap(finish, best)})")
    return ", ".join([*cells, f"{ran.megabytes} MB"])


def main() -> None:
    """Print a paragraph for each day."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="the six smallest, 10 s each")
    parser.add_argument("--limit", type=float, default=60.0, help="seconds for each way (60)")
    parser.add_argument("--days", default="", help="numbers of days, such as 10,11,12")
    parser.add_argument("--json", help="also write all events to this file")
    asked = parser.parse_args()
    limit = 10.0 if asked.quick else asked.limit
    wanted = [int(n) for n in asked.days.split(",") if n]
    chosen = [p for n, p in enumerate(days(), 1) if not wanted or n in wanted]
    everything = {}
    for path in chosen[:QUICK] if asked.quick else chosen:
        problem = read(path)
        jars = sum(job.count for job in problem.jobs)
        print(f"{path.stem}: {jars} jars, {len(problem.ovens)} canners", flush=True)
        ways = {way: run(path, way, limit) for way in ("planner", "plain")}
        best = max(ran.bound(limit + 1) for ran in ways.values())
        proved = [ran.finish(limit + 1) for ran in ways.values() if ran.proved]
        best = max([best, *(finish for finish in proved if finish)])
        rule = ways["planner"].rule
        print(f"  planner    {line(ways['planner'], limit, best)}")
        print(f"  (a) rule   {rule or 'none'} ({gap(rule, best)})")
        print(f"  (b) plain  {line(ways['plain'], limit, best)}", flush=True)
        everything[path.stem] = {
            way: {"events": ran.events, "proved": ran.proved, "megabytes": ran.megabytes}
            for way, ran in ways.items()
        } | {"rule": rule}
    if asked.json:
        Path(asked.json).write_text(json.dumps(everything, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
