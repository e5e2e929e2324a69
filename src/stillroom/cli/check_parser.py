"""The arguments of ``stillroom check``, apart from its work so that no other command loads it."""

import argparse


def add_check(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add ``check``."""
    check = commands.add_parser("check", help="judge a pasted recipe, or what its changes do")
    check.add_argument("recipe", metavar="RECIPE", help="a text, a saved web page or a recipe file")
    check.add_argument("--base", metavar="FOOD", help="the published food it follows")
    check.add_argument("--jar", metavar="SIZE", help="such as pint or quart")
    check.add_argument("--method", metavar="M", help="boiling-water, pressure, or one gauge")
    check.add_argument("--pack", metavar="P", help="raw or hot")
    check.add_argument("--changed", metavar="FILE", help="a changed copy: what each change does")
    check.add_argument("--changed-jar", metavar="SIZE", help="the jar of the changed copy")
    check.add_argument("--json", action="store_true", help="one JSON document on standard output")
