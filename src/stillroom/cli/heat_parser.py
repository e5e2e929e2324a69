"""The arguments of ``stillroom heat``, apart from their work so that no other command loads it."""

import argparse


def add_questions(heat: argparse.ArgumentParser) -> None:
    """Add what ``heat`` can be asked about."""
    about = heat.add_subparsers(dest="about", required=True, metavar="ABOUT")

    steam = about.add_parser("steam", help="what a gauge tells: elevation, air left in, an error")
    steam.add_argument("--elevation", required=True, metavar="E", help='"5200 ft" or "1600 m"')
    steam.add_argument(
        "--psi", type=float, metavar="LB", help="pounds on the gauge; without: by elevation"
    )
    steam.add_argument("--air", type=float, metavar="PERCENT", help="of the gas, one more to tell")
    steam.add_argument(
        "--reads-high", type=float, metavar="LB", help="how much the gauge is off, one more to tell"
    )
    _answers(steam)

    jar = about.add_parser("jar", help="what a jar holds, and how it follows a canner's heat")
    jar.add_argument("size", metavar="SIZE", help="such as pint or quart")
    jar.add_argument("--opening", metavar="O", help="regular or wide")
    jar.add_argument("--brim", type=float, metavar="ML", help="measured to the brim, milliliters")
    jar.add_argument("--headspace", metavar="IN", default="1 in", help='"1 in" (default), "1/2 in"')
    jar.add_argument("--food", metavar="F", help="follow this food through a run, such as pumpkin")
    jar.add_argument(
        "--packed", metavar="P", default="solid",
        help='solid (default), "pieces in liquid", brothy, or a share from 0 to 1',
    )  # fmt: skip
    jar.add_argument("--pack", metavar="P", default="hot", help="hot (default) or raw")
    jar.add_argument("--start", metavar="T", help='the food as the lid goes on, such as "170 F"')
    jar.add_argument("--elevation", metavar="E", help='"5200 ft" or "1600 m"')
    jar.add_argument("--psi", type=float, metavar="LB", help="pounds as published; without: boils")
    jar.add_argument("--minutes", type=float, metavar="M", help="minutes as published")
    jar.add_argument("--heat", type=float, metavar="M", help="minutes of heat-up")
    jar.add_argument("--come-up", type=float, metavar="M", help="minutes of come-up")
    jar.add_argument("--cool", type=float, metavar="M", help="minutes to zero pressure")
    _answers(jar)

    food = about.add_parser("food", help="how a food takes up heat, by what it is made of")
    food.add_argument("food", metavar="FOOD", help="such as carrots or beef stew")
    food.add_argument("--at", action="append", metavar="T", help='a temperature, such as "212 F"')
    _answers(food)

    cook = about.add_parser("cook", help="F0, cook value and thiamin of a temperature log")
    cook.add_argument("log", metavar="LOG.csv", help="columns time and temp_f or temp_c")
    _answers(cook)

    canner = about.add_parser("canner", help="how long a loaded canner heats, comes up and cools")
    canner.add_argument("--method", metavar="M", help="boiling-water, dial-gauge, weighted-gauge")
    canner.add_argument("--kitchen", metavar="FILE", help="a kitchen file that tells of the canner")
    canner.add_argument("--canner", metavar="NAME", help="which canner of the kitchen file")
    canner.add_argument("--elevation", metavar="E", help='"5200 ft"; without: the kitchen file\'s')
    canner.add_argument("--jar", metavar="SIZE", default="quart", help="quart (default)")
    canner.add_argument(
        "--jars", type=int, metavar="N", help="how many; without: a full load, or 7"
    )
    canner.add_argument("--pack", metavar="P", default="hot", help="hot (default) or raw")
    canner.add_argument(
        "--packed", metavar="P", choices=("solid", "brothy"), help="solid or brothy, where known"
    )
    canner.add_argument("--psi", type=int, metavar="LB", help="pounds as published")
    canner.add_argument("--minutes", type=int, metavar="M", default=75, help="process minutes (75)")
    _answers(canner)

    run = about.add_parser("run", help="a run's log held against its published process")
    run.add_argument("log", metavar="LOG.csv", help="columns time, psi or kpa or boil, event, note")
    run.add_argument("--elevation", required=True, metavar="E", help='"5200 ft" or "1600 m"')
    run.add_argument("--psi", type=float, metavar="LB", help="pounds as published")
    run.add_argument("--minutes", type=float, metavar="M", help="minutes as published")
    run.add_argument("--process", metavar="FOOD", help="look both up for this food instead")
    run.add_argument("--form", metavar="F", help="the cut, such as sliced or whole")
    run.add_argument("--pack", metavar="P", help="raw or hot")
    run.add_argument("--jar", metavar="SIZE", help="such as pint or quart")
    run.add_argument("--method", metavar="M", help="dial-gauge, weighted-gauge or boiling-water")
    run.add_argument("--food", metavar="F", help="follow jars of this food through the log")
    run.add_argument(
        "--packed", metavar="P", default="solid",
        help='solid (default), "pieces in liquid", brothy, or a share from 0 to 1',
    )  # fmt: skip
    run.add_argument("--headspace", metavar="IN", default="1 in", help='"1 in" (default)')
    run.add_argument("--start", metavar="T", help='the food at the first line, such as "170 F"')
    _answers(run)


def _answers(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="one JSON document on standard output")
    parser.add_argument("--chart", metavar="FILE", help="also draw it: .svg, .png or .pdf")
