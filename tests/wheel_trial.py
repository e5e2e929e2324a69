"""Build the wheel and try it where nothing of the source tree is in reach.

Run by ``./do wheel``: makes a clean environment, installs the pinned requirements and the wheel,
and asks it for a process, a plan, a printed sheet and a chart from an empty folder. The audit of
the tables runs in the build itself (``hatch_build.py``).
"""

import json
import os
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent


def _run(command: list[str | Path], folder: Path) -> str:
    environment = {k: v for k, v in os.environ.items() if k not in ("PYTHONPATH", "VIRTUAL_ENV")}
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


def main() -> None:
    """Build, install, ask, and stop with a message at the first thing that is wrong."""
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        pip = ["-m", "pip", "--quiet", "--disable-pip-version-check"]
        build: list[str | Path] = ["wheel", "--no-deps", "--no-build-isolation", "-w", folder, ROOT]
        _run([sys.executable, *pip, *build], folder)
        (wheel,) = folder.glob("stillroom-*.whl")
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
        told = _run(
            [stillroom, "plan", "day/day.toml", "--json", "--pdf", "day.pdf", "--time-limit", "20"],
            folder,
        )
        jars = sum(j["count"] for load in json.loads(told)["loads"] for j in load["jars"])
        sheet = (folder / "day.pdf").read_bytes()
        if jars != 59 or not sheet.startswith(b"%PDF"):
            sys.exit(f"the wheel planned {jars} jars and printed {len(sheet)} bytes")
        steam: list[str | Path] = [stillroom, "heat", "steam", "--elevation", "0 ft"]
        _run([*steam, "--psi", "11", "--chart", "steam.pdf"], folder)
        if not (folder / "steam.pdf").read_bytes().startswith(b"%PDF"):
            sys.exit("the wheel draws no chart")
        print(f"The wheel works by itself: {wheel.name}, {wheel.stat().st_size // 1024} KiB.")


if __name__ == "__main__":
    main()
