"""``stillroom heat``: the physics of the jar and the canner, explained; it approves nothing."""

import argparse


def run(arguments: argparse.Namespace) -> int:
    """Run one of the heat commands; each loads its own module only."""
    match arguments.about:
        case "jar":
            from stillroom.cli.heat.jar import run as chosen
        case "food":
            from stillroom.cli.heat.food import run as chosen
        case "cook":
            from stillroom.cli.heat.cook import run as chosen
        case _:
            from stillroom.cli.heat.canner import run as chosen
    return chosen(arguments)
