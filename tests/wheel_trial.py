"""Build the wheel and try it where nothing of the source tree is in reach.

Run by ``./do wheel``: makes a clean environment, installs the pinned requirements and the wheel,
and asks it for a process, a plan, its sheets and calendar, a chart, and a page of the screen
from an empty folder. The audit of the tables runs in the build itself (``hatch_build.py``).
"""

import json
import os
import re
import subprocess
import sys
import tempfile
import urllib.request
import venv
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


# What the pages need beside modules; one of each kind is looked for.
SHIPPED = (
    "stillroom/web/templates/base.html",
    "stillroom/web/static/css/main.css",
    "stillroom/web/words/locale/stillroom.pot",
    "stillroom/store/migrations/versions/step_0001.py",
)


def _environment() -> dict[str, str]:
    return {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV")}


def _run(command: list[str | Path], folder: Path) -> str:
    environment = _environment()
    done = subprocess.run(
        [str(part) for part in command],
        cwd=folder,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        sys.exit(f"{command[0]} failed ({done.returncode}):\n{done.stdout}\n{done.stderr}")
    return done.stdout


def _page(stillroom: Path, folder: Path) -> None:
    """Serve the pages from the wheel; read the first one and each file it asks for."""
    command = [str(stillroom), "serve", "--port", "0", "--no-browser", "--store", "kept/s.sqlite3"]
    with subprocess.Popen(
        command,
        cwd=folder,
        env=_environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    ) as serving:
        assert serving.stdout is not None
        said = serving.stdout.readline()
        try:
            found = re.search(r"http://localhost:\d+", said)
            if not found:
                sys.exit(f"the wheel serves no pages: {said}{serving.stdout.read()}")
            page = _read(f"{found[0]}/")
            files = re.findall(r'(?:href|src)="(/static/[^"]+)"', page)
            if "<h1" not in page or not files or not all(_read(found[0] + file) for file in files):
                sys.exit(f"the wheel serves a page that is none:\n{page}")
        finally:
            serving.terminate()


def _read(address: str) -> str:
    with urllib.request.urlopen(address, timeout=20) as answer:
        text: str = answer.read().decode("utf-8")
    return text


def main() -> None:
    """Build, install, ask, and stop with a message at the first thing that is wrong."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        pip = ["-m", "pip", "--quiet", "--disable-pip-version-check"]
        build: list[str | Path] = ["wheel", "--no-deps", "--no-build-isolation", "-w", folder, ROOT]
        _run([sys.executable, *pip, *build], folder)
        (wheel,) = folder.glob("stillroom-*.whl")
        missing = set(SHIPPED) - set(zipfile.ZipFile(wheel).namelist())
        if missing:
            sys.exit(f"the wheel lacks {', '.join(sorted(missing))}")
        venv.create(folder / "clean", with_pip=True)
        python = folder / "clean" / "bin" / "python"
        needed = ROOT / "requirements" / "run.txt"
        _run([python, *pip, "install", "--require-hashes", "-r", needed], folder)
        _run([python, *pip, "install", "--no-deps", wheel], folder)

        stillroom = folder / "clean" / "bin" / "stillroom"
        place = _run([python, "-c", "import stillroom; print(stillroom.__file__)"], folder)
        if str(ROOT / "src") in place:
            sys.exit(f"the wheel was not tried: {place.strip()} was imported instead")
        asked: list[str | Path] = [
            stillroom,
            "process",
            "green beans",
            "--jar",
            "quart",
            "--method",
            "dial-gauge",
        ]
        answer = json.loads(_run([*asked, "--elevation", "5430 ft", "--json"], folder))
        # AIB-539 Guide 4 p. 4-8: quarts, 4,001 to 6,000 ft, 25 minutes at 13 lb.
        if [(m["minutes"], m["pressure_psi"]) for m in answer["matches"]] != [(25, 13)]:
            sys.exit(f"the wheel answers differently: {answer}")
        _run([stillroom, "start", "day"], folder)
        files = [*("--pdf", "day.pdf"), *("--people", "who.pdf"), *("--calendar", "day.ics")]
        told = _run(
            [stillroom, "plan", "day/day.toml", "--json", "--time-limit", "20", *files],
            folder,
        )
        jars = sum(j["count"] for load in json.loads(told)["loads"] for j in load["jars"])
        sheet = (folder / "day.pdf").read_bytes()
        if jars != 59 or not sheet.startswith(b"%PDF"):
            sys.exit(f"the wheel planned {jars} jars and printed {len(sheet)} bytes")
        if not (folder / "who.pdf").read_bytes().startswith(b"%PDF"):
            sys.exit("the wheel prints no page for each person")
        if not (folder / "day.ics").read_bytes().startswith(b"BEGIN:VCALENDAR"):
            sys.exit("the wheel writes no calendar")
        steam: list[str | Path] = [stillroom, "heat", "steam", "--elevation", "0 ft"]
        _run([*steam, "--psi", "11", "--chart", "steam.pdf"], folder)
        if not (folder / "steam.pdf").read_bytes().startswith(b"%PDF"):
            sys.exit("the wheel draws no chart")
        _page(stillroom, folder)
        document: dict[str, object] = {"stillroom": {"format": 1}, "kitchen": None}
        document |= {"recipes": [], "days": [], "settings": {"units": "metric"}, "changes": []}
        (folder / "export.json").write_text(json.dumps(document), encoding="utf-8")
        kept: list[str | Path] = ["--store", folder / "kept" / "stillroom.sqlite3"]
        _run([stillroom, "import", folder / "export.json", *kept], folder)
        if json.loads(_run([stillroom, "export", "--json", *kept], folder)) != document:
            sys.exit("the wheel's store gives back something else than it took")
        print(f"The wheel works by itself: {wheel.name}, {wheel.stat().st_size // 1024} KiB.")


if __name__ == "__main__":
    main()
