"""``stillroom plan --why``: what binds a plan, what its trades cost, what more would buy."""

from collections.abc import Sequence
from textwrap import fill

from rich.console import Console
from rich.table import Table
from rich.text import Text

from stillroom.day.why import Why
from stillroom.units.clock import clock, lasting


def show(why: Why) -> None:
    """Print the explanation after the plan."""
    console = Console(highlight=False, width=max(60, min(Console().width, 132)))
    table = Table(box=None, pad_edge=False, title="What holds the finish", title_justify="left")
    for name in ("from", "to", "busy", "what"):
        table.add_column(name, justify="right" if name in ("from", "to") else "left")
    for link in why.links:
        table.add_row(clock(link.start), clock(link.end), Text(link.holds), Text(link.what))
    console.print(table)
    console.print("In this plan each waits for the one above it.")
    held = ", ".join(f"{what} {lasting(minutes)}" for what, minutes in why.binds)
    console.print(Text(f"Of that: {held}.\n"))
    _lines(console, "What the trades cost", why.trades)
    _lines(console, "What more would buy", why.more)


def _lines(console: Console, title: str, lines: Sequence[str]) -> None:
    if lines:
        console.print(f"[bold]{title}[/bold]")
    for line in lines:
        width = console.width - 1
        console.print(Text(fill(line, width, initial_indent=" - ", subsequent_indent="   ")))
    console.print()
