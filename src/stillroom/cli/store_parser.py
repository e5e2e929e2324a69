"""The arguments of ``stillroom export`` and ``import``, apart from their work."""

import argparse


def add_export(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add ``export`` and ``import``."""
    out = commands.add_parser("export", help="all that the household recorded, in one document")
    _add_store(out)
    out.add_argument("--json", action="store_true", help="one JSON document on standard output")
    back = commands.add_parser("import", help="take an export back into an empty store")
    back.add_argument("file", metavar="FILE", help="what export printed; - reads standard input")
    _add_store(back)


def _add_store(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--store", metavar="F", help="the store's file, where it is not the usual")
