"""The worker process: hears what is asked, sends news and answers, ends with its parent."""

import os
import signal
import threading
from multiprocessing.connection import Connection
from typing import Any

from stillroom.errors import InputError
from stillroom.web.work.asked import Answer, Asked, News

# Pages are answered before plans are searched for: the search gives way by so much.
NICE = 3


def serve(pipe: Connection) -> None:
    """Answer what comes through the pipe until the parent is gone.

    Comes in: ``("ask", number, Asked)`` and ``("stop", number)``. Goes out: ``("ready",)``,
    ``("news", number, News)``, ``("answer", number, Answer)`` and ``("failed", number, words)``.
    """
    # Ctrl-C is meant for the parent, which ends this process when it has put its things away.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(NICE)
    from stillroom.web.work.solve import Solver

    solver, say = Solver(), _Out(pipe)
    say("ready")
    asked: list[tuple[int, Asked]] = []
    while True:
        if not asked and not _hear(pipe, asked, 0, threading.Event()):
            return
        if asked:
            number, wanted = asked.pop(0)
            stop = threading.Event()
            work = threading.Thread(target=_solve, args=(solver, number, wanted, stop, say))
            work.start()
            while work.is_alive():
                if pipe.poll(0.05) and not _hear(pipe, asked, number, stop):
                    os._exit(0)


def _hear(
    pipe: Connection, asked: list[tuple[int, Asked]], number: int, stop: threading.Event
) -> bool:
    """Take in one message; whether the parent is still there.

    The next question may come while the thread of the last one is on its way out: it is kept.
    """
    try:
        message = pipe.recv()
    except (EOFError, OSError):
        return False
    if message[0] == "ask":
        asked.append((message[1], message[2]))
    elif message == ("stop", number):
        stop.set()
    return True


class _Out:
    """The way out, for the solver's threads one after another."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe, self._lock = pipe, threading.Lock()

    def __call__(self, *message: Any) -> None:
        with self._lock:
            try:
                self._pipe.send(message)
            except OSError:
                os._exit(0)


def _solve(solver: Any, number: int, asked: Asked, stop: threading.Event, say: _Out) -> None:
    def tell(news: News) -> None:
        say("news", number, news)

    try:
        answer: Answer = solver.answer(asked, tell, stop)
    except InputError as wrong:
        say("failed", number, str(wrong))
    except TimeoutError as wrong:
        say("failed", number, f"{str(wrong).capitalize()}, and none was proved impossible.")
    except Exception as wrong:  # a fault of ours must not end the process without a word
        say("failed", number, f"This is a fault of Stillroom, not yours: {wrong!r}.")
    else:
        say("answer", number, answer)
