"""The arguments of ``stillroom build``, apart from its work so that no other command loads it."""

import argparse


def add_build(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add ``build``."""
    build = commands.add_parser("build", help="how one jar of a recipe is filled, layer by layer")
    build.add_argument(
        "recipe", metavar="RECIPE", help="a starter recipe, or a file ending in .toml"
    )
    build.add_argument("--jar", metavar="SIZE", help="such as pint; without: the recipe's largest")
    build.add_argument(
        "--jars", type=int, default=1, metavar="N", help="how many, for what to have ready (1)"
    )
    build.add_argument(
        "--elevation", metavar="E", help='"5200 ft"; tells the process, and the card needs it'
    )
    build.add_argument(
        "--order", metavar="O", help='layers that go in first, such as "salt, carrots"'
    )
    build.add_argument("--json", action="store_true", help="one JSON document on standard output")
    build.add_argument("--figure", metavar="FILE", help="also draw the jar: .svg")
    build.add_argument("--card", metavar="FILE", help="also write the printable recipe card: .pdf")
