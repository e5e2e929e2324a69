"""Planning with news on a terminal, and Ctrl-C that keeps the best plan so far."""

import sys
import threading
from collections.abc import Callable

from stillroom.day.model import Day
from stillroom.day.orders import Unplannable
from stillroom.day.plan import Plan
from stillroom.day.planner import plan_day, plan_from
from stillroom.day.replan.status import Status
from stillroom.day.solver import Control, Progress
from stillroom.day.why import Why, why
from stillroom.units.clock import clock


def plan_followed(
    day: Day,
    status: Status | None = None,
    *,
    time_limit: float,
    seed: int,
    explain: bool = False,
) -> tuple[Plan | Unplannable, Why | None]:
    """The plan, with each better one told on standard error where that is a terminal.

    With a ``status``, the rest of a day under way; with ``explain`` also why it is so. The first
    Ctrl-C ends the search with the best plan so far; a second one ends the program.

    Raises
    ------
    InputError, TimeoutError
        As ``plan_day``.
    """
    control = Control(tell=_teller(day) if sys.stderr.isatty() else None, seed=seed)
    answers: list[tuple[Plan | Unplannable, Why | None]] = []
    wrong: list[Exception] = []
    over = threading.Event()

    def work() -> None:
        try:
            plan = (
                plan_from(day, status, time_limit=time_limit, control=control)
                if status
                else plan_day(day, time_limit=time_limit, control=control)
            )
            told = None
            if explain and isinstance(plan, Plan):
                told = why(plan, control=control)
            answers.append((plan, told))
        except Exception as failed:  # handed on to the thread that asked
            wrong.append(failed)
        finally:
            over.set()

    threading.Thread(target=work, daemon=True).start()
    _wait(over, control)
    if wrong:
        raise wrong[0]
    return answers[0]


def _wait(over: threading.Event, control: Control) -> None:
    """Until the work is over. An event is asked, for an interrupted join may call a thread dead."""
    try:
        while not over.wait(0.1):
            pass
    except KeyboardInterrupt:
        control.stop.set()
        print("Ending the search with the best plan so far.", file=sys.stderr)
        while not over.wait(0.1):
            pass


def _teller(day: Day) -> Callable[[Progress], None]:
    """Says each earlier finish once; what only tidies the day is not worth a line."""
    told: list[int] = []

    def tell(news: Progress) -> None:
        if told and news.finish >= told[-1]:
            return
        said = f"done by {clock(day.start + news.finish)}"
        bound = f", none before {clock(day.start + news.bound)}" if news.bound else ""
        name = "better plan" if told else "first plan"
        told.append(news.finish)
        print(f"{news.seconds:6.1f} s  {name}: {said}{bound}", file=sys.stderr)

    return tell
