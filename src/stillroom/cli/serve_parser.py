"""The arguments of ``stillroom serve``, apart from its work so that no other command loads it."""

import argparse


def add_serve(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add ``serve``."""
    serve = commands.add_parser("serve", help="the kitchen screen, in this computer's browser")
    serve.add_argument("--store", metavar="F", help="the store's file, where it is not the usual")
    serve.add_argument(
        "--try", dest="trial", action="store_true", help="an invented household, gone at the end"
    )
    serve.add_argument("--port", type=int, default=8642, metavar="N", help="8642 where not given")
    serve.add_argument(
        "--open-to-household", action="store_true", help="let paired phones and tablets in"
    )
    serve.add_argument(
        "--https", action="store_true", help="with a certificate made on this computer"
    )
    serve.add_argument("--no-browser", action="store_true", help="open no browser")
