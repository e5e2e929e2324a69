"""``stillroom foods``: what the process library holds."""

import argparse
import sys

from stillroom.cli import ANSWERED, REFUSED
from stillroom.processes import library
from stillroom.words import key


def run(arguments: argparse.Namespace) -> int:
    """List foods with their forms; withheld ones are marked, never left out."""
    wanted = key(" ".join(arguments.words)) if arguments.words else frozenset()
    printed = {row.food for row in library.processes()}
    listed = 0
    for food, forms in sorted(library.forms().items()):
        if wanted <= key(f"{food} {' '.join(forms)}"):
            listed += 1
            cuts = "; ".join(form for form in forms if form)
            mark = "" if food in printed else "  (withheld: see the printed guide)"
            print(food + (f": {cuts}" if cuts else "") + mark)
    if not listed:
        print("No food of the library holds these words.", file=sys.stderr)
        return REFUSED
    return ANSWERED
