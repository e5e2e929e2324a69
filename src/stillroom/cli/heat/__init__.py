"""``stillroom heat``: the physics of the jar and the canner, explained; it approves nothing."""

import argparse
from pathlib import Path

from stillroom.cli import ANSWERED
from stillroom.errors import InputError, OutOfRange


def run(arguments: argparse.Namespace) -> int:
    """Run one of the heat commands; each loads its own module only."""
    match arguments.about:
        case "steam":
            from stillroom.cli.heat.steam import run as chosen
        case "jar":
            from stillroom.cli.heat.jar import run as chosen
        case "food":
            from stillroom.cli.heat.food import run as chosen
        case "cook":
            from stillroom.cli.heat.cook import run as chosen
        case "canner":
            from stillroom.cli.heat.canner import run as chosen
        case _:
            from stillroom.cli.heat.log import run as chosen
    if arguments.chart:
        from stillroom.paper.charts import check_ending

        # Before any work: a name that cannot be drawn to is a slip of a moment.
        check_ending(Path(arguments.chart))
    try:
        status = chosen(arguments)
    except OutOfRange as wrong:
        # A law's own limit, which no check of the arguments foresaw: still the person's to mend.
        raise InputError(str(wrong)) from None
    if arguments.chart and status == ANSWERED and not arguments.json:
        print(f"Drawn: {arguments.chart}")
    return status
