"""Solve published batching instances with the load engine and print what it reached.

Run: ``python -m benchmarks.batching PATH --time-limit 60``. PATH holds ``instances/*.dzn`` and,
where there is one, ``best_known.csv``.
"""

import argparse
import csv
import json
import sys
from dataclasses import asdict, dataclass
from importlib.metadata import version
from pathlib import Path

from benchmarks.batching.instance import Instance, read_instance
from benchmarks.batching.plain import solve_plain
from stillroom.errors import InputError
from stillroom.loads.result import Result
from stillroom.loads.solve import solve


@dataclass(frozen=True, slots=True)
class Line:
    """What was reached on one instance. ``ratio`` is the objective by the best known."""

    instance: int
    jobs: int
    canners: int
    families: int
    objective: int | None
    bound: int
    status: str
    seconds: float
    first_seconds: float | None
    best_known: int | None
    ratio: float | None
    gap: float
    plain_objective: int | None = None
    plain_bound: int | None = None
    plain_status: str | None = None
    plain_seconds: float | None = None


def main() -> int:
    """Solve, print, and write solutions."""
    parser = argparse.ArgumentParser(prog="python -m benchmarks.batching", description=__doc__)
    parser.add_argument("path", type=Path)
    parser.add_argument("--time-limit", type=float, default=60.0, help="seconds for each instance")
    parser.add_argument("--instances", default="", help="numbers, as 1,3,5; all without it")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path, help="folder for solutions")
    parser.add_argument("--plain", action="store_true", help="also solve by a plain model")
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    try:
        instances = _instances(asked.path, asked.instances)
    except InputError as fault:
        print(fault, file=sys.stderr)
        return 2
    best_known = _best_known(asked.path / "best_known.csv")
    if asked.out:
        asked.out.mkdir(parents=True, exist_ok=True)
    if not asked.json:
        print(f"ortools {version('ortools')}, {asked.workers} workers, {asked.time_limit:g} s each")
        print("  no jobs    objective        bound     status  seconds   best known    ratio")
    lines = []
    for instance in instances:
        line = _run(instance, asked, best_known.get(instance.number))
        lines.append(line)
        if not asked.json:
            print(_text(line), flush=True)
    if asked.json:
        document = {
            "time_limit": asked.time_limit,
            "workers": asked.workers,
            "ortools": version("ortools"),
            "instances": [asdict(line) for line in lines],
        }
        print(json.dumps(document))
    return 0


def _instances(path: Path, numbers: str) -> list[Instance]:
    files = sorted((path / "instances").glob("*.dzn"))
    if not files:
        raise InputError(f"{path}: there is no .dzn file in {path / 'instances'}")
    instances = [read_instance(file) for file in files]
    if not numbers:
        return instances
    try:
        wanted = [int(x) for x in numbers.split(",")]
    except ValueError:
        raise InputError(f"--instances {numbers}: numbers with commas, as 1,3,5") from None
    by_number = {instance.number: instance for instance in instances}
    missing = [n for n in wanted if n not in by_number]
    if missing:
        raise InputError(f"--instances: there is no instance {missing[0]} in {path / 'instances'}")
    return [by_number[n] for n in wanted]


def _best_known(file: Path) -> dict[int, int]:
    if not file.exists():
        return {}
    with file.open(encoding="utf-8", newline="") as f:
        return {
            int(row["instance"]): int(row["best_known_integer_objective"])
            for row in csv.DictReader(f)
        }


def _run(instance: Instance, asked: argparse.Namespace, known: int | None) -> Line:
    problem = instance.problem
    result = solve(problem, asked.time_limit, workers=asked.workers, seed=asked.seed)
    if asked.out:
        file = asked.out / f"{instance.name}.solution.json"
        file.write_text(json.dumps(_solution(result)), encoding="utf-8")
    plain = (
        solve_plain(problem, asked.time_limit, asked.workers, asked.seed) if asked.plain else None
    )
    return Line(
        instance=instance.number,
        jobs=len(problem.jobs),
        canners=len(problem.canners),
        families=len({job.family for job in problem.jobs}),
        objective=result.objective,
        bound=result.bound,
        status=result.status.value,
        seconds=round(result.seconds, 2),
        first_seconds=round(result.found[0].seconds, 3) if result.found else None,
        best_known=known,
        ratio=result.objective / known if known and result.objective is not None else None,
        gap=result.gap,
        plain_objective=plain.objective if plain else None,
        plain_bound=plain.bound if plain else None,
        plain_status=plain.status.value if plain else None,
        plain_seconds=round(plain.seconds, 2) if plain else None,
    )


def _solution(result: Result) -> dict[str, object]:
    return {
        "batches": [
            {
                "machine": load.canner + 1,
                "start": load.start,
                "end": load.end,
                "jobs": [j + 1 for j, _ in load.jars],
            }
            for load in result.loads
        ]
    }


def _text(line: Line) -> str:
    objective = "none" if line.objective is None else str(line.objective)
    ratio = "" if line.ratio is None else f"{line.ratio:.5f}"
    text = (
        f"{line.instance:4} {line.jobs:4} {objective:>12} {line.bound:>12} {line.status:>10} "
        f"{line.seconds:8.2f} {line.best_known or '':>12} {ratio:>8}"
    )
    if line.plain_status is None:
        return text
    plain = "none" if line.plain_objective is None else str(line.plain_objective)
    return f"{text}   plain {plain} {line.plain_bound} {line.plain_status} {line.plain_seconds:.2f}"


if __name__ == "__main__":
    sys.exit(main())
