"""The terminal face: parse, call one function of the work below, show the answer.

Exit status: 0 answered, 2 the call or its input was wrong, 3 refused (no published process, or a
day that cannot be planned). Each command's module is loaded only when it is called, so that a
question to the tables never waits for the solver.
"""

import argparse
import sys
from collections.abc import Sequence

ANSWERED, WRONG_INPUT, REFUSED = 0, 2, 3


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    words = _below_sea_level(sys.argv[1:] if argv is None else argv)
    arguments = _parser(heat=words[:1] == ["heat"]).parse_args(words)
    from stillroom.errors import InputError

    try:
        return _run(arguments)
    except InputError as wrong:
        print(f"stillroom: {wrong}", file=sys.stderr)
        return WRONG_INPUT
    except BrokenPipeError:
        # The reader of a pipe has gone ("stillroom foods | head"): nothing is left to say.
        sys.stderr.close()
        return ANSWERED


def _below_sea_level(argv: Sequence[str]) -> list[str]:
    """``--elevation -20ft`` as one word: alone, "-20ft" would be taken for an option."""
    joined: list[str] = []
    for word in argv:
        if joined and joined[-1] == "--elevation" and word[:1] == "-" and word[1:2].isdigit():
            joined[-1] = f"--elevation={word}"
        else:
            joined.append(word)
    return joined


def _run(arguments: argparse.Namespace) -> int:
    # One import a branch keeps the start of each command as short as its own work.
    match arguments.command:
        case "process":
            from stillroom.cli.process import run
        case "foods":
            from stillroom.cli.foods import run
        case "recipes":
            from stillroom.cli.recipes import run
        case "start":
            from stillroom.cli.start import run
        case "heat":
            from stillroom.cli.heat import run
        case "recipe":
            from stillroom.cli.recipe import run
        case "check":
            from stillroom.cli.check import run
        case "build":
            from stillroom.cli.build import run
        case "serve":
            from stillroom.cli.serve import run
        case "export":
            from stillroom.cli.export import run
        case "import":
            from stillroom.cli.import_ import run
        case _:
            from stillroom.cli.plan import run
    return run(arguments)


def _parser(*, heat: bool = True) -> argparse.ArgumentParser:
    """The words a call may hold; without ``heat``, that command is named but not spelled out.

    Its six kinds of question have some fifty options. Naming them all would make every question
    to the tables wait.
    """
    parser = argparse.ArgumentParser(
        prog="stillroom",
        description="Published processes, recipes and a planned day for home canners.",
        epilog="The published process is the authority: none is ever computed or stretched.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    process = commands.add_parser(
        "process", help="the published time and pressure for a food, jar and elevation"
    )
    process.add_argument("food", metavar="FOOD", help='as you say it, such as "green beans"')
    process.add_argument("--elevation", required=True, metavar="E", help='"5200 ft" or "1600 m"')
    process.add_argument("--form", metavar="F", help="the cut, such as sliced or whole")
    process.add_argument("--pack", metavar="P", help="raw or hot")
    process.add_argument("--jar", metavar="SIZE", help="such as pint or quart")
    process.add_argument(
        "--method", metavar="M", help="boiling-water, dial-gauge, weighted-gauge or pressure"
    )
    process.add_argument("--json", action="store_true", help="one JSON document on standard output")

    foods = commands.add_parser("foods", help="the foods of the process library")
    foods.add_argument("words", nargs="*", metavar="WORD", help="only foods that hold these words")

    commands.add_parser("recipes", help="the starter recipes and the process each rests on")

    start = commands.add_parser(
        "start", help="write an invented demo day to a folder, to try and edit"
    )
    start.add_argument("folder", metavar="FOLDER")
    start.add_argument("--force", action="store_true", help="write over files that are there")

    plan = commands.add_parser("plan", help="loads, timetable and lists for a day file")
    plan.add_argument("day", metavar="DAY.toml")
    plan.add_argument(
        "--time-limit", type=float, default=20.0, metavar="S", help="seconds for the solver (20)"
    )
    plan.add_argument(
        "--from", dest="status", metavar="STATUS", help="plan the rest of a day that is under way"
    )
    plan.add_argument(
        "--why", action="store_true", help="what binds, what trades cost, what more would buy"
    )
    plan.add_argument(
        "--seed", type=int, default=1, metavar="N", help="of the search's dice (1); try another"
    )
    plan.add_argument("--pdf", metavar="FILE", help="also write the printable day sheet")
    plan.add_argument("--people", metavar="FILE", help="also write a page for each person, .pdf")
    plan.add_argument("--chart", metavar="FILE", help="also draw the timetable: .svg, .png, .pdf")
    plan.add_argument("--calendar", metavar="FILE", help="also write the tasks as .ics events")
    plan.add_argument("--json", action="store_true", help="one JSON document on standard output")

    from stillroom.cli.build_parser import add_build
    from stillroom.cli.check_parser import add_check
    from stillroom.cli.recipe_parser import add_recipe
    from stillroom.cli.serve_parser import add_serve
    from stillroom.cli.store_parser import add_export

    add_recipe(commands)
    add_check(commands)
    add_build(commands)
    add_export(commands)
    add_serve(commands)
    about = commands.add_parser("heat", help="what steam, canner and jar do, explained and drawn")
    if heat:
        from stillroom.cli.heat_parser import add_questions

        add_questions(about)
    return parser
