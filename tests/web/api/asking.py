"""Asking the application without a network: the bytes of a request in, the answer out."""

import asyncio
import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from time import process_time
from typing import Any
from urllib.parse import unquote

from fastapi import FastAPI

from stillroom.store.engine import Store, open_store
from stillroom.web.app import create_app
from stillroom.web.settings import Settings
from stillroom.web.work.desk import close_desk
from tests.household import NOW, filled

JSON = "application/json"
FORM = "application/x-www-form-urlencoded"


@dataclass(frozen=True, slots=True)
class Answer:
    """What came back, in how many seconds of work, and what the application raised after a 500."""

    status: int
    headers: Mapping[str, str]
    body: bytes
    seconds: float
    raised: BaseException | None = None

    @property
    def kind(self) -> str:
        """Its content type."""
        return self.headers.get("content-type", "").partition(";")[0]

    def json(self) -> Any:
        """Its body as JSON."""
        return json.loads(self.body)

    @property
    def fault(self) -> Any:
        """Its error, in the one shape there is."""
        told = self.json()["error"]
        assert set(told) >= {"status", "message", "place"}
        assert told["status"] == self.status
        return told


@dataclass
class Asker:
    """A program on this computer."""

    app: FastAPI
    store: Store
    loop: asyncio.AbstractEventLoop = field(default_factory=asyncio.new_event_loop)

    def get(self, target: str) -> Answer:
        """Read."""
        return self.ask("GET", target)

    def send(self, method: str, target: str, value: Any = None) -> Answer:
        """Change something with a JSON body."""
        body = b"" if value is None else json.dumps(value).encode()
        return self.ask(method, target, body, {"content-type": JSON, "x-stillroom": "1"})

    def ask(
        self,
        method: str,
        target: str | bytes,
        body: bytes = b"",
        headers: Mapping[str, str] | None = None,
    ) -> Answer:
        """Any request. The target is taken apart as uvicorn does it."""
        raw = target.encode() if isinstance(target, str) else target
        path, _, query = raw.partition(b"?")
        named = {"host": "localhost:8642", "content-length": str(len(body)), **(headers or {})}
        scope = {
            "type": "http",
            "asgi": {"version": "3.0"},
            "http_version": "1.1",
            "method": method,
            "scheme": "http",
            "path": unquote(path.decode("ascii", "replace")),
            "raw_path": path,
            "query_string": query,
            "root_path": "",
            "headers": [(k.encode(), v.encode("latin-1")) for k, v in named.items()],
            "client": ("127.0.0.1", 4242),
            "server": ("127.0.0.1", 8642),
        }
        return self.loop.run_until_complete(self._run(scope, body))

    async def _run(self, scope: dict[str, Any], body: bytes) -> Answer:
        sent: list[dict[str, Any]] = []
        left = [{"type": "http.request", "body": body, "more_body": False}]

        async def receive() -> dict[str, Any]:
            return left.pop() if left else {"type": "http.disconnect"}

        async def send(message: dict[str, Any]) -> None:
            sent.append(message)

        raised: BaseException | None = None
        began = process_time()
        try:
            await self.app(scope, receive, send)  # type: ignore[arg-type]
        except Exception as wrong:  # what a server would write to its log
            raised = wrong
        seconds = process_time() - began
        assert sent, raised
        headers = {k.decode().lower(): v.decode("latin-1") for k, v in sent[0].get("headers", [])}
        whole = b"".join(message.get("body", b"") for message in sent[1:])
        return Answer(sent[0]["status"], headers, whole, seconds, raised)


@contextmanager
def asker(folder: Path, *, empty: bool = False) -> Iterator[Asker]:
    """The application over a store of its own: the small invented household, or an empty one."""
    path = folder / "stillroom.sqlite3"
    if not empty:
        path.write_bytes(filled())
    store = open_store(path)
    made = Asker(create_app(store, Settings(data=folder, now=_now)), store)
    try:
        yield made
    finally:
        close_desk(made.app)
        store.close()
        made.loop.run_until_complete(made.loop.shutdown_default_executor())
        made.loop.close()


def _now() -> datetime:
    return NOW.astimezone(UTC)
