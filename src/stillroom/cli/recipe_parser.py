"""The arguments of ``stillroom recipe``, apart from its work so that no other command loads it."""

import argparse


def add_recipe(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add ``recipe``."""
    recipe = commands.add_parser("recipe", help="read a pasted recipe and show what was understood")
    recipe.add_argument("recipe", metavar="FILE", help="a text, a saved web page or a recipe file")
    recipe.add_argument("--base", metavar="FOOD", help="the published food it follows")
    recipe.add_argument("--json", action="store_true", help="one JSON document on standard output")
    recipe.add_argument("--toml", action="store_true", help="write it as one of our recipe files")
    recipe.add_argument("--form", metavar="F", help="with --toml: the published form")
    recipe.add_argument("--pack", metavar="P", help="with --toml: raw or hot")
    recipe.add_argument("--makes", metavar="N", help='with --toml: such as "7 quarts"')
