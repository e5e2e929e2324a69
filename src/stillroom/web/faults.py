"""What went wrong, shown as a page or as JSON: one place maps errors to HTTP statuses."""

import logging
import re

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from stillroom.errors import Conflict, InputError, StoreFault
from stillroom.web.render import page

_log = logging.getLogger(__name__)
_LONGEST = 1500
_NO_PAGE = "There is no such page. The doors above lead to all there is."
_NO_ADDRESS = "There is no such address. /api/openapi.json names all there are."
# A message that begins with the one key it is about.
_KEY = re.compile(r"([a-z_]+): ")


def install(app: FastAPI) -> None:
    """Give the application its answers to errors."""
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _unread)
    app.add_exception_handler(InputError, _input)
    app.add_exception_handler(StoreFault, _store)
    app.add_exception_handler(Conflict, _conflict)
    app.add_exception_handler(Exception, _ours)


def fault(request: Request, status: int, message: str, place: str = "", **more: object) -> Response:
    """One error, as the asker reads it: JSON below /api, a page elsewhere.

    ``place`` is the key it is about, ``more`` what else a program is told.
    """
    message = shortened(message)
    if request.url.path.startswith("/api/"):
        told = {"status": status, "message": message, "place": place, **more}
        return JSONResponse({"error": told}, status)
    return page(request, "fault.html", status=status, message=message, number=status)


def shortened(message: str) -> str:
    """A message without the middle of what somebody typed at length.

    Examples
    --------
    >>> len(shortened("x" * 9000)), shortened("jar: missing.")
    (1503, 'jar: missing.')
    """
    if len(message) <= _LONGEST:
        return message
    return f"{message[: _LONGEST // 2]} … {message[-_LONGEST // 2 :]}"


async def _http(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, HTTPException)
    message = wrong.detail
    if wrong.status_code == 405:
        message = f"{request.method} is not for this address."
    if wrong.status_code == 404 and message == "Not Found":
        message = _NO_ADDRESS if request.url.path.startswith("/api/") else _NO_PAGE
    answer = fault(request, wrong.status_code, message)
    answer.headers.update(wrong.headers or {})
    if wrong.status_code == 405:
        answer.headers["allow"] = request.app.state.ways.methods(request.url.path)
    return answer


async def _unread(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, RequestValidationError)
    first = wrong.errors()[0]
    # A part "as ..." is no key: it tells in which of several ways a value was written.
    named = [str(part) for part in first["loc"][1:] if not str(part).startswith("as ")]
    place = ".".join(named) or str(first["loc"][0])
    return fault(request, 422, f"{place}: {first['msg']}.", place)


async def _input(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, InputError)
    # What the commands call an option is a key here.
    message = str(wrong).removeprefix("--")
    named = _KEY.match(message)
    return fault(request, 422, message, wrong.place or (named[1] if named else ""))


async def _store(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, StoreFault)
    _log.error("the store failed: %s", wrong)
    return fault(request, 503, f"What the household keeps: {wrong.said}")


async def _conflict(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, Conflict)
    return fault(request, 409, str(wrong), stands=wrong.stands, version=wrong.version)


async def _ours(request: Request, wrong: Exception) -> Response:
    _log.error("a page failed: %s %s", request.method, request.url.path, exc_info=wrong)
    return fault(
        request, 500, "This is a fault of Stillroom, not yours. Nothing that was kept is lost."
    )
