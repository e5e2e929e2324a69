"""Heat in a thousand quarts, two hours: the product against finite elements and an explicit scheme.

    python -m benchmarks.heat              the baselines on a sample of jars, scaled up
    python -m benchmarks.heat --every      the baselines on every jar (some minutes)

All in one run on one machine. Accuracy is told at the slowest place against finite elements on a
mesh twice as fine with a step of 2 s; memory is that of a process of its own.
"""

import argparse
import os
import platform
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from benchmarks.heat import batch, explicit, finite_elements, limits
from benchmarks.heat.jar import Jar
from stillroom.physics.conduction import flat_part
from stillroom.physics.pack import STEP, heat_through

SECONDS = batch.HOURS * 3600
COUNT = int(SECONDS / STEP)
MESH, FINE_MESH, CELLS = (8, 11), (16, 22), (20, 32)


def main() -> None:
    """Run, check the accuracy, print the ratios."""
    parser = argparse.ArgumentParser(prog="python -m benchmarks.heat")
    parser.add_argument("--jars", type=int, default=1000)
    parser.add_argument("--sample", type=int, default=40, help="jars for the baselines")
    parser.add_argument("--every", action="store_true", help="run the baselines on every jar")
    parser.add_argument("--memory-of", type=int, help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.memory_of:
        _memory(asked.memory_of)
        return
    jars, pack, starts, canners = batch.make(asked.jars)
    cores = os.cpu_count() or 1

    begun = time.perf_counter()
    heat_through(pack, starts, canners, SECONDS)
    first = time.perf_counter() - begun
    alone = limits.best_of(5, lambda: heat_through(pack, starts, canners, SECONDS))
    ours = limits.best_of(5, lambda: heat_through(pack, starts, canners, SECONDS, threads=cores))
    times, inside = heat_through(pack, starts, canners, SECONDS)

    sample = jars if asked.every else jars[:: max(1, len(jars) // asked.sample)]
    scale = len(jars) / len(sample)
    places = [_slowest(jar) for jar in sample]
    seconds = {
        "finite elements": scale * limits.best_of(1, lambda: [
            finite_elements.solve(jar, SECONDS, STEP, MESH, at)
            for jar, at in zip(sample, places, strict=True)
        ]),
        "explicit NumPy": scale * limits.best_of(1, lambda: [
            explicit.solve(jar, SECONDS, CELLS, at)
            for jar, at in zip(sample, places, strict=True)
        ]),
    }  # fmt: skip
    off = {"ours": 0.0, "finite elements": 0.0, "explicit NumPy": 0.0}
    for jar in jars[:: max(1, len(jars) // 8)]:
        at = _slowest(jar)
        there, truth = finite_elements.solve(jar, SECONDS, 2.0, FINE_MESH, at)
        got = {
            "ours": (times, inside[jars.index(jar)]),
            "finite elements": finite_elements.solve(jar, SECONDS, STEP, MESH, at),
            "explicit NumPy": explicit.solve(jar, SECONDS, CELLS, at),
        }
        for name, (when, values) in got.items():
            gap = np.abs(np.interp(there, when, values) - truth).max()
            off[name] = max(off[name], float(gap))

    print(f"{len(jars)} quarts, {batch.HOURS:g} h, {COUNT} steps of {STEP:g} s, seed {batch.SEED};")
    print(f"{cores} cores, Python {platform.python_version()}, NumPy {np.__version__}")
    print(f"product, {cores} threads    {ours:8.3f} s   off by at most {off['ours']:.3f} K")
    print(f"product, 1 thread     {alone:8.3f} s   first call {first / alone:.1f} times that: "
          "nothing is compiled")  # fmt: skip
    for name, spent in seconds.items():
        whole = "every jar" if asked.every else f"{len(sample)} jars, scaled up"
        print(f"{name:<20}{spent:9.1f} s   off by at most {off[name]:.3f} K   {whole}   "
              f"{spent / ours:.0f} times the product's time")  # fmt: skip
    _roofline(len(jars), ours)
    for name, count in (("1,000", 1_000), ("10,000", 10_000)):
        print(f"memory with {name} jars: {_peak_of(count):.0f} MiB in all")


def _slowest(jar: Jar) -> float:
    bottom, top = (np.array([u * jar.height / jar.conductivity]) for u in (jar.bottom, jar.top))
    return float(flat_part(bottom, top).where[0] * jar.height)


def _roofline(jars: int, seconds: float) -> None:
    speed, width = limits.arithmetic(), limits.bandwidth()
    work, bytes_ = jars * limits.operations(COUNT), jars * limits.traffic(COUNT)
    by_arithmetic, by_memory = work / speed, bytes_ / width
    binds = "arithmetic" if by_arithmetic > by_memory else "memory"
    floor = max(by_arithmetic, by_memory)
    print(
        f"limits measured: {speed / 1e9:.0f} G operations/s (matrix product), "
        f"{width / 1e9:.1f} GB/s (copy)"
    )
    print(
        f"{binds} binds: {limits.operations(COUNT) / 1e6:.2f} M operations and "
        f"{limits.traffic(COUNT) / 1e3:.1f} kB a jar; the product runs at "
        f"{100 * floor / seconds:.0f} % of that limit"
    )


def _peak_of(count: int) -> float:
    done = subprocess.run(
        [sys.executable, "-m", "benchmarks.heat", "--memory-of", str(count)],
        capture_output=True,
        text=True,
        check=True,
    )
    return float(done.stdout)


def _memory(count: int) -> None:
    _, pack, starts, canners = batch.make(count)
    heat_through(pack, starts, canners, SECONDS, threads=os.cpu_count() or 1)
    # getrusage would also count what the parent held when it forked.
    status = Path("/proc/self/status").read_text("ascii")
    print(int(status.partition("VmHWM:")[2].split()[0]) / 1024)


if __name__ == "__main__":
    main()
