"""How long ``stillroom process`` takes to answer, as a multiple of a bare ``python -c pass``.

Run: ``python -m benchmarks.start_up``. Both run in turn, many times, in the same environment;
medians are compared.
"""

import argparse
import os
import statistics
import subprocess
import sys
import time

QUESTION = ["process", "green beans", "--jar", "quart", "--elevation", "5430 ft", "--json"]
BARE = [sys.executable, "-c", "pass"]
ASKED = [
    sys.executable,
    "-c",
    "import sys; from stillroom.cli import main; sys.exit(main(sys.argv[1:]))",
    *QUESTION,
]


def _seconds(command: list[str], environment: dict[str, str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=environment)
    return time.perf_counter() - begun


def main() -> None:
    """Print both medians and their ratio."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=40)
    runs = parser.parse_args().runs
    # An installed wheel has its byte code beside it; let the source tree have it too.
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    _seconds(ASKED, environment)
    bare, asked = [], []
    for _ in range(runs):
        bare.append(_seconds(BARE, environment))
        asked.append(_seconds(ASKED, environment))
    low, high = statistics.median(bare), statistics.median(asked)
    print(f"python -c pass      median of {runs}: {1000 * low:.1f} ms")
    print(f"stillroom process   median of {runs}: {1000 * high:.1f} ms")
    print(f"ratio: {high / low:.2f} (the aim is at most 6)")


if __name__ == "__main__":
    main()
