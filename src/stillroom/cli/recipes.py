"""``stillroom recipes``: the starter recipes and what each rests on."""

import argparse

from stillroom.cli import ANSWERED
from stillroom.recipes.read import starter, starters


def run(arguments: argparse.Namespace) -> int:
    """List the starters: name, title, process food, jars and source."""
    from textwrap import fill

    for name in starters():
        recipe = starter(name)
        form = f" ({recipe.form})" if recipe.form else ""
        print(f"{name}: {recipe.title}")
        print(f"  Process: {recipe.food}{form}, {recipe.pack} pack")
        print(f"  Jars: {', '.join(recipe.jars)}; headspace {recipe.headspace_in:g} in")
        print(fill(f"Source: {recipe.source}", 96, initial_indent="  ", subsequent_indent="    "))
    print("\nName one in a day file, or write your own recipe file. Times: stillroom process.")
    return ANSWERED
