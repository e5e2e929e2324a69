"""Users that ask for pages: each with one connection, kept open, one question at a time."""

import asyncio
import random
import time
from dataclasses import dataclass

from benchmarks.pages.server import HEADER


@dataclass(frozen=True, slots=True)
class Asked:
    """One page as it was answered: milliseconds within the server, and as the user waited."""

    path: str
    status: int
    server: float
    waited: float
    size: int


async def users(
    port: int, paths: list[str], *, count: int, seconds: float, pause: float, seed: int
) -> list[Asked]:
    """What so many users were answered.

    Parameters
    ----------
    paths : the pages; each user goes through all of them again and again in an order of their own
    pause : mean seconds a user looks at a page before asking the next (exponential); 0 for none
    """
    until = time.perf_counter() + seconds
    each = [
        _user(port, paths, until, pause, random.Random(seed * 1000 + number))
        for number in range(count)
    ]
    return [one for answers in await asyncio.gather(*each) for one in answers]


async def one_by_one(port: int, paths: list[str]) -> list[Asked]:
    """Pages as one user alone is answered, one after another."""
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    answers = [await ask(reader, writer, port, path) for path in paths]
    writer.close()
    return answers


async def _user(
    port: int, paths: list[str], until: float, pause: float, luck: random.Random
) -> list[Asked]:
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    answers: list[Asked] = []
    order: list[str] = []
    if pause:
        await asyncio.sleep(luck.uniform(0, pause))
    while time.perf_counter() < until:
        if not order:
            order = luck.sample(paths, len(paths))
        answers.append(await ask(reader, writer, port, order.pop()))
        if pause:
            await asyncio.sleep(luck.expovariate(1 / pause))
    writer.close()
    return answers


async def ask(
    reader: asyncio.StreamReader, writer: asyncio.StreamWriter, port: int, path: str
) -> Asked:
    """One question, read to its end."""
    begun = time.perf_counter()
    writer.write(
        f"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nAccept: text/html\r\n"
        "Accept-Encoding: gzip\r\n\r\n".encode()
    )
    head = await reader.readuntil(b"\r\n\r\n")
    status, *lines = head.rstrip().split(b"\r\n")
    headers = {k.strip().lower(): v.strip() for k, v in (line.split(b":", 1) for line in lines)}
    size = int(headers.get(b"content-length", 0))
    await reader.readexactly(size)
    waited = 1000 * (time.perf_counter() - begun)
    return Asked(path, int(status.split()[1]), float(headers[HEADER]), waited, size)
