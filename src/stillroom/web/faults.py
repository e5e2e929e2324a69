"""What went wrong, shown as a page or as JSON: one place maps errors to HTTP statuses."""

import logging

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse, Response
from starlette.exceptions import HTTPException

from stillroom.errors import Conflict, InputError
from stillroom.web.render import page

_log = logging.getLogger(__name__)


def install(app: FastAPI) -> None:
    """Give the application its answers to errors."""
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _unread)
    app.add_exception_handler(InputError, _input)
    app.add_exception_handler(Conflict, _conflict)
    app.add_exception_handler(Exception, _ours)


def fault(request: Request, status: int, message: str) -> Response:
    """One error, as the asker reads it: JSON below /api, a page elsewhere."""
    if request.url.path.startswith("/api/"):
        return JSONResponse({"error": {"status": status, "message": message}}, status)
    return page(request, "fault.html", status=status, message=message, number=status)


async def _http(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, HTTPException)
    message = wrong.detail
    if wrong.status_code == 404 and message == "Not Found":
        message = "There is no such page. The doors above lead to all there is."
    answer = fault(request, wrong.status_code, message)
    answer.headers.update(wrong.headers or {})
    return answer


async def _unread(request: Request, wrong: Exception) -> Response:
    assert isinstance(wrong, RequestValidationError)
    first = wrong.errors()[0]
    place = ".".join(str(part) for part in first["loc"][1:]) or str(first["loc"][0])
    return fault(request, 422, f"{place}: {first['msg']}.")


async def _input(request: Request, wrong: Exception) -> Response:
    return fault(request, 422, str(wrong))


async def _conflict(request: Request, wrong: Exception) -> Response:
    return fault(request, 409, str(wrong))


async def _ours(request: Request, wrong: Exception) -> Response:
    _log.error("a page failed: %s %s", request.method, request.url.path, exc_info=wrong)
    return fault(
        request, 500, "This is a fault of Stillroom, not yours. Nothing that was kept is lost."
    )
