"""Server time of every page for 20 users at once in a household of five years.

Run: ``python -m benchmarks.pages``. The pages and one bare page of the same framework are asked in
the same run, by turns, in two ways: users who look at a page for a second on average before they
ask for the next, and users who never pause, so that 20 questions always wait (the server's limit,
not a kitchen's). Times are within the server, from question to answer.
"""

import argparse
import asyncio
import platform
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from importlib.metadata import version
from pathlib import Path

from benchmarks.pages.addresses import addresses, page_routes
from benchmarks.pages.first_load import first_load
from benchmarks.pages.household import DAYS, RECIPES, fill
from benchmarks.pages.users import Asked, one_by_one, users
from stillroom.store.days import days
from stillroom.store.engine import open_store
from stillroom.store.recipes import recipes
from stillroom.web.app import PAGES
from stillroom.web.views.kitchen_parts import PARTS

USERS, AIM_MS, AIM_BYTES = 20, 50.0, 150 * 1024


@contextmanager
def running(what: str) -> Iterator[int]:
    """A server in a process of its own; its port."""
    words = [sys.executable, "-m", "benchmarks.pages.server", what]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True) as server:
        assert server.stdout is not None
        try:
            yield int(server.stdout.readline())
        finally:
            server.terminate()


def household(path: Path) -> list[str]:
    """Write the household to a store; the addresses of its pages."""
    store = open_store(path)
    fill(store)
    with store.read() as s:
        slugs = [line.slug for line in recipes(s)]
        keys = [line.key for line in days(s)]
    store.close()
    names = {
        "food": ("snap beans", "tomatoes", "peaches"),
        "slug": ("snap-beans", *slugs[:: len(slugs) // 3]),
        "part": tuple(PARTS),
        "number": ("1",),
        "key": keys[:: len(keys) // 3],
    }
    return addresses(page_routes(PAGES), names)


def by_page(answers: list[Asked]) -> dict[str, list[float]]:
    """Server times by address, the slowest at the 95th percentile first."""
    times: dict[str, list[float]] = {}
    for one in answers:
        times.setdefault(one.path, []).append(one.server)
    return dict(sorted(times.items(), key=lambda item: -share(item[1], 95)))


def share(times: list[float], percent: int) -> float:
    """The time that so many percent do not exceed."""
    return statistics.quantiles(times, n=100)[percent - 1] if len(times) > 1 else times[0]


def told(title: str, pages: list[Asked], bare: list[Asked]) -> float:
    """Print one way of asking; the worst page's 95th percentile."""
    floor = [one.server for one in bare]
    low = share(floor, 50), share(floor, 95)
    print(f"\n{title}")
    print(f"{'p50 ms':>8} {'p95 ms':>8} {'ratio':>6} {'asked':>6}  page")
    print(f"{low[0]:8.1f} {low[1]:8.1f} {1:6.1f} {len(bare):6}  (bare page)")
    worst = 0.0
    for path, times in by_page(pages).items():
        p50, p95 = share(times, 50), share(times, 95)
        worst = max(worst, p95)
        print(f"{p50:8.1f} {p95:8.1f} {p50 / low[0]:6.1f} {len(times):6}  {path}")
    every = [one.server for one in pages]
    print(f"{share(every, 50):8.1f} {share(every, 95):8.1f}        {len(every):6}  (all pages)")
    wrong = {(one.path, one.status) for one in pages if one.status >= 400}
    for path, status in sorted(wrong):
        print(f"! {status} {path}")
    return worst


def main() -> None:
    """Fill a store, ask, print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60.0, help="of asking, each way")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--only", default="", help="pages whose address holds this")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "store.sqlite3"
        paths = [one for one in household(path) if given.only in one]
        print(
            f"{RECIPES} recipes, {DAYS} days, {len(paths)} pages, {USERS} users, seed {given.seed}"
        )
        print(f"Python {platform.python_version()}, FastAPI {version('fastapi')}", end=", ")
        print(f"uvicorn {version('uvicorn')}")
        for title, pause in (("A second's pause between pages", 1.0), ("No pause", 0.0)):
            answers = []
            for what, asked in ((str(path), paths), ("--bare", ["/"])):
                with running(what) as port:
                    # Every page twice first: templates are compiled, tables are read.
                    asyncio.run(one_by_one(port, asked * 2))
                    answers.append(
                        asyncio.run(
                            users(
                                port,
                                asked,
                                count=USERS,
                                seconds=given.seconds,
                                pause=pause,
                                seed=given.seed,
                            )
                        )
                    )
            worst = told(title, *answers)
            aim = f"the aim: under {AIM_MS:.0f} ms" if pause else "no aim; the server's limit"
            print(f"worst p95: {worst:.1f} ms ({aim})")
        with running(str(path)) as port:
            print("\nFirst load over the wire")
            for address, size in first_load(port, paths):
                mark = "!" if size > AIM_BYTES else " "
                print(f"{mark}{size / 1024:8.1f} KiB  {address}")
        print(f"(the aim: under {AIM_BYTES / 1024:.0f} KiB)")


if __name__ == "__main__":
    main()
